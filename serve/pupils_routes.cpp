// Pupils: list, timeline, keep, erase.

#include <charconv>
#include <nlohmann/json.hpp>

#include "quantity/nearest.hpp"
#include "serve/records.hpp"
#include "serve/routes.hpp"
#include "serve/sensible.hpp"
#include "verbs/json_door.hpp"

namespace strikewright {
namespace {

constexpr int kMostLines = 500, kUsualLines = 50, kFarthest = 1'000'000;

Result<int> whole_number(const Asked& asked, const char* key, int low, int high, int standard) {
  const auto at = asked.query.find(key);
  if (at == asked.query.end()) return standard;
  const std::string& text = at->second;
  int value = 0;
  const auto [end, wrong] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (wrong != std::errc{} || end != text.data() + text.size() || value < low || value > high)
    return unexpected(Fault{key, strikewright::quoted(text),
                            "a whole number, " + std::to_string(low) + " to " + std::to_string(high)});
  return value;
}

Reply pupils(Means& means, const Asked& asked) {
  const Result<int> most = whole_number(asked, "most", 1, kMostLines, kUsualLines);
  if (!most) return faulty(most.error());
  const Result<int> skip = whole_number(asked, "skip", 0, kFarthest, 0);
  if (!skip) return faulty(skip.error());
  const auto search = asked.query.find("search");
  const auto lines = means.book.pupils(search == asked.query.end() ? "" : search->second, *most, *skip);
  if (!lines) return faulty(lines.error());
  Document out{{"pupils", Document::array()}};
  for (const PupilLine& line : *lines)
    out["pupils"].push_back({{"pupil", json_of(line.pupil)},
                             {"lessons", line.lessons},
                             {"swings", line.swings},
                             {"last_lesson_at", line.last_lesson_at}});
  return reply(out);
}

/// The kept summary, with what made it; null where no reading was kept.
Document summary_of(const std::optional<KeptReading>& reading) {
  if (!reading) return nullptr;
  Document summary = Document::parse(reading->summary, nullptr, false);
  if (!summary.is_object()) return nullptr;
  summary.erase("made_of");
  summary["revision"] = reading->revision;
  summary["from"] = reading->from;
  summary["made_at"] = reading->made_at;
  return summary;
}

Reply timeline(Means& means, const Asked& asked) {
  const Id& id = asked.named.at("id");
  const Result<Pupil> pupil = means.book.pupil(id);
  if (!pupil) return faulty(pupil.error());
  const auto lines = means.book.lessons_of(id);
  if (!lines) return faulty(lines.error());
  const Result<PupilCare> care = PupilCare::of(means.book, id, Language::en);
  if (!care) return faulty(care.error());
  Document out{{"pupil", json_of(*pupil)}, {"lessons", Document::array()}};
  for (const LessonLine& line : *lines) {
    Document given = Document::array();
    for (const Given& one : line.given) {
      const Result<GivenCare> about = care->about(one);
      if (!about) return faulty(about.error());
      given.push_back(json_of(one, *about));
    }
    out["lessons"].push_back({{"lesson", json_of(line.lesson)},
                              {"swings", line.swings},
                              {"reading", summary_of(line.reading)},
                              {"given", given}});
  }
  return reply(out);
}

Reply keep_pupil(Means& means, const Asked& asked) {
  const Result<Document> document = document_of(asked);
  if (!document) return faulty(document.error());
  const Result<Pupil> pupil = pupil_from(*document, asked.named.at("id"));
  if (!pupil) return faulty(pupil.error());
  if (const auto faults = not_readable(*pupil); !faults.empty()) return faulty(faults);
  if (const Result<void> kept = means.book.keep(*pupil, asked.who); !kept) return faulty(kept.error());
  const Result<Pupil> now = means.book.pupil(pupil->id);
  return now ? reply(json_of(*now)) : faulty(now.error());
}

Reply erase_pupil(Means& means, const Asked& asked) {
  const Id& id = asked.named.at("id");
  const Result<Document> document = document_of(asked);
  if (!document) return faulty(document.error());
  std::optional<Fault> fault;
  JsonDoor door{*document, "", fault};
  const std::string typed = door.text("erase");
  door.done();
  if (fault) return faulty(*fault);
  const Result<Pupil> pupil = means.book.pupil(id);
  if (!pupil && !is_absent(pupil.error())) return faulty(pupil.error());
  // Erased already: the same answer, so that asking twice is no mistake.
  if (pupil && pupil->name != typed)
    return faulty(400, Fault{"erase", strikewright::quoted(typed),
                             "the pupil's name, " + strikewright::quoted(pupil->name)});
  const Result<Erased> erased = means.book.erase_pupil(id);
  if (!erased) return faulty(erased.error());
  return reply({{"lessons", erased->lessons}, {"swings", erased->swings}});
}

}  // namespace

std::vector<Route> pupils_routes() {
  return {
      {.method = "GET",
       .pattern = "/api/pupils",
       .says = "pupils whose name holds all words, newest lesson first",
       .gives = "Pupils",
       .query = {"search", "most", "skip"},
       .handle = pupils},
      {.method = "GET",
       .pattern = "/api/pupils/{id}",
       .says = "a pupil and the lessons in order of date",
       .gives = "Timeline",
       .handle = timeline},
      {.method = "PUT",
       .pattern = "/api/pupils/{id}",
       .says = "adds or replaces a pupil",
       .takes = "Pupil",
       .gives = "Pupil",
       .handle = keep_pupil},
      {.method = "DELETE",
       .pattern = "/api/pupils/{id}",
       .says = "erases a pupil for good; the name must be typed",
       .takes = "Erase",
       .gives = "Erased",
       .slow = true,
       .handle = erase_pupil},
  };
}

}  // namespace strikewright
