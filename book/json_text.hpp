#pragma once
// Texts that are to be JSON, for a book that does not know what is in them.

#include <optional>
#include <string>

namespace strikewright::kept {

[[nodiscard]] bool is_json(const std::string& text);
[[nodiscard]] bool is_json_object(const std::string& text);
/// The text under a key; nothing where there is none.
[[nodiscard]] std::optional<std::string> text_under(const std::string& object, const char* key);

}  // namespace strikewright::kept
