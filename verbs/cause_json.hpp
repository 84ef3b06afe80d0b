#pragma once
// Causes, conflicts and next look as JSON: the contract of docs/commands.md, read.

#include <nlohmann/json.hpp>

#include "verbs/cause_words.hpp"

namespace strikewright {

/// Adds `causes`, `cannot_tell_apart`, `next_look` (of the group with most swings), `conflicts` (of all),
/// `exercises`, `groups` and, where it was asked for, `compare_swings`.
/// @param units  of the conflicts' sentences; keys carry their own
void add_causes(const std::vector<Explained>& all, const LessonReading& lesson,
                const std::vector<SeenSwing>& seen, UnitSystem units, nlohmann::ordered_json& into);

}  // namespace strikewright
