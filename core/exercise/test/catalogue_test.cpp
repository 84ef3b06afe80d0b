// The whole catalogue, exercise by exercise.

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "exercise/exercise.hpp"
#include "exercise/safety.hpp"

using namespace strikewright;

namespace {

const std::filesystem::path kFolder = std::filesystem::path(SOURCE_DIR) / "core/exercise/catalogue";

std::string file(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

bool holds(const std::vector<BodyNote>& list, BodyNote note) {
  return std::find(list.begin(), list.end(), note) != list.end();
}

}  // namespace

TEST_CASE("every document of the folder is in the catalogue with its drawing, and nothing else") {
  std::set<std::string> documents, drawings, packed;
  for (const auto& entry : std::filesystem::directory_iterator(kFolder))
    (entry.path().extension() == ".json" ? documents : drawings).insert(entry.path().stem().string());
  for (const Exercise& e : catalogue()) packed.insert(e.name);
  CHECK(documents == drawings);
  CHECK(documents == packed);
  CHECK(catalogue().size() >= 20);
  for (const Exercise& e : catalogue()) CHECK(drawing_of(e) == file(kFolder / (e.name + ".svg")));
}

TEST_CASE("each exercise stands on its own: document, drawing, words, cautions, source") {
  for (const std::string& name : [] {
         std::vector<std::string> names;
         for (const auto& entry : std::filesystem::directory_iterator(kFolder))
           if (entry.path().extension() == ".json") names.push_back(entry.path().stem().string());
         std::sort(names.begin(), names.end());
         return names;
       }()) {
    const Result<Exercise> e = exercise_from(file(kFolder / (name + ".json")), name);
    CHECK_MESSAGE(e.has_value(), e.error().sentence());
    const Result<void> drawing = drawing_fault(file(kFolder / (name + ".svg")));
    CHECK_MESSAGE(drawing.has_value(), name, ", ", drawing.error().sentence());
  }
}

TEST_CASE("the catalogue says all of it in both languages, and the two differ") {
  for (const Exercise& e : catalogue()) {
    CAPTURE(e.name);
    const ShownExercise en = shown(e, Language::en, {}), de = shown(e, Language::de, {});
    CHECK(en.text().title != de.text().title);
    CHECK(en.text().steps.size() == de.text().steps.size());
    CHECK(en.text().self_check.size() == de.text().self_check.size());
    CHECK(en.text().errors.size() == de.text().errors.size());
    CHECK(en.cautions().size() == de.cautions().size());
    CHECK(en.cautions().size() >= 2 + universal_cautions(Language::en).size());
    CHECK(en.drawing() == e.drawing);
    CHECK(!e.source.empty());
    CHECK(en.kit().size() == e.kit.size());
    for (const Move& m : e.moves) CHECK((m.shift > 0.0 || m.scatter != 1.0));
  }
}

TEST_CASE("the catalogue has something for every cause, on a mat, without a ball, and for a sore back") {
  for (int c = 0; c < kCauses; ++c) {
    const auto cause = static_cast<Cause>(c);
    if (cause == Cause::plane_tilt) continue;  // nobody is sent home with a plane tilt
    CAPTURE(name_of(cause));
    CHECK(std::any_of(catalogue().begin(), catalogue().end(), [&](const Exercise& e) {
      return std::any_of(e.moves.begin(), e.moves.end(), [&](const Move& m) { return m.cause == cause; });
    }));
  }
  const auto some = [](auto&& like) { return std::any_of(catalogue().begin(), catalogue().end(), like); };
  CHECK(some([](const Exercise& e) { return !e.ball; }));
  CHECK(
      some([](const Exercise& e) { return std::count(e.ground.begin(), e.ground.end(), Surface::mat) > 0; }));
  CHECK(some([](const Exercise& e) { return e.crowded; }));
  CHECK(some([](const Exercise& e) { return !holds(e.not_with, BodyNote::back); }));
  for (const Exercise& e : catalogue())
    if (e.jump) CHECK_MESSAGE(holds(e.not_with, BodyNote::older), e.name);
}
