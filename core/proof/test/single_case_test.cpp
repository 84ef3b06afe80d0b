#include "proof/single_case.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <map>
#include <string>
#include <vector>

#include "rows.hpp"

using namespace strikewright;
using test::numbers_of;

namespace {

std::map<std::string, double> statistics_of(const std::vector<double>& before,
                                            const std::vector<double>& after) {
  const Overlap o = overlap_of(before, after, higher_is_better());
  const StandardDifference d = standard_difference(before, after, higher_is_better()).value();
  return {{"pnd", o.pnd},           {"pand", o.pand},
          {"pem", o.pem},           {"ird", o.ird},
          {"nap", o.nap},           {"tau", o.tau},
          {"nap_se", o.nap_se},     {"nap_low", o.nap_low},
          {"nap_high", o.nap_high}, {"tau_u", o.tau_u},
          {"tau_bc", o.tau_bc},     {"smd", d.smd},
          {"smd_hedges", d.hedges}, {"log_response_ratio", log_response_ratio(before, after).value()}};
}

/// The rows whose inputs stand in the file's note.
std::map<std::string, double> noted_statistics() {
  const std::vector<double> differences{5, -2, 6, 0, -4};
  const double error = typical_error(differences);
  const MeanChange change = mean_change(-1.2, 2.5, 20, 2.2, 20);
  const MeanChange shrunk = change.shrunk(1.0);
  const RateChange rate = rate_change(9, 20, 3, 20);
  return {{"differences_sd", error * std::sqrt(2.0)},
          {"typical_error", error},
          {"minimal_detectable_change", minimal_detectable_change(error)},
          {"standard_error", change.se},
          {"probability_lower", change.probability_beyond(0.0, Better::lower)},
          {"probability_lower_by_0.5", change.probability_beyond(0.5, Better::lower)},
          {"shrunk_mean", shrunk.change},
          {"shrunk_sd", shrunk.se},
          {"shrunk_probability_lower_by_0.5", shrunk.probability_beyond(0.5, Better::lower)},
          {"probability_rate_fell", rate.probability_fell},
          {"fisher_two_sided", rate.fisher_two_sided}};
}

}  // namespace

TEST_CASE("single-case figures are those that were printed") {
  // Parker, Vannest & Davis 2011 (S1-S9), Tarlow 2017 (S10), computed by other code (the rest): see the
  // files.
  auto rows = test::rows_of("single_case.csv");
  for (const auto& row : test::rows_of("single_case_sums.csv")) rows.push_back(row);
  CHECK(rows.size() == 27);
  const auto noted = noted_statistics();
  for (const auto& row : rows) {
    const std::string& name = row.at("statistic");
    CAPTURE(row.at("id"));
    CAPTURE(name);
    auto expected = test::printed(row.at("expected"));
    if (row.at("id").starts_with("S8")) expected.tolerance = 1e-4;  // what its source allows
    const double got =
        row.at("before").empty()
            ? noted.at(name)
            : statistics_of(numbers_of(row.at("before")), numbers_of(row.at("after"))).at(name);
    CAPTURE(got);
    CHECK(std::fabs(got - expected.value) <= expected.tolerance);
  }
}

TEST_CASE("fewer metres from the target count as better where lower is better") {
  const std::vector<double> before{12, 15, 11, 14}, after{8, 9, 12, 7, 6};
  const Overlap lower = overlap_of(before, after, lower_is_better());
  std::vector<double> turned_before, turned_after;
  for (const double x : before) turned_before.push_back(-x);
  for (const double x : after) turned_after.push_back(-x);
  const Overlap turned = overlap_of(turned_before, turned_after, higher_is_better());
  CHECK(lower.nap == turned.nap);
  CHECK(lower.tau_bc == turned.tau_bc);
  CHECK(lower.pnd == 0.8);  // 8, 9, 7 and 6 are below 11
  CHECK(overlap_of(before, after, higher_is_better()).nap == doctest::Approx(1.0 - lower.nap));
}

TEST_CASE("a low point past the wished place is no better than one in it") {
  CHECK(merit(0.005, at_least(0.010)) == doctest::Approx(-0.005));
  CHECK(merit(0.012, at_least(0.010)) == 0.0);
  CHECK(merit(0.200, at_least(0.010)) == 0.0);
  CHECK(merit(-3.0, nearer_to(1.0)) == -4.0);
  CHECK(merit(3.0, nearer_to(1.0)) == -2.0);
  const std::vector<double> short_of{-0.020, -0.010, 0.0}, there{0.011, 0.020, 0.090};
  CHECK(overlap_of(short_of, there, at_least(0.010)).nap == 1.0);
  CHECK(overlap_of(there, there, at_least(0.010)).nap == 0.5);
}

TEST_CASE("one ball on either side still gives figures, no NaN") {
  const std::vector<double> one{3.0}, other{5.0};
  const Overlap o = overlap_of(one, other, higher_is_better());
  CHECK(o.nap == 1.0);
  CHECK(o.nap_se == 0.0);
  CHECK(o.nap_low > 0.0);
  CHECK(o.nap_low < 0.5);
  CHECK(o.nap_high == 1.0);
  CHECK(o.tau_bc == 1.0);
  CHECK_FALSE(standard_difference(one, other, higher_is_better()).has_value());
  CHECK_FALSE(standard_difference(std::vector<double>{2, 2, 2}, other, higher_is_better()).has_value());
  CHECK_FALSE(log_response_ratio(std::vector<double>{-1.0}, other).has_value());
}

TEST_CASE("the interval of the share of better pairs turns about with the wish, to its ends") {
  const std::vector<double> a{1, 2, 3, 4, 5, 6}, b{7, 8, 9, 10};
  const Overlap up = overlap_of(a, b, higher_is_better()), down = overlap_of(a, b, lower_is_better());
  CHECK(up.nap_high == 1.0);
  CHECK(down.nap_low == 0.0);
  CHECK(up.nap_low == doctest::Approx(1.0 - down.nap_high).epsilon(1e-9));
}

TEST_CASE("a rate that fell: the exact sum is the integral") {
  // Second road: P(after < before) = integral of the density before times the distribution after, midpoint
  // rule.
  const auto by_integral = [](int k1, int n1, int k2, int n2) {
    const int steps = 20000;
    double below = 0.0, sum = 0.0;
    const auto density = [](double x, int k, int n) {
      return std::exp(std::lgamma(n + 2.0) - std::lgamma(k + 1.0) - std::lgamma(n - k + 1.0) +
                      k * std::log(x) + (n - k) * std::log1p(-x));
    };
    for (int i = 0; i < steps; ++i) {
      const double x = (i + 0.5) / steps, after = density(x, k2, n2) / steps;
      sum += density(x, k1, n1) / steps * (below + 0.5 * after);
      below += after;
    }
    return sum;
  };
  CHECK(rate_change(9, 20, 3, 20).probability_fell ==
        doctest::Approx(by_integral(9, 20, 3, 20)).epsilon(1e-6));
  CHECK(rate_change(2, 8, 0, 30).probability_fell == doctest::Approx(by_integral(2, 8, 0, 30)).epsilon(1e-6));
  CHECK(rate_change(0, 0, 0, 0).probability_fell == doctest::Approx(0.5));
  CHECK(rate_change(0, 0, 0, 0).fisher_two_sided == doctest::Approx(1.0));
  CHECK(rate_change(0, 8, 8, 8).probability_fell < 1e-3);
  CHECK(rate_change(3, 8, 1, 8).after_p90 > rate_change(3, 8, 1, 8).after);
}

TEST_CASE("means of four tests need half the change of single ones") {
  CHECK(minimal_detectable_change(3.0, 4) == doctest::Approx(0.5 * minimal_detectable_change(3.0)));
  CHECK(smallest_worthwhile_change(10.0) == doctest::Approx(2.0));
}
