#include <doctest/doctest.h>

#include <functional>

#include "sheet/sheet.hpp"
#include "sheet/test/looked_at.hpp"
#include "sheet/test/some_sheets.hpp"

using namespace strikewright;

namespace {

struct Writer {
  const char* name;
  std::function<Result<std::string>(const SheetContent&)> write;
};

std::vector<Writer> writers() {
  return {{"PDF", sheet_pdf},
          {"PNG", [](const SheetContent& content) { return sheet_png(content, 72.0); }},
          {"SVG", sheet_svg},
          {"HTML", sheet_html}};
}

// Every kind of page that there is, in every language and on every paper, and a junior's.
std::vector<SheetContent> pages() {
  std::vector<SheetContent> all;
  for (const std::string& language : sheet_languages()) {
    for (const Paper paper : {Paper::a4, Paper::letter})
      for (SheetContent content : {some::pupil(language), some::summary(language)}) {
        content.paper = paper;
        all.push_back(content);
      }
    all.push_back(some::pupil(language));
    all.back().junior = true;
  }
  return all;
}

}  // namespace

TEST_CASE("no writer prints an exercise without its cautions, on any page") {
  REQUIRE(pages().size() == 5 * sheet_languages().size());
  for (const SheetContent& content : pages())
    for (const Writer& writer : writers()) {
      CHECK_MESSAGE(writer.write(content).has_value(), writer.name);
      SheetContent bare = content;
      bare.exercise->cautions.clear();
      CHECK(writer.write(bare).error().place == "sheet.exercise.cautions");
      bare.exercise->cautions = {"  ", "\n", "\u202e"};
      CHECK(writer.write(bare).error().place == "sheet.exercise.cautions");
      bare = content;
      bare.cautions.clear();
      CHECK(writer.write(bare).error().place == "sheet.cautions");
    }
}

TEST_CASE("every caution is on every page, in words and in ink") {
  for (const SheetContent& content : pages()) {
    const std::string page = looked_at::text_of(*sheet_pdf(content));
    const std::string html = *sheet_html(content);
    for (const auto* list : {&content.cautions, &content.exercise->cautions})
      for (const std::string& caution : *list) {
        CHECK_MESSAGE(page.find(caution) != std::string::npos, caution);
        CHECK_MESSAGE(html.find("<li>" + caution + "</li>") != std::string::npos, caution);
      }
    // In the pictures of the page a caution is ink: with another one other pixels are dark.
    SheetContent other = content;
    other.exercise->cautions.back() = "Mmmmm.";
    CHECK(bool(*sheet_png(other, 72.0) != *sheet_png(content, 72.0)));
    CHECK(bool(*sheet_svg(other) != *sheet_svg(content)));
    const auto ink = looked_at::count_of(looked_at::raster_of_png(*sheet_png(content, 72.0)), 0xf8ede6, 4);
    CHECK(ink > 10000);  // the box around them, in points squared: the page has half a million
  }
}

TEST_CASE("a long page leaves out errors before it leaves out a caution") {
  SheetContent content = some::pupil("en");
  for (int k = 0; k < 25; ++k)
    content.exercise->errors.push_back(
        "The ball goes somewhere else than it should, again and again, whatever is done.");
  const std::string page = looked_at::text_of(*sheet_pdf(content));
  CHECK(page.find(content.exercise->errors.front()) == std::string::npos);
  for (const std::string& caution : content.exercise->cautions)
    CHECK(page.find(caution) != std::string::npos);
}
