// `strikewright book`, as it is typed.

#include <doctest/doctest.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "book/book.hpp"
#include "sighting/table.hpp"
#include "typed.hpp"

using namespace strikewright;

namespace {

namespace fs = std::filesystem;

class Folder {
 public:
  Folder() {
    std::string name = (fs::temp_directory_path() / "cli-book-XXXXXX").string();
    path_ = mkdtemp(name.data());
  }
  ~Folder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  [[nodiscard]] std::string operator/(const std::string& name) const { return (path_ / name).string(); }

 private:
  fs::path path_;
};

void write(const std::string& file, const std::string& text) {
  std::ofstream(file, std::ios::binary) << text;
}

/// A book with the demo lesson of one Robin; the lesson's id.
std::string begin(const std::string& book) {
  const Typed came = typed("book import demo/lesson.csv --pupil Robin --json --book " + book);
  REQUIRE_MESSAGE(came.code == 0, came.err);
  return came.json()["lesson"];
}

}  // namespace

TEST_CASE("a sightings file comes into the book once, with a new pupil") {
  const Folder folder;
  const std::string lesson = begin(folder / "b");
  const Typed again = typed("book import demo/lesson.csv --pupil Robin --json --book " + (folder / "b"));
  CHECK(again.json()["already"] == true);
  CHECK(again.json()["lesson"] == lesson);
  const Typed check = typed("book check --json --book " + (folder / "b"));
  CHECK(check.code == 0);
  CHECK(check.json()["sound"] == true);
  CHECK(check.json()["pupils"] == 1);
  CHECK(check.json()["swings"] == 12);
}

TEST_CASE("a new pupil plays with the hand that the file names") {
  const Folder folder;
  const std::string book = " --book " + (folder / "b");
  write(folder / "l.csv", "club,hand,start\n7i,,left\n7i,left,right\n");
  const Typed came = typed("book import " + (folder / "l.csv") + " --pupil Wren --json" + book);
  REQUIRE_MESSAGE(came.code == 0, came.err);
  CHECK(typed("book export" + book).json()["pupils"][0]["hand"] == "left");
  // What goes out comes back, a blank cell of a known left-hander included.
  const std::string lesson = came.json()["lesson"];
  write(folder / "o.csv", typed("book export --lesson " + lesson + book).out);
  CHECK(typed("book import " + (folder / "o.csv") + " --pupil Wren --book " + (folder / "c")).code == 0);
  CHECK(typed("book export --book " + (folder / "c")).json()["pupils"][0]["hand"] == "left");
  write(folder / "r.csv", "club,hand,start\n7i,right,left\n");
  CHECK(typed("book import " + (folder / "r.csv") + " --pupil Wren" + book).complains("expected left"));
}

TEST_CASE("a lesson goes out as a sightings file that says the same") {
  const Folder folder;
  const std::string lesson = begin(folder / "b");
  const Typed csv = typed("book export --lesson " + lesson + " --book " + (folder / "b"));
  REQUIRE(csv.code == 0);
  const auto one = read_table(csv.out, TableOptions{});
  std::ifstream demo("demo/lesson.csv");
  const auto two = read_table(std::string{std::istreambuf_iterator<char>(demo), {}}, TableOptions{});
  REQUIRE(one.has_value());
  REQUIRE(two.has_value());
  REQUIRE(one->size() == two->size());
  for (std::size_t k = 0; k < one->size(); ++k) {
    CHECK((*one)[k].club == (*two)[k].club);
    REQUIRE((*one)[k].sightings.size() == (*two)[k].sightings.size());
    for (const Sighting& s : (*two)[k].sightings)
      CHECK(std::count((*one)[k].sightings.begin(), (*one)[k].sightings.end(), s) == 1);
  }
}

TEST_CASE("a book goes out as JSON and comes back the same") {
  const Folder folder;
  begin(folder / "b");
  const Typed out = typed("book export --json --book " + (folder / "b"));
  CHECK(out.json()["lessons"].size() == 1);
  CHECK(out.json()["lessons"][0]["id"].is_string());
  write(folder / "b.json", out.out);
  const Typed in = typed("book import " + (folder / "b.json") + " --book " + (folder / "c"));
  CHECK(in.says("14 records came in."));
  CHECK(typed("book export --book " + (folder / "c")).out == out.out);
  CHECK(typed("book import - --book " + (folder / "c"), out.out).says("0 records came in."));
}

TEST_CASE("a backup is a book and is never written over another file") {
  const Folder folder;
  begin(folder / "b");
  CHECK(typed("book backup " + (folder / "copy") + " --book " + (folder / "b")).code == 0);
  CHECK(typed("book check --book " + (folder / "copy")).says("12 swings"));
  const Typed again = typed("book backup " + (folder / "copy") + " --book " + (folder / "b"));
  CHECK(again.code == 2);
  CHECK(again.complains("there already"));
}

TEST_CASE("a pupil is erased by whole name or id, and by nothing less") {
  const Folder folder;
  begin(folder / "b");
  const std::string book = " --book " + (folder / "b");
  CHECK(typed("book erase Rob" + book).complains("nobody of that id or whole name"));
  const Typed gone = typed("book erase Robin --json" + book);
  CHECK(gone.code == 0);
  CHECK(gone.json()["lessons"] == 1);
  CHECK(gone.json()["swings"] == 12);
  CHECK(typed("book check --json" + book).json()["pupils"] == 0);
}

TEST_CASE("of two pupils of one name the id decides") {
  const Folder folder;
  {
    auto book = open_book(folder / "b");
    for (const char* id : {"one", "two"}) REQUIRE((*book)->keep(Pupil{.id = id, .name = "Robin"}, "test"));
  }
  const std::string book = " --book " + (folder / "b");
  const Typed which = typed("book erase Robin" + book);
  CHECK(which.code == 2);
  CHECK(which.complains("2 of that name"));
  CHECK(which.complains("one or two"));
  CHECK(typed("book erase two" + book).code == 0);
  CHECK(typed("book import demo/lesson.csv --pupil Robin" + book).code == 0);
}

TEST_CASE("a sightings file with faults changes nothing, not even the pupils") {
  const Folder folder;
  write(folder / "l.csv", "club,carry_m\n7i,140\n7i,far\n7i,150\n7i,high\n");
  const Typed in = typed("book import " + (folder / "l.csv") + " --pupil Robin --book " + (folder / "b"));
  CHECK(in.code == 2);
  CHECK(in.complains("l.csv:3:2, carry_m: found 'far'"));
  CHECK(in.complains("l.csv:5:2, carry_m: found 'high'"));
  CHECK(typed("book check --json --book " + (folder / "b")).json()["pupils"] == 0);
  write(folder / "l.csv", "club,hand,carry_m\n7i,left,140\n7i,right,140\n");
  CHECK(typed("book import " + (folder / "l.csv") + " --pupil Robin --book " + (folder / "b"))
            .complains("l.csv:3, hand: found another hand than the pupil's, expected left"));
  write(folder / "l.csv", "club,carry_m\n");
  CHECK(typed("book import " + (folder / "l.csv") + " --pupil Robin --book " + (folder / "b"))
            .complains("no swings"));
  CHECK(typed("book check --json --book " + (folder / "b")).json()["pupils"] == 0);
}

TEST_CASE("headings in capitals and blanks around cells are understood and kept plainly") {
  const Folder folder;
  write(folder / "l.csv", "Club, Carry_YD ,swing\n7i, 140 ,3\n");
  const std::string book = " --book " + (folder / "b");
  const std::string lesson =
      typed("book import " + (folder / "l.csv") + " --pupil Robin --json" + book).json()["lesson"];
  CHECK(typed("book export --lesson " + lesson + book).says("carry_yd\n7i,normal,yes,fairway,right,,140\n"));
}

TEST_CASE("a word that does not belong to the action is a fault, and no book is made by mistake") {
  const Folder folder;
  const std::string book = " --book " + (folder / "b");
  CHECK(typed("book export" + book).complains("no such file"));
  CHECK(typed("book check" + book).code == 2);
  CHECK_FALSE(fs::exists(folder / "b"));
  begin(folder / "b");
  CHECK(typed("book check more" + book).complains("nothing more"));
  CHECK(typed("book erase" + book).complains("no PUPIL"));
  CHECK(typed("book import" + book).complains("no FILE"));
  CHECK(typed("book import demo/lesson.csv" + book).complains("--pupil: found nothing"));
  CHECK(typed("book check --lesson x" + book).complains("with export only"));
  CHECK(typed("book export --pupil x" + book).complains("with import only"));
  CHECK(typed("book import nothing.json" + book).complains("no such file"));
  CHECK(typed("book export --lesson none" + book).complains("lesson none: found nothing of that id"));
  CHECK(typed("book check").complains("no --book"));
}

TEST_CASE("a damaged book ends the check with exit code 1 and says what is wrong") {
  const Folder folder;
  // Enough swings for the last pages of the file to be theirs.
  std::string rows = "club,carry_m,contact\n";
  for (int k = 0; k < 400; ++k) rows += "7i,140,clean\n";
  write(folder / "l.csv", rows);
  REQUIRE(typed("book import " + (folder / "l.csv") + " --pupil Robin --book " + (folder / "b")).code == 0);
  std::fstream file(folder / "b", std::ios::in | std::ios::out | std::ios::binary);
  const auto size = static_cast<std::streamoff>(fs::file_size(folder / "b"));
  for (std::streamoff at = size - 3 * 4096; at < size; at += 4096) {
    file.seekp(at);
    file.write("garbage!", 8);
  }
  file.close();
  const Typed check = typed("book check --book " + (folder / "b"));
  CHECK(check.code == 1);
  CHECK(check.says("NOT sound"));
  CHECK(typed("book check --json --book " + (folder / "b")).json()["sound"] == false);
}
