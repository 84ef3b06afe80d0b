#include <doctest/doctest.h>

#include <algorithm>
#include <thread>

#include "sheet/days.hpp"
#include "sheet/sheet.hpp"
#include "sheet/test/looked_at.hpp"
#include "sheet/test/some_sheets.hpp"
#include "sheet/words.hpp"

using namespace strikewright;
using looked_at::in_one_line;
using looked_at::poppler;
using looked_at::text_of;

namespace {

std::string pdf_of(const SheetContent& content) {
  const Result<std::string> pdf = sheet_pdf(content);
  REQUIRE_MESSAGE(pdf.has_value(), (pdf ? "" : pdf.error().sentence()));
  return *pdf;
}

bool says(const std::string& page, const std::string& text) {
  return page.find(in_one_line(text)) != std::string::npos;
}

// Everything of the content that a pupil's page shows, whatever is left out.
std::vector<std::string> texts_of(const SheetContent& content) {
  const SheetExercise& exercise = *content.exercise;
  std::vector<std::string> texts{content.pupil,  content.coach,    content.place, content.club, content.note,
                                 exercise.title, exercise.purpose, exercise.cue,  exercise.dose};
  for (const auto* list :
       {&content.why, &content.cautions, &exercise.steps, &exercise.self_check, &exercise.cautions})
    texts.insert(texts.end(), list->begin(), list->end());
  for (const SheetSession& session : content.sessions) texts.push_back(session.what);
  for (const SheetTarget& target : content.targets)
    for (const std::string& text : {target.says, target.now, target.goal}) texts.push_back(text);
  return texts;
}

std::ptrdiff_t times(const std::string& text, const std::string& part) {
  std::ptrdiff_t count = 0;
  for (std::size_t at = 0; (at = text.find(part, at)) != std::string::npos; ++at) ++count;
  return count;
}

struct Placed {
  double left, top, right, bottom;
  std::string word;
};

// Where poppler finds each word on the page, points.
std::vector<Placed> words_on(const std::string& pdf) {
  const std::string said = poppler("pdftotext -bbox", pdf, "-");
  std::vector<Placed> words;
  for (std::size_t at = 0; (at = said.find("<word ", at)) != std::string::npos; ++at) {
    Placed word{};
    REQUIRE(std::sscanf(said.c_str() + at, "<word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\">",
                        &word.left, &word.top, &word.right, &word.bottom) == 4);
    const std::size_t text = said.find('>', at) + 1;
    word.word = said.substr(text, said.find('<', text) - text);
    words.push_back(word);
  }
  return words;
}

// The two words that lie most upon one another, as a share of the smaller one. poppler's boxes reach from the
// font's highest to its lowest mark, which neighbouring lines may share; their inner half is where the
// letters are.
std::pair<double, std::string> closest(const std::vector<Placed>& words) {
  std::pair<double, std::string> most{0.0, ""};
  for (std::size_t a = 0; a < words.size(); ++a)
    for (std::size_t b = a + 1; b < words.size(); ++b) {
      const Placed &one = words[a], &two = words[b];
      const double one_high = one.bottom - one.top, two_high = two.bottom - two.top;
      const double wide = std::min(one.right, two.right) - std::max(one.left, two.left);
      const double high = std::min(one.bottom - 0.25 * one_high, two.bottom - 0.25 * two_high) -
                          std::max(one.top + 0.25 * one_high, two.top + 0.25 * two_high);
      if (wide <= 0.0 || high <= 0.0) continue;
      const double smaller =
          0.5 * std::min((one.right - one.left) * one_high, (two.right - two.left) * two_high);
      if (wide * high / smaller > most.first) most = {wide * high / smaller, one.word + " | " + two.word};
    }
  return most;
}

void check_legible(const std::string& pdf, Paper paper) {
  const double width = paper == Paper::a4 ? 595.28 : 612.0, height = paper == Paper::a4 ? 841.89 : 792.0;
  const std::vector<Placed> words = words_on(pdf);
  CHECK(words.size() > 50);
  for (const Placed& word : words) {
    const bool inside =
        word.left > 18.0 && word.right < width - 18.0 && word.top > 18.0 && word.bottom < height - 8.0;
    CHECK_MESSAGE(inside, word.word);
  }
  const auto [share, which] = closest(words);
  CHECK_MESSAGE(share < 0.05, which);
}

}  // namespace

TEST_CASE("a sheet's page says every text that it was given, in both languages and with their letters") {
  for (const std::string language : {"en", "de"}) {
    const SheetContent content = some::pupil(language);
    const std::string page = text_of(pdf_of(content));
    for (const std::string& text : texts_of(content)) CHECK_MESSAGE(says(page, text), text);
    CHECK(says(page, (*words_of(language))("foot.defer")));
    CHECK(says(page, (*words_of(language))("head.invented")));
  }
  CHECK(says(text_of(pdf_of(some::pupil("de"))), "Käthe Mößlang-Übersee"));
}

TEST_CASE("a summary says reading, causes with their figures, proof and next look") {
  for (const std::string language : {"en", "de"}) {
    const SheetContent content = some::summary(language);
    const std::string page = text_of(pdf_of(content));
    for (const std::string& text : content.reading) CHECK_MESSAGE(says(page, text), text);
    for (const std::string& text : content.next_look) CHECK_MESSAGE(says(page, text), text);
    for (const SheetCause& cause : content.causes)
      for (const std::string& text : {cause.says, cause.figure, cause.scatter})
        CHECK_MESSAGE(says(page, text), text);
    CHECK(says(page, content.proof));
    CHECK(says(page, "74 %"));
    CHECK_FALSE(says(page, content.exercise->steps.front()));
  }
}

TEST_CASE("a sheet is one page of the paper asked for, small, with its fonts in it") {
  for (const SheetContent& made :
       {some::pupil("en"), some::pupil("de"), some::summary("en"), some::summary("de")})
    for (const Paper paper : {Paper::a4, Paper::letter}) {
      SheetContent content = made;
      content.paper = paper;
      const std::string pdf = pdf_of(content);
      CHECK(pdf.size() < 300000);
      const std::string facts = poppler("pdfinfo", pdf);
      CHECK(facts.find("Pages:           1\n") != std::string::npos);
      CHECK(facts.find(paper == Paper::a4 ? "595.276 x 841.89 pts (A4)" : "612 x 792 pts (letter)") !=
            std::string::npos);
      CHECK(facts.find("JavaScript:      no") != std::string::npos);
      const std::string fonts = poppler("pdffonts", pdf);
      const auto lines = std::count(fonts.begin(), fonts.end(), '\n') - 2;
      CHECK(lines >= 3);
      CHECK(times(fonts, " yes yes yes ") == lines);
      check_legible(pdf, paper);
    }
}

TEST_CASE("a sheet's PDF says its title, its language, that it is tagged and what its pictures show") {
  const SheetContent content = some::pupil("de");
  const std::string pdf = pdf_of(content);
  const std::string facts = poppler("pdfinfo", pdf);
  CHECK(facts.find("Title:           Für zu Hause: Käthe Mößlang-Übersee, Mo., 4. Mai 2026\n") !=
        std::string::npos);
  CHECK(facts.find("Author:          Jörn Birkenfeld\n") != std::string::npos);
  CHECK(facts.find("Tagged:          yes\n") != std::string::npos);
  CHECK(pdf.find("/Lang (de)") != std::string::npos);
  const std::string tags = poppler("pdfinfo -struct-text", pdf);
  CHECK(tags.find("Warning") == std::string::npos);
  CHECK(tags.find("Document\n  H1 (block)\n    \"Käthe Mößlang-Übersee\"") == 0);
  // "Eine Pe...", UTF-16
  CHECK(pdf.find("/Alt <FEFF00450069006E006500200050") != std::string::npos);
  CHECK(times(pdf, "/Alt <FEFF") == 2);
}

TEST_CASE("the same content gives the same bytes, from several threads at once") {
  const SheetContent content = some::pupil("en");
  const std::string pdf = pdf_of(content), svg = *sheet_svg(content), html = *sheet_html(content);
  std::vector<std::string> made(4);
  std::vector<std::thread> threads;
  for (std::string& one : made) threads.emplace_back([&] { one = sheet_pdf(content).value_or(""); });
  for (std::thread& thread : threads) thread.join();
  for (const std::string& one : made) CHECK(bool(one == pdf));
  CHECK(bool(*sheet_svg(content) == svg));
  CHECK(bool(*sheet_html(content) == html));
  CHECK(bool(*sheet_png(content, 72.0) == *sheet_png(content, 72.0)));
}

TEST_CASE("a longer text is set smaller, then what may be missing is left out, then the Fault names it") {
  SheetContent content = some::pupil("en");
  const std::string sentence = "Tell your own eye what it sees before anybody else does, and write it down. ";
  bool shown_all = false, left_out = false, refused = false;
  for (int sentences = 0; sentences <= 60 && !refused; sentences += 3) {
    content.note = "Begin.";
    for (int k = 0; k < sentences; ++k) content.note += " " + sentence;
    content.note += " The very end.";
    const Result<std::string> pdf = sheet_pdf(content);
    if (!pdf) {
      refused = true;
      CHECK(pdf.error().place == "sheet.note");
      CHECK(pdf.error().found.find("the longest text") != std::string::npos);
      CHECK(sheet_png(content, 72.0).error() == pdf.error());
      CHECK(sheet_svg(content).error() == pdf.error());
      CHECK(sheet_html(content).has_value());
      break;
    }
    const std::string page = text_of(*pdf);
    for (const std::string& text : texts_of(content)) CHECK_MESSAGE(says(page, text), text);
    check_legible(*pdf, content.paper);
    const bool all = says(page, content.exercise->errors.back()) && says(page, content.exercise->progression);
    CHECK_FALSE((left_out && all));
    (all ? shown_all : left_out) = true;
  }
  CHECK(shown_all);
  CHECK(left_out);
  CHECK(refused);
}

TEST_CASE("a name, a word or a table cell of any length stays within the page") {
  SheetContent content = some::pupil("en");
  content.pupil = std::string(80, 'W');
  content.targets = {{std::string(90, 'm'), std::string(60, 'n'), std::string(60, 'o')}};
  content.sessions.front().what = std::string(90, 'x');
  content.exercise->title = std::string(80, 'T');
  check_legible(pdf_of(content), content.paper);
}

TEST_CASE("twenty-four sessions fit; where they say too much the sheet names them") {
  SheetContent content = some::pupil("en");
  content.sessions.clear();
  for (int k = 1; k <= 24; ++k)
    content.sessions.push_back({"s-" + std::to_string(k),
                                "2026-05-" + std::string(k < 10 ? "0" : "") + std::to_string(k), "3 rows", 20,
                                k % 6 == 0});
  content.next_lesson = "2026-06-01";
  const std::string pdf = pdf_of(content);
  CHECK(says(text_of(pdf), "Sun 24 May Test: 3 rows 20 min"));
  check_legible(pdf, content.paper);
  for (SheetSession& session : content.sessions)
    session.what =
        "3 rows of eight balls, then ten balls with clubs that change after every one of them, then the next "
        "row, and after it ten more with a look at every divot before the club goes back into the bag again";
  const Result<std::string> refused = sheet_pdf(content);
  REQUIRE_FALSE(refused.has_value());
  CHECK(refused.error().place == "sheet.sessions");
}

TEST_CASE("a junior's page speaks to the adult as well") {
  SheetContent content = some::pupil("en");
  content.pupil = "Pip";
  content.junior = true;
  const std::string blank = pdf_of(content);
  CHECK(says(text_of(blank), "For Pip, and for the adult who is there at practice."));
  CHECK(says(text_of(blank), "Adult at practice (name):"));
  content.guardian = "Aunt Hedda";
  CHECK(says(text_of(pdf_of(content)), "Adult at practice: Aunt Hedda"));
  content.junior = false;
  CHECK_FALSE(says(text_of(pdf_of(content)), "adult"));
}

TEST_CASE("the caption speaks in the units and of the mark that the pupil knows") {
  SheetContent content = some::pupil("en");
  content.units = UnitSystem::yards;
  CHECK(says(text_of(pdf_of(content)), "The lowest point of your swing lies 0.5 in behind the ball"));
  content.units = UnitSystem::metric;
  content.picture->ball = false;
  CHECK(says(text_of(pdf_of(content)), "The lowest point of your swing lies 1.2 cm behind the line"));
}
