#include "write_whole.hpp"

#include <filesystem>
#include <fstream>

namespace strikewright {

Result<void> write_whole(const std::string& file, const std::string& text, const std::string& option) {
  const std::string beside = file + ".part";
  std::error_code wrong;
  {
    std::ofstream stream(beside, std::ios::binary | std::ios::trunc);
    stream << text;
    stream.close();
    if (stream) std::filesystem::rename(beside, file, wrong);
    if (stream && !wrong) return {};
  }
  std::filesystem::remove(beside, wrong);
  return unexpected(Fault{option, "'" + file + "', which cannot be written", "a file in a folder of yours"});
}

}  // namespace strikewright
