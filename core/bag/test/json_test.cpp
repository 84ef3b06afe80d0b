#include "bag/json.hpp"

#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "bag/generic.hpp"
#include "quantity/angle.hpp"

using namespace strikewright;

namespace {

Club only(std::string_view text) {
  const auto bag = bag_from_json(text, "bag.json");
  REQUIRE_MESSAGE(bag.has_value(), bag.error().sentence());
  REQUIRE(bag->size() == 1);
  return bag->front();
}

Club generic(const char* name) { return club_named(generic_bag(), name).value(); }

struct Case {
  const char *text, *place, *found, *expected;  ///< found and expected: a part
};

}  // namespace

TEST_CASE("a club of the coach's own takes what is missing from the generic club it is like") {
  const Club club = only(R"([{"name": "old seven", "like": "7-iron", "loft_deg": 38, "length_in": 36.5}])");
  CHECK(club.name == "old seven");
  CHECK(club.like == "7i");
  CHECK(club.loft == doctest::Approx(38 * kDegree));
  CHECK(club.length == doctest::Approx(36.5 * kInch));
  CHECK(club.lie == generic("7i").lie);
  CHECK(club.arc_radius == doctest::Approx(generic("7i").arc_radius - 0.5 * kInch));
}

TEST_CASE("a generic name alone is that generic club") {
  const Club club = only(R"({"clubs": [{"name": "7i"}]})");
  CHECK(club.loft == generic("7i").loft);
  CHECK(club.inertia == generic("7i").inertia);
}

TEST_CASE("a heavier head has more inertia, unless it is given") {
  const Club club = only(R"([{"name": "7i", "head_g": 295.9, "inertia_vertical_gcm2": 2500}])");
  CHECK(club.inertia.x() == doctest::Approx(1.1 * generic("7i").inertia.x()));
  CHECK(club.inertia.z() == doctest::Approx(2500e-7));
}

TEST_CASE("a figure of the coach's own says so, the others keep their source") {
  const Club club = only(R"([{"name": "seven", "like": "7i", "loft_deg": 31}])");
  for (const ClubSource& s : sources_of(club)) {
    CHECK((s.source == "given by the coach") == (s.field == "loft"));
  }
}

TEST_CASE("a bag that is wrong is refused where it is wrong") {
  for (const Case& c : std::vector<Case>{
           {R"([{"name": "7i", "loft_dge": 31}])", "bag.json, [0].loft_dge", "'loft_dge'",
            "did you mean 'loft_deg'?"},
           {R"([{"name": "7i", "loft_deg": 310}])", "bag.json, [0].loft_deg", "'310'", "from 0 to 80"},
           {R"([{"name": "7i", "loft_deg": "31"}])", "bag.json, [0].loft_deg", "31", "a number"},
           {R"([{"name": "7i", "loft_deg": null}])", "bag.json, [0].loft_deg", "'null'", "a number"},
           {R"({"clubs": [{"name": "7i"}, {"name": "8i", "length_m": 40}]})", "bag.json, clubs[1].length_m",
            "'40'", "from 0.4572 to 1.219"},
           {R"([{"name": "7i", "length_m": 0.94, "length_in": 37}])", "bag.json, [0].length_in",
            "beside 'length_m'", "one of the two"},
           {R"([{"name": "mine"}])", "bag.json, [0].like", "nothing", "most like"},
           {R"([{"name": "mine", "like": "7j"}])", "bag.json, [0].like", "'7j'", "did you mean '7i'?"},
           {R"([{"loft_deg": 31}])", "bag.json, [0].name", "nothing", "the club's name"},
           {R"([{"name": 7}])", "bag.json, [0].name", "'7'", "in quotes"},
           {R"([{"name": ""}])", "bag.json, [0].name", "''", "1 to 60"},
           {R"([{"name": "7i", "family": "putter"}])", "bag.json, [0].family", "'putter'",
            "driver, wood, hybrid, iron or wedge"},
           {R"([{"name": "7i"}, {"name": "7i"}])", "bag.json, [1].name", "a second time", "once"},
           {R"([{"name": "7i", "name": "8i"}])", "bag.json", "'name' twice", "a bag"},
           {R"([{"name": "7i", "inertia_vertical_gcm2": 5900}])", "bag.json, [0].inertia_target_gcm2", "5900",
            "other two"},
           {R"([{"name": "7i", "face_height_mm": 16}])", "bag.json, [0].face_height_mm", "16 mm",
            "com_up_mm"},
           {"[7]", "bag.json, [0]", "'7'", "a club"},
           {"[]", "bag.json", "0 clubs", "1 to 60 clubs"},
           {"7", "bag.json", "'7'", "an array"},
           {"", "bag.json:1:1", "not JSON", "a bag"},
           {"[\n  {\"name\": oops}]", "bag.json:2:12", "not JSON", "a bag"},
           {"[[[[[[[[[[[[1]]]]]]]]]]]]", "bag.json", "nested too deep", "a bag"},
           {"[1e999]", "bag.json", "out of all range", "a bag"},
       }) {
    const auto bag = bag_from_json(c.text, "bag.json");
    INFO(c.text);
    REQUIRE(!bag.has_value());
    CHECK(bag.error().place == c.place);
    CHECK_MESSAGE(bag.error().found.find(c.found) != std::string::npos, bag.error().found);
    CHECK_MESSAGE(bag.error().expected.find(c.expected) != std::string::npos, bag.error().expected);
  }
}
