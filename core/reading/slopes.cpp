#include "reading/slopes.hpp"

#include "shot/shot_of.hpp"

namespace strikewright {

Shot<PassSlopes> shot_with_slopes(const Prior& prior, const Coordinates& z, const Setting& setting,
                                  bool with_flight) {
  const Numbers numbers = prior.numbers_at(z);
  PassVector<PassSlopes> seeded;
  for (int i = 0; i < kPassSize; ++i) seeded[i] = PassSlopes(numbers[i], i);
  return shot_of(pass_from(prior, seeded), setting, with_flight, FlightOptions::fast());
}

}  // namespace strikewright
