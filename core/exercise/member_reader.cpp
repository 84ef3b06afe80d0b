#include "exercise/member_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "quantity/nearest.hpp"

namespace strikewright {
namespace {

constexpr int kDeepestMember = 8;

/// Remembers a member that stands twice in one object, or too deep a nesting.
struct Watch {
  std::vector<std::vector<std::string>> open;
  std::string fault;

  bool operator()(int depth, nlohmann::json::parse_event_t event, nlohmann::json& parsed) {
    using Event = nlohmann::json::parse_event_t;
    if (depth > kDeepestMember && fault.empty()) fault = "nesting too deep";
    if (event == Event::object_start) open.emplace_back();
    if (event == Event::object_end && !open.empty()) open.pop_back();
    if (event == Event::key && !open.empty()) {
      auto& keys = open.back();
      const std::string key = parsed.get<std::string>();
      if (std::find(keys.begin(), keys.end(), key) != keys.end() && fault.empty())
        fault = "the member " + strikewright::quoted(key) + " twice in one object";
      keys.push_back(key);
    }
    return fault.empty();
  }
};

std::string shown(const nlohmann::json& value) {
  return strikewright::quoted(value.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace));
}

std::string joined(const std::vector<std::string>& words) {
  std::string out;
  for (std::size_t k = 0; k < words.size(); ++k)
    out += (k == 0 ? "" : k + 1 == words.size() ? " or " : ", ") + words[k];
  return out;
}

/// A key as it may stand in a path.
std::string shortened(const std::string& key) {
  const std::string q = strikewright::quoted(key);
  return q.substr(1, q.size() - 2);
}

}  // namespace

Result<nlohmann::json> parsed_document(std::string_view text, std::size_t most_bytes,
                                       const std::string& place) {
  if (text.size() > most_bytes)
    return unexpected(
        Fault{place, fmt::format("{} bytes", text.size()), fmt::format("at most {}", most_bytes)});
  Watch watch;
  try {
    nlohmann::json document = nlohmann::json::parse(text.begin(), text.end(), std::ref(watch), true, false);
    if (watch.fault.empty()) return document;
    return unexpected(Fault{place, watch.fault, "an exercise as JSON text"});
  } catch (const nlohmann::json::parse_error& error) {
    const auto byte = std::min(error.byte == 0 ? 0 : error.byte - 1, text.size());
    const auto before = text.substr(0, byte);
    const auto line = 1 + std::count(before.begin(), before.end(), '\n');
    const auto start = before.rfind('\n');
    const auto column = byte - (start == std::string_view::npos ? 0 : start + 1) + 1;
    return unexpected(Fault{fmt::format("{}:{}:{}", place, line, column), "text that is not JSON",
                            "an exercise as JSON text"});
  } catch (const nlohmann::json::exception&) {
    return unexpected(Fault{place, "a number out of all range", "an exercise as JSON text"});
  }
}

void MemberReader::refuse(const std::string& path, std::string found, std::string expected) {
  if (!fault_) fault_ = Fault{place_ + ", " + path, std::move(found), std::move(expected)};
}

bool MemberReader::object(const Json& value, const std::string& path, const std::vector<std::string>& keys,
                          const std::vector<std::string>& optional) {
  if (fault_) return false;
  const std::string inside = path.empty() ? "" : path + ".";
  if (!value.is_object()) {
    refuse(path.empty() ? "document" : path, shown(value), "an object with " + joined(keys));
    return false;
  }
  const auto has = [](const std::vector<std::string>& list, const std::string& key) {
    return std::find(list.begin(), list.end(), key) != list.end();
  };
  for (const auto& item : value.items())
    if (!has(keys, item.key()) && !has(optional, item.key()))
      refuse(inside + shortened(item.key()), "the member " + strikewright::quoted(item.key()),
             "only members that are known here" + suggestion(item.key(), keys));
  for (const std::string& key : keys)
    if (!value.contains(key)) refuse(inside + key, "nothing", "the member " + strikewright::quoted(key));
  return !fault_;
}

bool MemberReader::array(const Json& value, const std::string& path, std::size_t least, std::size_t most,
                         const char* of) {
  if (fault_) return false;
  if (value.is_array() && value.size() >= least && value.size() <= most) return true;
  refuse(path, value.is_array() ? fmt::format("{} of them", value.size()) : shown(value),
         fmt::format("an array of {} to {} {}", least, most, of));
  return false;
}

std::string MemberReader::text(const Json& value, const std::string& path) {
  if (value.is_string()) return value.get<std::string>();
  refuse(path, shown(value), "a text in quotes");
  return {};
}

double MemberReader::number(const Json& value, const std::string& path, double low, double high) {
  const double x = value.is_number() ? value.get<double>() : NAN;
  if (x >= low && x <= high) return x;
  refuse(path, shown(value), fmt::format("a number from {:.4g} to {:.4g}", low, high));
  return low;
}

int MemberReader::whole(const Json& value, const std::string& path, int low, int high) {
  if (value.is_number_integer() && value >= low && value <= high) return value.get<int>();
  refuse(path, shown(value), fmt::format("a whole number from {} to {}", low, high));
  return low;
}

bool MemberReader::truth(const Json& value, const std::string& path) {
  if (value.is_boolean()) return value.get<bool>();
  refuse(path, shown(value), "true or false");
  return false;
}

std::size_t MemberReader::word(const Json& value, const std::string& path,
                               const std::vector<std::string>& words) {
  const std::string said = value.is_string() ? value.get<std::string>() : std::string{};
  const auto at = std::find(words.begin(), words.end(), said);
  if (at != words.end()) return static_cast<std::size_t>(at - words.begin());
  refuse(path, value.is_string() ? strikewright::quoted(said) : shown(value),
         joined(words) + suggestion(said, words));
  return 0;
}

std::vector<std::size_t> MemberReader::words(const Json& value, const std::string& path,
                                             const std::vector<std::string>& words, std::size_t least) {
  std::vector<std::size_t> out;
  if (!array(value, path, least, words.size(), "words")) return out;
  for (std::size_t k = 0; k < value.size(); ++k) {
    const std::string here = fmt::format("{}[{}]", path, k);
    const std::size_t w = word(value[k], here, words);
    if (std::find(out.begin(), out.end(), w) != out.end())
      refuse(here, strikewright::quoted(words[w]) + " again", "each once");
    out.push_back(w);
  }
  return out;
}

}  // namespace strikewright
