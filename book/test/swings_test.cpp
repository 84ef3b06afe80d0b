// Swings: sent, sent again, changed, taken out, put back.

#include <thread>

#include "some_book.hpp"

using namespace strikewright;

TEST_CASE("a swing sent twice is one swing") {
  const Folder folder;
  const auto book = begun(folder / "b");
  const auto revision = good(book->keep(some_swing(), "phone"));
  CHECK(good(book->keep(some_swing(), "phone")) == revision);
  CHECK(good(book->swings_of("first")).size() == 1);
  CHECK(good(book->changes_of("swing-1")).size() == 1);
}

TEST_CASE("swings are numbered in the order in which they came, for ever") {
  const Folder folder;
  const auto book = begun(folder / "b");
  for (const char* id : {"c", "a", "b"}) good(book->keep(some_swing(id), "coach"));
  good(book->remove_swing("b", "coach"));
  good(book->keep(some_swing("d"), "coach"));
  KeptSwing changed = some_swing("c");
  changed.club = "pw";
  good(book->keep(changed, "coach"));
  std::string order;
  for (const KeptSwing& swing : good(book->swings_of("first")))
    order += swing.id + std::to_string(swing.number);
  CHECK(order == "c1a2d4");
}

TEST_CASE("every change of a swing is kept with who and when") {
  const Folder folder;
  const auto book = begun(folder / "b");
  KeptSwing swing = some_swing();
  good(book->keep(swing, "coach"));
  swing.seen = {{"divot_start_mm", "-35"}, {"contact", "  "}};
  swing.club = "8i";
  good(book->keep(swing, "phone"));
  good(book->remove_swing("swing-1", "phone"));
  good(book->remove_swing("swing-1", "phone"));
  CHECK(good(book->swings_of("first")).empty());
  good(book->keep(swing, "coach"));
  const auto changes = good(book->changes_of("swing-1"));
  REQUIRE(changes.size() == 4);
  CHECK(changes[0].what == "added");
  CHECK(changes[0].who == "coach");
  CHECK(changes[0].club == "7i");
  CHECK(changes[0].seen == some_swing().seen);
  CHECK(changes[1].what == "changed");
  CHECK(changes[1].who == "phone");
  CHECK(changes[1].seen == std::vector<Entered>{{"divot_start_mm", "-35"}});
  CHECK(changes[2].what == "removed");
  CHECK(changes[3].what == "put back");
  CHECK(changes[3].number == 4);
  for (const SwingChange& change : changes)
    CHECK(change.at.size() == std::string("2026-11-20T10:05:00.000Z").size());
  CHECK(good(book->swings_of("first"))[0].number == 1);
}

TEST_CASE("of several swings all are kept or none") {
  const Folder folder;
  const auto book = begun(folder / "b");
  good(book->keep(some_lesson("second"), "coach"));
  good(book->keep(some_swing("there", "second"), "coach"));
  CHECK(is_conflict(bad(book->keep_all({some_swing("a"), some_swing("there")}, "coach"))));
  CHECK(bad(book->keep_all({some_swing("a"), some_swing("b", "second")}, "coach")).place ==
        "lesson of swing b");
  CHECK(bad(book->keep_all({some_swing("a"), some_swing("a")}, "coach")).found == "it twice");
  CHECK(bad(book->keep_all({}, "coach")).expected == "one at least");
  CHECK(good(book->swings_of("first")).empty());
  CHECK(good(book->lesson("first")).revision == 1);
  CHECK(good(book->keep_all({some_swing("a"), some_swing("b")}, "coach")) == 2);
  CHECK(good(book->swings_of("first")).size() == 2);
}

TEST_CASE("two threads that enter swings into one lesson lose none") {
  const Folder folder;
  const auto book = begun(folder / "b");
  const auto enter = [&](const std::string& who) {
    for (int k = 0; k < 40; ++k) (void)book->keep(some_swing(who + std::to_string(k)), who);
  };
  std::thread one(enter, "one-"), two(enter, "two-");
  one.join();
  two.join();
  const auto swings = good(book->swings_of("first"));
  REQUIRE(swings.size() == 80);
  for (int k = 0; k < 80; ++k) CHECK(swings[static_cast<std::size_t>(k)].number == k + 1);
  CHECK(good(book->lesson("first")).revision == 81);
}

TEST_CASE("two books on one file see each other's swings") {
  const Folder folder;
  const auto one = begun(folder / "b");
  const auto two = opened(folder / "b");
  good(one->keep(some_swing("a"), "one"));
  good(two->keep(some_swing("b"), "two"));
  CHECK(good(one->swings_of("first")).size() == 2);
  CHECK(good(two->swings_of("first"))[1].number == 2);
}
