#include "book/store.hpp"

#include <sqlite3.h>

#include <filesystem>

namespace strikewright::kept {

// Made absolute, because SQLite gives some bare names (":memory:") a meaning of their own.
Store::Store(std::string file, int flags)
    : file_{std::move(file)}, database_{std::filesystem::absolute(file_).string(), flags, kPatienceMs} {
  // A file from elsewhere shall not run anything of its own, nor be believed about the size of its cells.
  sqlite3_db_config(database_.getHandle(), SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  sqlite3_db_config(database_.getHandle(), SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
  database_.exec("PRAGMA cell_size_check = ON");
  database_.exec("PRAGMA foreign_keys = ON");
  database_.exec("PRAGMA secure_delete = ON");
  database_.exec("PRAGMA synchronous = FULL");
}

SQLite::Statement& Store::prepared(const char* sql) {
  std::unique_ptr<SQLite::Statement>& statement = statements_[sql];
  if (!statement) statement = std::make_unique<SQLite::Statement>(database_, sql);
  return *statement;
}

std::int64_t Store::pragma_number(const char* name) {
  return database_.execAndGet(std::string("PRAGMA ") + name).getInt64();
}

std::string Store::pragma_text(const char* sql) {
  return database_.execAndGet(std::string("PRAGMA ") + sql).getString();
}

}  // namespace strikewright::kept
