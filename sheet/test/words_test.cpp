#include <doctest/doctest.h>

#include <set>

#include "sheet/days.hpp"
#include "sheet/sheet.hpp"
#include "sheet/words.hpp"

using namespace strikewright;

namespace {

std::set<std::string> placeholders_of(const std::string& text) {
  std::set<std::string> names;
  for (std::size_t at = 0; (at = text.find('{', at)) != std::string::npos; ++at)
    names.insert(text.substr(at + 1, text.find('}', at) - at - 1));
  return names;
}

}  // namespace

TEST_CASE("every language says everything that English says, with the same places to fill") {
  CHECK(sheet_languages() == std::vector<std::string>{"de", "en"});
  const Words& english = *words_of("en");
  CHECK(english.texts().size() > 90);
  for (const std::string& language : sheet_languages()) {
    const Words& words = *words_of(language);
    CHECK(words.texts().size() == english.texts().size());
    for (const auto& [key, text] : english.texts()) {
      REQUIRE_MESSAGE(words.texts().count(key) == 1, (language + ": " + key));
      CHECK_FALSE(words(key).empty());
      // A weekday in a date is a language's own choice; what else is filled in must not be lost.
      if (key.rfind("date.", 0) != 0)
        CHECK_MESSAGE(placeholders_of(words(key)) == placeholders_of(text), (language + ": " + key));
    }
  }
  CHECK(words_of("tlh") == nullptr);
}

TEST_CASE("values are not looked into: braces in a name stay braces") {
  CHECK((*words_of("en"))("head.with", {{"coach", "{pupil} {x"}}) == "with {pupil} {x");
}

TEST_CASE("days and lengths are written as the language writes them") {
  const Words &english = *words_of("en"), &german = *words_of("de");
  CHECK(day_in_words("2026-05-04", "date.full", english) == "Mon 4 May 2026");
  CHECK(day_in_words("2026-05-04", "date.full", german) == "Mo., 4. Mai 2026");
  CHECK(day_in_words("2026-03-01", "date.short", german) == "So., 1. März");
  CHECK(length_in_words(-28.0, UnitSystem::metric, english) == "2.8\u00a0cm");
  CHECK(length_in_words(28.0, UnitSystem::metric, german) == "2,8\u00a0cm");
  CHECK(length_in_words(27.94, UnitSystem::yards, german) == "1,1\u00a0Zoll");
  CHECK(length_in_words(123.0, UnitSystem::metric, english) == "12\u00a0cm");
  CHECK(place_in_words(0.2, true, UnitSystem::metric, english) == "level with the ball");
  CHECK(place_in_words(-20.0, false, UnitSystem::metric, german) == "2,0\u00a0cm hinter der Linie");
}

TEST_CASE("a day is a day of the calendar, a moment is one in UTC") {
  for (const char* day : {"2026-05-04", "2028-02-29", "1900-01-01", "2199-12-31"})
    CHECK_MESSAGE(day_from(day), day);
  for (const char* day :
       {"", "2026-5-4", "2026-02-29", "2026-13-01", "2026-00-10", "1899-12-31", "2026-05-04 ", "2O26-05-04"})
    CHECK_MESSAGE(!day_from(day), day);
  CHECK(basic_moment("2026-05-04T08:09:10Z") == "20260504T080910Z");
  CHECK(basic_moment("2026-05-04T08:09:10.123Z") == "20260504T080910Z");
  for (const char* moment : {"2026-05-04T08:09:10", "2026-05-04T08:09:10+02:00", "2026-05-04T24:00:00Z",
                             "2026-02-29T00:00:00Z", "2026-05-04T08:09:10.Z", "2026-05-04T08:09:10,5Z"})
    CHECK_MESSAGE(!basic_moment(moment), moment);
}
