#pragma once
// A JSON document from outside, read field by field. The first thing wrong is kept and ends up as the Fault;
// what is read after it is nought. Every key must be asked for: strangers are faults with the nearest key.

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "quantity/fault.hpp"
#include "quantity/frame.hpp"

namespace strikewright {

/// Parses a whole document. Faults: empty, not JSON (place with line and column), not an object, deeper than
/// 16, the same key twice, a number beyond the range of a double.
Result<nlohmann::ordered_json> parse_json(std::string_view text, const std::string& name);

class JsonDoor {
 public:
  /// `object` and `fault` must outlive the door.
  JsonDoor(const nlohmann::ordered_json& object, std::string path, std::optional<Fault>& fault);

  [[nodiscard]] bool has(const std::string& key);
  [[nodiscard]] bool is_null(const std::string& key);
  [[nodiscard]] bool is_text(const std::string& key);
  [[nodiscard]] bool is_object(const std::string& key);

  /// What is missing is a fault.
  double number(const std::string& key);
  Vec3<double> three(const std::string& key);
  std::string text(const std::string& key);
  bool truth(const std::string& key);
  JsonDoor object(const std::string& key);
  /// A list of lists of `width` numbers each.
  std::vector<std::vector<double>> rows(const std::string& key, std::size_t width);

  /// What is missing is `standard`.
  double number_or(const std::string& key, double standard);
  std::string text_or(const std::string& key, const std::string& standard);

  /// Call last: a key that nobody asked for is a fault.
  void done();
  void wrong(const std::string& key, const std::string& found, const std::string& expected);

 private:
  const nlohmann::ordered_json* find(const std::string& key, const char* expected);
  double as_number(const nlohmann::ordered_json& value, const std::string& place);
  [[nodiscard]] std::string place(const std::string& key) const {
    return path_.empty() ? key : path_ + "." + key;
  }
  void keep(Fault fault);

  const nlohmann::ordered_json* object_;
  std::string path_;
  std::optional<Fault>* fault_;
  std::vector<std::string> known_;
};

/// A whole stream as text, at most `most` bytes; `name` is its place in faults.
Result<std::string> all_of(std::istream& in, const std::string& name, std::size_t most);

/// The document of FILE, or of standard input when FILE is "" or "-".
Result<std::string> document_of(const std::string& file, std::istream& in);

}  // namespace strikewright
