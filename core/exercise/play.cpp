#include "exercise/play.hpp"

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <cmath>

#include "flight/flights.hpp"
#include "numeric/parallel.hpp"
#include "numeric/quasi.hpp"
#include "reading/pupil.hpp"
#include "reading/together.hpp"
#include "shot/shot_of.hpp"
#include "sighting/kind/contact.hpp"

namespace strikewright {
namespace {

/// Sizes of Student-t deviations of unit standard deviation: sqrt((nu - 2) / chi-square).
double stretch_of(double uniform) {
  static const boost::math::chi_squared law(kSwingFreedom);
  return std::sqrt((kSwingFreedom - 2.0) / boost::math::quantile(law, uniform));
}

std::size_t evenly(std::size_t k, std::size_t of, std::size_t among) {
  return (2 * k + 1) * among / (2 * of);
}

Coordinates changed(const Coordinates& centre, const Coordinates& deviation, const Change& change,
                    std::size_t pupil) {
  Coordinates c = centre, d = deviation;
  for (const ChangedPart& part : change) {
    c[part.place] += part.share[pupil] * (part.home[pupil] - c[part.place]);
    d[part.place] *= part.ratio[pupil];
  }
  return within_reach(c + d);
}

Come come_of(const std::vector<double>& along, const std::vector<double>& side, std::size_t swings,
             double bad, std::optional<double> target) {
  const auto n = static_cast<double>(swings);
  const auto missed = static_cast<double>(swings - along.size());
  Come out;
  for (const double a : along) out.carry += a / n;
  const double aim = target.value_or(out.carry);
  for (std::size_t i = 0; i < along.size(); ++i) out.distance += std::hypot(along[i] - aim, side[i]) / n;
  out.distance += missed * aim / n;
  out.bad_share = bad / n;
  return out;
}

}  // namespace

bool is_bad(const Strike<double>& strike, const Setting& setting) {
  return strike.missed || strike.strike_up < kind::Contact::thin_edge(setting) ||
         kind::Contact::fat_latent(strike, setting.ground.surface) > kind::Contact::kFatEdge;
}

Thinkable::Thinkable(const Setting& where, const Prior& whose, const std::vector<Coordinates>& centres,
                     const std::vector<Coordinates>& scatters, std::size_t pupils, std::size_t swings_of_each,
                     std::uint64_t seed)
    : setting{where}, prior{whose}, swings{swings_of_each} {
  ensure(!centres.empty() && !scatters.empty() && pupils > 0 && swings_of_each > 0,
         "thinkable pupils need draws and swings");
  setting.with_ball = true;
  constexpr std::size_t kAll = kUnknowns + 1;
  const std::vector<double> u = spread_uniforms(pupils * swings, kAll, seed);
  for (std::size_t m = 0; m < pupils; ++m) {
    centre.push_back(centres[evenly(m, pupils, centres.size())]);
    // Neighbours among the centres are of one set of causes: their scatters are taken from all over.
    const std::size_t elsewhere = (m * 37) % pupils;
    const Coordinates& sd = scatters[evenly(elsewhere, pupils, scatters.size())];
    for (std::size_t k = 0; k < swings; ++k) {
      const double* row = &u[(m * swings + k) * kAll];
      const double stretch = stretch_of(row[kUnknowns]);
      Coordinates d;
      for (int j = 0; j < kUnknowns; ++j) d[j] = stretch * sd[j] * normal_quantile(row[j]);
      deviation.push_back(d);
    }
  }
}

std::vector<std::vector<Come>> play(const Thinkable& who, const std::vector<Change>& changes,
                                    const PlayOptions& options) {
  const std::size_t swings = options.swings == 0 ? who.swings : std::min(options.swings, who.swings);
  std::vector<std::vector<Come>> out(changes.size(), std::vector<Come>(who.pupils()));
  const auto one = [&](std::size_t change, std::size_t pupil) {
    Launches launches;
    launches.reserve(swings);
    double bad = 0.0;
    for (std::size_t k = 0; k < swings; ++k) {
      const Coordinates z =
          changed(who.centre[pupil], who.deviation[pupil * who.swings + k], changes[change], pupil);
      const Shot<double> shot = shot_of(pass_at(who.prior, z), who.setting, false);
      bad += is_bad(shot.strike, who.setting) ? 1.0 : 0.0;
      if (shot.flew) launches.add(shot.strike.launch.v_WB_W, shot.strike.launch.w_WB_W);
    }
    const Flights flights = flights_of(launches, who.setting.ball, who.setting.day, FlightOptions::fast(), 1);
    out[change][pupil] = come_of(flights.along, flights.side, swings, bad, options.target_carry);
  };
  const auto some = [&](std::size_t begin, std::size_t end) {
    for (std::size_t i = begin; i < end; ++i) one(i / who.pupils(), i % who.pupils());
  };
  in_parallel(changes.size() * who.pupils(), 4, some, options.threads);
  return out;
}

}  // namespace strikewright
