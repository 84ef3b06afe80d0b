#pragma once
// Readings of lessons, each made once however many ask.

#include <deque>
#include <future>
#include <map>
#include <memory>
#include <mutex>
#include <nlohmann/json.hpp>
#include <string>

#include "book/book.hpp"
#include "verbs/answer.hpp"
#include "verbs/reading_verb.hpp"

namespace strikewright {

class Readings {
 public:
  /// How a reading is made; `reading_document` but in tests.
  using Maker = std::function<Answer<Document>(const ReadingAsked&)>;
  Readings(Book& book, std::string version, Maker maker = reading_document);
  ~Readings();
  Readings(const Readings&) = delete;
  Readings& operator=(const Readings&) = delete;

  /// The document of docs/contract.md, "The reading". Waits where another thread makes it already.
  /// @param units  "" = as in the settings
  Answer<std::string> of(const Id& lesson, const std::string& units);

 private:
  using Text = std::shared_ptr<const std::string>;  ///< a document behind its lesson and revision
  struct Wanted {
    ReadingAsked asked;
    std::int64_t revision = 0;
    std::string made_of;  ///< hash of everything that decides
  };
  Result<Wanted> wanted(const Id& lesson, const std::string& units);
  Answer<Text> rest_of(const Id& lesson, const Wanted& wanted);
  Answer<Text> made(const Id& lesson, const Wanted& wanted);
  void remember(const std::string& key);

  Book* book_;
  std::string version_;
  Maker maker_;
  std::unique_ptr<FitMemory> memory_;  ///< a ball more costs the fit of the last twenty, not of all
  std::mutex mutex_;
  std::map<std::string, std::shared_future<Answer<Text>>> known_;
  std::deque<std::string> order_;  ///< oldest first
};

}  // namespace strikewright
