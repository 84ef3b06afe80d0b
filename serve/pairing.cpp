#include "serve/pairing.hpp"

#include <fmt/format.h>

#include <ctime>

#include "quantity/nearest.hpp"
#include "serve/secrets.hpp"

namespace strikewright {
namespace {

constexpr std::size_t kTokenBytes = 32, kIdBytes = 8, kLongestName = 60, kAddresses = 1000;
constexpr std::chrono::minutes kSeenEvery{10};

}  // namespace

std::string iso_of(WallTime moment) {
  const std::time_t time = std::chrono::system_clock::to_time_t(moment);
  std::tm parts{};
  gmtime_r(&time, &parts);
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z", parts.tm_year + 1900, parts.tm_mon + 1,
                     parts.tm_mday, parts.tm_hour, parts.tm_min, parts.tm_sec);
}

Pairing::Pairing(Book& book, Clock clock) : book_{&book}, clock_{std::move(clock)} {}

void Pairing::on_code(std::function<void(const Code&)> told) {
  const std::lock_guard lock{mutex_};
  told_ = std::move(told);
}

void Pairing::renew(WallTime now) {
  code_ = {.digits = random_digits(kDigits), .ends_at = now + kCodeLives};
  wrong_in_all_ = 0;
  if (told_) told_(code_);
}

Pairing::Code Pairing::code() {
  const std::lock_guard lock{mutex_};
  const WallTime now = clock_();
  if (code_.digits.empty() || now >= code_.ends_at) renew(now);
  return code_;
}

std::optional<Pairing::Refusal> Pairing::too_often(const std::string& from, WallTime now) {
  std::erase_if(wrong_, [&](const auto& entry) { return now - entry.second.last >= kWait; });
  const auto at = wrong_.find(from);
  const bool crowded = at == wrong_.end() && wrong_.size() >= kAddresses;
  if (!crowded && (at == wrong_.end() || at->second.times < kWrongTries)) return std::nullopt;
  const auto wait = crowded ? std::chrono::seconds(kWait)
                            : std::chrono::ceil<std::chrono::seconds>(at->second.last + kWait - now);
  return Refusal{.status = 429,
                 .fault = {"code", fmt::format("{} wrong codes in a minute", kWrongTries),
                           fmt::format("another try in {} s", wait.count())},
                 .wait = wait};
}

Pairing::Refusal Pairing::wrong_code(const std::string& from, WallTime now) {
  Wrong& wrong = wrong_[from];
  // The minute runs from the last of them: who goes on trying goes on waiting.
  wrong.last = now;
  ++wrong.times;
  if (++wrong_in_all_ >= kWrongByAnybody) renew(now);
  return {.status = 403,
          .fault = {"code", "another one", "the eight digits that the coach's machine shows now"}};
}

std::optional<Pairing::Refusal> Pairing::pair(const std::string& code, const std::string& name,
                                              const std::string& from, Paired& into) {
  const std::lock_guard lock{mutex_};
  const WallTime now = clock_();
  if (auto refusal = too_often(from, now)) return refusal;
  if (name.empty() || name.size() > kLongestName)
    return Refusal{.status = 400,
                   .fault = {"name", strikewright::quoted(name), fmt::format("1 to {} bytes", kLongestName)}};
  if (code_.digits.empty() || now >= code_.ends_at) renew(now);
  if (!same_secret(code, code_.digits)) return wrong_code(from, now);
  Paired paired{.token = random_hex(kTokenBytes), .device = {}};
  paired.device = {.id = random_hex(kIdBytes),
                   .name = name,
                   .token_hash = hash_of(paired.token),
                   .paired_at = iso_of(now),
                   .seen_at = iso_of(now)};
  if (const Result<void> kept = book_->keep(paired.device); !kept)
    return Refusal{.status = is_of_the_file(kept.error()) ? 503 : 400, .fault = kept.error()};
  wrong_.erase(from);
  renew(now);
  into = std::move(paired);
  return std::nullopt;
}

Result<std::optional<Book::Device>> Pairing::device_of(const std::string& token) {
  if (token.size() != 2 * kTokenBytes) return std::optional<Book::Device>{};
  const Result<std::vector<Book::Device>> devices = book_->devices();
  if (!devices) return unexpected(devices.error());
  const std::string hash = hash_of(token);
  for (const Book::Device& device : *devices) {
    if (!same_secret(hash, device.token_hash)) continue;
    const WallTime now = clock_();
    Book::Device seen = device;
    seen.seen_at = iso_of(now);
    // Whether that could be noted is of no matter to the one who asks.
    if (device.seen_at < iso_of(now - kSeenEvery)) static_cast<void>(book_->keep(seen));
    return std::optional(seen);
  }
  return std::optional<Book::Device>{};
}

}  // namespace strikewright
