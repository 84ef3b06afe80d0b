#pragma once
// A client that can misbehave: plain sockets, and TLS where it is asked for.

#include <arpa/inet.h>
#include <doctest/doctest.h>
#include <netinet/in.h>
#include <openssl/ssl.h>
#include <sys/socket.h>
#include <sys/time.h>
#include <unistd.h>

#include <memory>
#include <string>

namespace strikewright {

class Socket {
 public:
  explicit Socket(unsigned short port, bool tls = false, const std::string& address = "127.0.0.1")
      : handle_{::socket(AF_INET, SOCK_STREAM, 0)} {
    sockaddr_in to{};
    to.sin_family = AF_INET;
    to.sin_port = htons(port);
    inet_pton(AF_INET, address.c_str(), &to.sin_addr);
    // A test that waits for what never comes must fail, not hang.
    const timeval most{.tv_sec = 20, .tv_usec = 0};
    setsockopt(handle_, SOL_SOCKET, SO_RCVTIMEO, &most, sizeof most);
    REQUIRE(::connect(handle_, reinterpret_cast<const sockaddr*>(&to), sizeof to) == 0);
    if (!tls) return;
    context_.reset(SSL_CTX_new(TLS_client_method()));
    tls_.reset(SSL_new(context_.get()));
    SSL_set_fd(tls_.get(), handle_);
    is_tls_ = SSL_connect(tls_.get()) == 1;
  }
  Socket(const Socket&) = delete;
  Socket& operator=(const Socket&) = delete;
  ~Socket() { ::close(handle_); }

  [[nodiscard]] bool is_tls() const { return is_tls_; }
  [[nodiscard]] SSL* tls() const { return tls_.get(); }

  /// False when the other side takes no more.
  bool send(const std::string& text) {
    for (std::size_t at = 0; at < text.size();) {
      const int size = static_cast<int>(text.size() - at);
      const auto sent = tls_
                            ? SSL_write(tls_.get(), text.data() + at, size)
                            : ::send(handle_, text.data() + at, static_cast<std::size_t>(size), MSG_NOSIGNAL);
      if (sent <= 0) return false;
      at += static_cast<std::size_t>(sent);
    }
    return true;
  }

  /// What there is, up to 64 kB; "" at the end.
  std::string some() {
    std::string out(1u << 16, '\0');
    const auto got = tls_ ? SSL_read(tls_.get(), out.data(), static_cast<int>(out.size()))
                          : ::recv(handle_, out.data(), out.size(), 0);
    out.resize(got > 0 ? static_cast<std::size_t>(got) : 0);
    return out;
  }

  /// Reads until `text` has come, or the end.
  std::string until(const std::string& text) {
    while (come_.find(text) == std::string::npos) {
      const std::string more = some();
      if (more.empty()) break;
      come_ += more;
    }
    return come_;
  }
  std::string all() {
    for (std::string more = some(); !more.empty(); more = some()) come_ += more;
    return come_;
  }

 private:
  struct Free {
    void operator()(SSL_CTX* one) const { SSL_CTX_free(one); }
    void operator()(SSL* one) const { SSL_free(one); }
  };
  int handle_;
  bool is_tls_ = false;
  std::unique_ptr<SSL_CTX, Free> context_{};
  std::unique_ptr<SSL, Free> tls_{};
  std::string come_{};
};

}  // namespace strikewright
