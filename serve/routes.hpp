#pragma once
// The routes by noun.

#include "serve/desk.hpp"

namespace strikewright {

std::vector<Route> page_routes();
std::vector<Route> book_routes();  ///< about, words, settings, demo, export, changes
std::vector<Route> pupils_routes();
std::vector<Route> lessons_routes();
std::vector<Route> swings_routes();
std::vector<Route> given_routes();      ///< what pupils were given to do
std::vector<Route> exercises_routes();  ///< the coach's own
std::vector<Route> reading_routes();    ///< reading, flail
std::vector<Route> practice_routes();   ///< which one, proof, plan, sheet, progress
std::vector<Route> pairing_routes();    ///< pairing, devices

/// All of them, in the order of docs/api.md; the last gives the description of all.
std::vector<Route> all_routes();

/// OpenAPI 3.1.
Document described(const std::vector<Route>& routes, const std::string& version);

}  // namespace strikewright
