// The program is killed while it writes: every swing that was acknowledged is there.

#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <map>
#include <random>
#include <sstream>

#include "some_book.hpp"

using namespace strikewright;

namespace {

KeptSwing numbered(const std::string& id, int value) {
  KeptSwing swing = some_swing(id);
  swing.seen = {{"divot_start_mm", std::to_string(value)}};
  return swing;
}

/// Writes swings until it is killed: new ones, changed ones, three at once. After each it says so, "ID
/// VALUE".
[[noreturn]] void write_for_ever(const std::string& file, int round, int door) {
  auto book = open_book(file);
  if (!book) ::_exit(2);
  std::mt19937 draws(static_cast<unsigned>(round));
  const std::string begin = "r" + std::to_string(round) + "-";
  for (int n = 1;; ++n) {
    const auto what = static_cast<int>(draws() % 10);
    const std::string id = begin + std::to_string(what < 3 ? 1 + static_cast<int>(draws() % 5) : n);
    const bool three = what == 9;
    const auto kept =
        three ? (*book)->keep_all({numbered(id + "a", n), numbered(id + "b", n), numbered(id + "c", n)}, "t")
              : (*book)->keep(numbered(id, n), "t");
    if (!kept) ::_exit(3);
    const std::string line = (three ? id + "c" : id) + " " + std::to_string(n) + "\n";
    if (::write(door, line.data(), line.size()) < 0) ::_exit(4);
  }
}

/// Lets a child write, kills it somewhere behind its `after`th acknowledgement; what it acknowledged.
std::string killed_writer(const std::string& file, int round, int after, int delay_us) {
  int doors[2] = {};
  REQUIRE(::pipe(doors) == 0);
  const pid_t child = ::fork();
  if (child == 0) {
    ::close(doors[0]);
    write_for_ever(file, round, doors[1]);
  }
  ::close(doors[1]);
  std::string said;
  char c = 0;
  for (int lines = 0; lines < after && ::read(doors[0], &c, 1) == 1; lines += c == '\n') said += c;
  ::usleep(static_cast<useconds_t>(delay_us));
  ::kill(child, SIGKILL);
  while (::read(doors[0], &c, 1) == 1) said += c;
  ::close(doors[0]);
  int status = 0;
  ::waitpid(child, &status, 0);
  CHECK(WIFSIGNALED(status));
  return said;
}

/// The newest value that was acknowledged for each swing.
void listen(const std::string& said, std::map<Id, int>& acknowledged) {
  std::istringstream lines(said);
  Id id;
  for (int value = 0; lines >> id >> value;) acknowledged[id] = value;
}

void kill_many(int rounds) {
  const Folder folder;
  { begun(folder / "b"); }
  std::map<Id, int> acknowledged;
  std::mt19937 draws(20261126);
  for (int round = 0; round < rounds; ++round) {
    const int after = static_cast<int>(draws() % 12), delay = static_cast<int>(draws() % 4000);
    listen(killed_writer(folder / "b", round, after, delay), acknowledged);
    const auto book = opened(folder / "b");
    REQUIRE(good(book->check()).sound);
    std::map<Id, int> there;
    for (const KeptSwing& swing : good(book->swings_of("first")))
      there[swing.id] = std::stoi(swing.seen.at(0).text);
    for (const auto& [id, value] : acknowledged) REQUIRE_MESSAGE(there[id] >= value, id);
    for (const auto& [id, value] : there) {
      if (id.back() == 'c') REQUIRE(there.count(id.substr(0, id.size() - 1) + "a") == 1);
      if (id.back() == 'a') REQUIRE(there.count(id.substr(0, id.size() - 1) + "c") == 1);
    }
  }
  CHECK(acknowledged.size() > static_cast<std::size_t>(rounds));
}

}  // namespace

TEST_CASE("every acknowledged swing outlives 50 kills of the program") { kill_many(50); }

TEST_SUITE("long") {
  TEST_CASE("every acknowledged swing outlives 500 kills of the program") { kill_many(500); }
}
