#include "verbs/json_door.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <istream>
#include <set>

#include "quantity/nearest.hpp"

namespace strikewright {
namespace {

using Json = nlohmann::ordered_json;

constexpr int kDeepest = 16;
constexpr std::size_t kLargest = 1u << 20;

const Json& nothing() {
  static const Json object = Json::object();
  return object;
}

/// "an object", "the text 'fast'", "12": what stood there, short.
std::string shown(const Json& value) {
  if (value.is_object()) return "an object";
  if (value.is_array()) return fmt::format("a list of {}", value.size());
  if (value.is_string()) return "the text " + strikewright::quoted(value.get_ref<const std::string&>());
  return value.dump();
}

/// "standard input:3:14" of byte `at` (the first is 1).
std::string spot(std::string_view text, std::size_t at, const std::string& name) {
  const std::string_view before = text.substr(0, at > 0 ? at - 1 : 0);
  const auto line = 1 + std::count(before.begin(), before.end(), '\n');
  const std::size_t start = before.rfind('\n');
  const std::size_t column = before.size() - (start == std::string_view::npos ? 0 : start + 1) + 1;
  return fmt::format("{}:{}:{}", name, line, column);
}

/// Looks over the parser's shoulder for what JSON allows and we do not.
class Watch {
 public:
  bool operator()(int depth, Json::parse_event_t event, const Json& parsed) {
    if (depth > kDeepest) too_deep = true;
    if (event == Json::parse_event_t::object_start) keys_.emplace_back();
    if (event == Json::parse_event_t::object_end) keys_.pop_back();
    if (event == Json::parse_event_t::key && !keys_.back().insert(parsed.get<std::string>()).second &&
        twice.empty()) {
      twice = parsed.get<std::string>();
    }
    return true;
  }
  bool too_deep = false;
  std::string twice;

 private:
  std::vector<std::set<std::string>> keys_;
};

}  // namespace

Result<Json> parse_json(std::string_view text, const std::string& name) {
  if (text.find_first_not_of(" \t\r\n") == std::string_view::npos) {
    return unexpected(Fault{name, "nothing", "a JSON document"});
  }
  Watch watch;
  Json document;
  try {
    document = Json::parse(text, std::ref(watch));
  } catch (const Json::parse_error& wrong) {
    const std::string_view rest = text.substr(std::min(text.size(), wrong.byte > 0 ? wrong.byte - 1 : 0));
    return unexpected(
        Fault{spot(text, wrong.byte, name),
              rest.empty() ? "the end"
                           : strikewright::quoted(rest.substr(0, std::min<std::size_t>(12, rest.find('\n')))),
              "well-formed JSON"});
  } catch (const Json::exception&) {
    return unexpected(Fault{name, "a number beyond 1e308", "numbers that a computer can hold"});
  }
  if (watch.too_deep)
    return unexpected(
        Fault{name, "lists or objects inside one another", fmt::format("at most {}", kDeepest)});
  if (!watch.twice.empty())
    return unexpected(Fault{name, strikewright::quoted(watch.twice) + " twice", "each key once"});
  if (!document.is_object()) return unexpected(Fault{name, shown(document), "an object { }"});
  return document;
}

JsonDoor::JsonDoor(const Json& object, std::string path, std::optional<Fault>& fault)
    : object_{&object}, path_{std::move(path)}, fault_{&fault} {}

void JsonDoor::keep(Fault fault) {
  if (!*fault_) *fault_ = std::move(fault);
}

void JsonDoor::wrong(const std::string& key, const std::string& found, const std::string& expected) {
  keep(Fault{place(key), found, expected});
}

const Json* JsonDoor::find(const std::string& key, const char* expected) {
  if (std::find(known_.begin(), known_.end(), key) == known_.end()) known_.push_back(key);
  const auto at = object_->find(key);
  if (at != object_->end()) return &*at;
  // A misspelt key explains more than a missing one.
  for (const auto& [other, value] : object_->items()) {
    if (nearest_name(other, std::vector<std::string>{key}) == key &&
        std::find(known_.begin(), known_.end(), other) == known_.end()) {
      keep(Fault{place(other), "this key", "a known one, did you mean '" + key + "'?"});
    }
  }
  keep(Fault{place(key), "nothing", expected});
  return nullptr;
}

bool JsonDoor::has(const std::string& key) {
  if (std::find(known_.begin(), known_.end(), key) == known_.end()) known_.push_back(key);
  return object_->contains(key);
}
bool JsonDoor::is_null(const std::string& key) { return has(key) && object_->at(key).is_null(); }
bool JsonDoor::is_text(const std::string& key) { return has(key) && object_->at(key).is_string(); }
bool JsonDoor::is_object(const std::string& key) { return has(key) && object_->at(key).is_object(); }

double JsonDoor::as_number(const Json& value, const std::string& at) {
  if (value.is_number() && std::isfinite(value.get<double>())) return value.get<double>();
  keep(Fault{at, shown(value), "a number"});
  return 0.0;
}

double JsonDoor::number(const std::string& key) {
  const Json* value = find(key, "a number");
  return value == nullptr ? 0.0 : as_number(*value, place(key));
}

double JsonDoor::number_or(const std::string& key, double standard) {
  return has(key) ? number(key) : standard;
}

Vec3<double> JsonDoor::three(const std::string& key) {
  Vec3<double> out = Vec3<double>::Zero();
  const Json* value = find(key, "three numbers [x, y, z]");
  if (value == nullptr) return out;
  if (!value->is_array() || value->size() != 3) {
    keep(Fault{place(key), shown(*value), "three numbers [x, y, z]"});
    return out;
  }
  for (std::size_t k = 0; k < 3; ++k) {
    out[static_cast<Eigen::Index>(k)] = as_number((*value)[k], fmt::format("{}[{}]", place(key), k));
  }
  return out;
}

std::string JsonDoor::text(const std::string& key) {
  const Json* value = find(key, "a text");
  if (value == nullptr) return "";
  if (value->is_string()) return value->get<std::string>();
  keep(Fault{place(key), shown(*value), "a text"});
  return "";
}

bool JsonDoor::truth(const std::string& key) {
  const Json* value = find(key, "true or false");
  if (value == nullptr) return false;
  if (value->is_boolean()) return value->get<bool>();
  keep(Fault{place(key), shown(*value), "true or false"});
  return false;
}

std::string JsonDoor::text_or(const std::string& key, const std::string& standard) {
  return has(key) ? text(key) : standard;
}

JsonDoor JsonDoor::object(const std::string& key) {
  const Json* value = find(key, "an object { }");
  if (value != nullptr && value->is_object()) return {*value, place(key), *fault_};
  if (value != nullptr) keep(Fault{place(key), shown(*value), "an object { }"});
  return {nothing(), place(key), *fault_};
}

std::vector<std::vector<double>> JsonDoor::rows(const std::string& key, std::size_t width) {
  std::vector<std::vector<double>> out;
  const std::string expected = fmt::format("a list of lists of {} numbers", width);
  const Json* value = find(key, expected.c_str());
  if (value == nullptr) return out;
  if (!value->is_array()) keep(Fault{place(key), shown(*value), expected});
  if (!value->is_array()) return out;
  for (std::size_t r = 0; r < value->size(); ++r) {
    const Json& row = (*value)[r];
    const std::string at = fmt::format("{}[{}]", place(key), r);
    if (!row.is_array() || row.size() != width) {
      keep(Fault{at, shown(row), fmt::format("a list of {} numbers", width)});
      return out;
    }
    std::vector<double>& numbers = out.emplace_back();
    for (std::size_t k = 0; k < width; ++k)
      numbers.push_back(as_number(row[k], fmt::format("{}[{}]", at, k)));
  }
  return out;
}

void JsonDoor::done() {
  for (const auto& [key, value] : object_->items()) {
    if (std::find(known_.begin(), known_.end(), key) == known_.end()) {
      std::string list;
      for (const std::string& known : known_) list += (list.empty() ? "" : ", ") + known;
      const std::string near = suggestion(key, known_);
      keep(Fault{place(key), "this key", near.empty() ? "one of " + list : "a known one" + near});
    }
  }
}

Result<std::string> all_of(std::istream& in, const std::string& name, std::size_t most) {
  std::string text;
  std::vector<char> buffer(1u << 16);
  while (in) {
    in.read(buffer.data(), static_cast<std::streamsize>(buffer.size()));
    text.append(buffer.data(), static_cast<std::size_t>(in.gcount()));
    if (text.size() > most) {
      return unexpected(Fault{name, fmt::format("more than {} bytes", most), "a smaller document"});
    }
  }
  return text;
}

Result<std::string> document_of(const std::string& file, std::istream& in) {
  if (file.empty() || file == "-") return all_of(in, "standard input", kLargest);
  if (std::filesystem::is_directory(file)) return unexpected(Fault{file, "a folder", "a JSON file"});
  std::ifstream stream(file, std::ios::binary);
  if (!stream) return unexpected(Fault{file, "no such file", "a JSON file that can be read"});
  return all_of(stream, file, kLargest);
}

}  // namespace strikewright
