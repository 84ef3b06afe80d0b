#include "book_import.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <istream>
#include <nlohmann/json.hpp>

#include "quantity/nearest.hpp"
#include "quantity/number.hpp"
#include "sighting/table.hpp"
#include "verbs/json_door.hpp"

namespace strikewright {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t kLargestFile = 2u << 30;
constexpr int kMostNamesakes = 100'000;
constexpr std::size_t kShown = 20;

Result<std::string> text_of(const std::string& file, Doors& doors) {
  if (file == "-") return all_of(doors.in, "standard input", kLargestFile);
  if (std::filesystem::is_directory(file)) return unexpected(Fault{file, "a folder", "a file"});
  std::ifstream stream(file, std::ios::binary);
  if (!stream) return unexpected(Fault{file, "no such file", "a file that can be read"});
  return all_of(stream, file, kLargestFile);
}

/// The same text gives the same name (FNV-1a), so that a file imported twice is one lesson.
std::string name_from(const std::string& begin, const std::string& text) {
  std::uint64_t hash = 14695981039346656037ull;
  for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211ull;
  return fmt::format("{}-{:016x}", begin, hash);
}

bool is_of_the_swing(const std::string& column) {
  static const std::vector<std::string> own{"club", "condition", "ball", "surface", "hand", "time", "swing"};
  return std::find(own.begin(), own.end(), column) != own.end();
}

/// "Carry_YD " is a heading that the core understands; the book keeps the documented name.
std::string plain(std::string_view heading) {
  std::string out{trimmed(heading)};
  std::transform(out.begin(), out.end(), out.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return out;
}

Json swing_json(const SeenSwing& swing, const std::vector<std::string>& header, const Id& lesson,
                std::size_t number) {
  Json seen = Json::array();
  for (std::size_t k = 0; k < header.size() && k < swing.cells.size(); ++k) {
    const std::string text{trimmed(swing.cells[k])};
    if (!is_of_the_swing(plain(header[k])) && !text.empty())
      seen.push_back({{"column", plain(header[k])}, {"text", text}});
  }
  return {{"id", fmt::format("{}-{}", lesson, number)},
          {"number", number},
          {"club", swing.club},
          {"condition", name_of(swing.condition)},
          {"surface", name_of(swing.surface)},
          {"ball", swing.ball},
          {"at", swing.time.value_or("")},
          {"seen", std::move(seen)}};
}

struct SeenFile {
  std::vector<SeenSwing> swings;
  std::vector<std::string> header;
};

/// A new pupil plays with the hand that the file names, with the right one where it names none.
const char* hand_named(const std::string& text) {
  bool left = false;
  TableReader reader(TableOptions{}, [&](SeenSwing&& swing) { left = left || swing.hand == Hand::left; });
  (void)reader.feed(text);  // faults are reported by who takes the swings
  (void)reader.finish();
  return left ? "left" : "right";
}

/// Every fault is reported; the swings are empty then.
SeenFile read_file(const std::string& text, const std::string& name, const Pupil& pupil, Doors& doors) {
  SeenFile out;
  const Hand hand = pupil.hand == "left" ? Hand::left : Hand::right;
  TableReader reader(TableOptions{.file = name, .hand = hand},
                     [&](SeenSwing&& swing) { out.swings.push_back(std::move(swing)); });
  (void)reader.feed(text);  // a fault comes back from finish()
  std::vector<Fault> faults;
  if (const Result<std::size_t> rows = reader.finish(); !rows) {
    faults = reader.faults();
    if (faults.empty()) faults.push_back(rows.error());
  }
  for (const SeenSwing& swing : out.swings) {
    if (swing.hand != hand && faults.size() < kShown)
      faults.push_back(
          {fmt::format("{}:{}, hand", name, swing.line), "another hand than the pupil's", pupil.hand});
  }
  if (faults.empty() && out.swings.empty())
    faults.push_back({name, "no swings", "one row at least below the header"});
  if (!faults.empty()) report(faults, doors);
  if (!faults.empty()) out.swings.clear();
  out.header = reader.header();
  return out;
}

/// A document of one lesson, in the shape of an export, so that it comes in whole or not at all.
Json lesson_document(const SeenFile& file, const LessonCame& came) {
  const SeenSwing& last = file.swings.back();
  Json lesson{{"id", came.lesson},
              {"pupil", came.pupil.id},
              {"club", last.club},
              {"condition", name_of(last.condition)},
              {"surface", name_of(last.surface)},
              {"ball", last.ball},
              {"revision", 1},
              {"swings", Json::array()}};
  if (const auto& begun = file.swings.front().time) lesson["begun_at"] = *begun;
  for (std::size_t k = 0; k < file.swings.size(); ++k)
    lesson["swings"].push_back(swing_json(file.swings[k], file.header, came.lesson, k + 1));
  Json pupils = Json::array();
  if (came.new_pupil)
    pupils.push_back({{"id", came.pupil.id}, {"name", came.pupil.name}, {"hand", came.pupil.hand}});
  return {{"format", 1}, {"pupils", std::move(pupils)}, {"lessons", Json::array({std::move(lesson)})}};
}

}  // namespace

Result<Pupil> pupil_called(Book& book, const std::string& name) {
  if (Result<Pupil> found = book.pupil(name); found || is_of_the_file(found.error())) return found;
  const Result<std::vector<PupilLine>> near = book.pupils(name, kMostNamesakes, 0);
  if (!near) return unexpected(near.error());
  std::vector<Pupil> same;
  for (const PupilLine& line : *near) {
    if (line.pupil.name == name) same.push_back(line.pupil);
  }
  if (same.size() == 1) return same.front();
  const std::string place = "pupil " + strikewright::quoted(name);
  if (same.empty()) {
    std::vector<std::string> names;
    for (const PupilLine& line : *near) names.push_back(line.pupil.name);
    return unexpected(
        Fault{place, "nobody of that id or whole name", "one who is in the book" + suggestion(name, names)});
  }
  std::sort(same.begin(), same.end(), [](const Pupil& a, const Pupil& b) { return a.id < b.id; });
  std::string ids;
  for (const Pupil& pupil : same) ids += (ids.empty() ? "" : " or ") + pupil.id;
  return unexpected(Fault{place, fmt::format("{} of that name", same.size()), "the id: " + ids});
}

Result<int> import_document(Book& book, const std::string& file, Doors& doors) {
  const Result<std::string> text = text_of(file, doors);
  if (!text) return unexpected(text.error());
  return book.import_json(*text, file == "-" ? "standard input" : file);
}

Result<LessonCame> import_sightings(Book& book, const std::string& file, const std::string& pupil,
                                    Doors& doors) {
  const Result<std::string> text = text_of(file, doors);
  if (!text) return unexpected(text.error());
  const std::string name = file == "-" ? "standard input" : file;
  LessonCame came;
  if (const Result<Pupil> there = pupil_called(book, pupil)) {
    came.pupil = *there;
  } else if (there.error().found.rfind("nobody", 0) == 0) {
    came.pupil.id = name_from("pupil", pupil);
    came.pupil.name = pupil;
    came.pupil.hand = hand_named(*text);
    came.new_pupil = true;
  } else {
    return unexpected(there.error());
  }
  came.lesson = name_from("file", came.pupil.id + "\n" + *text);
  came.already = book.lesson(came.lesson).has_value();
  if (came.already) return came;
  const SeenFile seen = read_file(*text, name, came.pupil, doors);
  if (doors.exit_code != kGood) return came;
  came.swings = static_cast<int>(seen.swings.size());
  return book.import_json(lesson_document(seen, came).dump(), name).map([&](int) { return came; });
}

}  // namespace strikewright
