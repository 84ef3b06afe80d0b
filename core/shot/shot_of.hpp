#pragma once
// The whole forward chain from the numbers of the pass to the landing.

#include <cstdint>
#include <vector>

#include "delivery/delivery_of.hpp"
#include "delivery/pass_vector.hpp"
#include "shot/shot.hpp"
#include "strike/soil.hpp"
#include "strike/strike_of.hpp"

namespace strikewright {

/// delivery -> strike -> flight. Templated on the scalar: a Dual gives exact slopes through all of it.
/// @param with_flight false leaves `flight` at zero: launch and everything before it need none of it
template <class T>
Shot<T> shot_of(const Pass<T>& pass, const Setting& setting, bool with_flight = true,
                const FlightOptions& flight = {}) {
  Shot<T> shot;
  shot.pass = pass;
  const double lift = setting.with_ball ? ball_lift_on(setting.ground.surface, setting.club.family) : 0.0;
  shot.delivery = delivery_of(pass, setting.club, setting.ball, lift);
  shot.strike = strike_of(shot.delivery, setting.club, setting.ball, setting.ground, setting.with_ball);
  shot.flew = setting.with_ball && !shot.strike.missed;
  if (shot.flew && with_flight)
    shot.flight = flight_of(shot.strike.launch, setting.ball, setting.day, flight);
  return shot;
}

/// The surroundings in a mirror (y -> -y): only what the world sees changes, the wind across.
Setting mirrored(const Setting& setting);

/// The shot in a mirror. Exact: only signs change. What is seen (start direction, curve, side, divot
/// direction, spin axis) and every vector change sign; the player's terms (path, face, face turn, strike
/// point ...) are their own mirror image, and so is `Pass`. A left-hander's shot is mirrored(shot_of(pass,
/// mirrored(setting))).
Shot<double> mirrored(const Shot<double>& shot);

/// How the numbers of a pass vary from swing to swing: normal about `centre`, in the order of Pass's members.
struct Scatter {
  Pass<double> centre;
  Eigen::Matrix<double, kPassSize, kPassSize> root =
      Eigen::Matrix<double, kPassSize, kPassSize>::Zero();  ///< lower triangular, SI
};

/// Many shots, structure of arrays, SI; one entry a shot.
struct Shots {
  std::vector<double> low_point, attack, path, face, strike_up, divot_start, divot_depth, turf_before,
      ball_speed, start, curve, carry, side, apex;
  std::vector<char> flew;  ///< 1 when the ball was hit
  explicit Shots(std::size_t n = 0);
  [[nodiscard]] std::size_t size() const { return flew.size(); }
};

/// `n` shots of a scattered swing, on `threads` cores (0 = all). The same bits for any number of threads:
/// draws belong to blocks of fixed size, not to threads.
Shots shots_of(const Scatter& scatter, const Setting& setting, std::size_t n, std::uint64_t seed,
               unsigned threads = 0);

}  // namespace strikewright
