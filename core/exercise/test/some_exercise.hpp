#pragma once
// Invented exercises for the tests of this room.

#include <nlohmann/json.hpp>
#include <string>

#include "exercise/exercise.hpp"

namespace strikewright {

/// A document that is right; tests spoil one member at a time.
inline nlohmann::json some_document(const std::string& name = "invented_weight") {
  const char* text = R"({
    "name": "", "source": "common practice, no source", "family": "ground",
    "moves": [{"cause": "weight", "home": 0, "home_sd": 2, "shift": 0.4, "shift_sd": 0.2, "scatter": 0.95, "scatter_sd": 0.1}],
    "moves_mark": "assumption", "condition": "normal", "ball": true, "turf": true,
    "ground": ["fairway", "fairway_soft"], "clubs": ["iron", "wedge"],
    "kit": [{"en": "one towel", "de": "ein Handtuch"}],
    "dose": {"balls": 12, "sets": 3, "rest_s": 30, "minutes": 10, "days_a_week": 3},
    "stage": "blocked", "load": ["wrist"], "balance": false, "jump": false,
    "not_with": ["wrist"], "ask_first": ["elbow", "back"], "crowded": true, "needs": {"reach": 0.5},
    "words": {
      "en": {"title": "Invented: weight", "purpose": "The low point comes forward.", "cue": "Brush the turf past the ball.",
        "steps": ["Stand to the ball.", "Lean toward the target.", "Swing half way."],
        "self_check": ["The divot starts ahead of the ball."],
        "errors": ["Fat again: lean earlier.", "You fall: narrower steps."],
        "progression": "Then a full swing.", "regression": "First without a ball.",
        "cautions": ["Soft turf only.", "Keep clear space."], "dose": "Twelve balls in three sets.", "alt": "A golfer leans."},
      "de": {"title": "Erfunden: Gewicht", "purpose": "Der tiefste Punkt kommt nach vorn.", "cue": "Streife den Rasen hinter dem Ball.",
        "steps": ["Stell dich zum Ball.", "Lehn dich zum Ziel.", "Schwinge halb."],
        "self_check": ["Das Divot beginnt vor dem Ball."],
        "errors": ["Wieder fett: früher lehnen.", "Du kippst: kleinere Schritte."],
        "progression": "Dann ein voller Schwung.", "regression": "Erst ohne Ball.",
        "cautions": ["Nur weicher Rasen.", "Halte Platz frei."], "dose": "Zwölf Bälle in drei Sätzen.", "alt": "Jemand lehnt sich."}}
  })";
  nlohmann::json d = nlohmann::json::parse(text);
  d["name"] = name;
  return d;
}

inline Exercise some_exercise(const nlohmann::json& document = some_document()) {
  Result<Exercise> e = exercise_from(document.dump());
  ensure(e.has_value(), e ? "" : e.error().sentence().c_str());
  return std::move(*e);
}

/// An exercise that moves one cause: `shift` of the way to `home` (in the document's unit).
inline Exercise moving(const std::string& name, const std::string& cause, double shift, double shift_sd = 0.2,
                       double home = 0.0) {
  nlohmann::json d = some_document(name);
  d["moves"][0]["cause"] = cause;
  d["moves"][0]["home"] = home;
  d["moves"][0]["home_sd"] = 0.0;
  d["moves"][0]["shift"] = shift;
  d["moves"][0]["shift_sd"] = shift_sd;
  d["moves"][0]["scatter"] = 1.0;
  d["moves"][0]["scatter_sd"] = 0.0;
  return some_exercise(d);
}

inline std::string some_drawing(const std::string& inside) {
  return R"(<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 640 400">)" + inside + "</svg>";
}

}  // namespace strikewright
