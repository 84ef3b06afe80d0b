#pragma once
// Records as JSON: the members of the structs of book.hpp by their names.

#include <nlohmann/json.hpp>

#include "book/book.hpp"

namespace strikewright::kept {

using Json = nlohmann::ordered_json;

[[nodiscard]] Json json_of(const Settings& settings);
[[nodiscard]] Json json_of(const Pupil& pupil);
[[nodiscard]] Json json_of(const Lesson& lesson);
[[nodiscard]] Json json_of(const KeptSwing& swing);
[[nodiscard]] Json json_of(const SwingChange& change);
[[nodiscard]] Json json_of(const KeptReading& reading);
[[nodiscard]] Json json_of(const Given& given);
[[nodiscard]] Json json_of(const OwnExercise& exercise);

/// The members of one object, taken one by one; the first thing wrong is kept. What is missing keeps its
/// value; what nobody took is a stranger.
class Members {
 public:
  /// @param place  "copy.json, pupils[3]"
  Members(const Json& object, std::string place);

  Members& take(const char* key, std::string& into);
  Members& take(const char* key, bool& into);
  Members& take(const char* key, int& into);
  Members& take(const char* key, std::int64_t& into);
  Members& take(const char* key, std::optional<double>& into);
  Members& take(const char* key, std::optional<int>& into);
  Members& take(const char* key, std::map<std::string, std::string>& into);
  Members& take(const char* key, std::vector<Entered>& into);
  /// An object or a list; null when it is missing.
  const Json* object(const char* key);
  const Json* list(const char* key);
  void wrong(const std::string& key, std::string found, std::string expected);
  /// Call last.
  [[nodiscard]] Result<void> done();

  [[nodiscard]] const std::string& place() const { return place_; }

 private:
  const Json* find(const char* key, const char* expected, bool (*is)(const Json&));

  const Json* object_;
  std::string place_;
  std::vector<std::string> taken_;
  std::optional<Fault> fault_;
};

/// Each takes the members of its record; call `done` afterwards.
void take(Members& from, Settings& settings);
void take(Members& from, Pupil& pupil);
void take(Members& from, Lesson& lesson);
void take(Members& from, KeptSwing& swing);
void take(Members& from, SwingChange& change);
void take(Members& from, KeptReading& reading);
void take(Members& from, Given& given);
void take(Members& from, OwnExercise& exercise);

/// A whole document; the Fault names line and column.
[[nodiscard]] Result<Json> parsed(const std::string& text, const std::string& name);

}  // namespace strikewright::kept
