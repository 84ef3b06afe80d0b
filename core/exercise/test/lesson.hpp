#pragma once
// Invented lessons for the tests of this room.

#include <string>
#include <vector>

#include "bag/generic.hpp"
#include "cause/causes.hpp"
#include "cause/looks.hpp"
#include "shot/shot_of.hpp"

namespace strikewright {

/// A pupil whose usual swing is the band's but for some causes, in steps, and what an eye without bias sees.
class LessonPupil {
 public:
  explicit LessonPupil(Hand hand = Hand::right, const std::string& club = "7i") : hand_{hand} {
    setting_.club = *club_named(generic_bag(), club);
    prior_ = prior_for(setting_.club, Skill::club);
  }
  LessonPupil& off(Cause cause, double steps) {
    z_[place_of(cause)] += steps / steps_in(cause, prior_);
    return *this;
  }
  LessonPupil& hits(int n, const std::vector<Kind>& kinds = by_eye()) {
    for (int i = 0; i < n; ++i) {
      Coordinates z = z_;
      for (int j = 0; j < kUnknowns; ++j) z[j] += 0.8 * within_sd()[j] * draws_.normal();
      const Shot<double> shot = shot_of(pass_at(prior_, z), setting_);
      SeenSwing s;
      s.row = s.line = rows_.size() + 1;
      s.club = setting_.club.name;
      s.hand = hand_;
      for (const Kind kind : kinds)
        if (can_be_seen(kind, shot)) s.sightings.push_back(seen(kind, shot, setting_, draws_));
      rows_.push_back(s);
    }
    return *this;
  }
  static const std::vector<Kind>& by_eye() {
    using enum Kind;
    static const std::vector<Kind> kinds{start,           curve,      carry,        height_word,
                                         contact_word,    divot_word, divot_start,  divot_end,
                                         divot_direction, strike_toe, strike_groove};
    return kinds;
  }
  /// The lesson read; the group and its causes.
  struct Read {
    Group group;
    CauseReading causes;
  };
  [[nodiscard]] Read read() const {
    LessonOptions options;
    options.bag = generic_bag();
    Result<LessonReading> lesson = read_lesson(rows_, options, "invented");
    ensure(lesson.has_value(), "an invented lesson can be read");
    Read out{std::move(lesson->groups.front()), {}};
    out.causes = causes_of(out.group, rows_);
    return out;
  }

 private:
  Hand hand_;
  Setting setting_;
  Prior prior_;
  Coordinates z_ = Coordinates::Zero();
  Draws draws_{4};
  std::vector<SeenSwing> rows_;
};

}  // namespace strikewright
