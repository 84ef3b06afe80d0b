#include "reading/reading.hpp"

#include <fmt/format.h>

#include <cmath>

#include "numeric/parallel.hpp"
#include "numeric/quantile.hpp"
#include "numeric/quasi.hpp"
#include "reading/estimate.hpp"
#include "reading/target.hpp"
#include "reading/weigh.hpp"
#include "shot/shot_of.hpp"

namespace strikewright {

Reported reported_of(const Shot<double>& shot) { return reported_of(reported_values(shot)); }

Reported reported_of(const std::array<double, kReported>& values) {
  Reported r;
  for (std::size_t i = 0; i < kReported; ++i) r.*(kReportedFields[i].at) = values[i];
  return r;
}

const Estimate& Reading::of(double Reported::*member) const {
  for (std::size_t i = 0; i < kReported; ++i)
    if (kReportedFields[i].at == member) return at[i];
  ensure(false, "not a reported quantity");
  return at[0];
}

PriorReach prior_reach(const Setting& setting, const Prior& prior, unsigned threads) {
  constexpr std::size_t kDraws = 256;  // evenly spread: a mean to about 1 % of its standard deviation
  constexpr std::size_t kChunk = 32;
  const auto u = spread_uniforms(kDraws, static_cast<std::size_t>(kUnknowns), 1);
  const std::vector<double> weight(kDraws, 1.0 / static_cast<double>(kDraws));
  std::array<std::vector<double>, kReported> values;
  for (std::vector<double>& column : values) column.resize(kDraws);
  const auto some = [&](std::size_t begin, std::size_t end) {
    for (std::size_t i = begin; i < end; ++i) {
      Coordinates z;
      for (std::size_t j = 0; j < static_cast<std::size_t>(kUnknowns); ++j)
        z[static_cast<int>(j)] = normal_quantile(u[i * static_cast<std::size_t>(kUnknowns) + j]);
      const auto row = reported_values(shot_of(pass_at(prior, z), setting, false));
      for (std::size_t k = 0; k < kReported; ++k) values[k][i] = row[k];
    }
  };
  in_parallel(kDraws, kChunk, some, threads);
  PriorReach reach;
  for (std::size_t k = 0; k < kReported; ++k) {
    const WeightedDraws d(values[k], weight);
    reach.mean[k] = d.mean();
    reach.sd[k] = d.sd();
  }
  return reach;
}

namespace {

std::string health_sentence(const ReadingHealth& h, std::size_t sightings) {
  if (sightings == 0) return "Nothing was seen: this is what is usual for the club and the skill band.";
  if (h.rough)
    return "Rough: the sightings do not sit well with one simple answer; take the limits with care.";
  if (h.humps > 1)
    return fmt::format("The sightings allow {} different swings; both are in the limits.", h.humps);
  return "Sound.";
}

}  // namespace

Reading read_swing(std::span<const Sighting> sightings, const Setting& setting, const Prior& prior,
                   const PriorReach& reach, const ReadingOptions& options) {
  const Target target(sightings, setting, prior);
  const std::vector<Hump> humps = humps_of(target);
  ensure(!humps.empty(), "no start of the reading gave a finite cost");
  const Weighed w = weigh(target, humps, options.draws, options.seed);
  Reading r;
  std::array<std::vector<double>, kReported> values;
  for (const Shot<double>& s : w.shot) {
    const auto row = reported_values(s);
    for (std::size_t k = 0; k < kReported; ++k) values[k].push_back(row[k]);
  }
  for (std::size_t k = 0; k < kReported; ++k)
    r.at[k] = estimate_of(values[k], w.weight, reach.mean[k], reach.sd[k]);
  for (const std::size_t i : resample(w.weight, options.draws)) {
    r.draws.push_back(reported_of(w.shot[i]));
    r.passes.push_back(w.shot[i].pass);
  }
  r.best = pass_at(prior, humps.front().at);
  r.cost = humps.front().cost;
  r.health.pareto_k = w.tail_index;
  r.health.effective_draws = w.effective_draws;
  r.health.humps = static_cast<int>(humps.size());
  r.health.steps = humps.front().steps;
  r.health.rough = w.rough;
  r.health.converged = humps.front().converged;
  r.health.sentence = health_sentence(r.health, sightings.size());
  return r;
}

Reading read_swing(std::span<const Sighting> sightings, const Setting& setting, const Prior& prior,
                   const ReadingOptions& options) {
  return read_swing(sightings, setting, prior, prior_reach(setting, prior), options);
}

}  // namespace strikewright
