#pragma once
// The page's own files, as they lie in the program: packed, ready to be sent.

#include <span>
#include <string_view>

namespace strikewright {

struct PageFile {
  std::string_view path;    ///< "/app.js"
  std::string_view type;    ///< "text/javascript; charset=utf-8"
  std::string_view packed;  ///< gzip
};

std::span<const PageFile> page_files();

}  // namespace strikewright
