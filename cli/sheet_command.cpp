// `strikewright sheet`: the page that the pupil takes home, or the coach's summary, as a file.

#include <fmt/format.h>

#include <array>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <ostream>

#include "book/book.hpp"
#include "commands.hpp"
#include "take.hpp"
#include "usual_book.hpp"
#include "verbs/sheet_verb.hpp"
#include "write_whole.hpp"

namespace strikewright {
namespace {

struct SheetInput {
  std::string book, lesson, out;
  std::size_t kind = 0, paper = 0, language = 0;
};
constexpr std::array<const char*, 2> kKinds{"pupil", "summary"}, kPapers{"a4", "letter"};
constexpr std::array<const char*, 3> kLanguages{"", "en", "de"};

/// By the file's ending.
Result<SheetForm> form_of(const std::string& file) {
  const std::string ending = std::filesystem::path(file).extension().string();
  Result<SheetForm> form = sheet_form_named(ending.empty() ? "" : ending.substr(1));
  if (form) return form;
  return unexpected(Fault{"--out", "'" + file + "'", "a file whose name ends in .pdf, .html, .png or .svg"});
}

Result<int> run(const SheetInput& in, Doors& doors) {
  const Result<SheetForm> form = form_of(in.out);
  if (!form) return unexpected(form.error());
  const Result<std::string> file = in.book.empty() ? usual_book() : Result<std::string>(in.book);
  if (!file) return unexpected(file.error());
  if (!std::filesystem::exists(*file))
    return unexpected(Fault{"--book", "'" + *file + "', which is not there", "a book with that lesson"});
  const auto book = open_book(*file);
  if (!book) return unexpected(book.error());
  const SheetAsked asked{
      .lesson = in.lesson,
      .kind = kKinds[in.kind],
      .paper = kPapers[in.paper],
      .language = kLanguages[in.language],
      .units = doors.units_given ? (doors.units == UnitSystem::yards ? "yards" : "metric") : "",
      .version = STRIKEWRIGHT_VERSION};
  const Answer<std::string> sheet = sheet_file(**book, asked, *form);
  if (!sheet) {
    report(sheet.error(), doors);
    return doors.exit_code;
  }
  if (const Result<void> written = write_whole(in.out, *sheet, "--out"); !written)
    return unexpected(written.error());
  if (doors.json)
    doors.out
        << nlohmann::ordered_json{{"lesson", in.lesson}, {"file", in.out}, {"bytes", sheet->size()}}.dump(2)
        << '\n';
  else
    doors.out << fmt::format("The sheet of lesson {} is in {}.\n", in.lesson, in.out);
  return kGood;
}

}  // namespace

Command sheet_command() {
  const auto in = std::make_shared<SheetInput>();
  return {
      .name = "sheet",
      .says = "the page that the pupil takes home, or the coach's summary",
      .more =
          "One page: why, in one picture; the exercise given in that lesson with its drawing and its "
          "cautions; how to read one's own divots; the plan until the next lesson. The file's ending says "
          "what it becomes: .pdf, .html, .png or .svg. In the pupil's language unless told otherwise.",
      .options = {needed(text("--lesson", "ID", member(in, in->lesson),
                              "the lesson; 'book export --json' names them")),
                  needed(text("--out", "FILE", member(in, in->out), "where to; what is there is replaced")),
                  text("--book", "FILE", member(in, in->book), "the book", "your own"),
                  choice("--kind", member(in, in->kind), {"pupil", "summary"}, "for whom", "pupil"),
                  choice("--paper", member(in, in->paper), {"a4", "letter"}, "its size", "a4"),
                  choice("--language", member(in, in->language), {"pupil", "en", "de"},
                         "of the pupil's sheet; the summary is English", "pupil")},
      .examples = {{.says = "a book to look around in", .line = "strikewright demo --book build/sheet.book"},
                   {.says = "the page for home of its last lesson",
                    .line = "strikewright sheet --lesson demo-osk-3 --book build/sheet.book --out "
                            "build/sheet.pdf"}},
      .run = [in](Doors& doors) { return run(*in, doors); }};
}

}  // namespace strikewright
