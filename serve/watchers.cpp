#include "serve/watchers.hpp"

#include <nlohmann/json.hpp>

#include "serve/asked.hpp"

namespace strikewright {

int Watchers::join(Watcher watcher) {
  const std::lock_guard lock{mutex_};
  watchers_.emplace(++next_, std::move(watcher));
  return next_;
}

void Watchers::leave(int number) {
  const std::lock_guard lock{mutex_};
  watchers_.erase(number);
}

void Watchers::tell(const Changed& changed) {
  const std::string event = event_of(changed);
  const std::lock_guard lock{mutex_};
  for (const auto& [number, watcher] : watchers_) watcher.tell(event);
}

void Watchers::end(const std::string& device) {
  const std::lock_guard lock{mutex_};
  for (const auto& [number, watcher] : watchers_)
    if (watcher.device == device) watcher.end();
}

std::string event_of(const Changed& changed) {
  const Document data{{"pupil", changed.pupil}, {"lesson", changed.lesson}, {"revision", changed.revision}};
  return "event: changed\ndata: " + dumped(data) + "\n\n";
}

}  // namespace strikewright
