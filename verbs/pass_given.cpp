#include "verbs/pass_given.hpp"

#include <cmath>

namespace strikewright {

Numbers wanted(const PassGiven& given, const Numbers& numbers) {
  Numbers out = numbers;
  for (std::size_t k = 0; k < kNumbers; ++k) {
    if (given.at[k] && k != kGivenDepth)
      out[static_cast<Eigen::Index>(k)] = k == 0 ? std::log(*given.at[k]) : *given.at[k];
  }
  return out;
}

Pass<double> pass_with(const Prior& prior, const Numbers& numbers) {
  return pass_from<double>(prior, numbers);
}

Pass<double> pass_given(const PassGiven& given, const Prior& prior) {
  Pass<double> pass = pass_with(prior, wanted(given, prior.mean));
  if (given.at[kGivenDepth]) pass.low_point_depth = *given.at[kGivenDepth];
  return pass;
}

}  // namespace strikewright
