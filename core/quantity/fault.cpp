#include "quantity/fault.hpp"

#include <stdexcept>

namespace strikewright {

void ensure(bool truth, const char* sentence) {
  if (!truth) throw std::logic_error(sentence);
}

}  // namespace strikewright
