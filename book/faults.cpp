#include "book/faults.hpp"

#include <fmt/format.h>
#include <sqlite3.h>

#include "book/book.hpp"
#include "book/entered.hpp"
#include "quantity/nearest.hpp"

namespace strikewright::kept {
namespace {

constexpr std::string_view kAbsent = "nothing of that id in the book";
constexpr std::string_view kConflict = "something else under that id in the book: another ";
constexpr std::string_view kBook = "book ";

}  // namespace

std::string called(const std::string& kind, const std::string& id) {
  return kind + " " + (is_id(id) ? id : strikewright::quoted(id));
}

Fault absent(const std::string& kind, const std::string& id) {
  return {called(kind, id), std::string(kAbsent), "the id of a " + kind + " that is in it"};
}

Fault conflict(const std::string& kind, const std::string& id, const std::string& field) {
  return {called(kind, id), std::string(kConflict) + field, "the same, or an id that is not taken"};
}

Fault of_the_file(const std::string& file, std::string found, std::string expected) {
  return {std::string(kBook) + file, std::move(found), std::move(expected)};
}

Fault fault_of_code(const std::string& file, int code, const std::string& message) {
  switch (code & 0xff) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return of_the_file(file, "a file locked by another program",
                         "to have it for a moment: close the other program");
    case SQLITE_FULL:
      return of_the_file(file, "a full disk", "room for the change; nothing of it was kept");
    case SQLITE_READONLY:
    case SQLITE_PERM:
      return of_the_file(file, "a file or folder that may only be read", "one that may be written");
    case SQLITE_CANTOPEN:
      return of_the_file(file, "a file that cannot be opened",
                         "a file in a folder that may be read and written");
    case SQLITE_NOTADB:
      return of_the_file(file, "a file that is not a database", "a book of this program");
    case SQLITE_CORRUPT:
      return of_the_file(file, "a damaged database", "a sound one: take a copy of it and a backup");
    case SQLITE_IOERR:
      return of_the_file(file, "a disk that does not take or give its bytes (" + message + ")",
                         "room and a disk that works; nothing of the change was kept");
    default:
      return of_the_file(file, fmt::format("'{}' from the database (code {})", message, code),
                         "a sound file: strikewright book check tells more");
  }
}

}  // namespace strikewright::kept

namespace strikewright {

bool is_absent(const Fault& fault) { return fault.found == kept::kAbsent; }
bool is_conflict(const Fault& fault) { return fault.found.rfind(kept::kConflict, 0) == 0; }
bool is_of_the_file(const Fault& fault) { return fault.place.rfind(kept::kBook, 0) == 0; }

}  // namespace strikewright
