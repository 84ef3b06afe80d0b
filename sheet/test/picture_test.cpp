#include <doctest/doctest.h>

#include "sheet/drawing.hpp"
#include "sheet/pictures.hpp"
#include "sheet/test/looked_at.hpp"
#include "sheet/test/some_sheets.hpp"

using namespace strikewright;
using looked_at::Raster;

namespace {

// The fixed words, all of them empty: what is left is the drawing.
Words wordless() {
  std::map<std::string, std::string, std::less<>> texts;
  for (const auto& [key, text] : words_of("en")->texts()) texts.emplace(key, "");
  return Words{texts};
}

template <class Draw>
Raster drawn(int width, int height, Draw draw) {
  cairo_surface_t* surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height);
  cairo_t* cairo = cairo_create(surface);
  cairo_set_source_rgb(cairo, 1.0, 1.0, 1.0);
  cairo_paint(cairo);
  {
    Pen pen(cairo, "en", true);
    draw(pen);
  }
  cairo_destroy(cairo);
  Raster raster = looked_at::raster_of(surface);
  cairo_surface_destroy(surface);
  return raster;
}

// The share of pixels in which one picture is not the other one's mirror image. Coverage at edges is rounded.
double unlike_mirrored(const Raster& one, const Raster& other) {
  int different = 0;
  for (int y = 0; y < one.height; ++y)
    for (int x = 0; x < one.width; ++x) {
      const std::uint32_t a = one.at(x, y), b = other.at(one.width - 1 - x, y);
      for (const int shift : {0, 8, 16})
        if (std::abs(int(a >> shift & 0xffu) - int(b >> shift & 0xffu)) > 24) {
          ++different;
          break;
        }
    }
  return double(different) / double(one.width * one.height);
}

Raster picture_drawn(const SheetPicture& picture, bool left_handed, const Words& words) {
  return drawn(400, 160, [&](Pen& pen) {
    draw_picture(pen, {0, 0, 400, 160}, picture, left_handed, words, 9.0);
  });
}

// Mean x of the pixels of a colour.
double middle_of(const Raster& raster, std::uint32_t colour) {
  double sum = 0.0;
  int count = 0;
  for (int y = 0; y < raster.height; ++y)
    for (int x = 0; x < raster.width; ++x)
      if (raster.at(x, y) == colour) {
        sum += x;
        ++count;
      }
  REQUIRE(count > 0);
  return sum / count;
}

constexpr std::uint32_t kClay = 0xb4552d;

}  // namespace

TEST_CASE("a left-hander's picture is the right-hander's in a mirror, the words in it are not") {
  const SheetPicture picture = some::picture();
  const Words none = wordless();
  const Raster right = picture_drawn(picture, false, none), left = picture_drawn(picture, true, none);
  CHECK(unlike_mirrored(right, left) < 0.002);
  CHECK(unlike_mirrored(right, right) > 0.02);
  for (const DivotKind kind : kDivotKinds) {
    const auto divot = [&](bool left_handed) {
      return drawn(120, 40, [&](Pen& pen) { draw_divot(pen, {0, 0, 120, 40}, kind, left_handed); });
    };
    CHECK(unlike_mirrored(divot(false), divot(true)) < 0.03);
    CHECK(unlike_mirrored(divot(false), divot(false)) > 0.05);
  }
  // With words the mirror image is no longer the same: letters read from left to right for both.
  const Words& english = *words_of("en");
  CHECK(unlike_mirrored(picture_drawn(picture, false, english), picture_drawn(picture, true, english)) >
        0.004);
  SheetContent content = some::pupil("en");
  content.hand = "left";
  const std::string page = looked_at::text_of(*sheet_pdf(content));
  for (const char* word : {"target", "low point", "aim", "hands"})
    CHECK(page.find(word) != std::string::npos);
}

TEST_CASE("the exercise's drawing is mirrored for a left-hander on the page") {
  SheetContent content = some::pupil("en");
  // A drawing whose left half is of a colour that nothing else has.
  content.exercise->drawing =
      "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 640 400'><rect width='320' height='400' "
      "fill='#ff00ff'/>"
      "<rect x='320' width='320' height='400' fill='#00ffff'/></svg>";
  const Raster right = looked_at::raster_of_png(*sheet_png(content, 72.0));
  content.hand = "left";
  const Raster left = looked_at::raster_of_png(*sheet_png(content, 72.0));
  CHECK(middle_of(right, 0xff00ff) < middle_of(right, 0x00ffff));
  CHECK(middle_of(left, 0xff00ff) > middle_of(left, 0x00ffff));
}

TEST_CASE("a low point further back is drawn further back, for both hands") {
  SheetPicture ahead = some::picture(), behind = some::picture();
  ahead.divots.clear();
  behind.divots.clear();
  ahead.handle_lead_mm.reset();
  behind.handle_lead_mm.reset();
  ahead.low_point_mm = {60.0, 40.0, 80.0};
  behind.low_point_mm = {-60.0, -80.0, -40.0};
  const Words none = wordless();
  // The marker's clay dominates the strip's upper half.
  CHECK(middle_of(picture_drawn(behind, false, none), kClay) <
        middle_of(picture_drawn(ahead, false, none), kClay));
  CHECK(middle_of(picture_drawn(behind, true, none), kClay) >
        middle_of(picture_drawn(ahead, true, none), kClay));
}

TEST_CASE("a divot is drawn where it lies, and one without a start is not drawn") {
  SheetPicture picture = some::picture();
  picture.divots = {{.start_mm = 40.0, .end_mm = 150.0}};
  const Words none = wordless();
  const Raster one = picture_drawn(picture, false, none);
  picture.divots = {{.start_mm = 40.0, .end_mm = 150.0}, {.end_mm = 60.0, .direction_deg = 3.0}};
  CHECK(picture_drawn(picture, false, none).pixels == one.pixels);
  picture.divots = {{.start_mm = -100.0, .end_mm = -10.0}};
  CHECK(picture_drawn(picture, false, none).pixels != one.pixels);
  // The bar at which it begins is black ink: further left where it began further back.
  CHECK(middle_of(picture_drawn(picture, false, none), 0x23201b) < middle_of(one, 0x23201b));
}

TEST_CASE("every picture that is sound can be drawn, with nothing outside of its box") {
  const Words& words = *words_of("de");
  for (const double low : {-1000.0, -90.0, 0.0, 120.0, 1000.0})
    for (const bool left_handed : {false, true}) {
      SheetPicture picture = some::picture();
      picture.low_point_mm = {low, low, low};
      picture.aim_mm = {{900.0, 1000.0}};
      picture.handle_lead_mm = 600.0;
      picture.handle_height_mm = 200.0;
      picture.depth_mm = -500.0;
      picture.divots = {{.start_mm = -1000.0, .end_mm = 1000.0, .direction_deg = 90.0}, {.start_mm = 1000.0}};
      const Raster raster = drawn(440, 200, [&](Pen& pen) {
        draw_picture(pen, {20, 20, 400, 160}, picture, left_handed, words, 9.0);
      });
      int outside = 0;
      for (int y = 0; y < raster.height; ++y)
        for (int x = 0; x < raster.width; ++x)
          if ((x < 16 || x >= 424 || y < 14 || y >= 184) && raster.at(x, y) != 0xffffff) ++outside;
      CHECK_MESSAGE(outside == 0, low);
    }
}

TEST_CASE("the word of the aim lies on nothing, in every language and in a flat box, too") {
  const std::uint32_t white = 0xffffff;
  for (const std::string language : {"en", "de"})
    for (const double height : {84.0, 110.0, 135.0, 160.0})
      for (const double low : {-40.0, 2.0, 35.0})
        for (const bool left_handed : {false, true}) {
          SheetPicture picture = some::picture();
          picture.low_point_mm = {low, low - 20.0, low + 20.0};
          picture.aim_mm = {{-15.0, 15.0}};
          const auto with = [&](bool word) {
            auto texts = wordless().texts();
            if (word) texts["picture.aim"] = (*words_of(language))("picture.aim");
            const Words words{texts};
            return drawn(400, 160, [&](Pen& pen) {
              draw_picture(pen, {0, 0, 400, height}, picture, left_handed, words, 8.0);
            });
          };
          const Raster bare = with(false), labelled = with(true);
          int letters = 0, on_something = 0;
          for (int y = 0; y < bare.height; ++y)
            for (int x = 0; x < bare.width; ++x)
              if (labelled.at(x, y) != bare.at(x, y)) {
                ++letters;
                if (bare.at(x, y) != white) ++on_something;
              }
          CHECK(letters > 20);
          CHECK_MESSAGE(on_something == 0, (language + " " + std::to_string(height)));
        }
}

TEST_CASE("an exercise's drawing stays within its viewBox") {
  SheetContent content = some::pupil("en");
  content.exercise->drawing =
      "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 640 400'><rect x='-300' y='-300' width='1240' "
      "height='1000' fill='#ff00ff'/><rect width='640' height='400' fill='#00ffff'/></svg>";
  for (const char* hand : {"right", "left"}) {
    content.hand = hand;
    const Raster page = looked_at::raster_of_png(*sheet_png(content, 72.0));
    CHECK(looked_at::count_of(page, 0x00ffff) > 1000);
    // Where the two colours meet, a pixel may have something of both.
    CHECK(looked_at::count_of(page, 0xff00ff) == 0);
  }
}

TEST_CASE("a drawing that is none is refused by name") {
  for (const std::string bad :
       {"not an SVG", "<svg", "<html></html>", "<svg xmlns='http://www.w3.org/2000/svg'/>",
        "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 10 4000'/>"}) {
    SheetContent content = some::pupil("en");
    content.exercise->drawing = bad;
    for (const Result<std::string>& made :
         {sheet_pdf(content), sheet_png(content, 72.0), sheet_svg(content), sheet_html(content)})
      CHECK_MESSAGE((!made && made.error().place == "sheet.exercise.drawing"), bad);
  }
}

TEST_CASE("a PNG is as large as its paper at the dots asked for, and on white paper") {
  for (const double dots : {36.0, 72.0, 150.0}) {
    const Raster a4 = looked_at::raster_of_png(*sheet_png(some::pupil("en"), dots));
    CHECK(a4.width == std::lround(210.0 / 25.4 * dots));
    CHECK(a4.height == std::lround(297.0 / 25.4 * dots));
    CHECK(a4.at(0, 0) == 0xffffff);
    SheetContent letter = some::pupil("en");
    letter.paper = Paper::letter;
    const Raster other = looked_at::raster_of_png(*sheet_png(letter, dots));
    CHECK(other.width == std::lround(8.5 * dots));
    CHECK(other.height == std::lround(11.0 * dots));
  }
  for (const double dots : {35.0, 401.0, std::nan("")})
    CHECK_FALSE(sheet_png(some::pupil("en"), dots).has_value());
}
