#pragma once
// The balls that belong to an exercise given: those before it, those of it, and every later look; each read
// by itself, so that no ball leans on its neighbours.

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "proof/proof.hpp"
#include "reading/reading.hpp"
#include "verbs/answer.hpp"
#include "verbs/known_exercises.hpp"
#include "verbs/lesson_file.hpp"

namespace strikewright {

/// What an exercise is to move, by its first cause.
struct Proved {
  double Reported::*member = &Reported::low_point;
  const char *says, *plus, *minus;  ///< of a place
  const char *more, *less;          ///< of a change
  double half_zone = 0.0;           ///< SI: this near to such players' usual swing is as wished; assumption
  double worth = 0.0;               ///< SI: a change that is worth having; assumption
};
/// Low point for weight, release and speed; its depth for height; path for handle and plane tilt; face for
/// face turn.
const Proved& proved_by(Cause cause);

struct GivenBall {
  KeptSwing swing;
  std::string day;  ///< "2026-11-25"
  Phase phase = Phase::baseline;
  bool other_club = false;  ///< baseline with the club of the transfer balls
  /// The quantity as the ball's own sightings tell it, the prior taken out; nothing where they say next to
  /// nothing of it.
  std::optional<double> value;
  double sd = 0.0;      ///< SI
  std::string contact;  ///< the word that was entered, "" = none
};

/// An exercise given with all that belongs to it.
struct GivenFile {
  Given given;
  Pupil pupil;
  Settings settings;
  std::optional<Exercise> exercise;  ///< nothing: a name that nobody knows any more
  const Proved* proved = nullptr;
  double middle = 0.0;           ///< SI: the quantity of such players' usual swing with the club
  std::string club;              ///< of the baseline
  std::vector<GivenBall> balls;  ///< in the order they were hit
  [[nodiscard]] int count(Phase phase) const;
};

/// Balls before: of the lesson in which the exercise was given, those called baseline, and plain swings in
/// the normal way with the same club before the first ball of the exercise. Balls after and later looks: what
/// was kept as a part of it.
/// @param readings  false: only counted, no value is worked out
Answer<GivenFile> given_file(Book& book, const Id& given, bool readings, unsigned threads = 0);

/// The same points for core/proof, SI, in the quantity's own direction.
Series series_of(const GivenFile& file);
ProofOptions proof_options(const GivenFile& file);

}  // namespace strikewright
