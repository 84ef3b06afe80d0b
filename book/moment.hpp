#pragma once
// Times as text (ISO 8601) and as seconds, for order.

#include <optional>
#include <string>
#include <string_view>

namespace strikewright::kept {

/// Seconds since 1970-01-01T00:00:00Z of "2026-11-25", "2026-11-25T10:30", "2026-11-25T10:30:00.5+01:00";
/// without a zone it is taken for UTC. Nothing where the text is not such a time.
[[nodiscard]] std::optional<double> moment_of(std::string_view text);

/// Now, UTC, to the millisecond: "2026-11-25T10:30:00.123Z".
[[nodiscard]] std::string now_text();

}  // namespace strikewright::kept
