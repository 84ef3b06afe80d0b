#pragma once
// What a verb gives back: its answer, or every fault found in what was asked.

#include <nlohmann/json_fwd.hpp>
#include <tl/expected.hpp>
#include <utility>
#include <vector>

#include "quantity/fault.hpp"

namespace strikewright {

/// At least one fault where there is no answer.
template <class T>
using Answer = tl::expected<T, std::vector<Fault>>;

/// The answer that is one fault.
inline tl::unexpected<std::vector<Fault>> refused(Fault fault) {
  return tl::unexpected<std::vector<Fault>>(std::vector<Fault>{std::move(fault)});
}

/// A document with its keys in the order in which they are to be read.
using Document = nlohmann::ordered_json;

}  // namespace strikewright
