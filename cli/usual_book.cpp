#include "usual_book.hpp"

#include <cstdlib>
#include <filesystem>

namespace strikewright {

Result<std::string> usual_book() {
  const char* data = std::getenv("XDG_DATA_HOME");
  const char* home = std::getenv("HOME");
  const bool own = data != nullptr && std::filesystem::path(data).is_absolute();
  if (!own && (home == nullptr || *home == '\0'))
    return unexpected(Fault{"--book", "nothing, and no home folder", "a file for the book"});
  const std::filesystem::path folder =
      (own ? std::filesystem::path(data) : std::filesystem::path(home) / ".local" / "share") / "strikewright";
  std::error_code error;
  std::filesystem::create_directories(folder, error);
  if (error) return unexpected(Fault{folder.string(), error.message(), "a folder that can be made"});
  return (folder / "book.strike").string();
}

}  // namespace strikewright
