// How long the calls take that a page makes of the book, and backup and check, in a book of
// STRIKEWRIGHT_BOOK_LESSONS lessons (40 if not given) of 30 swings each, with a reading of
// STRIKEWRIGHT_BOOK_READING_KB kB (60) for every lesson. Each bench looks at what it got.

#include <benchmark/benchmark.h>
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <random>
#include <string>
#include <vector>

#include "book/book.hpp"

namespace {

using namespace strikewright;

constexpr int kSwings = 30, kLessonsOfPupil = 25;

int size_of(const char* name, int standard) {
  const char* given = std::getenv(name);
  return given == nullptr ? standard : std::max(1, std::atoi(given));
}

/// Figures as a reading has them: text that looks like it and takes its room.
std::string document_of(std::mt19937& draws, std::size_t bytes) {
  std::string out = "{\"cloud\":[";
  while (out.size() < bytes)
    out += fmt::format("[{:.3f},{:.3f}],", 0.001 * static_cast<double>(draws() % 60'000),
                       0.001 * static_cast<double>(draws() % 9'000));
  return out + "[0,0]]}";
}

std::vector<KeptSwing> swings_of(const Id& lesson, std::mt19937& draws) {
  std::vector<KeptSwing> out;
  for (int k = 1; k <= kSwings; ++k) {
    const auto mm = [&](int low, int high) {
      return std::to_string(low + static_cast<int>(draws() % static_cast<unsigned>(high - low)));
    };
    out.push_back({.id = fmt::format("{}-{}", lesson, k),
                   .lesson = lesson,
                   .at = fmt::format("2026-01-01T10:{:02}:00Z", k),
                   .seen = {{"divot_start_mm", mm(-60, 40)},
                            {"divot_direction_deg", mm(-9, 9)},
                            {"strike_toe_mm", mm(-20, 20)},
                            {"start", "left"},
                            {"contact", "clean"},
                            {"carry_m", mm(90, 150)}}});
  }
  return out;
}

/// The generated book in a folder that goes at the end.
class Shelf {
 public:
  Shelf() {
    std::string name = (std::filesystem::temp_directory_path() / "book-bench-XXXXXX").string();
    folder_ = mkdtemp(name.data());
    book_ = *open_book(file());
    std::mt19937 draws(1);
    const auto bytes = static_cast<std::size_t>(size_of("STRIKEWRIGHT_BOOK_READING_KB", 60)) * 1000;
    for (int k = 0; k < lessons(); ++k) {
      const Id pupil = fmt::format("p{}", k / kLessonsOfPupil), lesson = fmt::format("l{}", k);
      if (k % kLessonsOfPupil == 0)
        good_ = good_ &&
                book_->keep(Pupil{.id = pupil, .name = fmt::format("Pupil Nº {}", k)}, "bench").has_value();
      const std::string day =
          fmt::format("20{:02}-{:02}-{:02}T10:00:00Z", 10 + k % 15, 1 + k % 12, 1 + k % 28);
      good_ = good_ &&
              book_->keep(Lesson{.id = lesson, .pupil = pupil, .begun_at = day}, "bench").has_value() &&
              book_->keep_all(swings_of(lesson, draws), "bench").has_value() &&
              book_
                  ->keep(KeptReading{.lesson = lesson,
                                     .revision = 2,
                                     .from = "usual",
                                     .version = "0.1.0",
                                     .made_at = day,
                                     .document = document_of(draws, bytes),
                                     .summary = document_of(draws, 300)})
                  .has_value();
    }
  }
  ~Shelf() {
    book_.reset();
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
  }
  Shelf(const Shelf&) = delete;
  Shelf& operator=(const Shelf&) = delete;

  static int lessons() { return size_of("STRIKEWRIGHT_BOOK_LESSONS", 40); }
  [[nodiscard]] std::string file() const { return folder_ / "b"; }
  [[nodiscard]] std::string beside() const { return folder_ / "copy"; }
  [[nodiscard]] bool good() const { return good_; }
  Book& book() { return *book_; }

 private:
  std::filesystem::path folder_;
  std::unique_ptr<Book> book_;
  bool good_ = true;
};

Shelf& shelf() {
  static Shelf one;
  return one;
}

/// Runs `call` (false = a wrong answer) with a lesson's number that goes through the book; the mean is the
/// bench's own, p95_ms the 95th percentile.
template <class Call>
void measure(benchmark::State& state, const Call& call) {
  using Clock = std::chrono::steady_clock;
  if (!shelf().good()) state.SkipWithError("the book could not be filled");
  std::vector<double> times;
  int k = 0;
  for (auto _ : state) {
    const auto begun = Clock::now();
    if (!call(shelf().book(), k)) state.SkipWithError("a wrong answer");
    times.push_back(std::chrono::duration<double, std::milli>(Clock::now() - begun).count());
    k = (k + 7919) % Shelf::lessons();
  }
  if (times.empty()) return;
  std::sort(times.begin(), times.end());
  state.counters["p95_ms"] = times[times.size() * 95 / 100];
  state.counters["swings"] = Shelf::lessons() * kSwings;
}

void list_of_pupils(benchmark::State& state) {
  measure(state, [](Book& book, int) {
    const auto lines = book.pupils("", 50, 0);
    return lines && !lines->empty() && lines->front().swings % kSwings == 0;
  });
}
BENCHMARK(list_of_pupils)->Unit(benchmark::kMillisecond);

void all_pupils(benchmark::State& state) {
  measure(state, [](Book& book, int) {
    const auto lines = book.pupils("", 1'000'000, 0);
    return lines && lines->size() == static_cast<std::size_t>((Shelf::lessons() - 1) / kLessonsOfPupil + 1);
  });
}
BENCHMARK(all_pupils)->Unit(benchmark::kMillisecond);

void search_for_a_pupil(benchmark::State& state) {
  measure(state, [](Book& book, int k) {
    const auto lines = book.pupils(fmt::format("pupil {}", k - k % kLessonsOfPupil), 50, 0);
    return lines && !lines->empty();
  });
}
BENCHMARK(search_for_a_pupil)->Unit(benchmark::kMillisecond);

void timeline_of_a_pupil(benchmark::State& state) {
  measure(state, [](Book& book, int k) {
    const auto lines = book.lessons_of(fmt::format("p{}", k / kLessonsOfPupil));
    return lines && !lines->empty() && lines->front().swings >= kSwings;
  });
}
BENCHMARK(timeline_of_a_pupil)->Unit(benchmark::kMillisecond);

void lesson_with_its_swings(benchmark::State& state) {
  measure(state, [](Book& book, int k) {
    const Id id = fmt::format("l{}", k);
    const auto swings = book.swings_of(id);
    return book.lesson(id) && swings && swings->size() >= kSwings;
  });
}
BENCHMARK(lesson_with_its_swings)->Unit(benchmark::kMillisecond);

void kept_reading(benchmark::State& state) {
  measure(state, [](Book& book, int k) {
    const auto reading = book.reading_of(fmt::format("l{}", k));
    return reading && *reading && !(*reading)->document.empty();
  });
}
BENCHMARK(kept_reading)->Unit(benchmark::kMillisecond);

void one_more_change_of_a_swing(benchmark::State& state) {
  int value = 0;
  measure(state, [&](Book& book, int k) {
    KeptSwing swing{.id = fmt::format("l{}-1", k), .lesson = fmt::format("l{}", k)};
    swing.seen = {{"divot_start_mm", std::to_string(++value)}};
    return book.keep(swing, "bench").has_value();
  });
}
BENCHMARK(one_more_change_of_a_swing)->Unit(benchmark::kMillisecond);

void open_a_book(benchmark::State& state) {
  measure(state, [](Book&, int) { return open_book(shelf().file()).has_value(); });
}
BENCHMARK(open_a_book)->Unit(benchmark::kMillisecond);

void backup(benchmark::State& state) {
  measure(state, [](Book& book, int) {
    const bool done = book.backup(shelf().beside()).has_value();
    return done && std::filesystem::remove(shelf().beside());
  });
  state.counters["MB"] = static_cast<double>(std::filesystem::file_size(shelf().file())) * 1e-6;
}
BENCHMARK(backup)->Unit(benchmark::kMillisecond);

void check(benchmark::State& state) {
  measure(state, [](Book& book, int) {
    const auto found = book.check();
    return found && found->sound && found->swings == Shelf::lessons() * kSwings;
  });
}
BENCHMARK(check)->Unit(benchmark::kMillisecond);

}  // namespace
