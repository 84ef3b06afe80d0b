// `strikewright demo`: fills a book with an invented coach's lessons.

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <ostream>

#include "book/book.hpp"
#include "commands.hpp"
#include "take.hpp"
#include "usual_book.hpp"
#include "verbs/demo_verb.hpp"

namespace strikewright {
namespace {

struct DemoInput {
  std::string book;
};

Result<int> run(const DemoInput& in, Doors& doors) {
  const Result<std::string> file = in.book.empty() ? usual_book() : Result<std::string>(in.book);
  if (!file) return unexpected(file.error());
  const auto book = open_book(*file);
  if (!book) return unexpected(book.error());
  const Result<int> pupils = fill_demo(**book);
  if (!pupils) return unexpected(pupils.error());
  if (doors.json)
    doors.out << nlohmann::ordered_json{{"book", *file}, {"pupils", *pupils}}.dump(2) << '\n';
  else
    doors.out << fmt::format("{} invented pupils with their lessons are in {} now.\n", *pupils, *file);
  return kGood;
}

}  // namespace

Command demo_command() {
  const auto in = std::make_shared<DemoInput>();
  return {
      .name = "demo",
      .says = "fill an empty book with an invented coach's lessons",
      .more =
          "Three invented pupils, one of them left-handed, with lessons, swings and an exercise given. "
          "Only into "
          "a book without pupils; the book is made when it is not there.",
      .options = {text("--book", "FILE", member(in, in->book), "the book", "your own")},
      .examples = {{.says = "a book to look around in", .line = "strikewright demo --book build/demo.book"}},
      .run = [in](Doors& doors) { return run(*in, doors); }};
}

}  // namespace strikewright
