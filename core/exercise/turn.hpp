#pragma once
// One exercise before thinkable pupils, and what would turn the order of two.

#include <cstdint>
#include <vector>

#include "exercise/play.hpp"
#include "exercise/ranking.hpp"

namespace strikewright {

/// An exercise with what it does to each thinkable pupil.
struct Candidate {
  const Exercise* exercise = nullptr;
  Permission permission;
  Change change;  ///< a part a move
  bool learned = false;
};

/// Draws an effect for each pupil: x standard normal (or what the book says), move j's share of the way
/// shift_j
/// + x shift_sd_j; home and scatter ratio by their own spreads (the ratio log-normal). The draws hang on the
/// exercise's name and the seed alone, and are evenly spread over the pupils.
[[nodiscard]] Candidate candidate_of(const Exercise& exercise, const LearnedEffect* learned,
                                     const Thinkable& who, std::uint64_t seed);

/// The three ways in which the second would be first. Solved along one parameter at a time on a part of the
/// swings; the scores' difference there is corrected to what all swings say (`ahead`, m, >= 0).
[[nodiscard]] std::vector<Turn> turns_of(const Thinkable& who, Cause leading, const Candidate& first,
                                         const Candidate& second, double ahead, const PlayOptions& options);

}  // namespace strikewright
