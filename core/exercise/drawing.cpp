// Is a drawing plain enough to be shown? A strict reader of the little SVG that drawings need.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "exercise/exercise.hpp"
#include "quantity/nearest.hpp"

namespace strikewright {
namespace {

constexpr std::size_t kMostBytes = 12'000, kDeepest = 8;
const std::vector<std::string> kElements{"svg",     "g",    "path",   "line",   "polyline",
                                         "polygon", "rect", "circle", "ellipse"};
const std::vector<std::string> kColours{"#23201b", "#f7f3ea", "#6f8f4e", "#8a6a45",
                                        "#b4552d", "#9a948a", "none"};

/// What the value of an attribute may be.
enum class Value { name_space, view_box, number, points, path, colour, cap, join, transform };
struct Attribute {
  const char* name;
  Value value;
};
constexpr std::array<Attribute, 25> kAttributes{{{"xmlns", Value::name_space},
                                                 {"viewBox", Value::view_box},
                                                 {"d", Value::path},
                                                 {"points", Value::points},
                                                 {"transform", Value::transform},
                                                 {"fill", Value::colour},
                                                 {"stroke", Value::colour},
                                                 {"stroke-linecap", Value::cap},
                                                 {"stroke-linejoin", Value::join},
                                                 {"stroke-dasharray", Value::points},
                                                 {"stroke-width", Value::number},
                                                 {"opacity", Value::number},
                                                 {"fill-opacity", Value::number},
                                                 {"stroke-opacity", Value::number},
                                                 {"x", Value::number},
                                                 {"y", Value::number},
                                                 {"x1", Value::number},
                                                 {"y1", Value::number},
                                                 {"x2", Value::number},
                                                 {"y2", Value::number},
                                                 {"cx", Value::number},
                                                 {"cy", Value::number},
                                                 {"r", Value::number},
                                                 {"rx", Value::number},
                                                 {"ry", Value::number}}};
// Of rect alone; everywhere else the size is the view box's.
constexpr std::array<Attribute, 2> kRectAttributes{{{"width", Value::number}, {"height", Value::number}}};

bool only(std::string_view text, std::string_view allowed) {
  return !text.empty() && text.find_first_not_of(allowed) == std::string_view::npos;
}

bool is_transform(std::string_view text) {
  constexpr std::string_view kSigns = "0123456789.,+- ()";
  std::string word;
  for (const char c : std::string(text) + " ") {
    if (c >= 'a' && c <= 'z') {
      word += c;
      continue;
    }
    if (!word.empty() && word != "translate" && word != "rotate" && word != "scale") return false;
    word.clear();
    if (kSigns.find(c) == std::string_view::npos) return false;
  }
  return !text.empty();
}

/// "" when the value is one, else what it should be.
std::string wanted(Value kind, const std::string& text) {
  constexpr std::string_view kDigits = "0123456789.+-eE", kList = "0123456789.+-eE, \n";
  constexpr std::string_view kPath = "0123456789.+-eE, \nMmLlHhVvCcSsQqTtAaZz";
  const auto unless = [](bool good, const char* what) { return good ? std::string{} : std::string{what}; };
  switch (kind) {
    case Value::name_space:
      return unless(text == "http://www.w3.org/2000/svg", "http://www.w3.org/2000/svg");
    case Value::view_box:
      return unless(text == "0 0 640 400", "0 0 640 400");
    case Value::number:
      return unless(only(text, kDigits), "a plain number");
    case Value::points:
      return unless(only(text, kList), "numbers");
    case Value::path:
      return unless(only(text, kPath), "a path's letters and numbers");
    case Value::colour:
      return unless(std::find(kColours.begin(), kColours.end(), text) != kColours.end(),
                    "#23201b, #f7f3ea, #6f8f4e, #8a6a45, #b4552d, #9a948a or none");
    case Value::cap:
      return unless(text == "round" || text == "butt" || text == "square", "round, butt or square");
    case Value::join:
      return unless(text == "round" || text == "miter" || text == "bevel", "round, miter or bevel");
    case Value::transform:
      return unless(is_transform(text), "translate, rotate and scale");
  }
  return "nothing";
}

class DrawingReader {
 public:
  explicit DrawingReader(std::string_view text) : text_{text} {}

  Result<void> read() {
    if (text_.size() > kMostBytes)
      return refuse("", fmt::format("{} bytes", text_.size()), fmt::format("at most {}", kMostBytes));
    while (skip_blank(), at_ < text_.size()) {
      if (text_[at_] != '<')
        return refuse("", strikewright::quoted(text_.substr(at_, 20)), "elements only, no text");
      const Result<void> tag = text_.substr(at_, 2) == "</" ? close() : open();
      if (!tag) return tag;
    }
    if (!begun_) return refuse("", "nothing", "an <svg> element");
    if (!open_.empty()) return refuse("<" + open_.back() + ">", "no end of it", "</" + open_.back() + ">");
    return {};
  }

 private:
  [[nodiscard]] tl::unexpected<Fault> refuse(const std::string& inside, std::string found,
                                             std::string expected) const {
    const auto line = 1 + std::count(text_.begin(), text_.begin() + static_cast<std::ptrdiff_t>(at_), '\n');
    return unexpected(Fault{fmt::format("line {}{}{}", line, inside.empty() ? "" : ", ", inside),
                            std::move(found), std::move(expected)});
  }
  void skip_blank() {
    while (at_ < text_.size() && std::string_view(" \n\t\r").find(text_[at_]) != std::string_view::npos)
      ++at_;
  }
  std::string word() {
    const std::size_t from = at_;
    while (at_ < text_.size() &&
           (text_[at_] == '-' || (text_[at_] >= 'a' && text_[at_] <= 'z') ||
            (text_[at_] >= 'A' && text_[at_] <= 'Z') || (text_[at_] >= '0' && text_[at_] <= '9')))
      ++at_;
    return std::string(text_.substr(from, at_ - from));
  }
  bool take(char c) {
    if (at_ >= text_.size() || text_[at_] != c) return false;
    ++at_;
    return true;
  }

  Result<void> close() {
    at_ += 2;
    const std::string name = word();
    if (open_.empty() || open_.back() != name)
      return refuse("", "</" + name + ">", open_.empty() ? "nothing more" : "</" + open_.back() + ">");
    open_.pop_back();
    skip_blank();
    if (!take('>')) return refuse("</" + name + ">", "no >", ">");
    return {};
  }

  Result<void> open() {
    ++at_;
    const std::string name = word(), shown = "<" + name + ">";
    if (std::find(kElements.begin(), kElements.end(), name) == kElements.end())
      return refuse("", strikewright::quoted("<" + std::string(text_.substr(at_ - name.size(), 20))),
                    "one of svg, g, path, line, polyline, polygon, rect, circle, ellipse" +
                        suggestion(name, kElements));
    if ((name == "svg") != !begun_ || (begun_ && open_.empty()))
      return refuse("", shown, begun_ ? "one <svg> around everything" : "<svg> first");
    begun_ = true;
    std::vector<std::string> seen;
    for (skip_blank(); at_ < text_.size() && text_[at_] != '>' && text_[at_] != '/'; skip_blank()) {
      const Result<void> good = attribute(name, seen);
      if (!good) return good;
    }
    const auto given = [&](const char* a) { return std::find(seen.begin(), seen.end(), a) != seen.end(); };
    if (name == "svg" && !(given("viewBox") && given("xmlns")))
      return refuse(shown, "no viewBox or no xmlns", "viewBox=\"0 0 640 400\" and xmlns");
    const bool whole = take('/');
    if (!take('>')) return refuse(shown, "no end of the tag", ">");
    if (!whole) open_.push_back(name);
    if (open_.size() > kDeepest)
      return refuse(shown, fmt::format("{} deep", open_.size()), fmt::format("at most {}", kDeepest));
    return {};
  }

  Result<void> attribute(const std::string& element, std::vector<std::string>& seen) {
    const std::string name = word(), inside = "<" + element + ">, " + name;
    const auto named = [&](const Attribute& a) { return name == a.name; };
    const auto* known = std::find_if(kAttributes.begin(), kAttributes.end(), named);
    bool there = known != kAttributes.end();
    if (!there && element == "rect") {
      known = std::find_if(kRectAttributes.begin(), kRectAttributes.end(), named);
      there = known != kRectAttributes.end();
    }
    if (!there)
      return refuse("<" + element + ">",
                    "the attribute " +
                        strikewright::quoted(name.empty() ? text_.substr(at_, 12) : std::string_view(name)),
                    "attributes of shape, fill and stroke only");
    if (std::find(seen.begin(), seen.end(), name) != seen.end()) return refuse(inside, "it twice", "it once");
    seen.push_back(name);
    if (!take('=') || !take('"')) return refuse(inside, "no =\"", "a value in double quotes");
    const std::size_t end = text_.find('"', at_);
    if (end == std::string_view::npos) return refuse(inside, "no closing quote", "one");
    const std::string value(text_.substr(at_, end - at_));
    if (const std::string should = wanted(known->value, value); !should.empty())
      return refuse(inside, strikewright::quoted(value), should);
    at_ = end + 1;
    return {};
  }

  std::string_view text_;
  std::size_t at_ = 0;
  bool begun_ = false;
  std::vector<std::string> open_;
};

}  // namespace

Result<void> drawing_fault(std::string_view svg) { return DrawingReader(svg).read(); }

}  // namespace strikewright
