#include "book/json_text.hpp"

#include <nlohmann/json.hpp>

namespace strikewright::kept {

bool is_json(const std::string& text) { return nlohmann::json::accept(text); }

bool is_json_object(const std::string& text) {
  return nlohmann::json::parse(text, nullptr, false).is_object();
}

std::optional<std::string> text_under(const std::string& object, const char* key) {
  const nlohmann::json document = nlohmann::json::parse(object, nullptr, false);
  if (!document.is_object() || !document.contains(key) || !document[key].is_string()) return std::nullopt;
  return document[key].get<std::string>();
}

}  // namespace strikewright::kept
