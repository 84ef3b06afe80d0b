#pragma once
// A whole sightings file: each swing, and each pattern of a club and a condition.

#include <functional>
#include <string>
#include <vector>

#include "reading/pattern.hpp"
#include "reading/reading.hpp"
#include "sighting/table.hpp"

namespace strikewright {

/// One swing of the file with its reading.
struct SwingReading {
  std::size_t row = 0;  ///< first data row = 1
  std::string club;
  Condition condition = Condition::normal;
  Hand hand = Hand::right;
  Reading reading;
};

/// All swings of one club and condition: where they sit, how they scatter, both with uncertainty.
struct Pattern {
  std::string club;
  Condition condition = Condition::normal;
  Hand hand = Hand::right;
  std::size_t n = 0;
  std::array<Estimate, kReported> mean;
  std::array<Estimate, kReported> scatter;
};

/// All swings of one player's hand with one club, read together.
struct Group {
  std::string club;
  Hand hand = Hand::right;
  Setting setting;                    ///< of its first swing
  Prior prior;                        ///< of its first swing
  std::vector<Condition> conditions;  ///< one a pattern of the fit
  std::vector<std::size_t> swings;    ///< indices into the lesson's, in the fit's order
  std::vector<std::size_t> patterns;  ///< indices into the lesson's, in the order of conditions
  Fit fit;
};

/// The pattern of a group that is spoken of first: the normal condition's, or else the first one's; an index
/// into its conditions, patterns and fit.
[[nodiscard]] std::size_t pattern_spoken_of(const Group& group);

struct LessonReading {
  std::vector<SwingReading> swings;
  std::vector<Pattern> patterns;
  std::vector<Group> groups;
};

struct LessonOptions {
  std::vector<Club> bag;
  Ball ball;
  Day day;  ///< wind across in the world's sense (right +); mirrored inside for left-handers
  Skill skill = Skill::club;
  FitOptions fit;  ///< its threads, order and keys are this lesson's
  std::string
      decided_by{};  ///< with a memory: bag, ball, day and skill as text, so that two lessons' fits differ
  unsigned threads = 0;  ///< 0 = all cores; the answer is the same for any number
  std::function<void(std::size_t done, std::size_t all)> progress;  ///< may be empty
};

/// Reads every swing. A club that the bag lacks is a Fault that names the row.
Result<LessonReading> read_lesson(const std::vector<SeenSwing>& swings, const LessonOptions& options,
                                  const std::string& file);

/// The setting of one seen swing (right-hander's frame).
Result<Setting> setting_of(const SeenSwing& swing, const LessonOptions& options, const std::string& file);

}  // namespace strikewright
