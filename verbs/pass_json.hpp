#pragma once
// How the club passes the ball, as JSON with units in the keys.

#include <nlohmann/json.hpp>

#include "delivery/delivery.hpp"
#include "verbs/json_door.hpp"

namespace strikewright {

/// The thirteen numbers of Pass, right-hander's frame.
nlohmann::ordered_json pass_document(const Pass<double>& pass);

/// Reads them back; all must be there. What is out of a swing's reach is a fault at the door.
Pass<double> pass_from(JsonDoor door);

}  // namespace strikewright
