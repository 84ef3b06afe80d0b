#pragma once
// The schema, as numbered steps that are only ever walked upward.

#include <span>

#include "book/store.hpp"

namespace strikewright::kept {

/// Marks the file as ours ("SwBk" in ASCII).
inline constexpr std::int64_t kApplicationId = 0x5377426b;

/// Steps[k] makes schema k + 1 out of schema k; 0 is an empty file. A step that has been released is never
/// edited.
[[nodiscard]] std::span<const char* const> schema_steps();
/// The schema of this version.
[[nodiscard]] int newest_schema();

/// From the file's schema to the newest, all or nothing. Throws SQLite::Exception.
void move_up(Store& store);

}  // namespace strikewright::kept
