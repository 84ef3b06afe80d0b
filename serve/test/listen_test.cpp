// Real sockets: limits, slow and oversized requests, streams, TLS.

#include "serve/listen.hpp"

#include <fcntl.h>
#include <sys/stat.h>

#include <thread>

#include "serve/certificate.hpp"
#include "serve/network.hpp"
#include "socket.hpp"
#include "some_desk.hpp"

using namespace strikewright;
using namespace std::chrono_literals;

namespace {

/// A server on a free port, with short patience, in a thread of its own.
struct Running {
  SomeDesk d{};
  std::unique_ptr<Listener> listener;
  std::thread thread{};

  explicit Running(ListenOptions options = patient(200ms)) : listener{good(Listener::open(options))} {
    d.desk.is_at({.port = listener->port(), .shared = options.share, .url = "https://x/", .names = {}});
    thread = std::thread([this] { listener->run(d.desk, false); });
  }
  Running(const Running&) = delete;
  Running& operator=(const Running&) = delete;
  ~Running() {
    listener->stop();
    thread.join();
  }
  static ListenOptions patient(std::chrono::milliseconds slow) {
    ListenOptions options;
    options.limits.slow = slow;
    return options;
  }

  [[nodiscard]] unsigned short port() const { return listener->port(); }
  /// Lines that every request begins with.
  [[nodiscard]] std::string head(const std::string& first, const std::string& more = "") const {
    return first + " HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(port()) + "\r\n" + more;
  }
  [[nodiscard]] std::string ask(const std::string& text) const {
    Socket socket{port()};
    socket.send(text);
    return socket.all();
  }
  [[nodiscard]] bool answers() const {
    return ask(head("GET /api/about", "Connection: close\r\n\r\n")).find("\"version\"") != std::string::npos;
  }
};

int status_of(const std::string& answer) {
  return answer.starts_with("HTTP/1.1 ") ? std::stoi(answer.substr(9, 3)) : 0;
}

void is_fault(const std::string& answer, int status) {
  CAPTURE(answer);
  CHECK(status_of(answer) == status);
  const std::size_t body = answer.find("\r\n\r\n");
  REQUIRE(body != std::string::npos);
  fault_in({.status = status, .body = answer.substr(body + 4)});
  CHECK(answer.find("Content-Security-Policy: default-src 'none'") != std::string::npos);
  CHECK(answer.find("Connection: close") != std::string::npos);
}

const std::string kJson = "Content-Type: application/json\r\n";

}  // namespace

TEST_CASE("several questions go over one connection") {
  const Running server;
  Socket socket{server.port()};
  socket.send(server.head("GET /api/about", "\r\n"));
  CHECK(status_of(socket.until("}")) == 200);
  socket.send(
      server.head("PUT /api/pupils/robin", kJson + "Content-Length: 17\r\n\r\n{\"name\": \"Robin\"}"));
  CHECK(socket.until("made_at").find("\"id\":\"robin\"") != std::string::npos);
  // Two at once, one after the other.
  socket.send(server.head("GET /api/pupils/robin", "\r\n") +
              server.head("HEAD /api/words", "Connection: close\r\n\r\n"));
  const std::string rest = socket.all();
  CHECK(rest.find("\"lessons\":[]") != std::string::npos);
  CHECK(rest.find("\"surfaces\"") == std::string::npos);
}

TEST_CASE("a body in pieces, and one that waits to be asked for, arrive whole") {
  const Running server;
  const std::string pieces = "6\r\n{\"name\r\nb\r\n\": \"Robin\"}\r\n0\r\n\r\n";
  CHECK(status_of(server.ask(
            server.head("PUT /api/pupils/robin",
                        kJson + "Transfer-Encoding: chunked\r\nConnection: close\r\n\r\n" + pieces))) == 200);
  Socket socket{server.port()};
  socket.send(
      server.head("PUT /api/pupils/wren", kJson + "Expect: 100-continue\r\nContent-Length: 16\r\n\r\n"));
  CHECK(socket.until("\r\n\r\n").starts_with("HTTP/1.1 100"));
  socket.send("{\"name\": \"Wren\"}");
  CHECK(socket.until("made_at").find("HTTP/1.1 200") != std::string::npos);
}

TEST_CASE("a body beyond the limit is refused, announced or in pieces") {
  const Running server{Running::patient(5s)};
  const std::string megabyte(1u << 20, ' ');
  is_fault(server.ask(server.head("PUT /api/pupils/robin", kJson + "Content-Length: 1048577\r\n\r\n")), 413);
  is_fault(server.ask(server.head("PUT /api/pupils/robin",
                                  kJson + "Content-Length: 1048577\r\n\r\n" + megabyte + "x")),
           413);
  std::string pieces;
  for (int k = 0; k < 17; ++k) pieces += "10000\r\n" + megabyte.substr(0, 0x10000) + "\r\n";
  is_fault(server.ask(server.head("PUT /api/pupils/robin",
                                  kJson + "Transfer-Encoding: chunked\r\n\r\n" + pieces + "0\r\n\r\n")),
           413);
  is_fault(server.ask(server.head("PUT /api/pupils/robin",
                                  kJson + "Transfer-Encoding: chunked\r\n\r\nffffffff\r\n")),
           413);
  const std::string most = "{\"name\": \"Robin\"" + megabyte.substr(17) + "}";
  CHECK(most.size() == megabyte.size());
  CHECK(status_of(server.ask(
            server.head("PUT /api/pupils/robin",
                        kJson + "Connection: close\r\nContent-Length: 1048576\r\n\r\n" + most))) == 200);
}

TEST_CASE("headers beyond the limit are refused") {
  const Running server{Running::patient(5s)};
  is_fault(server.ask(server.head("GET /api/about", "X: " + std::string(20'000, 'x') + "\r\n\r\n")), 431);
  is_fault(server.ask("GET /" + std::string(20'000, 'a') + " HTTP/1.1\r\n\r\n"), 431);
  std::string many;
  for (int k = 0; k < 5000; ++k) many += "X: y\r\n";
  is_fault(server.ask(server.head("GET /api/about", many + "\r\n")), 431);
}

TEST_CASE("what is no HTTP is refused") {
  const Running server{Running::patient(5s)};
  for (const char* text : {"hello\r\n\r\n", "GET  /api/about HTTP/1.1\r\n\r\n",
                           "GET /api/about HTTP/9.9\r\n\r\n", "GET /api/about HTTP/1.1\r\nno colon\r\n\r\n",
                           "GET /a\x01 HTTP/1.1\r\n\r\n", "\x16\x03\x01\x02\x01\r\n\r\n"}) {
    CAPTURE(text);
    is_fault(server.ask(text), 400);
  }
  // Two lengths: what follows could be taken for a second question.
  is_fault(server.ask(server.head("PUT /api/pupils/robin",
                                  kJson + "Content-Length: 2\r\nContent-Length: 3\r\n\r\n{} ")),
           400);
  is_fault(server.ask(server.head("PUT /api/pupils/robin",
                                  kJson + "Content-Length: 2\r\nTransfer-Encoding: chunked\r\n\r\n{}")),
           400);
  is_fault(server.ask(server.head("PUT /api/pupils/robin", kJson + "Content-Length: -1\r\n\r\n{}")), 400);
  CHECK(server.answers());
}

TEST_CASE("a second Host does not count as one") {
  const Running server;
  const std::string answer =
      server.ask(server.head("GET /api/about", "Host: evil.example\r\nConnection: close\r\n\r\n"));
  CHECK(status_of(answer) == 403);
  CHECK(status_of(server.ask("GET /api/about HTTP/1.0\r\n\r\n")) == 403);
}

TEST_CASE("whoever takes too long over headers or body is told so, and let go") {
  const Running server;
  is_fault(server.ask("GET /api/about HTT"), 408);
  is_fault(server.ask(server.head("GET /api/about", "X: y\r\n")), 408);
  is_fault(server.ask(server.head("PUT /api/pupils/robin", kJson + "Content-Length: 100\r\n\r\n{\"name\"")),
           408);
  CHECK(server.answers());
}

TEST_CASE("drop by drop is too slow as well") {
  const Running server;
  Socket socket{server.port()};
  const std::string text = server.head("GET /api/about", "X: " + std::string(200, 'y'));
  bool taken = true;
  for (std::size_t k = 0; k < text.size() && taken; ++k) {
    taken = socket.send(text.substr(k, 1));
    std::this_thread::sleep_for(10ms);
  }
  is_fault(socket.all(), 408);
}

TEST_CASE("idle and crowding connections stand in nobody's way for long") {
  ListenOptions options = Running::patient(5s);
  options.limits.idle = 100ms;
  options.limits.connections = 12;
  const Running server{options};
  std::vector<std::unique_ptr<Socket>> crowd;
  for (int k = 0; k < 12; ++k) crowd.push_back(std::make_unique<Socket>(server.port()));
  for (auto& one : crowd) CHECK(one->all().empty());
  CHECK(server.answers());
}

TEST_CASE("more connections than the limit are closed, the others go on") {
  ListenOptions options = Running::patient(5s);
  options.limits.connections = 10;
  const Running server{options};
  std::vector<std::unique_ptr<Socket>> crowd;
  for (int k = 0; k < 10; ++k) {
    crowd.push_back(std::make_unique<Socket>(server.port()));
    crowd.back()->send(server.head("GET /api/about", "\r\n"));
    CHECK(status_of(crowd.back()->until("}")) == 200);
  }
  Socket beyond{server.port()};
  CHECK(beyond.all().empty());
  crowd.back()->send(server.head("GET /api/pupils", "\r\n"));
  CHECK(crowd.back()->until("\"pupils\"").find("\"pupils\":[]") != std::string::npos);
}

TEST_CASE("an open screen hears of a change that another made") {
  ListenOptions options;
  options.limits.beat = 50ms;
  Running server{options};
  Socket screen{server.port()};
  screen.send(server.head("GET /api/changes", "\r\n"));
  const std::string begun = screen.until(": quiet");
  CHECK(begun.find("Content-Type: text/event-stream") != std::string::npos);
  CHECK(begun.find("no-store") != std::string::npos);
  good(server.d.book->keep(some_pupil(), "another screen"));
  CHECK(screen.until("robin").find("event: changed\ndata: {\"pupil\":\"robin\"") != std::string::npos);
  CHECK(server.answers());
}

TEST_CASE("a port that another program has is said to be taken") {
  const Running server;
  const Fault fault = bad(Listener::open({.port = server.port()}));
  CHECK(fault.place == "--port");
  CHECK(fault.found.find("another program") != std::string::npos);
}

TEST_CASE("the certificate is made once, for its owner's eyes only, and made anew when it is spoilt") {
  const Folder folder;
  const Certificate first = good(certificate_beside(folder / "b", {"pad.local"}));
  CHECK(first.fingerprint.size() == 95);
  CHECK(good(certificate_beside(folder / "b", {})).fingerprint == first.fingerprint);
  for (const std::string& file : {first.key_file, first.certificate_file}) {
    struct stat about {};
    REQUIRE(::stat(file.c_str(), &about) == 0);
    CHECK((about.st_mode & 0777u) == 0600u);
  }
  write(first.certificate_file, "spoilt");
  CHECK(good(certificate_beside(folder / "b", {})).fingerprint != first.fingerprint);
  CHECK(bad(certificate_beside(folder / "nowhere/b", {})).found == "no way to write it");
}

TEST_CASE("shared: TLS for everybody, plain HTTP for this machine only") {
  const Folder folder;
  const Certificate certificate = good(certificate_beside(folder / "b", {}));
  ListenOptions options{.port = 0,
                        .share = true,
                        .key_file = certificate.key_file,
                        .certificate_file = certificate.certificate_file};
  Running server{options};
  CHECK(server.answers());
  Socket home{server.port(), true};
  REQUIRE(home.is_tls());
  CHECK(SSL_version(home.tls()) >= TLS1_2_VERSION);
  home.send(server.head("GET /api/about", "\r\n"));
  CHECK(home.until("}").find("\"shared\":true") != std::string::npos);
  // From another of this machine's addresses, as a phone would come.
  for (const std::string& address : addresses_of_here()) {
    if (address.find(':') != std::string::npos) continue;
    const std::string head = "GET /api/about HTTP/1.1\r\nHost: " + address + ":" +
                             std::to_string(server.port()) + "\r\nConnection: close\r\n\r\n";
    Socket phone{server.port(), true, address};
    phone.send(head);
    CHECK(status_of(phone.all()) == 401);
    Socket plain{server.port(), false, address};
    plain.send(head);
    CHECK(status_of(plain.all()) == 403);
  }
}

TEST_CASE("key and certificate that do not fit are a fault") {
  const Folder folder;
  write(folder / "x", "no key");
  CHECK_FALSE(Listener::open({.share = true, .key_file = folder / "x", .certificate_file = folder / "x"})
                  .has_value());
}
