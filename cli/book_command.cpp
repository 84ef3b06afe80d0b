// `strikewright book`: the coach's records out, in, copied, checked, erased.

#include <fmt/format.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <ostream>

#include "book_import.hpp"
#include "commands.hpp"
#include "quantity/nearest.hpp"
#include "take.hpp"

namespace strikewright {
namespace {

using Json = nlohmann::ordered_json;

struct BookInput {
  std::size_t action = 0;
  std::string what, book, pupil, lesson;
};

/// "1 pupil", "2 pupils".
std::string counted(std::int64_t n, const char* what) {
  return fmt::format("{} {}{}", n, what, n == 1 ? "" : "s");
}

/// What an action is called, what its second word is, and which option belongs to it alone.
struct Action {
  const char* name;
  const char* what;  ///< "" = nothing more
  Result<int> (*run)(Book& book, const BookInput& in, Doors& doors);
};

void say(const Json& json, const std::string& sentence, Doors& doors) {
  doors.out << (doors.json ? json.dump(2) : sentence) << '\n';
}

Result<int> export_book(Book& book, const BookInput& in, Doors& doors) {
  if (in.lesson.empty()) {
    const Result<std::string> text = book.export_json();
    if (!text) return unexpected(text.error());
    doors.out << *text;
    return kGood;
  }
  const Result<Lesson> lesson = book.lesson(in.lesson);
  if (!lesson) return unexpected(lesson.error());
  const Result<Pupil> pupil = book.pupil(lesson->pupil);
  const Result<std::vector<KeptSwing>> swings = book.swings_of(in.lesson);
  const Result<Settings> settings = book.settings();
  if (!pupil) return unexpected(pupil.error());
  if (!swings) return unexpected(swings.error());
  if (!settings) return unexpected(settings.error());
  doors.out << sightings_csv(*pupil, *settings, *swings);
  return kGood;
}

Result<int> import_lesson(Book& book, const BookInput& in, Doors& doors) {
  const Result<LessonCame> came = import_sightings(book, in.what, in.pupil, doors);
  if (!came) return unexpected(came.error());
  if (doors.exit_code != kGood) return doors.exit_code;
  const std::string who = came->pupil.name + (came->new_pupil ? ", who is new in the book" : "");
  say({{"lesson", came->lesson},
       {"pupil", came->pupil.id},
       {"swings", came->swings},
       {"new_pupil", came->new_pupil},
       {"already", came->already}},
      came->already
          ? fmt::format("This file is in the book already: lesson {} of {}.", came->lesson, who)
          : fmt::format("{} came in: lesson {} of {}.", counted(came->swings, "swing"), came->lesson, who),
      doors);
  return kGood;
}

Result<int> import_book(Book& book, const BookInput& in, Doors& doors) {
  if (!in.pupil.empty()) return import_lesson(book, in, doors);
  if (std::filesystem::path(in.what).extension() == ".csv")
    return unexpected(Fault{"--pupil", "nothing", "the pupil whose lesson " + in.what + " is"});
  const Result<int> came = import_document(book, in.what, doors);
  if (!came) return unexpected(came.error());
  say({{"records", *came}}, counted(*came, "record") + " came in.", doors);
  return kGood;
}

Result<int> back_up(Book& book, const BookInput& in, Doors& doors) {
  if (auto done = book.backup(in.what); !done) return unexpected(done.error());
  const auto bytes = std::filesystem::file_size(in.what);
  say({{"file", in.what}, {"bytes", bytes}},
      fmt::format("{} is a copy of the book as it stands, {} kB.", in.what, (bytes + 999) / 1000), doors);
  return kGood;
}

Result<int> check_book(Book& book, const BookInput& in, Doors& doors) {
  const Result<BookCheck> check = book.check();
  if (!check) return unexpected(check.error());
  std::string sentence =
      fmt::format("{} is {}: schema {}, {}, {}, {}, {}.", in.book, check->sound ? "sound" : "NOT sound",
                  check->version, counted(check->pupils, "pupil"), counted(check->lessons, "lesson"),
                  counted(check->swings, "swing"), counted(check->sightings, "sighting"));
  for (const std::string& complaint : check->complaints) sentence += "\n  " + complaint;
  say({{"sound", check->sound},
       {"version", check->version},
       {"pupils", check->pupils},
       {"lessons", check->lessons},
       {"swings", check->swings},
       {"sightings", check->sightings},
       {"complaints", check->complaints}},
      sentence, doors);
  return check->sound ? kGood : kCheckFailed;
}

Result<int> erase_pupil(Book& book, const BookInput& in, Doors& doors) {
  const Result<Pupil> pupil = pupil_called(book, in.what);
  if (!pupil) return unexpected(pupil.error());
  const Result<Erased> erased = book.erase_pupil(pupil->id);
  if (!erased) return unexpected(erased.error());
  std::string sentence =
      fmt::format("{} is erased, with {} and {}; no byte of them is left in the book.", pupil->name,
                  counted(erased->lessons, "lesson"), counted(erased->swings, "swing"));
  for (const std::string& copy : erased->copies) sentence += "\n  also removed: " + copy;
  say({{"lessons", erased->lessons}, {"swings", erased->swings}, {"copies", erased->copies}}, sentence,
      doors);
  return kGood;
}

const std::vector<Action>& actions() {
  static const std::vector<Action> all{{"export", "", export_book},
                                       {"import", "FILE", import_book},
                                       {"backup", "FILE", back_up},
                                       {"check", "", check_book},
                                       {"erase", "PUPIL", erase_pupil}};
  return all;
}

/// Words that belong together.
Result<void> fit(const BookInput& in) {
  const Action& action = actions()[in.action];
  const std::string place = std::string("strikewright book ") + action.name, what = action.what;
  if (!what.empty() && in.what.empty()) return unexpected(Fault{place, "no " + what, what + " after it"});
  if (what.empty() && !in.what.empty())
    return unexpected(Fault{place, strikewright::quoted(in.what), "nothing more"});
  if (!in.pupil.empty() && action.run != import_book)
    return unexpected(Fault{"--pupil", strikewright::quoted(in.pupil), "it with import only"});
  if (!in.lesson.empty() && action.run != export_book)
    return unexpected(Fault{"--lesson", strikewright::quoted(in.lesson), "it with export only"});
  // Only an import begins a book: a misspelt name shall not make an empty one.
  if (action.run != import_book && !std::filesystem::exists(in.book))
    return unexpected(Fault{"book " + in.book, "no such file", "a book"});
  return {};
}

Result<int> run(const BookInput& in, Doors& doors) {
  if (auto good = fit(in); !good) return unexpected(good.error());
  const Result<std::unique_ptr<Book>> book = open_book(in.book);
  if (!book) return unexpected(book.error());
  return actions()[in.action].run(**book, in, doors);
}

}  // namespace

Command book_command() {
  const auto in = std::make_shared<BookInput>();
  std::vector<std::string> names;
  for (const Action& action : actions()) names.emplace_back(action.name);
  return {
      .name = "book",
      .says = "the coach's records: export, import, backup, check, erase",
      .more =
          "export prints the whole book as JSON, or one lesson as a sightings file (CSV). import FILE takes "
          "such "
          "a document, or with --pupil a sightings file as one more lesson; the same twice comes in once. "
          "backup "
          "FILE copies an open book. check reads all of it. erase PUPIL (id or whole name) leaves no byte of "
          "the "
          "pupil in the book; backups are yours to throw away.",
      .options =
          {needed(choice("ACTION", member(in, in->action), names, "what is to be done")),
           text("WHAT", "FILE|PUPIL", member(in, in->what), "FILE of import and backup, PUPIL of erase"),
           needed(text("--book", "FILE", member(in, in->book), "the book")),
           text("--pupil", "PUPIL", member(in, in->pupil),
                "import: FILE is a sightings file of this pupil, by id or whole name; a new name is added"),
           text("--lesson", "ID", member(in, in->lesson), "export: this lesson as a sightings file")},
      .examples = {{.says = "a lesson into a book, and the book checked",
                    .line =
                        "strikewright book import demo/lesson.csv --pupil Robin --book build/example.book"},
                   {.says = "is the book sound?",
                    .line = "strikewright book check --book build/example.book"}},
      .run = [in](Doors& doors) { return run(*in, doors); }};
}

}  // namespace strikewright
