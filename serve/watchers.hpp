#pragma once
// Other open screens, and what they are told when the book changes.

#include <functional>
#include <map>
#include <mutex>
#include <string>

#include "book/book.hpp"

namespace strikewright {

class Watchers {
 public:
  /// May be called from any thread and must not block.
  struct Watcher {
    std::string device{};  ///< "" = this machine
    std::function<void(const std::string& event)> tell;
    std::function<void()> end;
  };
  /// @returns what to leave with
  int join(Watcher watcher);
  void leave(int number);
  void tell(const Changed& changed);
  /// Ends the streams of a device that is let in no longer.
  void end(const std::string& device);

 private:
  std::mutex mutex_;
  std::map<int, Watcher> watchers_;
  int next_ = 0;
};

/// "event: changed\ndata: {...}\n\n".
std::string event_of(const Changed& changed);

}  // namespace strikewright
