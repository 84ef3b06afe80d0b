#pragma once
// How a device on the same network comes to be let in: a code shown on the coach's machine, once, for a
// token.

#include <chrono>
#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <string>

#include "book/book.hpp"

namespace strikewright {

using WallTime = std::chrono::system_clock::time_point;
using Clock = std::function<WallTime()>;

/// "2026-11-25T10:30:00Z".
std::string iso_of(WallTime moment);

class Pairing {
 public:
  Pairing(Book& book, Clock clock);

  static constexpr std::size_t kDigits = 8;
  static constexpr std::chrono::minutes kCodeLives{10}, kWait{1};
  static constexpr int kWrongTries = 5;       ///< from one address, then kWait without any
  static constexpr int kWrongByAnybody = 40;  ///< in all, then a new code

  struct Code {
    std::string digits;
    WallTime ends_at;
  };
  /// The code that holds now; a new one where the last was used or has ended.
  Code code();

  struct Paired {
    std::string token;  ///< 32 random bytes in hexadecimal; nobody keeps it here
    Book::Device device;
  };
  struct Refusal {
    int status = 400;  ///< 400, 403, 429, 503
    Fault fault;
    std::chrono::seconds wait{0};
  };
  /// Uses up the code when it is right.
  std::optional<Refusal> pair(const std::string& code, const std::string& name, const std::string& from,
                              Paired& into);

  /// The device whose token this is; notes that it was seen, at most every ten minutes.
  Result<std::optional<Book::Device>> device_of(const std::string& token);

  /// Called whenever there is a new code, from the thread that made it.
  void on_code(std::function<void(const Code&)> told);

 private:
  struct Wrong {
    int times = 0;
    WallTime last;
  };
  std::optional<Refusal> too_often(const std::string& from, WallTime now);
  Refusal wrong_code(const std::string& from, WallTime now);
  void renew(WallTime now);

  Book* book_;
  Clock clock_;
  std::mutex mutex_;
  Code code_;
  int wrong_in_all_ = 0;
  std::map<std::string, Wrong> wrong_;
  std::function<void(const Code&)> told_;
};

}  // namespace strikewright
