#pragma once
// The sockets: HTTP on this machine, HTTPS for the others when it is shared.

#include <chrono>
#include <memory>
#include <string>

#include "serve/desk.hpp"

namespace strikewright {

/// What nobody may go beyond, so that one device cannot stand in the way of the others.
struct Limits {
  std::chrono::milliseconds slow{10'000};  ///< for the handshake, the headers, the body: each
  std::chrono::milliseconds idle{60'000};  ///< between two questions
  std::chrono::milliseconds write{30'000};
  std::chrono::milliseconds beat{15'000};  ///< of the stream of changes
  std::size_t body = 1u << 20;             ///< bytes
  std::size_t headers = 16u << 10;         ///< bytes
  std::size_t connections = 64;            ///< in all; eight of them are kept for this machine
  std::size_t of_one = 16;                 ///< from one other address
};

struct ListenOptions {
  unsigned short port = 0;                     ///< 0 = any free one
  bool share = false;                          ///< all addresses, not only this machine's own
  std::string key_file{}, certificate_file{};  ///< PEM, when shared
  Limits limits{};
};

class Listener {
 public:
  /// Opens the port. Faults: the port is another program's or not allowed; key and certificate do not fit.
  static Result<std::unique_ptr<Listener>> open(const ListenOptions& options);
  virtual ~Listener() = default;
  Listener(const Listener&) = delete;
  Listener& operator=(const Listener&) = delete;

  [[nodiscard]] virtual unsigned short port() const = 0;
  /// Answers until `stop`, or until SIGINT or SIGTERM where `signals`. `desk` must know its address by now.
  virtual void run(Desk& desk, bool signals) = 0;
  /// From any thread.
  virtual void stop() = 0;

 protected:
  Listener() = default;
};

}  // namespace strikewright
