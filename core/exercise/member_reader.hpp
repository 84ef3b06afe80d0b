#pragma once
// Members of a JSON document, each checked as it is read; the first fault is kept.

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "quantity/fault.hpp"

namespace strikewright {

/// Parses a document of at most `most_bytes`, 8 deep, no member twice. Faults name line and column.
[[nodiscard]] Result<nlohmann::json> parsed_document(std::string_view text, std::size_t most_bytes,
                                                     const std::string& place);

/// Reads members by path. After the first fault everything else reads as empty, and fault() says what it was.
class MemberReader {
 public:
  using Json = nlohmann::json;
  explicit MemberReader(std::string place) : place_{std::move(place)} {}

  [[nodiscard]] const std::optional<Fault>& fault() const { return fault_; }
  void refuse(const std::string& path, std::string found, std::string expected);

  /// An object with all of `keys`, any of `optional`, and nothing else?
  bool object(const Json& value, const std::string& path, const std::vector<std::string>& keys,
              const std::vector<std::string>& optional = {});
  /// An array of so many?
  bool array(const Json& value, const std::string& path, std::size_t least, std::size_t most, const char* of);
  std::string text(const Json& value, const std::string& path);
  double number(const Json& value, const std::string& path, double low, double high);
  int whole(const Json& value, const std::string& path, int low, int high);
  bool truth(const Json& value, const std::string& path);
  /// Index of a word in the list.
  std::size_t word(const Json& value, const std::string& path, const std::vector<std::string>& words);
  /// Indices of an array of words, each at most once.
  std::vector<std::size_t> words(const Json& value, const std::string& path,
                                 const std::vector<std::string>& words, std::size_t least);

 private:
  std::string place_;
  std::optional<Fault> fault_;
};

}  // namespace strikewright
