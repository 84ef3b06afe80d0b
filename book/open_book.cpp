// What stands in the way of opening a book, and moving an older one up.

#include <fmt/format.h>
#include <sqlite3.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "book/file.hpp"
#include "book/migrations.hpp"
#include "book/sqlite_book.hpp"

namespace strikewright::kept {
namespace {

namespace fs = std::filesystem;

bool begins_like_a_database(const std::string& file) {
  constexpr std::string_view kBegin{"SQLite format 3\0", 16};
  std::ifstream stream(file, std::ios::binary);
  std::string begin(kBegin.size(), ' ');
  stream.read(begin.data(), static_cast<std::streamsize>(begin.size()));
  return stream && begin == kBegin;
}

/// Is the file a place for a book? An empty file is taken for a new one.
Result<void> look_at(const std::string& file) {
  std::error_code failed;
  if (file.empty()) return unexpected(of_the_file("''", "no name", "a file name such as lessons.book"));
  const fs::path path = fs::absolute(file);
  if (!fs::is_directory(path.parent_path(), failed))
    return unexpected(of_the_file(file, "no such folder", "a folder that is there"));
  if (fs::is_directory(path, failed)) return unexpected(of_the_file(file, "a folder", "a file"));
  if (!fs::exists(path, failed)) return {};
  if (!fs::is_regular_file(path, failed))
    return unexpected(of_the_file(file, "something that is not a plain file", "a file"));
  if (::access(path.c_str(), R_OK) != 0) return unexpected(fault_of_code(file, SQLITE_CANTOPEN, ""));
  if (::access(path.c_str(), W_OK) != 0) return unexpected(fault_of_code(file, SQLITE_READONLY, ""));
  if (fs::file_size(path, failed) > 0 && !begins_like_a_database(file))
    return unexpected(fault_of_code(file, SQLITE_NOTADB, ""));
  return {};
}

/// Is the database a book that this version understands? Nothing is written before that is known.
Result<void> look_into(Store& store) {
  const std::int64_t owner = store.pragma_number("application_id"),
                     schema = store.pragma_number("user_version");
  const bool empty = store.database().execAndGet("SELECT count(*) FROM sqlite_schema").getInt() == 0;
  if (empty && schema == 0 && owner == 0) return {};
  if (owner != kApplicationId)
    return unexpected(of_the_file(store.file(), "another program's database", "a book of this program"));
  if (schema > newest_schema())
    return unexpected(of_the_file(store.file(), fmt::format("a book of schema {}", schema),
                                  fmt::format("at most {}: use a newer strikewright", newest_schema())));
  if (sqlite3_db_readonly(store.database().getHandle(), "main") != 0)
    return unexpected(fault_of_code(store.file(), SQLITE_READONLY, ""));
  return {};
}

/// An older book, with a copy kept; a copy of a book that stayed what it was is of no use.
Result<void> move_up_with_copy(Store& store) {
  const Result<std::string> copy = copy_before(store, newest_schema());
  if (!copy) return unexpected(copy.error());
  const Result<void> moved = guarded(store.file(), [&]() -> Result<void> {
    move_up(store);
    return {};
  });
  std::error_code ignored;
  if (!moved) fs::remove(*copy, ignored);
  return moved;
}

Result<void> bring_up(Store& store) {
  const auto schema = static_cast<int>(store.pragma_number("user_version"));
  if (schema == 0) move_up(store);
  if (schema > 0 && schema < newest_schema()) {
    if (auto moved = move_up_with_copy(store); !moved) return moved;
  }
  if (const std::string mode = store.pragma_text("journal_mode = WAL"); mode != "wal")
    return unexpected(of_the_file(store.file(), "a disk on which a book cannot be shared between programs",
                                  "a disk of this machine"));
  return {};
}

Result<std::unique_ptr<SqliteBook>> opened(const std::string& file) {
  return guarded(file, [&]() -> Result<std::unique_ptr<SqliteBook>> {
    auto store = std::make_unique<Store>(file, SQLite::OPEN_READWRITE);
    if (auto good = look_into(*store); !good) return unexpected(good.error());
    if (auto good = bring_up(*store); !good) return unexpected(good.error());
    return std::make_unique<SqliteBook>(std::move(store));
  });
}

}  // namespace

}  // namespace strikewright::kept

namespace strikewright {

Result<std::unique_ptr<Book>> open_book(const std::string& file) {
  if (auto good = kept::look_at(file); !good) return unexpected(good.error());
  std::error_code failed;
  const bool made = !std::filesystem::exists(file, failed);
  if (made) {
    if (auto good = kept::make_private(file, file); !good) return unexpected(good.error());
  }
  Result<std::unique_ptr<kept::SqliteBook>> book = kept::opened(file);
  if (!book) {
    // A file that we made and could not fill is nobody's book.
    if (made && std::filesystem::file_size(file, failed) == 0) std::filesystem::remove(file, failed);
    return unexpected(book.error());
  }
  (*book)->clean_if_owed();
  return *std::move(book);
}

}  // namespace strikewright
