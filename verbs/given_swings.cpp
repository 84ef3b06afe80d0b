#include "verbs/given_swings.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>

#include "bag/generic.hpp"
#include "numeric/parallel.hpp"
#include "quantity/angle.hpp"
#include "sighting/table.hpp"
#include "verbs/read_lesson.hpp"

namespace strikewright {
namespace {

constexpr Proved kLowPoint{
    &Reported::low_point, "low point", "ahead of the ball", "behind the ball", "forward", "back", 0.015,
    kWorthLowPointM};
constexpr Proved kLowPointDepth{&Reported::low_point_depth,
                                "low-point depth",
                                "above the turf",
                                "under the turf",
                                "up",
                                "down",
                                0.004,
                                0.003};
constexpr Proved kPath{&Reported::path,     "path",        "in to out",  "out to in", "further in to out",
                       "further out to in", 1.5 * kDegree, 1.0 * kDegree};
constexpr Proved kFace{&Reported::face, "face",        "open",        "closed",
                       "more open",     "more closed", 1.5 * kDegree, 1.0 * kDegree};

std::optional<Phase> phase_of(const std::string& purpose) {
  constexpr std::array<std::pair<const char*, Phase>, 6> kPhases{{{"baseline", Phase::baseline},
                                                                  {"exercise", Phase::exercise},
                                                                  {"after", Phase::after},
                                                                  {"retention", Phase::retention},
                                                                  {"transfer", Phase::transfer},
                                                                  {"pressure", Phase::pressure}}};
  for (const auto& [name, phase] : kPhases)
    if (purpose == name) return phase;
  return std::nullopt;
}

std::string contact_of(const KeptSwing& swing) {
  for (const Entered& seen : swing.seen)
    if (seen.column == "contact") return seen.text;
  return "";
}

bool is_plain(const KeptSwing& swing) { return swing.given.empty() && swing.purpose.empty(); }

/// The club of most plain swings in the normal way.
std::string usual_club(const std::vector<KeptSwing>& swings) {
  std::map<std::string, int> count;
  std::string out;
  for (const KeptSwing& s : swings) {
    if (s.condition != "normal" || !(is_plain(s) || s.purpose == "baseline")) continue;
    if (++count[s.club] > count[out]) out = s.club;
  }
  return out;
}

class Gathering {
 public:
  Gathering(GivenFile& file, const Id& id) : file_{&file}, id_{id} {}

  void add_home(const Lesson& lesson, const std::vector<KeptSwing>& swings) {
    file_->club = usual_club(swings);
    int first = 1 << 30;
    for (const KeptSwing& s : swings) {
      const std::optional<Phase> phase = phase_of(s.purpose);
      if (s.given == id_ && phase && *phase != Phase::baseline) first = std::min(first, s.number);
    }
    for (const KeptSwing& s : swings) {
      const bool before = s.number < first && s.condition == "normal" &&
                          (is_plain(s) || (s.purpose == "baseline" && (s.given.empty() || s.given == id_)));
      if (before)
        keep(lesson, s, Phase::baseline);
      else
        add_own(lesson, s);
    }
  }

  void add_later(const Lesson& lesson, const std::vector<KeptSwing>& swings) {
    for (const KeptSwing& s : swings) add_own(lesson, s);
  }

  /// Baseline balls of other clubs serve the transfer, if there is one with that club; others go.
  void settle() {
    std::string transfer;
    for (const GivenBall& b : file_->balls)
      if (b.phase == Phase::transfer) transfer = b.swing.club;
    std::vector<GivenBall> kept;
    for (GivenBall& b : file_->balls) {
      if (b.phase == Phase::baseline && b.swing.club != file_->club) {
        if (b.swing.club != transfer) continue;
        b.other_club = true;
      }
      kept.push_back(std::move(b));
    }
    // Whoever corrects a time may put a ball before its neighbours; a day never falls.
    std::stable_sort(kept.begin(), kept.end(),
                     [](const GivenBall& a, const GivenBall& b) { return a.day < b.day; });
    file_->balls = std::move(kept);
  }

 private:
  void add_own(const Lesson& lesson, const KeptSwing& s) {
    const std::optional<Phase> phase = phase_of(s.purpose);
    if (s.given == id_ && phase) keep(lesson, s, *phase);
  }

  void keep(const Lesson& lesson, const KeptSwing& s, Phase phase) {
    const std::optional<int> day = day_number(s.at.empty() ? lesson.begun_at : s.at);
    file_->balls.push_back({.swing = s,
                            .day = day ? day_text(*day) : "",
                            .phase = phase,
                            .other_club = false,
                            .value = {},
                            .sd = 0.0,
                            .contact = contact_of(s)});
  }

  GivenFile* file_;
  Id id_;
};

/// What the ball's own sightings say, the prior taken out again; nothing where they narrow it by less than a
/// tenth.
void free_of_prior(GivenBall& ball, const Estimate& e) {
  constexpr double kHardlyTold = 0.9;
  const double prior = e.prior_sd * e.prior_sd, all = e.sd * e.sd;
  if (!(prior > 0.0) || !(all > 0.0) || all > kHardlyTold * prior) return;
  const double own = 1.0 / (1.0 / all - 1.0 / prior);
  const double value = own * (e.mean / all - e.prior_mean / prior);
  if (!std::isfinite(value) || !std::isfinite(own)) return;
  ball.value = value;
  ball.sd = std::sqrt(own);
}

/// What swings alike share.
struct Frame {
  Setting setting;
  Prior prior;
  PriorReach reach;
};

std::string frame_key(const SeenSwing& s) {
  return s.club + (s.ball ? " ball " : " line ") + name_of(s.surface);
}

std::size_t place_of(double Reported::*member) {
  for (std::size_t k = 0; k < kReported; ++k)
    if (kReportedFields[k].at == member) return k;
  return 0;
}

Answer<std::vector<SeenSwing>> seen_of(const GivenFile& file) {
  std::vector<KeptSwing> swings;
  for (const GivenBall& b : file.balls) swings.push_back(b.swing);
  std::vector<SeenSwing> seen;
  TableReader reader(TableOptions{.file = "lesson", .most_rows = 20'000},
                     [&](SeenSwing&& swing) { seen.push_back(std::move(swing)); });
  (void)reader.feed(sightings_csv(file.pupil, file.settings, swings));  // a fault of it comes from finish()
  if (const Result<std::size_t> rows = reader.finish(); !rows) {
    std::vector<Fault> faults = reader.faults();
    if (faults.empty()) faults.push_back(rows.error());
    return tl::unexpected<std::vector<Fault>>(std::move(faults));
  }
  return seen;
}

Answer<bool> read_balls(GivenFile& file, unsigned threads) {
  if (file.balls.empty()) return true;
  const Answer<std::vector<SeenSwing>> seen = seen_of(file);
  if (!seen) return tl::unexpected<std::vector<Fault>>(seen.error());
  const Result<LessonOptions> options = options_for(ReadingAsked{
      .csv = "", .skill = file.pupil.skill, .bag = file.pupil.bag, .from = "usual", .units = "metric"});
  if (!options) return refused(options.error());
  std::map<std::string, Frame> frames;
  for (const SeenSwing& s : *seen) {
    if (frames.contains(frame_key(s))) continue;
    Result<Setting> setting = setting_of(s, *options, "lesson");
    if (!setting) return refused(setting.error());
    Frame frame{*std::move(setting), {}, {}};
    frame.prior = prior_for(frame.setting.club, options->skill, s.surface);
    frame.reach = prior_reach(frame.setting, frame.prior);
    frames.emplace(frame_key(s), std::move(frame));
  }
  const std::size_t at = place_of(file.proved->member);
  in_parallel(
      seen->size(), 1,
      [&](std::size_t i, std::size_t) {
        const SeenSwing& s = (*seen)[i];
        if (s.sightings.empty()) return;
        const Frame& f = frames.at(frame_key(s));
        free_of_prior(file.balls[i], read_swing(s.sightings, f.setting, f.prior, f.reach, {}).at[at]);
      },
      threads);
  for (std::size_t i = 0; i < seen->size(); ++i)
    if ((*seen)[i].club == file.club || i == 0) file.middle = frames.at(frame_key((*seen)[i])).reach.mean[at];
  return true;
}

}  // namespace

const Proved& proved_by(Cause cause) {
  switch (cause) {
    case Cause::height:
      return kLowPointDepth;
    case Cause::handle:
    case Cause::plane_tilt:
      return kPath;
    case Cause::face_turn:
      return kFace;
    default:
      return kLowPoint;
  }
}

int GivenFile::count(Phase phase) const {
  return static_cast<int>(std::count_if(
      balls.begin(), balls.end(), [&](const GivenBall& b) { return b.phase == phase && !b.other_club; }));
}

Answer<GivenFile> given_file(Book& book, const Id& id, bool readings, unsigned threads) {
  const Result<Given> given = book.given(id);
  if (!given) return refused(given.error());
  const Result<Pupil> pupil = book.pupil(given->pupil);
  if (!pupil) return refused(pupil.error());
  const Result<Settings> settings = book.settings();
  if (!settings) return refused(settings.error());
  const Result<KnownExercises> known = known_exercises(book);
  if (!known) return refused(known.error());
  GivenFile file{
      .given = *given, .pupil = *pupil, .settings = *settings, .exercise = {}, .club = "", .balls = {}};
  if (const Exercise* exercise = known->named(given->exercise)) file.exercise = *exercise;
  file.proved = &proved_by(file.exercise && !file.exercise->moves.empty() ? file.exercise->moves.front().cause
                                                                          : Cause::weight);
  const Result<std::vector<LessonLine>> lessons = book.lessons_of(given->pupil);
  if (!lessons) return refused(lessons.error());
  Gathering gathering{file, id};
  bool begun = false;
  for (const LessonLine& line : *lessons) {
    const bool home = line.lesson.id == given->lesson;
    begun = begun || home;
    if (!begun && !given->lesson.empty()) continue;
    const Result<std::vector<KeptSwing>> swings = book.swings_of(line.lesson.id);
    if (!swings) return refused(swings.error());
    home ? gathering.add_home(line.lesson, *swings) : gathering.add_later(line.lesson, *swings);
  }
  gathering.settle();
  if (readings) {
    if (const Answer<bool> read = read_balls(file, threads); !read)
      return tl::unexpected<std::vector<Fault>>(read.error());
  }
  return file;
}

Series series_of(const GivenFile& file) {
  Series out;
  std::map<int, int> numbers;  // of the balls within their day
  for (const GivenBall& b : file.balls) {
    const int day = day_number(b.day).value_or(0);
    const int number = ++numbers[day];
    if (b.value)
      out.push_back({.value = *b.value,
                     .sd = b.sd,
                     .phase = b.phase,
                     .day = day,
                     .ball = number,
                     .other_club = b.other_club});
  }
  return out;
}

ProofOptions proof_options(const GivenFile& file) {
  ProofOptions out;
  out.wish = within(file.middle - file.proved->half_zone, file.middle + file.proved->half_zone);
  out.smallest_worth = file.proved->worth;
  return out;
}

}  // namespace strikewright
