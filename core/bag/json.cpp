#include "bag/json.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "bag/family.hpp"
#include "bag/figure.hpp"
#include "bag/generic.hpp"
#include "quantity/nearest.hpp"

namespace strikewright {
namespace {

using nlohmann::json;

constexpr std::size_t kMostClubs = 60;
constexpr int kDeepest = 8;  // a bag is three deep

/// Refuses a key that stands twice in one object, nesting beyond kDeepest, and remembers the first such
/// fault.
struct Watch {
  std::vector<std::vector<std::string>> open;
  std::string fault;

  bool operator()(int depth, json::parse_event_t event, json& parsed) {
    if (depth > kDeepest && fault.empty()) fault = "nested too deep";
    if (event == json::parse_event_t::object_start) open.emplace_back();
    if (event == json::parse_event_t::object_end && !open.empty()) open.pop_back();
    if (event == json::parse_event_t::key && !open.empty()) {
      auto& keys = open.back();
      const std::string key = parsed.get<std::string>();
      if (std::find(keys.begin(), keys.end(), key) != keys.end() && fault.empty()) {
        fault = "the key " + strikewright::quoted(key) + " twice in one object";
      }
      keys.push_back(key);
    }
    return fault.empty();
  }
};

std::string shown(const json& value) {
  return strikewright::quoted(value.dump(-1, ' ', false, json::error_handler_t::replace));
}

std::vector<std::string> all_keys() {
  std::vector<std::string> out{"name", "like", "family"};
  for (const ClubFigure& f : club_figures()) {
    out.emplace_back(f.key);
    if (f.other_key != nullptr) out.emplace_back(f.other_key);
  }
  return out;
}

Result<Family> family_named(const std::string& word, const std::string& place) {
  const std::vector<std::string> names(kFamilyNames.begin(), kFamilyNames.end());
  const auto at = std::find(names.begin(), names.end(), word);
  if (at != names.end()) return static_cast<Family>(at - names.begin());
  return unexpected(Fault{place, strikewright::quoted(word),
                          "driver, wood, hybrid, iron or wedge" + suggestion(word, names)});
}

/// One club of the array.
class Reader {
 public:
  Reader(const json& object, std::string place) : object_{object}, place_{std::move(place)} {}

  Result<Club> read() {
    if (!object_.is_object()) {
      return unexpected(Fault{place_, shown(object_), R"(a club, such as {"name": "7i", "loft_deg": 31})"});
    }
    const auto keys = all_keys();
    for (const auto& item : object_.items()) {
      if (std::find(keys.begin(), keys.end(), item.key()) == keys.end()) {
        return unexpected(Fault{place_ + "." + shortened(item.key()), strikewright::quoted(item.key()),
                                "a key of a club" + suggestion(item.key(), keys)});
      }
    }
    return base().and_then([&](Club club) { return filled(std::move(club)); });
  }

 private:
  static std::string shortened(const std::string& key) {
    const std::string q = strikewright::quoted(key);
    return q.substr(1, q.size() - 2);
  }

  Result<std::string> text(const char* key) const {
    const auto at = object_.find(key);
    if (at == object_.end()) return std::string{};
    const std::string place = place_ + "." + key;
    if (!at->is_string()) return unexpected(Fault{place, shown(*at), "a name in quotes"});
    const auto value = at->get<std::string>();
    constexpr std::size_t kLongest = 60;
    if (value.empty() || value.size() > kLongest) {
      return unexpected(
          Fault{place, strikewright::quoted(value), fmt::format("a name of 1 to {} letters", kLongest)});
    }
    return value;
  }

  /// The generic club whose figures fill the missing ones, under the coach's name.
  [[nodiscard]] Result<Club> base() const {
    const auto name = text("name");
    if (!name) return unexpected(name.error());
    if (name->empty()) return unexpected(Fault{place_ + ".name", "nothing", "the club's name"});
    const auto like = text("like");
    if (!like) return unexpected(like.error());
    if (like->empty() && canonical_name(*name).empty()) {
      return unexpected(
          Fault{place_ + ".like", "nothing",
                "the generic club that " + strikewright::quoted(*name) + " is most like, such as 7i"});
    }
    auto club = club_named(generic_bag(), like->empty() ? *name : *like, place_ + ".like");
    if (!club) return club;
    club->like = club->name;
    club->name = *name;
    const auto family = text("family");
    if (!family) return unexpected(family.error());
    if (family->empty()) return club;
    return family_named(*family, place_ + ".family").map([&](Family f) {
      club->family = f;
      return *club;
    });
  }

  [[nodiscard]] Result<Club> filled(Club club) const {
    const Club before = club;
    for (const ClubFigure& figure : club_figures()) {
      if (auto ok = put(figure, club); !ok) return unexpected(ok.error());
    }
    follow(before, club);
    if (auto ok = hangs_together(club); !ok) return unexpected(ok.error());
    return club;
  }

  Result<void> put(const ClubFigure& figure, Club& club) const {
    const bool other = figure.other_key != nullptr && object_.contains(figure.other_key);
    if (other && object_.contains(figure.key)) {
      return unexpected(Fault{place_ + "." + figure.other_key,
                              fmt::format("'{}' beside '{}'", figure.other_key, figure.key),
                              "one of the two"});
    }
    const char* key = other ? figure.other_key : figure.key;
    const double scale = other ? figure.other_scale : figure.scale;
    const auto at = object_.find(key);
    if (at == object_.end()) return {};
    const double low = figure.low / scale;
    const double high = figure.high / scale;
    const double value = at->is_number() ? at->get<double>() : low - 1.0;
    if (!at->is_number() || !(value >= low && value <= high)) {
      return unexpected(
          Fault{place_ + "." + key, shown(*at), fmt::format("a number from {:.4g} to {:.4g}", low, high)});
    }
    figure.at(club) = value * scale;
    return {};
  }

  [[nodiscard]] bool given(std::initializer_list<const char*> keys) const {
    return std::any_of(keys.begin(), keys.end(), [&](const char* key) { return object_.contains(key); });
  }

  /// What was not given follows what was: inertia the head's mass, radii the length, the face's middle its
  /// height.
  void follow(const Club& before, Club& club) const {
    const double heavier = club.head_mass / before.head_mass;
    if (!given({"inertia_target_gcm2"})) club.inertia.x() *= heavier;
    if (!given({"inertia_heel_toe_gcm2"})) club.inertia.y() *= heavier;
    if (!given({"inertia_vertical_gcm2"})) club.inertia.z() *= heavier;
    const double longer = club.length - before.length;
    if (!given({"arc_radius_m"})) club.arc_radius += longer;
    if (!given({"turn_radius_m"})) club.turn_radius += longer;
    if (!given({"face_up_middle_mm"}) && given({"face_height_mm"}))
      club.face_up_middle = 0.5 * club.face_height;
  }

  /// No principal moment may exceed the sum of the other two; the point of a figure must lie on the face.
  [[nodiscard]] Result<void> hangs_together(const Club& club) const {
    const auto& i = club.inertia;
    if (2.0 * i.maxCoeff() > i.sum()) {
      return unexpected(
          Fault{place_ + ".inertia_target_gcm2",
                fmt::format("inertias {:.0f}, {:.0f}, {:.0f} g cm2", i.x() * 1e7, i.y() * 1e7, i.z() * 1e7),
                "none greater than the other two together"});
    }
    if (club.face_up_middle > club.face_height || club.com_up > club.face_height) {
      return unexpected(Fault{place_ + ".face_height_mm", fmt::format("{:.4g} mm", club.face_height * 1e3),
                              "more than face_up_middle_mm and com_up_mm"});
    }
    return {};
  }

  const json& object_;
  std::string place_;
};

Result<json> parsed(std::string_view text, const std::string& place) {
  Watch watch;
  json document;
  try {
    document = json::parse(text.begin(), text.end(), std::ref(watch), true, false);
  } catch (const json::parse_error& error) {
    const auto byte = std::min(error.byte == 0 ? 0 : error.byte - 1, text.size());
    const auto line = 1 + std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(byte), '\n');
    const auto start = text.substr(0, byte).rfind('\n');
    const auto column = byte - (start == std::string_view::npos ? 0 : start + 1) + 1;
    return unexpected(
        Fault{fmt::format("{}:{}:{}", place, line, column), "text that is not JSON", "a bag as JSON text"});
  } catch (const json::exception&) {
    return unexpected(Fault{place, "a number out of all range", "a bag as JSON text"});
  }
  if (!watch.fault.empty()) return unexpected(Fault{place, watch.fault, "a bag as JSON text"});
  return document;
}

}  // namespace

Result<std::vector<Club>> bag_from_json(std::string_view text, const std::string& place) {
  const auto document = parsed(text, place);
  if (!document) return unexpected(document.error());
  const bool wrapped = document->is_object() && document->size() == 1 && document->contains("clubs");
  const json& clubs = wrapped ? document->at("clubs") : *document;
  const std::string path = place + (wrapped ? ", clubs" : ", ");
  if (!clubs.is_array() || clubs.empty() || clubs.size() > kMostClubs) {
    return unexpected(Fault{place, clubs.is_array() ? fmt::format("{} clubs", clubs.size()) : shown(clubs),
                            fmt::format("an array of 1 to {} clubs, or {{\"clubs\": [...]}}", kMostClubs)});
  }
  std::vector<Club> bag;
  for (std::size_t k = 0; k < clubs.size(); ++k) {
    const std::string here = fmt::format("{}[{}]", path, k);
    auto club = Reader{clubs[k], here}.read();
    if (!club) return unexpected(club.error());
    for (const Club& other : bag) {
      if (other.name == club->name) {
        return unexpected(
            Fault{here + ".name", strikewright::quoted(club->name) + " a second time", "each name once"});
      }
    }
    bag.push_back(std::move(*club));
  }
  return bag;
}

}  // namespace strikewright
