#include <doctest/doctest.h>

#include <algorithm>
#include <set>

#include "sheet/sheet.hpp"
#include "sheet/test/some_sheets.hpp"

using namespace strikewright;

namespace {

// The images that the file carries, as they were before they were wrapped in base64.
std::vector<std::string> images_of(const std::string& html) {
  const std::string signs = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::vector<std::string> images;
  for (std::size_t at = 0; (at = html.find("base64,", at)) != std::string::npos;) {
    at += 7;
    std::string image_text;
    unsigned bits = 0, count = 0;
    for (; html[at] != '"'; ++at) {
      if (html[at] == '=') continue;
      bits = bits << 6 | unsigned(signs.find(html[at]));
      count += 6;
      if (count < 8) continue;
      count -= 8;
      image_text += char(bits >> count & 0xffu);
    }
    images.push_back(image_text);
  }
  return images;
}

// What a reader's program would see as elements.
std::set<std::string> elements_of(const std::string& html) {
  const std::string letters = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789";
  std::set<std::string> names;
  for (std::size_t at = 0; (at = html.find('<', at)) != std::string::npos; ++at) {
    const std::string name = html.substr(at + 1, html.find_first_not_of(letters, at + 1) - at - 1);
    if (!name.empty()) names.insert(name);
  }
  return names;
}

std::string without_images(const std::string& html) {
  std::string bare;
  for (std::size_t at = 0, next = 0; at < html.size(); at = next) {
    const std::size_t image = std::min(html.find("src=\"data:", at), html.size());
    bare += html.substr(at, image - at);
    next = image == html.size() ? image : html.find('"', image + 5) + 1;
  }
  return bare;
}

}  // namespace

TEST_CASE("markup in any text comes out as text") {
  const std::string bad = "</title><script>alert('x')</script>\"><img src=x onerror=\"y\"> & more";
  const std::string good =
      "&lt;/title&gt;&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt;&quot;&gt;&lt;img src=x "
      "onerror=&quot;y&quot;&gt; &amp; more";
  SheetContent content = some::summary("en");
  for (const bool pupil : {true, false}) {
    content.kind = pupil ? SheetKind::pupil : SheetKind::summary;
    for (std::string* text : {&content.pupil,
                              &content.coach,
                              &content.place,
                              &content.club,
                              &content.note,
                              &content.version,
                              &content.why[0],
                              &content.exercise->title,
                              &content.exercise->steps[0],
                              &content.exercise->cue,
                              &content.exercise->dose,
                              &content.exercise->drawing_says,
                              &content.exercise->cautions[0],
                              &content.sessions[0].what,
                              &content.targets[0].says,
                              &content.targets[0].now,
                              &content.reading[0],
                              &content.causes[0].figure,
                              &content.proof,
                              &content.next_look[0]})
      *text = bad;
    const std::string html = *sheet_html(content);
    CHECK(html.find("<script") == std::string::npos);
    CHECK(html.find(bad) == std::string::npos);
    CHECK(html.find("<h1>" + good + "</h1>") != std::string::npos);
    CHECK(html.find("<title>" + std::string(pupil ? "For home: " : "Lesson summary: ") + good) !=
          std::string::npos);
    const std::set<std::string> expected{"html",   "head", "meta", "title",   "style", "body",  "main",
                                         "header", "h1",   "h2",   "h3",      "h4",    "p",     "b",
                                         "span",   "img",  "ul",   "ol",      "li",    "table", "tr",
                                         "th",     "td",   "div",  "section", "footer"};
    for (const std::string& name : elements_of(without_images(html)))
      CHECK_MESSAGE(expected.count(name) == 1, name);
  }
}

TEST_CASE("the file is whole: nothing runs in it and nothing is fetched") {
  for (const SheetContent& content : {some::pupil("en"), some::summary("de")}) {
    const std::string html = *sheet_html(content);
    CHECK(html.size() < 400000);
    CHECK(html.find("default-src 'none'") != std::string::npos);
    const std::string bare = without_images(html);
    for (const char* forbidden : {"http", "url(", "@import", "href", "javascript", " on"})
      CHECK_MESSAGE(bare.substr(bare.find("<body>")).find(std::string(forbidden) + "=") == std::string::npos,
                    forbidden);
    CHECK(bare.find("http:") == std::string::npos);
    CHECK(bare.find("https:") == std::string::npos);
    CHECK(bare.find("url(") == std::string::npos);
    CHECK(html.find(content.language == "de" ? "<html lang=\"de\">" : "<html lang=\"en\">") !=
          std::string::npos);
    for (const std::string& image : images_of(html)) {
      CHECK(image.find("<svg") != std::string::npos);
      CHECK(image.find("</svg>") != std::string::npos);
    }
  }
}

TEST_CASE("of an exercise's drawing only the strokes come through") {
  SheetContent content = some::pupil("en");
  content.exercise->drawing =
      "<svg xmlns='http://www.w3.org/2000/svg' xmlns:xlink='http://www.w3.org/1999/xlink' viewBox='0 0 640 "
      "400' "
      "onload='alert(1)'><script>alert(2)</script><image xlink:href='file:///etc/passwd' width='9' "
      "height='9'/>"
      "<a xlink:href='http://example.invalid/'><rect width='100' height='100' fill='#123456'/></a></svg>";
  const std::string html = *sheet_html(content);
  const std::vector<std::string> images = images_of(html);
  // Head, picture, drawing, four divots.
  REQUIRE(images.size() == 7);
  for (const std::string& image : images)
    for (const char* forbidden : {"script", "alert", "onload", "passwd", "example.invalid", "file:"})
      CHECK_MESSAGE(image.find(forbidden) == std::string::npos, forbidden);
  CHECK(images[2].find("fill:rgb(7.058824%,20.392157%,33.7254") != std::string::npos);
  CHECK(html.find("alert") == std::string::npos);
}

TEST_CASE("every picture says what it shows") {
  const SheetContent content = some::pupil("en");
  const std::string html = *sheet_html(content);
  CHECK(html.find("<img alt=\"The turf strip from above, 9 divots drawn") != std::string::npos);
  CHECK(html.find("<img alt=\"" + content.exercise->drawing_says + "\"") != std::string::npos);
  CHECK(html.find("<img src") == std::string::npos);
}
