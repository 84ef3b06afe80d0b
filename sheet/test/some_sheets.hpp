#pragma once
// Invented sheets: no such pupil, coach or place, and figures that nobody measured.

#include <cmath>
#include <string>

#include "sheet/sheet.hpp"

namespace strikewright::some {

using Texts = std::vector<std::string>;
inline Texts either(bool german, Texts in_german, Texts in_english) {
  return german ? in_german : in_english;
}

/// A right-hander with the weight on the lead leg at a stick in the turf; invented, drawn for the tests.
inline std::string drawing() {
  return R"svg(<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 640 400">
<rect x="0" y="330" width="640" height="70" fill="#dfe7d3"/><path d="M0 330H640" stroke="#3d552a" stroke-width="5"/>
<g fill="none" stroke="#23201b" stroke-width="9" stroke-linecap="round" stroke-linejoin="round">
<circle cx="322" cy="70" r="30" fill="#fff"/><path d="M326 102 C345 140 352 170 350 205"/>
<path d="M350 205 L368 268 L366 326 L396 326"/><path d="M350 205 L318 262 L276 312 L262 326"/>
<path d="M336 122 L372 172 L392 214"/><path d="M336 122 L360 180 L392 214"/></g>
<path d="M392 214 L356 318" stroke="#575041" stroke-width="5"/><path d="M356 306 L338 328 L364 328 Z" fill="#23201b"/>
<circle cx="346" cy="320" r="9" fill="#fff" stroke="#23201b" stroke-width="3"/>
<path d="M250 346 H286" stroke="#b4552d" stroke-width="6" stroke-dasharray="4 8"/>
<path d="M366 346 v34 m-12 -12 l12 12 l12 -12" stroke="#b4552d" stroke-width="6" fill="none"/>
<path d="M470 300 H590 m-22 -14 l22 14 l-22 14" stroke="#23201b" stroke-width="5" fill="none"/></svg>)svg";
}

inline SheetPicture picture() {
  SheetPicture picture;
  picture.low_point_mm = {-12.0, -41.0, 17.0};
  picture.aim_mm = {{20.0, 90.0}};
  picture.depth_mm = -11.0;
  picture.handle_lead_mm = 35.0;
  picture.shaft_lean_deg = SheetSpan{2.6, 0.5, 4.9};
  for (int k = 0; k < 60; ++k)
    picture.cloud.push_back(
        {-12.0 + 26.0 * std::sin(2.4 * k) + 9.0 * std::cos(5.1 * k), 3.0 * std::sin(1.7 * k)});
  for (int k = 0; k < 9; ++k)
    picture.divots.push_back({.start_mm = -62.0 + 13.0 * (k * 5 % 9),
                              .end_mm = 40.0 + 12.0 * (k * 4 % 9),
                              .direction_deg = -4.0 + 1.0 * (k * 7 % 9),
                              .depth_mm = -8.0});
  for (int x = -400; x <= 500; x += 10) {
    const double from = x + 12.0;
    picture.arc.push_back({double(x), -11.0 + from * from / (2.0 * 1650.0)});
  }
  return picture;
}

inline SheetExercise exercise(const std::string& language) {
  const bool german = language == "de";
  SheetExercise given;
  given.drawing = drawing();
  given.title = german ? "Auf dem vorderen Bein" : "Stand on the lead leg";
  given.purpose =
      german ? "Der tiefste Punkt kommt auf die Zielseite des Balls, ohne dass du daran denken musst."
             : "So that the low point comes to lie in front of the ball without being thought of.";
  given.drawing_says =
      german
          ? "Eine Person steht auf dem vorderen Bein, der hintere Fuß berührt nur mit der Spitze den Boden."
          : "A figure stands on the lead leg; of the trail foot only the toes touch the ground.";
  given.steps = either(german,
                       {"Normal ansprechen, den Ball in die Mitte.",
                        "Den hinteren Fuß zurückziehen, bis nur noch die Zehen den Boden berühren.",
                        "Halbe Schwünge mit dem Eisen 7: Hände bis Hüfthöhe, und ebenso hoch durch.",
                        "Nach jedem Schlag stehen bleiben und das Divot ansehen."},
                       {"Address the ball as always, ball in the middle.",
                        "Draw the trail foot back until only its toes touch the ground.",
                        "Half swings with the 7-iron: hands to hip height, and as high on the way through.",
                        "Stay standing after every ball and look at the divot."});
  given.cue = german ? "Der Knopf am Hemd bleibt über dem Knie." : "The shirt button stays over the knee.";
  given.dose = german ? "Drei Reihen zu acht Bällen, dazwischen zwei Minuten Pause."
                      : "Three rows of eight balls, two minutes of rest between them.";
  given.self_check = either(german,
                            {"Das Divot beginnt am Ball oder auf der Zielseite.",
                             "Nach dem Schwung lässt sich der hintere Fuß frei anheben."},
                            {"The divot starts at the ball or in front of it.",
                             "After the swing the trail foot can be lifted freely."});
  given.errors = either(german,
                        {"Es kippt nach hinten: kürzer schwingen, bis es ruhig bleibt.",
                         "Kein Divot: den Ball auf ein flaches Tee legen und neu beginnen."},
                        {"Toppling backwards: swing shorter until it stays quiet.",
                         "No divot at all: put the ball on a low tee and begin again."});
  given.regression = german ? "Ohne Ball, an einem Kreidestrich." : "Without a ball, at a chalk line.";
  given.progression = german ? "Dreiviertelschwünge, dann jeder dritte Ball im normalen Stand."
                             : "Three-quarter swings, then every third ball from the normal stance.";
  given.cautions = either(german,
                          {"Nicht bei Beschwerden an Knie, Hüfte oder Knöchel der vorderen Seite.",
                           "Nur auf trockenem, ebenem Boden: auf einem Bein rutscht man leicht."},
                          {"Not with a sore knee, hip or ankle on the lead side.",
                           "On dry, level ground only: on one leg it is easy to slip."});
  return given;
}

inline std::vector<SheetSession> sessions(const std::string& language) {
  const bool german = language == "de";
  const std::string rows = german ? "3 × 8 Bälle der Übung" : "3 × 8 balls of the exercise";
  const std::string mixed =
      german ? "2 × 8 Bälle, dann 10 mit wechselnden Schlägern" : "2 × 8 balls, then 10 with changing clubs";
  const std::string test = german ? "10 Bälle im normalen Stand, Divots zählen"
                                  : "10 balls from the normal stance, count the divots";
  return {{"s-1", "2026-05-05", rows, 25, false},
          {"s-2", "2026-05-07", rows, 25, false},
          {"s-3", "2026-05-10", mixed, 30, false},
          {"s-4", "2026-05-14", mixed, 30, false},
          {"s-5", "2026-05-17", test, 15, true}};
}

/// The page for home of an invented pupil.
inline SheetContent pupil(const std::string& language = "en") {
  const bool german = language == "de";
  SheetContent content;
  content.language = language;
  content.made_at = "2026-05-04T08:00:00Z";
  content.version = "0.1.0";
  content.invented = true;
  content.pupil = german ? "Käthe Mößlang-Übersee" : "Wilma Thornquist";
  content.day = "2026-05-04";
  content.coach = german ? "Jörn Birkenfeld" : "Odo Larksham";
  content.place = german ? "Übungswiese, Abschlag 4" : "practice ground, bay 4";
  content.club = german ? "Eisen 7" : "7-iron";
  content.why = either(german,
                       {"Das Gewicht bleibt hinten, wenn der Schläger ankommt. Darum trifft er erst den "
                        "Rasen und dann den Ball."},
                       {"Your weight stays back as the club arrives. That is why it meets the turf first and "
                        "the ball second."});
  content.picture.emplace(picture());
  content.exercise.emplace(exercise(language));
  content.sessions = sessions(language);
  content.next_lesson = "2026-05-18";
  content.targets = {{german ? "Divots, die am Ball oder auf der Zielseite beginnen"
                             : "Divots that start at the ball or in front of it",
                      german ? "3 von 10" : "3 of 10", german ? "7 von 10" : "7 of 10"}};
  content.cautions =
      either(german,
             {"Zehn Minuten aufwärmen, mit halben Schwüngen beginnen.",
              "Umsehen: niemand in Reichweite des Schlägers, niemand davor.", "Bei Schmerzen aufhören."},
             {"Warm up for ten minutes; begin with half swings.",
              "Look round: nobody within reach of the club, nobody in front.", "Stop if anything hurts."});
  content.note = german ? "Der letzte Korb war schon deutlich ruhiger. So weitermachen!"
                        : "The last basket was a good deal quieter already. Keep at it.";
  return content;
}

using Causes = std::vector<SheetCause>;
inline Causes either_of(bool german, Causes in_german, Causes in_english) {
  return german ? in_german : in_english;
}

/// The coach's own summary of the same lesson.
inline SheetContent summary(const std::string& language = "en") {
  const bool german = language == "de";
  SheetContent content = pupil(language);
  content.kind = SheetKind::summary;
  content.reading = either(german,
                           {"Eisen 7, normaler Stand, 10 Schwünge: Der tiefste Punkt liegt 1,2 cm hinter dem "
                            "Ball, von Schwung zu Schwung 2,3 cm verschieden.",
                            "Der Schläger kommt 2,1° von innen; das Blatt steht dazu 1,4° offen."},
                           {"7-iron, normal stance, 10 swings: the low point lies 1.2 cm behind the ball and "
                            "differs by 2.3 cm from swing to swing.",
                            "The club travels 2.1° in to out; the face is 1.4° open to that."});
  content.causes =
      either_of(german,
                {{"das Gewicht bleibt hinten", "31 mm, 80 % zwischen 12 und 50 mm", 0.74,
                  "macht 60 % der Streuung des tiefsten Punkts"},
                 {"die Handgelenke lösen früh", "4 ms, 80 % zwischen −1 und 9 ms", 0.19, "macht 22 % davon"},
                 {"der Schwung wird höher", "3 mm, 80 % zwischen −4 und 10 mm", 0.07, ""}},
                {{"the weight stays back", "31 mm, 80 % between 12 and 50 mm", 0.74,
                  "makes 60 % of the low point's scatter"},
                 {"the wrists release early", "4 ms, 80 % between −1 and 9 ms", 0.19, "makes 22 % of it"},
                 {"the swing gets higher", "3 mm, 80 % between −4 and 10 mm", 0.07, ""}});
  content.proof = german ? "Vor und nach der Übung, je 10 Bälle: Der tiefste Punkt kam um 2,4 cm nach vorn "
                           "(80 % zwischen 0,9 und 3,8 cm). Ob es bleibt, zeigt die nächste Stunde."
                         : "Before and after the exercise, 10 balls each: the low point moved forward by 2.4 "
                           "cm (80 % between 0.9 and 3.8 cm). Whether it stays, the next lesson shows.";
  content.next_look = either(german,
                             {"Fünf Bälle nur auf dem hinteren Bein: Das trennt Gewicht von frühem Lösen.",
                              "Treffpunkt auf dem Blatt, zwei Bälle."},
                             {"Five balls on the trail leg only: they tell weight from an early release.",
                              "The strike mark on the face, two balls."});
  return content;
}

}  // namespace strikewright::some
