#include "book/file.hpp"

#include <SQLiteCpp/Backup.h>
#include <fcntl.h>
#include <sqlite3.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>

namespace strikewright::kept {
namespace {

namespace fs = std::filesystem;

constexpr const char* kPart = ".part";

void remove_with_companions(const std::string& path) {
  std::error_code ignored;
  for (const char* ending : {"", "-journal", "-wal", "-shm"}) fs::remove(path + ending, ignored);
}

Result<void> copy_into(Store& store, const std::string& part) {
  return guarded(part, [&]() -> Result<void> {
    SQLite::Database copy(part, SQLite::OPEN_READWRITE, kPatienceMs);
    {
      SQLite::Backup backup(copy, store.database());
      if (const int code = backup.executeStep(-1); code != SQLITE_DONE)
        return unexpected(fault_of_code(store.file(), code, "busy"));
    }
    // One file alone: nothing of the copy may lie in a second one.
    copy.exec("PRAGMA journal_mode = DELETE");
    return {};
  });
}

}  // namespace

Result<void> make_private(const std::string& shown, const std::string& path) {
  const int made = ::open(path.c_str(), O_CREAT | O_EXCL | O_WRONLY | O_CLOEXEC, 0600);
  if (made >= 0) {
    ::close(made);
    return {};
  }
  if (errno == EEXIST) return unexpected(of_the_file(shown, "a file that is there already", "a new name"));
  if (errno == ENOSPC || errno == EDQUOT) return unexpected(fault_of_code(shown, SQLITE_FULL, ""));
  if (errno == EACCES || errno == EROFS || errno == EPERM)
    return unexpected(fault_of_code(shown, SQLITE_PERM, ""));
  return unexpected(of_the_file(shown, std::strerror(errno), "a file that can be made"));
}

Result<void> copy_to(Store& store, const std::string& to) {
  std::error_code failed;
  if (fs::exists(to, failed))
    return unexpected(of_the_file(to, "a file that is there already", "a new name"));
  const std::string part = to + kPart;
  remove_with_companions(part);
  if (auto made = make_private(to, part); !made) return made;
  if (auto copied = copy_into(store, part); !copied) {
    remove_with_companions(part);
    return copied;
  }
  fs::rename(part, to, failed);
  if (!failed) return {};
  remove_with_companions(part);
  return unexpected(of_the_file(to, failed.message(), "a file that can be made"));
}

Result<std::string> copy_before(Store& store, int schema) {
  const std::string plain = store.file() + ".before-" + std::to_string(schema);
  std::string name = plain;
  for (int more = 2; fs::exists(name); ++more) name = plain + "-" + std::to_string(more);
  return copy_to(store, name).map([&] { return name; });
}

std::vector<std::string> copies_of(const std::string& file) {
  const fs::path whole = fs::absolute(file);
  const std::string begin = whole.filename().string() + ".before-";
  std::vector<std::string> out;
  std::error_code failed;
  for (const fs::directory_entry& entry : fs::directory_iterator(whole.parent_path(), failed)) {
    const std::string name = entry.path().filename().string();
    if (name.rfind(begin, 0) == 0 && entry.is_regular_file(failed)) out.push_back(entry.path().string());
  }
  std::sort(out.begin(), out.end());
  return out;
}

bool may_hold(const std::string& copy, const std::string& pupil) {
  try {
    SQLite::Database database(copy, SQLite::OPEN_READONLY, kPatienceMs);
    SQLite::Statement found(database, "SELECT 1 FROM pupil WHERE id = ?");
    found.bind(1, pupil);
    return found.executeStep();
  } catch (const SQLite::Exception&) {
    return true;
  }
}

Result<void> clean(Store& store) {
  return guarded(store.file(), [&]() -> Result<void> {
    store.database().exec("VACUUM");
    SQLite::Statement emptied(store.database(), "PRAGMA wal_checkpoint(TRUNCATE)");
    if (emptied.executeStep() && emptied.getColumn(0).getInt() == 0) return {};
    return unexpected(
        of_the_file(store.file(), "another program reading it",
                    "to have it alone: what was erased is gone from the book, but its file is to be cleaned"
                    " yet; close the other program, then erase once more or open the book again"));
  });
}

}  // namespace strikewright::kept
