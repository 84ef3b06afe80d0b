// Any bytes as a connection's, through the parser, the desk and a book: no crash, one shape of fault, and no
// word of the book to whoever is not let in.

#include <boost/beast/http.hpp>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

#include "serve/desk.hpp"
#include "serve/wire.hpp"

using namespace strikewright;
namespace http = boost::beast::http;

namespace {

constexpr const char* kSecret = "Wren-Only-In-The-Book";

void must(bool truth) {
  if (!truth) std::abort();
}

/// A book with one pupil, one lesson, one swing, one thing given, in memory as far as the machine has such a
/// folder.
struct House {
  std::string file;
  std::unique_ptr<Book> book;
  std::unique_ptr<Desk> desk;

  House() {
    const std::filesystem::path memory = "/dev/shm";
    const auto folder = std::filesystem::exists(memory) ? memory : std::filesystem::temp_directory_path();
    std::string name = (folder / "request-XXXXXX").string();
    must(mkdtemp(name.data()) != nullptr);
    file = name + "/b.strike";
    auto opened = open_book(file);
    must(opened.has_value());
    book = std::move(*opened);
    fill();
    desk = std::make_unique<Desk>(*book, file);
    desk->is_at({.port = 7417, .shared = true, .url = "https://192.0.2.7:7417/"});
  }
  House(const House&) = delete;
  House& operator=(const House&) = delete;
  ~House() {
    desk.reset();
    book.reset();
    std::error_code none;
    std::filesystem::remove_all(std::filesystem::path(file).parent_path(), none);
  }
  void fill() const {
    must(book->keep(Pupil{.id = "p", .name = kSecret}, "fuzz").has_value());
    must(book->keep(Lesson{.id = "l", .pupil = "p"}, "fuzz").has_value());
    must(book->keep(KeptSwing{.id = "s", .lesson = "l"}, "fuzz").has_value());
    must(book
             ->keep(Given{
                 .id = "g", .pupil = "p", .lesson = "l", .exercise = kSecret, .at = "", .notes = kSecret})
             .has_value());
  }
};

void check(const Reply& reply) {
  must(reply.status >= 200 && reply.status < 600 && reply.status != 500);
  if (reply.status < 400) return;
  const auto document = nlohmann::json::parse(reply.body);
  for (const char* member : {"place", "found", "expected"}) must(document.at("error").at(member).is_string());
}

void ask(Desk& desk, Asked asked) {
  // Readings and flails take longer than all the rest, and what they are given is fuzzed by table and bag.
  if (!desk.is_slow(asked)) check(desk.answer(std::move(asked)));
}

}  // namespace

/// The first byte: whether the request's own Host, Origin and type count, or right ones; and who asks.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const House house;
  if (size < 1) return 0;
  const unsigned how = data[0];
  http::request_parser<http::string_body> parser;
  parser.header_limit(16u << 10);
  parser.body_limit(1u << 20);
  parser.eager(true);
  boost::beast::error_code error;
  parser.put(boost::asio::const_buffer(data + 1, size - 1), error);
  if (error && error != http::error::need_more) {
    if (const auto refusal = refusal_for(error, false)) check(*refusal);
    return 0;
  }
  if (!parser.is_done()) return 0;
  Asked asked = asked_from(parser.get());
  asked.from = "192.0.2.50";
  asked.here = "192.0.2.7";
  asked.at_home = false;
  asked.secure = true;
  if ((how & 1u) != 0) asked.host = "192.0.2.7:7417";
  if ((how & 2u) != 0) asked.origin = asked.site = "";
  if ((how & 4u) != 0) asked.content_type = "application/json";
  const Reply stranger = house.desk->answer(asked);
  check(stranger);
  // Whoever names it in the request hears it back in the fault; the fuzzer finds the word in the comparison
  // here.
  const std::string_view said(reinterpret_cast<const char*>(data), size);
  must(stranger.body.find(kSecret) == std::string::npos || said.find(kSecret) != std::string_view::npos);
  asked.at_home = true;
  ask(*house.desk, asked);
  return 0;
}
