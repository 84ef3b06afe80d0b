#include "serve/asked.hpp"

#include <nlohmann/json.hpp>

#include "book/book.hpp"
#include "verbs/json_door.hpp"

namespace strikewright {
namespace {

Document shape_of(const Fault& fault) {
  return {{"place", fault.place}, {"found", fault.found}, {"expected", fault.expected}};
}

int status_of(const Fault& fault) {
  if (is_absent(fault)) return 404;
  if (is_conflict(fault)) return 409;
  return is_of_the_file(fault) ? 503 : 400;
}

/// A text with the character 0 is cut short by half of the programs that will ever read it.
bool has_zero(const Document& value) {
  if (value.is_string()) return value.get_ref<const std::string&>().find('\0') != std::string::npos;
  if (value.is_object()) {
    for (const auto& [key, member] : value.items())
      if (key.find('\0') != std::string::npos || has_zero(member)) return true;
    return false;
  }
  if (value.is_array()) {
    for (const Document& member : value)
      if (has_zero(member)) return true;
  }
  return false;
}

}  // namespace

std::string dumped(const Document& document) {
  return document.dump(-1, ' ', false, Document::error_handler_t::replace);
}

Reply reply(const Document& document) { return {.body = dumped(document)}; }

Reply faulty(int status, const std::vector<Fault>& faults) {
  Document document;
  document["error"] = shape_of(faults.empty() ? Fault{"the server", "nothing", "an answer"} : faults.front());
  for (std::size_t k = 1; k < faults.size(); ++k) document["more"].push_back(shape_of(faults[k]));
  return {.status = status, .body = dumped(document)};
}

Reply faulty(int status, const Fault& fault) { return faulty(status, std::vector<Fault>{fault}); }
Reply faulty(const Fault& fault) { return faulty(status_of(fault), fault); }
Reply faulty(const std::vector<Fault>& faults) {
  return faulty(faults.empty() ? 500 : status_of(faults.front()), faults);
}

Result<Document> document_of(const Asked& asked) {
  Result<Document> document = parse_json(asked.body, "body");
  if (document && has_zero(*document))
    return unexpected(Fault{"body", "a text with the character 0 in it", "texts without it"});
  return document;
}

}  // namespace strikewright
