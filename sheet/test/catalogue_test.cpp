#include <doctest/doctest.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <set>

#include "sheet/sheet.hpp"
#include "sheet/test/looked_at.hpp"
#include "sheet/test/some_sheets.hpp"

using namespace strikewright;

namespace {

// The files of the catalogue, read here as data: this room knows nothing of exercises.
std::vector<std::filesystem::path> catalogue() {
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(SOURCE_DIR "/core/exercise/catalogue"))
    if (entry.path().extension() == ".json") files.push_back(entry.path());
  return files;
}

std::string content_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

SheetExercise exercise_of(const std::filesystem::path& file, const std::string& language) {
  const nlohmann::json all = nlohmann::json::parse(content_of(file));
  const nlohmann::json& words = all.at("words").at(language);
  SheetExercise exercise;
  for (const auto& [text, key] :
       {std::pair{&exercise.title, "title"}, std::pair{&exercise.purpose, "purpose"},
        std::pair{&exercise.cue, "cue"}, std::pair{&exercise.dose, "dose"},
        std::pair{&exercise.progression, "progression"}, std::pair{&exercise.regression, "regression"},
        std::pair{&exercise.drawing_says, "alt"}})
    *text = words.at(key).get<std::string>();
  for (const auto& [list, key] :
       {std::pair{&exercise.steps, "steps"}, std::pair{&exercise.self_check, "self_check"},
        std::pair{&exercise.errors, "errors"}, std::pair{&exercise.cautions, "cautions"}})
    *list = words.at(key).get<std::vector<std::string>>();
  exercise.drawing = content_of(std::filesystem::path(file).replace_extension(".svg"));
  return exercise;
}

// As many and as long as the real ones of every practice.
std::vector<std::string> seven_cautions(const std::string& language) {
  if (language == "de")
    return {
        "Wärm dich erst fünf Minuten auf: gehen, Schultern und Hüften bewegen, dann langsame halbe Schwünge.",
        "Drei Meter Platz ringsum, und niemand vor dir oder dort, wohin ein Ball fliegen könnte.",
        "Hör sofort auf, wenn etwas schmerzt oder dir schwindlig, unwohl oder die Luft knapp wird.",
        "Harter Boden und Matten stauchen Handgelenk und Ellbogen: dort weniger Bälle, streifen statt "
        "graben.",
        "Gewitter: aufhören, in ein Haus oder ein geschlossenes Auto gehen, 30 Minuten nach dem letzten "
        "Donner "
        "warten.",
        "Kinder üben nur unter den Augen Erwachsener und stehen nie hinter oder neben jemandem, der "
        "schwingt.",
        "Ärztin oder Arzt, Physiotherapie und eine Golflehrkraft mit Lizenz wissen es besser als dieses "
        "Blatt; "
        "die Regeln der Anlage gehen vor."};
  return {"Warm up for five minutes first: walk, move the shoulders and hips, then slow half swings.",
          "Three metres of clear space all round, and nobody ahead of you or where a ball could go.",
          "Stop at once when something hurts, and when you feel dizzy, breathless or unwell.",
          "Hard ground and mats jar wrists and elbows: fewer balls there, brushing instead of digging.",
          "Thunder: stop, go indoors or into a closed car, and wait 30 minutes after the last of it.",
          "Children practise only under an adult's eye, and never behind or beside somebody who swings.",
          "Your doctor, your physiotherapist and a licensed instructor know better than this page; the rules "
          "of the "
          "ground come first."};
}

}  // namespace

TEST_CASE("every exercise of the catalogue fits a page with everything that a page can have beside it") {
  REQUIRE(catalogue().size() >= 10);
  for (const auto& file : catalogue())
    for (const std::string language : {"en", "de"})
      for (const Paper paper : {Paper::a4, Paper::letter}) {
        SheetContent content = some::pupil(language);
        content.paper = paper;
        content.junior = true;
        content.exercise.emplace(exercise_of(file, language));
        content.cautions = seven_cautions(language);
        const Result<std::string> pdf = sheet_pdf(content);
        CHECK_MESSAGE(pdf.has_value(),
                      (file.stem().string() + " " + language + ": " + (pdf ? "" : pdf.error().sentence())));
        if (pdf) CHECK(pdf->size() < 300000);
      }
}

TEST_CASE("a junior who told of the body gets a page of every exercise, with two weeks of practice on it") {
  for (const auto& file : catalogue())
    for (const std::string language : {"en", "de"})
      for (const Paper paper : {Paper::a4, Paper::letter}) {
        const bool german = language == "de";
        SheetContent content = some::pupil(language);
        content.paper = paper;
        content.junior = true;
        content.note.clear();
        content.exercise.emplace(exercise_of(file, language));
        content.cautions = seven_cautions(language);
        // What is added for a junior, and because of a note of the body.
        content.exercise->cautions.push_back(
            german ? "Für die erwachsene Person: in der Nähe bleiben; kurz und leicht üben lassen."
                   : "For the adult: stay close by, and keep it short and light.");
        content.exercise->cautions.push_back(
            german ? "Wegen deiner Angaben zu deinem Körper: Frag zuerst in der Arztpraxis oder in der "
                     "Physiotherapie "
                     "nach."
                   : "Because of what you told about your body: ask your doctor or physiotherapist first.");
        content.sessions.clear();
        for (int k = 0; k < 8; ++k)
          content.sessions.push_back(
              {"s-" + std::to_string(k), "2026-05-0" + std::to_string(k + 1),
               german ? "11 Mal die Übung unter 11 anderen, 3 Schläger, nie zweimal dasselbe hintereinander"
                      : "11 of the exercise among 11 others, 3 clubs, never the same twice running",
               20, false});
        const Result<std::string> pdf = sheet_pdf(content);
        CHECK_MESSAGE(pdf.has_value(),
                      (file.stem().string() + " " + language + ": " + (pdf ? "" : pdf.error().sentence())));
        if (!pdf) continue;
        const std::string page = looked_at::text_of(*pdf);
        for (const std::string& caution : content.exercise->cautions)
          CHECK_MESSAGE(page.find(caution) != std::string::npos, caution);
      }
}

TEST_CASE("every drawing of the catalogue comes out on the page, mirrored for a left-hander") {
  std::set<std::string> different;
  for (const auto& file : catalogue()) {
    SheetContent content = some::pupil("en");
    content.exercise->drawing = content_of(std::filesystem::path(file).replace_extension(".svg"));
    const Result<std::string> right = sheet_svg(content);
    REQUIRE_MESSAGE(right.has_value(), file.stem().string());
    content.hand = "left";
    CHECK(bool(*sheet_svg(content) != *right));
    different.insert(*right);
  }
  CHECK(different.size() == catalogue().size());
}
