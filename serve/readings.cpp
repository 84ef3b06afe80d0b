#include "serve/readings.hpp"

#include <nlohmann/json.hpp>

#include "quantity/nearest.hpp"
#include "reading/together.hpp"
#include "serve/asked.hpp"
#include "serve/secrets.hpp"
#include "verbs/lesson_file.hpp"

namespace strikewright {
namespace {

constexpr std::size_t kFitted = 10;      // blocks of twenty swings; a megabyte each
constexpr std::size_t kRemembered = 12;  // a few lessons in both units; some 100 kB each
std::string fingerprint(const ReadingAsked& asked, const std::string& version) {
  Document all{version, asked.csv, asked.skill, asked.bag, asked.from, asked.units};
  all.push_back(asked.left_out);
  // The ids are in the document, too, and a swing may be another with the same row.
  for (const std::string& id : asked.ids) all.push_back(id);
  return hash_of(dumped(all));
}

/// How every document begins. The rest depends on what was read alone, so that it serves again when the
/// lesson has changed in something that no reading depends on, such as the club of the next swing.
std::string beginning_of(const Id& lesson, std::int64_t revision) {
  return "{\"lesson\":\"" + lesson + "\",\"revision\":" + std::to_string(revision) + ",";
}

}  // namespace

Readings::Readings(Book& book, std::string version, Maker maker)
    : book_{&book},
      version_{std::move(version)},
      maker_{std::move(maker)},
      memory_{std::make_unique<FitMemory>(kFitted)} {}

Readings::~Readings() = default;

Result<Readings::Wanted> Readings::wanted(const Id& lesson, const std::string& units) {
  if (!units.empty() && units != "metric" && units != "yards")
    return unexpected(Fault{"units", strikewright::quoted(units), "metric or yards"});
  const Result<LessonFile> file = lesson_file(*book_, lesson);
  if (!file) return unexpected(file.error());
  Wanted out{.asked = reading_asked(*file, units), .revision = file->lesson.revision, .made_of = {}};
  out.asked.memory = memory_.get();
  out.made_of = fingerprint(out.asked, version_);
  return out;
}

void Readings::remember(const std::string& key) {
  order_.push_back(key);
  while (order_.size() > kRemembered) {
    known_.erase(order_.front());
    order_.pop_front();
  }
}

Answer<std::string> Readings::of(const Id& lesson, const std::string& units) {
  const Result<Wanted> want = wanted(lesson, units);
  if (!want) return tl::unexpected<std::vector<Fault>>(std::vector<Fault>{want.error()});
  const Answer<Text> rest = rest_of(lesson, *want);
  if (!rest) return tl::unexpected<std::vector<Fault>>(rest.error());
  return beginning_of(lesson, want->revision) + **rest;
}

Answer<Readings::Text> Readings::rest_of(const Id& lesson, const Wanted& want) {
  const std::string key = lesson + ' ' + want.made_of;
  std::promise<Answer<Text>> promise;
  {
    std::unique_lock lock{mutex_};
    if (const auto at = known_.find(key); at != known_.end()) {
      const std::shared_future<Answer<Text>> there = at->second;
      lock.unlock();
      return there.get();
    }
    known_.emplace(key, promise.get_future().share());
    remember(key);
  }
  try {
    const Answer<Text> answer = made(lesson, want);
    promise.set_value(answer);
    return answer;
  } catch (...) {
    promise.set_exception(std::current_exception());
    const std::lock_guard lock{mutex_};
    known_.erase(key);
    throw;
  }
}

/// From the book where one of all the same was kept; made and kept otherwise.
Answer<Readings::Text> Readings::made(const Id& lesson, const Wanted& want) {
  const auto kept = book_->reading_of(lesson);
  if (kept && *kept) {
    const Document summary = Document::parse((*kept)->summary, nullptr, false);
    const std::string begins = beginning_of(lesson, (*kept)->revision);
    if (summary.is_object() && summary.value("made_of", "") == want.made_of &&
        (*kept)->document.starts_with(begins))
      return std::make_shared<const std::string>((*kept)->document.substr(begins.size()));
  }
  Answer<Document> reading = maker_(want.asked);
  if (!reading) return tl::unexpected<std::vector<Fault>>(reading.error());
  Document document{{"version", version_}};
  document.update(*reading);
  Document summary = reading_summary(document);
  summary["made_of"] = want.made_of;
  const auto text = std::make_shared<const std::string>(dumped(document).substr(1));
  // The reading is right whether or not the disk takes it; what could not be kept is made again.
  static_cast<void>(book_->keep(KeptReading{.lesson = lesson,
                                            .revision = want.revision,
                                            .from = want.asked.from,
                                            .version = version_,
                                            .made_at = {},
                                            .document = beginning_of(lesson, want.revision) + *text,
                                            .summary = dumped(summary)}));
  return text;
}

}  // namespace strikewright
