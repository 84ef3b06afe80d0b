#pragma once
// `strikewright strike`: the JSON document and its answer. Contract: docs/commands.md, strike.

#include <string>
#include <string_view>

#include "strike/impulse.hpp"

namespace strikewright {

/// `name` is the document's place in faults about its form; fields are named by their path (head.mass_kg).
Result<RigidStrike> strike_from_json(std::string_view text, const std::string& name);

std::string json_text(const RigidStrikeResult& result);

}  // namespace strikewright
