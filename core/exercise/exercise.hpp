#pragma once
// What a pupil can be given to do: one exercise as data, and the catalogue of them. The document's members,
// limits and words: docs/exercises.md.

#include <array>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "bag/club.hpp"
#include "bag/surface.hpp"
#include "delivery/cause_slopes.hpp"
#include "quantity/fault.hpp"
#include "sighting/sighting.hpp"

namespace strikewright {

enum class Language { en, de };
inline constexpr std::size_t kLanguages = 2;
[[nodiscard]] const char* name_of(Language language);  ///< "en", "de"

/// What an exercise is about; the order of lists.
enum class ExerciseFamily { ground, release, face, path, strike, flight, practice };
[[nodiscard]] const char* name_of(ExerciseFamily family);

/// The earliest stage of practice at which it belongs: one thing again and again, in turn, in random order.
enum class PracticeStage { blocked, serial, random };
[[nodiscard]] const char* name_of(PracticeStage stage);

/// What a coach may know of a pupil's body. The first eight are parts that an exercise can load; child is
/// under 12, older is 70 and above.
enum class BodyNote {
  back,
  wrist,
  elbow,
  shoulder,
  hip,
  knee,
  ankle,
  neck,
  balance,
  pregnancy,
  heart,
  bone,
  surgery,
  child,
  older
};
inline constexpr std::size_t kBodyNotes = 15, kBodyParts = 8;
[[nodiscard]] const char* name_of(BodyNote note);

/// What one dose is believed to do to one cause of the player's usual swing, SI, player's terms. The cause's
/// offset c from the band's usual swing goes to c + shift (home - c), and its standard deviation from swing
/// to swing is multiplied by `scatter`. All figures of the catalogue: assumption.
struct Move {
  Cause cause = Cause::weight;
  double home = 0.0, home_sd = 0.0;        ///< where the exercise takes the swing; unit of the cause
  double shift = 0.0, shift_sd = 0.0;      ///< share of the way that is gone in one dose; sd > 0
  double scatter = 1.0, scatter_sd = 0.0;  ///< ratio, > 0
};

struct Dose {
  int balls = 0;  ///< swings in all, over the sets
  int sets = 0;
  int rest_s = 0;  ///< between sets
  int minutes = 0;
  int days_a_week = 0;
};

/// One text in both languages, in the order of Language.
using Bilingual = std::array<std::string, kLanguages>;

/// What is said about an exercise in one language; plain text.
struct ExerciseText {
  std::string title, purpose, cue;
  std::vector<std::string> steps, self_check, errors;
  std::string progression, regression;
  std::vector<std::string> cautions;  ///< its own; what holds for every exercise comes on top (safety.hpp)
  std::string dose, alt;              ///< alt: what the drawing shows
};

class ShownExercise;
struct BodyNotes;
struct Exercise;

/// The words of an exercise. Only what a list needs can be read here; how it is done comes with its cautions,
/// out of shown() in safety.hpp, and from nowhere else.
class ExerciseWords {
 public:
  ExerciseWords() = default;
  explicit ExerciseWords(std::array<ExerciseText, kLanguages> texts) : texts_{std::move(texts)} {}
  [[nodiscard]] const std::string& title(Language l) const { return text(l).title; }
  [[nodiscard]] const std::string& purpose(Language l) const { return text(l).purpose; }

 private:
  friend ShownExercise shown(const Exercise&, Language, const BodyNotes&);
  friend std::vector<std::string> cautions_of(const Exercise&, Language, const BodyNotes&);
  struct BodyNotes;
  struct Exercise;
  [[nodiscard]] const ExerciseText& text(Language l) const { return texts_[static_cast<std::size_t>(l)]; }
  std::array<ExerciseText, kLanguages> texts_;
};

struct Exercise {
  std::string name;    ///< [a-z_]{3,40}
  std::string source;  ///< "common practice, no source", or author, title, journal, year
  ExerciseFamily family = ExerciseFamily::ground;
  std::vector<Move> moves;                  ///< 1 to 4; the first is what it is for
  Condition condition = Condition::normal;  ///< of the swings done in it
  bool ball = true;                         ///< a ball is struck
  bool turf = false;                        ///< the ground is struck
  std::vector<Surface> ground;              ///< where it may be done
  std::vector<Family> clubs;                ///< that it suits
  std::vector<Bilingual> kit;
  Dose dose;
  PracticeStage stage = PracticeStage::blocked;
  std::vector<BodyNote> load;                 ///< parts loaded more than by a plain half swing
  bool balance = false;                       ///< one leg, feet together, a hop, a step
  bool jump = false;                          ///< the feet leave the ground
  std::vector<BodyNote> not_with, ask_first;  ///< disjoint; every part of `load` is in one of them
  bool crowded = false;                       ///< may be done with people close by
  double reach = 1.0;                         ///< share of the full swing's length, 0 to 1
  ExerciseWords words;
  std::string drawing;  ///< SVG text within the allowed elements; "" only for a coach's own
};

/// Reads one exercise document.
///
/// @param json  the document; every member is required but "drawing", unknown ones are refused
/// @param name  what the document has to call itself; "" = any (a coach's own)
/// @returns a Fault whose place is the member's path after the name ("towel, moves[1].cause"): missing,
/// unknown or twice-given members, words outside their lists (with the nearest one), numbers out of range,
/// doses that do not add up, texts too long or with markup, left and right in either language (the words
/// serve both hands), lists that contradict each other, a loaded body part without a rule, a jump without its
/// rules, a drawing outside the allow-list
[[nodiscard]] Result<Exercise> exercise_from(std::string_view json, const std::string& name = "");

/// What is wrong with a drawing; nothing when it is fit to be shown. Plain SVG of few elements and
/// attributes, seven colours, no text, no scripts, no references, under 12 kB. Place: "line 3, <path>, fill".
[[nodiscard]] Result<void> drawing_fault(std::string_view svg);

/// The built-in exercises, sorted by name; parsed once. Each has its drawing.
[[nodiscard]] const std::vector<Exercise>& catalogue();

/// The one of that name, nullptr if there is none.
[[nodiscard]] const Exercise* exercise_named(std::string_view name);

/// SVG text, right-hander; "" for a coach's own exercise without one.
[[nodiscard]] const std::string& drawing_of(const Exercise& exercise);

}  // namespace strikewright
