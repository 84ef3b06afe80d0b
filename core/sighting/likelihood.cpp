#include "sighting/likelihood.hpp"

#include <cmath>

#include "quantity/fault.hpp"

namespace strikewright {
namespace {

/// log of the Student-t's normalising constant for unit scale, nu = kTailFreedom.
double log_student_constant() {
  constexpr double nu = kTailFreedom;
  // Gamma(3) = 2, Gamma(5/2) = 3 sqrt(pi) / 4: written out because lgamma is not safe on several threads.
  static_assert(nu == 5.0);
  return std::log(2.0 / (0.75 * std::sqrt(std::numbers::pi))) - 0.5 * std::log(nu * std::numbers::pi);
}

Term along_x(const Term& z, double dz_dx) { return {z.cost, z.slope * dz_dx, z.curvature * dz_dx * dz_dx}; }

Term sum(const Term& a, const Term& b) {
  return {a.cost + b.cost, a.slope + b.slope, a.curvature + b.curvature};
}

}  // namespace

Scale scale_at(double x, double sd, double share, double model_share) {
  const double root = std::sqrt(x * x + sd * sd);
  const double base = sd + share * (root - sd);
  const double value = std::sqrt(base * base + model_share * model_share * x * x);
  return {value, (base * share * x / root + model_share * model_share * x) / value};
}

Term student(double y, double x, double sd, double share, double model_share) {
  constexpr double nu = kTailFreedom;
  const Scale s = scale_at(x, sd, share, model_share);
  const double r = (y - x) / s.value;
  const double weight = (nu + 1.0) / (nu + r * r);
  const double dr = -(1.0 + r * s.slope) / s.value;
  const double relative = s.slope / s.value;
  Term out;
  out.cost = 0.5 * (nu + 1.0) * std::log1p(r * r / nu) +
             std::log(s.value / scale_at(y, sd, share, model_share).value);
  out.slope = weight * r * dr + relative;
  out.curvature = weight * dr * dr + 0.25 * relative * relative;
  return out;
}

double log_student(double y, double x, double sd, double share, double model_share) {
  constexpr double nu = kTailFreedom;
  const Scale s = scale_at(x, sd, share, model_share);
  const double r = (y - x) / s.value;
  return log_student_constant() - std::log(s.value) - 0.5 * (nu + 1.0) * std::log1p(r * r / nu);
}

Term minus_log_logistic(double z) {
  // log(1 + exp(-z)) without overflow; F(-z) from the same exponential.
  const double small = std::exp(-std::abs(z));
  const double away = (z > 0.0 ? small : 1.0) / (1.0 + small);  // F(-z)
  return {std::log1p(small) + (z > 0.0 ? 0.0 : -z), -away, away * (1.0 - away)};
}

Term word_cost(const WordScale& scale, std::size_t word, double x) {
  ensure(word < scale.count, "a word has an index within its scale");
  const double q = scale.soft / kLogisticSd;
  Term out;
  const bool lowest = word == 0;
  const bool highest = word + 1 == scale.count;
  if (!highest) out = sum(out, along_x(minus_log_logistic((scale.edges[word] - x) / q), -1.0 / q));
  if (!lowest) out = sum(out, along_x(minus_log_logistic((x - scale.edges[word - 1]) / q), 1.0 / q));
  if (!highest && !lowest) {
    out.cost -= std::log(-std::expm1((scale.edges[word - 1] - scale.edges[word]) / q));
  }
  return out;
}

}  // namespace strikewright
