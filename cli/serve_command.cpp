// `strikewright serve`: the page and the API, on this machine, or for the phone on the same network.

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <ostream>

#include "book/book.hpp"
#include "commands.hpp"
#include "serve/certificate.hpp"
#include "serve/desk.hpp"
#include "serve/listen.hpp"
#include "serve/network.hpp"
#include "serve/qr.hpp"
#include "take.hpp"
#include "usual_book.hpp"

namespace strikewright {
namespace {

constexpr std::uint64_t kUsualPort = 7417;

struct ServeInput {
  std::string book;
  std::uint64_t port = kUsualPort;
  bool share = false, describe = false;
};

std::string in_brackets(const std::string& address) {
  return address.find(':') == std::string::npos ? address : "[" + address + "]";
}

/// What the others need: where, who it is, how to be let in.
void tell_of_sharing(const Address& address, Doors& doors) {
  if (const auto rows = qr_rows(address.url)) doors.out << '\n' << qr_text(*rows);
  doors.out << "\nFor a phone on the same network: " << address.url
            << "\nIts browser will warn, because this machine made its certificate itself. Compare before "
               "you go on:"
            << "\n  SHA-256 " << address.fingerprint << '\n';
}

Result<int> serve(const ServeInput& in, Doors& doors) {
  const Result<std::string> file = in.book.empty() ? usual_book() : Result<std::string>(in.book);
  if (!file) return unexpected(file.error());
  Result<std::unique_ptr<Book>> book = open_book(*file);
  if (!book) return unexpected(book.error());
  ListenOptions options{.port = static_cast<unsigned short>(in.port), .share = in.share};
  Address address{.shared = in.share};
  if (in.share) {
    address.names = names_of_here();
    const Result<Certificate> certificate = certificate_beside(*file, address.names);
    if (!certificate) return unexpected(certificate.error());
    options.key_file = certificate->key_file;
    options.certificate_file = certificate->certificate_file;
    address.fingerprint = certificate->fingerprint;
  }
  Result<std::unique_ptr<Listener>> listener = Listener::open(options);
  if (!listener) return unexpected(listener.error());
  address.port = (*listener)->port();
  const std::vector<std::string> addresses = addresses_of_here();
  if (in.share && !addresses.empty())
    address.url = fmt::format("https://{}:{}/", in_brackets(addresses.front()), address.port);
  Desk desk{**book, *file};
  desk.is_at(address);
  doors.out << fmt::format("http://127.0.0.1:{}/\n", address.port);
  if (in.share) {
    tell_of_sharing(address, doors);
    desk.means().pairing.on_code([&doors](const Pairing::Code& code) {
      doors.out << fmt::format("Code for one more device, until {}: {}\n", iso_of(code.ends_at), code.digits)
                << std::flush;
    });
  }
  doors.out.flush();
  (*listener)->run(desk, true);
  return kGood;
}

Result<int> describe(Doors& doors) {
  doors.out << description().dump(2) << '\n';
  return kGood;
}

}  // namespace

Command serve_command() {
  const auto in = std::make_shared<ServeInput>();
  return {.name = "serve",
          .says = "the page, for this machine or for a phone on the same network",
          .more =
              "Prints the address once it listens, and goes on until it is interrupted. Nothing leaves the "
              "coach's own machine; with --share, devices on the same network that were paired with a code "
              "from this terminal are let in, by HTTPS.",
          .options = {text("--book", "FILE", member(in, in->book), "the book, made where it is not there",
                           "book.strike in the user's data folder"),
                      count("--port", member(in, in->port), 0, 65'535, "0 = any free one",
                            std::to_string(kUsualPort)),
                      toggle("--share", member(in, in->share), "also for paired devices on the same network"),
                      toggle("--describe", member(in, in->describe),
                             "print what the server can be asked (OpenAPI), and end")},
          .examples = {{.says = "what the server can be asked", .line = "strikewright serve --describe"}},
          .run = [in](Doors& doors) { return in->describe ? describe(doors) : serve(*in, doors); }};
}

}  // namespace strikewright
