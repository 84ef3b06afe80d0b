#pragma once
// Nobody gets hurt: what is known of the pupil's body and the place against what an exercise asks of them,
// and the cautions that go with every exercise that is shown.

#include <bitset>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "exercise/exercise.hpp"

namespace strikewright {

/// What a free text about a pupil's body was understood to say. Errs to caution: "no back pain" notes the
/// back.
struct BodyNotes {
  std::bitset<kBodyNotes> notes;
  std::optional<int> age;  ///< years
  bool junior = false;     ///< under 18: an adult is told
  bool unread = false;     ///< there is text in which nothing was understood: ask before giving anything
  [[nodiscard]] bool has(BodyNote n) const { return notes[static_cast<std::size_t>(n)]; }
};

/// Looks for the words of kBodyNotes in English and German, whole words or their beginnings, case aside.
/// @param age years; nothing = not known. Under 12: child, under 18: junior, 70 and above: older
[[nodiscard]] BodyNotes body_notes_of(std::string_view free_text, std::optional<int> age = std::nullopt);

/// Where the pupil will practise.
struct Place {
  Surface surface = Surface::fairway;
  bool crowded = false;          ///< people close by
  bool ball_flight_room = true;  ///< false: a ball cannot be struck there (at home, a garden)
};

enum class Permit { free, flagged, hidden };
[[nodiscard]] const char* name_of(Permit permit);

/// May this pupil be given this exercise at this place?
struct Permission {
  Permit permit = Permit::free;
  std::vector<std::string> reasons;  ///< sentences, English; empty only when free
};

/// Hidden: a note in `not_with`; a jump or balance with a note that forbids either; ground, crowd or room
/// that does not allow it. Flagged (ask first): a note in `ask_first`; pregnancy, heart, bone or surgery with
/// any exercise; striking hard ground or a mat with a sore wrist, elbow, shoulder or neck; a note that was
/// not understood. A pupil's kit is not known here.
[[nodiscard]] Permission allowed(const Exercise& exercise, const BodyNotes& notes, const Place& place);

/// What holds for every exercise: warm up, clear space, stop on pain, hard ground, thunder, children, and who
/// knows better. Never empty. Assumptions and common practice; docs/exercises.md says which.
[[nodiscard]] const std::vector<std::string>& universal_cautions(Language language);

/// Its own cautions, then what the notes ask for (an adult's eye, ask first), then the universal ones.
[[nodiscard]] std::vector<std::string> cautions_of(const Exercise& exercise, Language language,
                                                   const BodyNotes& notes);

/// An exercise as it may be shown or printed: its words with its cautions. There is no other way to the
/// words, and cautions() is never empty (ensured).
class ShownExercise {
 public:
  [[nodiscard]] const std::string& name() const { return name_; }
  [[nodiscard]] Language language() const { return language_; }
  [[nodiscard]] const ExerciseText& text() const { return text_; }  ///< its `cautions` are cautions()
  [[nodiscard]] const std::vector<std::string>& kit() const { return kit_; }
  [[nodiscard]] const Dose& dose() const { return dose_; }
  [[nodiscard]] const std::string& drawing() const { return drawing_; }
  [[nodiscard]] const std::vector<std::string>& cautions() const { return text_.cautions; }

 private:
  friend ShownExercise shown(const Exercise&, Language, const BodyNotes&);
  ShownExercise() = default;
  std::string name_;
  Language language_ = Language::en;
  ExerciseText text_;
  std::vector<std::string> kit_;
  Dose dose_;
  std::string drawing_;
};

[[nodiscard]] ShownExercise shown(const Exercise& exercise, Language language, const BodyNotes& notes);

}  // namespace strikewright
