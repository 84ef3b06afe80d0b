// What can stand in the way of a book's file: each is said, and nothing is damaged.

#include <SQLiteCpp/SQLiteCpp.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>

#include <thread>

#include "some_book.hpp"

using namespace strikewright;

namespace {

/// Runs `work` in a child process; what it wrote of a fault, or "" when it found none.
template <class Work>
std::string in_child(const Folder& folder, const Work& work) {
  const std::string said = folder / "said";
  write(said, "");
  ::chmod(said.c_str(), 0666);
  const pid_t child = ::fork();
  if (child == 0) {
    write(said, work());
    ::_exit(0);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  CHECK(status == 0);
  return contents(said);
}

std::string sentence(const Result<std::unique_ptr<Book>>& book) {
  return book ? "" : book.error().sentence();
}

/// Nobody in particular: root may write anywhere.
void become_nobody() {
  if (::geteuid() == 0 && (::setgid(65534) != 0 || ::setuid(65534) != 0)) ::_exit(9);
}

}  // namespace

TEST_CASE("a file that is not a database is left as it is") {
  const Folder folder;
  for (const std::string& text : {std::string("club,carry_m\n7i,140\n"), std::string(5000, 'x'),
                                  std::string("SQLite format 3\0 and then not", 29)}) {
    write(folder / "b", text);
    const Fault fault = bad(open_book(folder / "b"));
    CHECK(fault.place == "book " + (folder / "b"));
    CHECK(fault.found == "a file that is not a database");
    CHECK(is_of_the_file(fault));
    CHECK(contents(folder / "b") == text);
  }
}

TEST_CASE("another program's database is left as it is") {
  const Folder folder;
  {
    SQLite::Database(folder / "b", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE)
        .exec("CREATE TABLE pupil (id)");
  }
  const std::string before = contents(folder / "b");
  CHECK(bad(open_book(folder / "b")).found == "another program's database");
  CHECK(contents(folder / "b") == before);
}

TEST_CASE("a book of a newer schema is left as it is") {
  const Folder folder;
  { begun(folder / "b"); }
  { SQLite::Database(folder / "b", SQLite::OPEN_READWRITE).exec("PRAGMA user_version = 99"); }
  const std::string before = contents(folder / "b");
  const Fault fault = bad(open_book(folder / "b"));
  CHECK(fault.found == "a book of schema 99");
  CHECK(fault.expected.find("newer strikewright") != std::string::npos);
  CHECK(contents(folder / "b") == before);
}

TEST_CASE("no folder, a folder for a file, no name") {
  const Folder folder;
  CHECK(bad(open_book(folder / "no/such/b")).found == "no such folder");
  CHECK(bad(open_book(folder.path().string())).found == "a folder");
  CHECK(bad(open_book("")).found == "no name");
  CHECK_FALSE(std::filesystem::exists(folder / "no"));
}

TEST_CASE("a book that may only be read, or stands in such a folder, says so") {
  const Folder folder;
  std::filesystem::create_directory(folder / "in");
  { begun(folder / "in/b"); }
  const std::string before = contents(folder / "in/b");
  ::chmod(folder.path().c_str(), 0755);
  ::chmod((folder / "in/b").c_str(), 0444);
  ::chmod((folder / "in").c_str(), 0555);
  const auto try_open = [&](const std::string& name) {
    return in_child(folder, [&] {
      become_nobody();
      return sentence(open_book(folder / name));
    });
  };
  CHECK(try_open("in/b").find("may only be read") != std::string::npos);
  CHECK(try_open("in/new").find("may only be read") != std::string::npos);
  ::chmod((folder / "in/b").c_str(), 0666);
  CHECK(try_open("in/b").find("found ") != std::string::npos);
  CHECK(contents(folder / "in/b") == before);
  ::chmod((folder / "in").c_str(), 0755);
  CHECK(good(opened(folder / "in/b")->pupil("robin")) == some_pupil());
}

TEST_CASE("a new book and its copies may be read by their owner only") {
  const Folder folder;
  const auto book = begun(folder / "b");
  good(book->backup(folder / "copy"));
  for (const char* name : {"b", "b-wal", "copy"}) {
    struct stat of {};
    REQUIRE(::stat((folder / name).c_str(), &of) == 0);
    CHECK_MESSAGE((of.st_mode & 0777) == 0600, name);
  }
}

TEST_CASE("a book that another process holds locked says so, and is there when it lets go") {
  const Folder folder;
  { begun(folder / "b"); }
  int ready[2] = {}, go[2] = {};
  REQUIRE(::pipe(ready) == 0);
  REQUIRE(::pipe(go) == 0);
  const pid_t child = ::fork();
  if (child == 0) {
    SQLite::Database held(folder / "b", SQLite::OPEN_READWRITE);
    held.exec("PRAGMA locking_mode = EXCLUSIVE");
    held.exec("BEGIN EXCLUSIVE");
    char c = 'x';
    if (::write(ready[1], &c, 1) != 1 || ::read(go[0], &c, 1) != 1) ::_exit(1);
    ::_exit(0);
  }
  char c = 'x';
  REQUIRE(::read(ready[0], &c, 1) == 1);
  const auto locked = open_book(folder / "b");
  REQUIRE(::write(go[1], &c, 1) == 1);
  int status = 0;
  ::waitpid(child, &status, 0);
  CHECK(bad(locked).found == "a file locked by another program");
  CHECK(good(opened(folder / "b")->pupil("robin")) == some_pupil());
}

TEST_CASE("a disk that takes no more loses only what it did not take") {
  const Folder folder;
  { begun(folder / "b"); }
  // A child that may write files of 200 kB at most stands for a full disk.
  const std::string said = in_child(folder, [&]() -> std::string {
    ::signal(SIGXFSZ, SIG_IGN);
    const rlimit most{200'000, 200'000};
    if (::setrlimit(RLIMIT_FSIZE, &most) != 0) return "no limit";
    auto book = open_book(folder / "b");
    if (!book) return sentence(book);
    for (int k = 0; k < 10'000; ++k) {
      const auto kept = (*book)->keep(some_swing("s" + std::to_string(k)), "coach");
      if (!kept) return std::to_string(k) + " " + kept.error().sentence();
    }
    return "never full";
  });
  CHECK(said.find("nothing of the change was kept") != std::string::npos);
  const auto book = opened(folder / "b");
  CHECK(good(book->swings_of("first")).size() == std::stoul(said));
  CHECK(good(book->check()).sound);
  good(book->keep(some_swing("after"), "coach"));
}

TEST_CASE("a backup that the disk does not take leaves nothing half-written") {
  const Folder folder;
  {
    const auto book = begun(folder / "b");
    Pupil pupil = some_pupil();
    pupil.bag = std::string(300'000, 'x');
    good(book->keep(pupil, "coach"));
  }
  const std::string said = in_child(folder, [&]() -> std::string {
    ::signal(SIGXFSZ, SIG_IGN);
    const rlimit most{200'000, 200'000};
    auto book = open_book(folder / "b");
    if (!book || ::setrlimit(RLIMIT_FSIZE, &most) != 0) return "not begun";
    const auto kept = (*book)->backup(folder / "copy");
    return kept ? "it went" : kept.error().sentence();
  });
  CHECK(said.find("book " + (folder / "copy")) == 0);
  CHECK_FALSE(std::filesystem::exists(folder / "copy"));
  CHECK_FALSE(std::filesystem::exists(folder / "copy.part"));
}

TEST_CASE("a backup of an open book is a book, and never overwrites") {
  const Folder folder;
  const auto book = begun(folder / "b");
  good(book->keep(some_swing(), "coach"));
  good(book->backup(folder / "copy"));
  CHECK(bad(book->backup(folder / "copy")).found == "a file that is there already");
  CHECK(bad(book->backup(folder / "b")).found == "a file that is there already");
  CHECK(bad(book->backup(folder / "no/copy")).expected == "a file that can be made");
  good(book->keep(some_swing("after"), "coach"));
  const auto copy = opened(folder / "copy");
  CHECK(good(copy->swings_of("first")).size() == 1);
  CHECK(good(copy->check()).sound);
  CHECK_FALSE(std::filesystem::exists(folder / "copy.part"));
}

TEST_CASE("a check finds bytes that are not as they were, and rows that belong to nothing") {
  const Folder folder;
  { begun(folder / "b"); }
  {
    SQLite::Database raw(folder / "b", SQLite::OPEN_READWRITE);
    raw.exec("INSERT INTO swing (id, lesson, number, removed, changes) VALUES ('lost', 77, 1, 0, 1)");
  }
  const BookCheck rows = good(opened(folder / "b")->check());
  CHECK_FALSE(rows.sound);
  CHECK(rows.complaints == std::vector<std::string>{"a row of swing belongs to nothing",
                                                    "1 swings without all of their changes"});
  std::string bytes = contents(folder / "b");
  for (std::size_t page = 2; page < bytes.size() / 4096; ++page) bytes[page * 4096] = 'X';
  write(folder / "b", bytes);
  const auto book = open_book(folder / "b");
  CHECK((book ? good((*book)->check()).sound : false) == false);
}

TEST_CASE("an empty file is taken for a new book, and a book for what it is under any name") {
  const Folder folder;
  write(folder / "b", "");
  CHECK(good(opened(folder / "b")->check()).sound);
  const std::filesystem::path before = std::filesystem::current_path();
  std::filesystem::current_path(folder.path());
  begun(":memory:");
  std::filesystem::current_path(before);
  CHECK(good(opened(folder / ":memory:")->pupil("robin")) == some_pupil());
}
