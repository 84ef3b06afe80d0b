#pragma once
// What people may enter, field by field. The book knows no columns, clubs or conditions: only what text, time
// and range are.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "book/book.hpp"

namespace strikewright::kept {

/// 1 to 40 of a-z 0-9 -.
[[nodiscard]] bool is_id(std::string_view text);

/// Keeps the first thing wrong with the fields of one record, "name of pupil anna".
class Fields {
 public:
  Fields(const std::string& kind, const Id& id);  ///< faults an id that is none

  Fields& id(const char* field, const std::string& text);
  Fields& maybe_id(const char* field, const std::string& text);  ///< "" is good
  Fields& word(const char* field, const std::string& text);      ///< one line, 1 to 100 bytes
  Fields& line(const char* field, const std::string& text, std::size_t most = 500);  ///< no line's end
  Fields& prose(const char* field, const std::string& text,
                std::size_t most = 100'000);                 ///< lines and tabs are good
  Fields& time(const char* field, const std::string& text);  ///< ISO 8601 or ""
  Fields& day(const char* field, const std::string& text);   ///< "2026-11-25" or ""
  Fields& letters(const char* field, const std::string& text, std::size_t least, std::size_t most);  ///< a-z
  /// JSON, an object; "" is good.
  Fields& json_object(const char* field, const std::string& text);
  Fields& one_of(const char* field, const std::string& text, const std::vector<std::string>& words);
  Fields& within(const char* field, std::optional<double> number, double low, double high);
  Fields& wrong(const char* field, std::string found, std::string expected);

  [[nodiscard]] const std::optional<Fault>& fault() const { return fault_; }

 private:
  std::string record_;
  std::optional<Fault> fault_;
};

/// Is the record one that a book takes? The first fault where it is not.
[[nodiscard]] Result<void> fit(const Settings& settings);
[[nodiscard]] Result<void> fit(const Pupil& pupil);
[[nodiscard]] Result<void> fit(const Lesson& lesson);
[[nodiscard]] Result<void> fit(const KeptSwing& swing);
[[nodiscard]] Result<void> fit(const KeptReading& reading);
[[nodiscard]] Result<void> fit(const Given& given);
[[nodiscard]] Result<void> fit(const OwnExercise& exercise);
[[nodiscard]] Result<void> fit(const Book::Device& device);
/// Who makes a change: one line of text.
[[nodiscard]] Result<void> fit_who(const std::string& who);

/// The sightings that hold something, in the order of entry.
[[nodiscard]] std::vector<Entered> told(const std::vector<Entered>& seen);

}  // namespace strikewright::kept
