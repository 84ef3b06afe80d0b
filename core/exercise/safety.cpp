#include "exercise/safety.hpp"

#include <algorithm>
#include <array>

#include "quantity/utf8.hpp"

namespace strikewright {
namespace {

/// Beginnings of words (whole words end in a blank, stems inside words begin with a star) that speak of a
/// note; lower case, umlauts as ae oe ue. Common practice, no source.
struct Speaks {
  BodyNote note;
  std::vector<const char*> of;
};

const std::vector<Speaks>& vocabulary() {
  using enum BodyNote;
  static const std::vector<Speaks> all{
      {back, {"back ",        "backache",   "backpain",    "lumbar",   "lumbag",       "spine",
              "spinal",       "disc ",      "discs ",      "disk ",    "sciatic",      "scolio",
              "vertebra",     "slipped",    "*ruecken",    "kreuz ",   "kreuzschmerz", "kreuzbein",
              "*bandscheibe", "*wirbel",    "hexenschuss", "ischias",  "skolio",       "lws",
              "bws",          "iliosakral", "sacro",       "prolapse", "vorfall"}},
      {wrist,
       {"wrist", "carpal", "karpal", "*handgelenk", "hand ", "hands ", "haende", "thumb", "daumen",
        "finger"}},
      {elbow,
       {"elbow", "*ellenbogen", "*ellbogen", "epicond", "epikond", "golferarm", "tennisarm", "forearm",
        "unterarm"}},
      {shoulder, {"shoulder", "rotator", "*schulter", "collarbone", "clavicle", "schluesselbein"}},
      {hip, {"hip ", "hips ", "*hueft", "groin", "leiste", "huefte"}},
      {knee, {"knee", "*knie", "menisc", "menisk", "cruciate", "kreuzband", "acl ", "patell"}},
      {ankle,
       {"ankle", "achill", "foot ", "feet ", "heel ", "*knoechel", "*sprunggelenk", "fuss", "ferse",
        "plantar"}},
      {neck, {"neck", "cervic", "whiplash", "*nacken", "genick", "hals", "hws", "schleudertrauma"}},
      {balance,
       {"balance",        "dizz",       "vertigo",      "unsteady",  "falls ",         "fell ",
        "*gleichgewicht", "*schwindel", "schwindl",     "sturz",     "stuerz",         "parkinson",
        "meniere",        "stroke",     "schlaganfall", "neuropath", "multiple scler", "multiple skler",
        "epilep",         "faint",      "ohnmacht"}},
      {pregnancy, {"pregnan", "expecting", "*schwanger", "trimest", "trimen"}},
      {heart,
       {"heart", "cardi", "angina", "pacemaker", "blood pressure", "hypertens", "arrhythm", "stent", "*herz",
        "kardi", "schrittmacher", "*blutdruck", "bluthochdruck", "infarct", "infarkt", "bypass", "thrombo",
        "asthma", "lung"}},
      {bone,
       {"*osteo", "brittle bone", "bone ", "bones ", "fractur", "broken", "*knochen", "*fraktur", "bruch",
        "gebrochen"}},
      {surgery,
       {"surg", "*operat", "operier", "op ", "post-op", "postop", "replac", "prosthe", "*prothe", "implant",
        "stitches", "genaeht", "arthroscop", "arthroskop", "endopro"}}};
  return all;
}

/// Lower case, umlauts and sharp s spelt out, every other sign a blank, one blank at either end.
std::string plain(std::string_view text) {
  std::string out = " ";
  const auto blank = [&out] {
    if (out.back() != ' ') out += ' ';
  };
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = std::max<std::size_t>(1, utf8_length(text.substr(at)));
    const std::string_view sign = text.substr(at, length);
    at += length;
    constexpr std::array<std::pair<std::string_view, std::string_view>, 7> kSpelt{{{"\xc3\xa4", "ae"},
                                                                                   {"\xc3\x84", "ae"},
                                                                                   {"\xc3\xb6", "oe"},
                                                                                   {"\xc3\x96", "oe"},
                                                                                   {"\xc3\xbc", "ue"},
                                                                                   {"\xc3\x9c", "ue"},
                                                                                   {"\xc3\x9f", "ss"}}};
    const auto* spelt =
        std::find_if(kSpelt.begin(), kSpelt.end(), [&](const auto& pair) { return pair.first == sign; });
    if (spelt != kSpelt.end())
      out += spelt->second;
    else if (length == 1 && sign[0] >= 'A' && sign[0] <= 'Z')
      out += static_cast<char>(sign[0] - 'A' + 'a');
    else if (length == 1 && ((sign[0] >= 'a' && sign[0] <= 'z') || (sign[0] >= '0' && sign[0] <= '9')))
      out += sign[0];
    else if (static_cast<unsigned char>(sign[0]) >= 0x80)
      out += '?';  // another script, or no text at all: part of a word that is not understood
    else
      blank();
  }
  blank();
  return out;
}

/// A stem with a star counts inside a word, too: German joins words ("kniegelenk", "lendenwirbel").
bool speaks(const std::string& words, const char* of) {
  return *of == '*' ? words.find(of + 1) != std::string::npos
                    : words.find(std::string(" ") + of) != std::string::npos;
}

/// What a coach writes when there is nothing to say.
bool says_nothing(const std::string& words) {
  for (const char* none : {" ", " none ", " no ", " nothing ", " keine ", " nichts ", " healthy ", " gesund ",
                           " ok ", " fit ", " fine ", " alles gut "})
    if (words == none) return true;
  return false;
}

std::string sentence_of(BodyNote note) {
  switch (note) {
    case BodyNote::balance:
      return "The body notes speak of balance.";
    case BodyNote::pregnancy:
      return "The body notes speak of pregnancy.";
    case BodyNote::heart:
      return "The body notes speak of heart, blood pressure or breath.";
    case BodyNote::bone:
      return "The body notes speak of brittle or broken bones.";
    case BodyNote::surgery:
      return "The body notes speak of an operation.";
    case BodyNote::child:
      return "The pupil is under 12.";
    case BodyNote::older:
      return "The pupil is 70 or older.";
    default:
      return std::string("The body notes speak of the ") + name_of(note) + ".";
  }
}

/// Gathers reasons; the strictest wins and keeps only reasons of its kind.
class Judge {
 public:
  void hide(std::string reason) { hidden_.push_back(std::move(reason)); }
  void flag(std::string reason) { flagged_.push_back(std::move(reason)); }
  [[nodiscard]] Permission permission() const {
    if (!hidden_.empty()) return {Permit::hidden, hidden_};
    if (!flagged_.empty()) return {Permit::flagged, flagged_};
    return {};
  }

 private:
  std::vector<std::string> hidden_, flagged_;
};

template <class T>
bool holds(const std::vector<T>& list, T value) {
  return std::find(list.begin(), list.end(), value) != list.end();
}

void judge_body(const Exercise& e, const BodyNotes& notes, Judge& judge) {
  using enum BodyNote;
  for (std::size_t k = 0; k < kBodyNotes; ++k) {
    const auto note = static_cast<BodyNote>(k);
    if (!notes.has(note)) continue;
    // Whatever its document says.
    const bool jumps = e.jump && !(note == wrist || note == elbow || note == shoulder || note == child);
    const bool sways = e.balance && note == balance;
    const bool serious = note == pregnancy || note == heart || note == bone || note == surgery;
    if (holds(e.not_with, note) || jumps || sways)
      judge.hide(sentence_of(note));
    else if (holds(e.ask_first, note))
      judge.flag(sentence_of(note) + " Ask first.");
    else if (serious)
      judge.flag(sentence_of(note) + " A doctor says what may be done.");
  }
  if (notes.unread) judge.flag("The body notes were not understood: read them yourself, and ask first.");
}

void judge_place(const Exercise& e, const BodyNotes& notes, const Place& place, Judge& judge) {
  using enum BodyNote;
  if (!holds(e.ground, place.surface))
    judge.hide(std::string("Not on this ground: ") + name_of(place.surface) + ".");
  if (place.crowded && !e.crowded) judge.hide("It needs room, and people are close by.");
  if (!place.ball_flight_room && e.ball)
    judge.hide("It strikes a ball, and there is no room for a ball to fly.");
  const bool hard = place.surface == Surface::mat || place.surface == Surface::fairway_firm;
  if (!e.turf || !hard) return;
  for (const BodyNote note : {wrist, elbow, shoulder, neck})
    if (notes.has(note))
      judge.flag("It strikes a hard ground or a mat. " + sentence_of(note) + " Ask first.");
}

const std::vector<std::string>& universal(Language language) {
  // Warm-up, space and stopping: common practice, no source. 30 minutes after the last thunder: common public
  // advice, from memory.
  static const std::array<std::vector<std::string>, kLanguages> all{{
      {"Warm up for five minutes first: walk, move the shoulders and hips, then slow half swings.",
       "Three metres of clear space all round, and nobody ahead of you or where a ball could go.",
       "Stop at once when something hurts, and when you feel dizzy, breathless or unwell.",
       "Hard ground and mats jar wrists and elbows: fewer balls there, brushing instead of digging.",
       "Thunder: stop, go indoors or into a closed car, and wait 30 minutes after the last of it.",
       "Children practise only under an adult's eye, and never behind or beside somebody who swings.",
       ("Your doctor, your physiotherapist and a licensed instructor know better than this page; the "
        "rules of the ground come first.")},
      {"Wärm dich erst fünf Minuten auf: gehen, Schultern und Hüften bewegen, dann langsame halbe Schwünge.",
       "Drei Meter Platz ringsum, und niemand vor dir oder dort, wohin ein Ball fliegen könnte.",
       "Hör sofort auf, wenn etwas schmerzt oder dir schwindlig, unwohl oder die Luft knapp wird.",
       "Harter Boden und Matten stauchen Handgelenk und Ellbogen: dort weniger Bälle, streifen statt graben.",
       ("Gewitter: aufhören, in ein Haus oder ein geschlossenes Auto gehen, 30 Minuten nach dem letzten "
        "Donner warten."),
       "Kinder üben nur unter den Augen Erwachsener und stehen nie hinter oder neben jemandem, der schwingt.",
       ("Ärztin oder Arzt, Physiotherapie und eine Golflehrkraft mit Lizenz wissen es besser als "
        "dieses Blatt; die Regeln der Anlage gehen vor.")},
  }};
  return all[static_cast<std::size_t>(language)];
}

}  // namespace

BodyNotes body_notes_of(std::string_view free_text, std::optional<int> age) {
  BodyNotes out;
  const std::string words = plain(free_text);
  for (const Speaks& s : vocabulary())
    for (const char* of : s.of)
      if (speaks(words, of)) out.notes.set(static_cast<std::size_t>(s.note));
  out.unread = out.notes.none() && !says_nothing(words);
  out.age = age;
  constexpr int kChild = 12, kJunior = 18, kOlder = 70;  // years
  out.junior = age && *age < kJunior;
  if (age && *age < kChild) out.notes.set(static_cast<std::size_t>(BodyNote::child));
  if (age && *age >= kOlder) out.notes.set(static_cast<std::size_t>(BodyNote::older));
  return out;
}

const char* name_of(Permit permit) {
  constexpr std::array names{"free", "flagged", "hidden"};
  return names[static_cast<std::size_t>(permit)];
}

Permission allowed(const Exercise& exercise, const BodyNotes& notes, const Place& place) {
  Judge judge;
  judge_body(exercise, notes, judge);
  judge_place(exercise, notes, place, judge);
  return judge.permission();
}

const std::vector<std::string>& universal_cautions(Language language) { return universal(language); }

std::vector<std::string> cautions_of(const Exercise& exercise, Language language, const BodyNotes& notes) {
  const bool en = language == Language::en;
  std::vector<std::string> out = exercise.words.text(language).cautions;
  if (notes.junior)
    out.emplace_back(en ? "For the adult: stay close by, and keep it short and light."
                        : "Für die erwachsene Person: in der Nähe bleiben; kurz und leicht üben lassen.");
  const bool noted = notes.notes.any() || notes.unread;
  if (noted)
    out.emplace_back(
        en ? "Because of what you told about your body: ask your doctor or physiotherapist first."
           : "Wegen deiner Angaben zu deinem Körper: Frag zuerst in der Arztpraxis oder in der "
             "Physiotherapie nach.");
  const auto& all = universal(language);
  out.insert(out.end(), all.begin(), all.end());
  return out;
}

ShownExercise shown(const Exercise& exercise, Language language, const BodyNotes& notes) {
  ShownExercise out;
  out.name_ = exercise.name;
  out.language_ = language;
  out.text_ = exercise.words.text(language);
  out.text_.cautions = cautions_of(exercise, language, notes);
  for (const Bilingual& thing : exercise.kit) out.kit_.push_back(thing[static_cast<std::size_t>(language)]);
  out.dose_ = exercise.dose;
  out.drawing_ = exercise.drawing;
  ensure(!out.text_.cautions.empty(), "an exercise is shown with cautions");
  return out;
}

}  // namespace strikewright
