#include "sheet/words.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "quantity/fault.hpp"
#include "sheet/sheet.hpp"

namespace strikewright {
namespace {

using Languages = std::map<std::string, Words, std::less<>>;

// Parsed once; a file that is no flat object of texts would be our bug, and a test reads every one.
const Languages& languages() {
  static const Languages all = [] {
    Languages read;
    for (const EmbeddedWords& one : embedded_words()) {
      std::map<std::string, std::string, std::less<>> texts;
      const nlohmann::json file = nlohmann::json::parse(one.json);
      for (const auto& [key, text] : file.items()) texts.emplace(key, text.get<std::string>());
      read.emplace(one.language, Words{std::move(texts)});
    }
    return read;
  }();
  return all;
}

}  // namespace

const std::string& Words::operator()(std::string_view key) const {
  const auto found = texts_.find(key);
  ensure(found != texts_.end(), "every key of the sheet is in every file of sheet/words");
  return found->second;
}

std::string Words::operator()(std::string_view key,
                              std::initializer_list<std::pair<std::string_view, std::string>> values) const {
  const std::string& text = (*this)(key);
  std::string filled;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text[at] == '{' ? text.find('}', at) : std::string::npos;
    if (end == std::string::npos) {
      filled += text[at++];
      continue;
    }
    const std::string_view name = std::string_view(text).substr(at + 1, end - at - 1);
    const auto* value =
        std::find_if(values.begin(), values.end(), [&](const auto& one) { return one.first == name; });
    ensure(value != values.end(), "every placeholder of sheet/words is filled");
    filled += value->second;
    at = end + 1;
  }
  return filled;
}

const Words* words_of(std::string_view language) {
  const auto found = languages().find(language);
  return found == languages().end() ? nullptr : &found->second;
}

std::vector<std::string> sheet_languages() {
  std::vector<std::string> names;
  for (const auto& [name, words] : languages()) names.push_back(name);
  return names;
}

}  // namespace strikewright
