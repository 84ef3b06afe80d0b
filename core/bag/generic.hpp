#pragma once
// The generic bag: what a club of that name usually is. No maker's product.

#include <vector>

#include "bag/club.hpp"
#include "quantity/fault.hpp"

namespace strikewright {

/// The fifteen generic clubs, driver to lob wedge: driver 3w 5w 4h 3i 4i 5i 6i 7i 8i 9i pw gw sw lw.
/// SI and radians. Loft, lie, length, head mass, bounce and sole are common trade values from memory;
/// everything else is scaled within trade ranges or assumed: `sources_of` says which, figure by figure.
[[nodiscard]] const std::vector<Club>& generic_bag();

/// "7i" for "7-iron", "7 iron", "7I", "iron 7"; "pw" for "Pitching Wedge"; "driver" for "1w", "D". "" if it
/// is none.
[[nodiscard]] std::string canonical_name(std::string_view name);

/// The club of that name or alias in `bag`. `place` is where the name stood. Not there: a Fault with the
/// nearest name.
/// @param name  as written by the coach; case, blanks, '-' and '_' do not matter
[[nodiscard]] Result<Club> club_named(const std::vector<Club>& bag, std::string_view name,
                                      std::string place = "club");

/// Where every figure of a club comes from, one entry a figure. A figure that differs from the generic club
/// it is `like` is "given by the coach".
[[nodiscard]] std::vector<ClubSource> sources_of(const Club& club);

/// "standard" or "range". The range ball is slower off the face and draggier: an assumption, no source.
[[nodiscard]] Result<Ball> ball_named(std::string_view name, std::string place = "ball");

}  // namespace strikewright
