#pragma once
// The page that the pupil takes home, and the coach's own summary of a lesson: content in, a document out.
//
// No algorithm and no record is known here: whoever has them fills `SheetContent`. All texts in it are plain
// text in UTF-8, in the sheet's language already, and come out as they stand: nothing in them is markup.
// Lengths are mm, in the player's terms (ahead of the ball +, in to out +); a left-hander's pictures are
// flipped here, whole.
//
// Every function may be called from any thread, reads no clock and writes no file: the same content gives the
// same bytes on the same machine with the same fonts.

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "quantity/fault.hpp"
#include "quantity/unit.hpp"

namespace strikewright {

enum class SheetKind {
  pupil,   ///< for home: why, one picture, one exercise, plan, cautions
  summary  ///< for the coach: what was read, causes with figures, exercise, proof, next look
};

enum class Paper { a4, letter };

/// A quantity with its 80 % interval.
struct SheetSpan {
  double mean = 0.0, p10 = 0.0, p90 = 0.0;
};

/// A divot as it was seen; what was not seen is absent. Without a start it is not drawn.
struct SheetDivot {
  std::optional<double> start_mm{}, end_mm{};
  std::optional<double> direction_deg{};  ///< in to out +
  std::optional<double> depth_mm{};
};

/// The one picture: the turf from above and beneath it the arc from the side, to one scale.
struct SheetPicture {
  SheetSpan low_point_mm{};
  std::vector<std::array<double, 2>>
      cloud{};  ///< low point [mm], plane direction [deg]; at most 400; drawn without divots
  std::vector<SheetDivot> divots{};  ///< at most 200
  std::vector<std::array<double, 2>>
      arc{};                         ///< leading edge: x [mm], height over the turf [mm]; 2 to 2000 points
  std::optional<double> depth_mm{};  ///< low-point depth, up +: under the turf is negative
  std::optional<double> handle_lead_mm{};         ///< ahead of the ball +; absent: no handle is drawn
  double handle_height_mm = 800.0;                ///< 200 to 1500
  std::optional<SheetSpan> shaft_lean_deg{};      ///< forward +; for the words
  std::optional<std::array<double, 2>> aim_mm{};  ///< where the low point should come to lie: from, to
  bool ball = true;                               ///< false: struck at a chalk line
};

struct SheetExercise {
  std::string title, purpose;
  std::string drawing{};       ///< SVG text, drawn for a right-hander and free of letters; "" = none
  std::string drawing_says{};  ///< what it shows, for whoever cannot see it
  std::vector<std::string> steps{};
  std::string cue{}, dose{};
  std::vector<std::string> self_check{};
  std::vector<std::string> errors{};        ///< left out where the page is full
  std::string progression{}, regression{};  ///< left out where the page is full
  std::vector<std::string> cautions{};      ///< at least one
};

/// One practice session of the plan. Also an entry of the calendar (sheet/calendar.hpp).
struct SheetSession {
  std::string id;    ///< stable: a calendar that reads the plan again changes the entry and adds none
  std::string day;   ///< "2026-05-04"
  std::string what;  ///< "3 x 8 balls of the exercise, then 10 with changing clubs"
  int minutes = 0;   ///< 0 = not said
  bool self_test = false;
};

struct SheetTarget {
  std::string says;    ///< "divots that start in front of the ball"
  std::string now{};   ///< "3 of 10"; "" = not known
  std::string goal{};  ///< "7 of 10"
};

/// One line of the summary's table of causes.
struct SheetCause {
  std::string says;       ///< "the weight stays back"
  std::string figure{};   ///< "31 mm, 80 % between 12 and 50 mm"
  double leading = 0.0;   ///< probability that it is the one furthest off, 0 to 1
  std::string scatter{};  ///< "makes 60 % of the low point's scatter"; "" = nothing to say
};

struct SheetContent {
  SheetKind kind = SheetKind::pupil;
  Paper paper = Paper::a4;
  UnitSystem units = UnitSystem::metric;
  std::string language = "en";  ///< one of sheet_languages()
  std::string hand = "right";   ///< right, left
  std::string made_at{};        ///< ISO 8601 in UTC, "2026-05-04T08:00:00Z"; "" = midnight of `day`
  std::string version{};        ///< of the program, for the footer
  bool invented = false;        ///< the page says that pupil and figures are invented

  std::string pupil, day;  ///< day: "2026-05-04"; both must be there
  std::string coach{}, place{}, club{}, note{};
  bool junior = false;     ///< speaks to the adult as well, with a line for the adult's name
  std::string guardian{};  ///< the adult's name; "" = a line to write on

  std::vector<std::string> why{};  ///< one or two sentences; at least one on the pupil's sheet
  std::optional<SheetPicture> picture{};
  std::optional<SheetExercise> exercise{};  ///< must be there on the pupil's sheet
  std::vector<SheetSession> sessions{};     ///< in the order of their days; at most 24
  std::string next_lesson{};                ///< a day, or ""
  std::vector<SheetTarget> targets{};
  std::vector<std::string> cautions{};  ///< of every practice; at least one wherever an exercise is given

  // Only the summary shows these.
  std::vector<std::string> reading{};  ///< sentences
  std::vector<SheetCause> causes{};    ///< most important first
  std::string proof{};                 ///< sentence; "" = nothing compared
  std::vector<std::string> next_look{};
};

/// The languages that the sheet speaks ("de", "en"): one file each in sheet/words.
[[nodiscard]] std::vector<std::string> sheet_languages();

/// Is it enough, and not absurd? The Fault names the member: "sheet.exercise.cautions",
/// "sheet.sessions[2].day".
[[nodiscard]] Result<void> sheet_sound(const SheetContent& content);

/// One page, PDF: fonts embedded, text selectable, tagged, with title and language. Faults: as sheet_sound; a
/// drawing that is no SVG; more text than one page holds at 8.5 points; no font on this machine.
[[nodiscard]] Result<std::string> sheet_pdf(const SheetContent& content);

/// The same page as a picture, for a screen or a message. dots_per_inch: 36 to 400.
[[nodiscard]] Result<std::string> sheet_png(const SheetContent& content, double dots_per_inch);

/// The same page as SVG, its text as outlines.
[[nodiscard]] Result<std::string> sheet_svg(const SheetContent& content);

/// The same content as one self-contained HTML file: no script, nothing fetched, pictures within. It holds
/// text of any length that is sound; printed, it may take a second page.
[[nodiscard]] Result<std::string> sheet_html(const SheetContent& content);

}  // namespace strikewright
