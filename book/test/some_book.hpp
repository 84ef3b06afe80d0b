#pragma once
// A book in a folder of its own, gone at the end of the test; and invented records to put into it.

#include <doctest/doctest.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "book/book.hpp"

namespace strikewright {

class Folder {
 public:
  Folder() {
    std::string name = (std::filesystem::temp_directory_path() / "book-test-XXXXXX").string();
    path_ = mkdtemp(name.data());
  }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  [[nodiscard]] std::string operator/(const std::string& name) const { return (path_ / name).string(); }
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

inline std::unique_ptr<Book> opened(const std::string& file) {
  Result<std::unique_ptr<Book>> book = open_book(file);
  REQUIRE_MESSAGE(book.has_value(), book.error().sentence());
  return *std::move(book);
}

/// What must be there.
template <class T>
T good(Result<T> result) {
  REQUIRE_MESSAGE(result.has_value(), (result ? "" : result.error().sentence()));
  if constexpr (!std::is_void_v<T>) return *std::move(result);
}

/// What must be refused.
template <class T>
Fault bad(const Result<T>& result) {
  REQUIRE_FALSE(result.has_value());
  return result.error();
}

inline std::string contents(const std::string& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

inline void write(const std::string& file, const std::string& text) {
  std::ofstream(file, std::ios::binary) << text;
}

inline Pupil some_pupil(const Id& id = "robin", const std::string& name = "Robin Furrow") {
  Pupil pupil{.id = id, .name = name};
  pupil.height_m = 1.78;
  pupil.birth_year = 1971;
  pupil.notes = "slices\nwhen tired";
  pupil.cautions = "left knee";
  pupil.made_at = "2026-11-01T09:00:00Z";
  return pupil;
}

inline Lesson some_lesson(const Id& id = "first", const Id& pupil = "robin",
                          const std::string& begun_at = "2026-11-20T10:00:00Z") {
  return {.id = id, .pupil = pupil, .begun_at = begun_at, .place = "the far end", .notes = "wind"};
}

inline KeptSwing some_swing(const Id& id = "swing-1", const Id& lesson = "first") {
  return {.id = id,
          .lesson = lesson,
          .at = "2026-11-20T10:05:00Z",
          .seen = {{"divot_start_mm", "-20"}, {"contact", "fat"}, {"carry_yd", "140"}}};
}

/// One pupil, one lesson.
inline std::unique_ptr<Book> begun(const std::string& file) {
  std::unique_ptr<Book> book = opened(file);
  good(book->keep(some_pupil(), "coach"));
  good(book->keep(some_lesson(), "coach"));
  return book;
}

}  // namespace strikewright
