#pragma once
// The server without its sockets: a request in, a reply out, from any thread.

#include <functional>
#include <memory>
#include <string>

#include "book/book.hpp"
#include "serve/pairing.hpp"
#include "serve/readings.hpp"
#include "serve/router.hpp"
#include "serve/watchers.hpp"

namespace strikewright {

/// What the server knows of itself once it listens.
struct Address {
  unsigned short port = 0;
  bool shared = false;
  std::string url{};                 ///< for other devices, "" when not shared
  std::string fingerprint{};         ///< SHA-256 of the certificate
  std::vector<std::string> names{};  ///< of this machine beside its addresses and localhost
};

/// What the handlers work with.
struct Means {
  Book& book;
  std::string book_name;  ///< file name without folders
  std::string version;
  Address address{};
  Readings readings;
  Pairing pairing;
  Watchers watchers{};
};

class Desk {
 public:
  /// @param file  of the book; shown without its folders
  Desk(Book& book, const std::string& file, Clock clock = std::chrono::system_clock::now);

  ~Desk();
  Desk(const Desk&) = delete;
  Desk& operator=(const Desk&) = delete;

  /// Before the first question.
  void is_at(Address address) { means_.address = std::move(address); }
  /// Never throws; has the headers that every answer has.
  Reply answer(Asked asked);
  /// May it take a tenth of a second? Then it is not for the quick thread.
  [[nodiscard]] bool is_slow(const Asked& asked) const;
  Means& means() { return means_; }
  [[nodiscard]] const std::vector<Route>& routes() const { return router_.routes(); }

 private:
  Reply let_in_and_answer(Asked& asked);
  Means means_;
  Router router_;
};

/// The routes for other programs, OpenAPI 3.1: what `strikewright serve --describe` prints.
Document description();

/// Headers of every answer, whatever it is.
void add_common_headers(const Asked& asked, Reply& reply);

}  // namespace strikewright
