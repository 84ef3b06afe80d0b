#pragma once
// The fixed words of the sheet, one flat JSON file a language, with {placeholders}.

#include <initializer_list>
#include <map>
#include <span>
#include <string>
#include <string_view>
#include <utility>

namespace strikewright {

struct EmbeddedWords {
  const char* language;
  const char* json;
};
/// Written by the build from sheet/words.
std::span<const EmbeddedWords> embedded_words();

class Words {
 public:
  explicit Words(std::map<std::string, std::string, std::less<>> texts) : texts_(std::move(texts)) {}

  /// The text of a key that must be there: a missing one is our bug.
  [[nodiscard]] const std::string& operator()(std::string_view key) const;
  /// The same with its placeholders filled. Values are not looked into: braces in a name stay braces.
  [[nodiscard]] std::string operator()(
      std::string_view key, std::initializer_list<std::pair<std::string_view, std::string>> values) const;
  [[nodiscard]] const std::map<std::string, std::string, std::less<>>& texts() const { return texts_; }

 private:
  std::map<std::string, std::string, std::less<>> texts_;
};

/// nullptr: no such language.
const Words* words_of(std::string_view language);

}  // namespace strikewright
