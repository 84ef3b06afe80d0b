#pragma once
// One SQLite file, its prepared statements, and the doors through which its exceptions become faults.

#include <SQLiteCpp/SQLiteCpp.h>

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <unordered_map>

#include "book/faults.hpp"

namespace strikewright::kept {

/// How long a call waits for another program to let go of the file.
inline constexpr int kPatienceMs = 2000;

class Store {
 public:
  /// Throws SQLite::Exception. The file must be there unless `flags` say otherwise.
  Store(std::string file, int flags);

  [[nodiscard]] const std::string& file() const { return file_; }
  [[nodiscard]] SQLite::Database& database() { return database_; }
  /// Prepared once. `sql` must live as long as the store: a literal.
  SQLite::Statement& prepared(const char* sql);
  /// What a PRAGMA says, as a number or a text.
  std::int64_t pragma_number(const char* name);
  std::string pragma_text(const char* sql);

 private:
  std::string file_;
  SQLite::Database database_;
  std::unordered_map<std::string_view, std::unique_ptr<SQLite::Statement>> statements_;
};

/// One use of a prepared statement: values in, rows out, and let go at the end, so that no read stays open.
/// The same `sql` must not be in use twice at once.
class Query {
 public:
  template <class... Values>
  Query(Store& store, const char* sql, const Values&... values) : statement_{&store.prepared(sql)} {
    (bind(values), ...);
  }
  ~Query() {
    statement_->tryReset();
    statement_->clearBindings();  // lets go of long texts; cannot fail
  }
  Query(const Query&) = delete;
  Query& operator=(const Query&) = delete;

  bool next() { return statement_->executeStep(); }
  /// Runs a statement that has no rows; how many it changed.
  int run() { return statement_->exec(); }

  [[nodiscard]] std::string text(int column) { return statement_->getColumn(column).getString(); }
  [[nodiscard]] std::int64_t number(int column) { return statement_->getColumn(column).getInt64(); }
  [[nodiscard]] int whole(int column) { return statement_->getColumn(column).getInt(); }
  [[nodiscard]] double real(int column) { return statement_->getColumn(column).getDouble(); }
  [[nodiscard]] bool is_null(int column) { return statement_->isColumnNull(column); }

 private:
  void bind(const std::string& text) { statement_->bind(++bound_, text); }
  void bind(const char* text) { statement_->bind(++bound_, text); }
  void bind(double number) { statement_->bind(++bound_, number); }
  template <class Whole>
  std::enable_if_t<std::is_integral_v<Whole>> bind(Whole number) {
    statement_->bind(++bound_, static_cast<std::int64_t>(number));
  }
  template <class T>
  void bind(const std::optional<T>& maybe) {
    if (maybe) {
      bind(*maybe);
    } else {
      statement_->bind(++bound_);
    }
  }

  SQLite::Statement* statement_;
  int bound_ = 0;
};

/// Runs `work`, which returns a Result; what SQLite throws becomes a fault of the file.
template <class Work>
auto guarded(const std::string& file, const Work& work) -> decltype(work()) {
  try {
    return work();
  } catch (const SQLite::Exception& thrown) {
    return unexpected(fault_of_code(file, thrown.getErrorCode(), thrown.what()));
  }
}

}  // namespace strikewright::kept
