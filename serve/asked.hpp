#pragma once
// What somebody asked of the server, and what goes back: no sockets here, so that every route can be tested
// by itself.

#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "verbs/answer.hpp"

namespace strikewright {

/// One request. Texts come from outside and hold whatever was sent.
struct Asked {
  std::string method;                          ///< "GET"
  std::string target;                          ///< "/api/pupils/anna?most=3", as sent
  std::map<std::string, std::string> named{};  ///< of the path: {id} -> "anna"; set by the router
  std::map<std::string, std::string> query{};  ///< decoded; set by the router
  std::string body{};

  std::string host{}, origin{}, site{};  ///< Host, Origin, Sec-Fetch-Site
  std::string content_type{}, cookie{}, if_none_match{};

  std::string from{};    ///< address of whoever asks, without port
  std::string here{};    ///< address of this machine at which it was asked
  bool at_home = true;   ///< asked from this machine
  bool secure = false;   ///< came by TLS
  std::string who{};     ///< "this machine", or the paired device's name; set by the doorman
  std::string device{};  ///< the paired device's id, "" = this machine; set by the doorman
};

struct Reply {
  int status = 200;
  std::string type = "application/json";
  std::string body{};
  std::vector<std::pair<std::string, std::string>> headers{};
  std::string device{};  ///< of whom it is the stream
  bool streams = false;  ///< stays open and gets the changes of the book
};

/// A document as it goes out: UTF-8, whatever the book holds.
std::string dumped(const Document& document);
Reply reply(const Document& document);

/// The one shape of everything that went wrong: `{"error": {place, found, expected}, "more": [...]}`.
Reply faulty(int status, const Fault& fault);
Reply faulty(int status, const std::vector<Fault>& faults);
/// 404, 409 and 503 for what the book says is absent, otherwise there, or of the file; else 400.
Reply faulty(const Fault& fault);
Reply faulty(const std::vector<Fault>& faults);

/// The document, or what was wrong.
template <class T>
Reply reply_or_fault(const T& answer) {
  return answer ? reply(*answer) : faulty(answer.error());
}

/// The body as a JSON object; a Fault has the place "body".
Result<Document> document_of(const Asked& asked);

}  // namespace strikewright
