#pragma once
// An invented lesson: swings drawn around a pattern, looked at by an invented coach, with the truth kept.

#include <cstdint>
#include <string>
#include <vector>

#include "reading/reading.hpp"
#include "verbs/pass_given.hpp"

namespace strikewright {

struct InventOptions {
  Setting setting;
  Hand hand = Hand::right;
  Skill skill = Skill::club;
  PassGiven pattern;      ///< where the pattern sits; what is not given is drawn from the prior
  double scatter = 0.45;  ///< share of the prior's spread that swings of one pattern have, 0..1
  std::size_t swings = 12;
  std::uint64_t seed = 1;
  std::string look = "coach";  ///< "coach", or one of looks()
};

/// One invented swing: what happened and what was seen of it (right-hander's frame).
struct InventedSwing {
  Shot<double> shot;
  std::vector<Sighting> seen;
};

/// Swing i of a pattern: numbers at prior coordinates sqrt(1 - s^2) z + s z_i (z of the pattern, z_i of the
/// swing, standard normal, s the scatter), so that a swing taken by itself is a draw from the prior; then
/// moved by what `pattern` asks. Sightings are drawn by the sighting room's own likelihoods.
std::vector<InventedSwing> invent(const InventOptions& options);

/// "coach" and the names of looks().
std::vector<std::string> look_names();

/// One thing seen as a coach writes it: a column of the sightings file and the cell's text.
struct WrittenSighting {
  std::string column, text;
};
/// Everything seen of one swing, in the order of the documentation, values rounded as a coach writes them.
std::vector<WrittenSighting> written(const InventedSwing& swing, Hand hand);

/// The sightings file, values rounded as a coach writes them; `comment` lines begin with #.
std::string sightings_csv(const std::vector<InventedSwing>& swings, const InventOptions& options,
                          const std::string& comment);

}  // namespace strikewright
