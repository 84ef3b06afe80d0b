#include "serve/page.hpp"

#include <array>

extern "C" {
extern const char page_index_begin[], page_index_end[], page_script_begin[], page_script_end[],
    page_style_begin[], page_style_end[];
}

namespace strikewright {
namespace {

std::string_view between_marks(const char* begin, const char* end) {
  return {begin, static_cast<std::size_t>(end - begin)};
}

}  // namespace

std::span<const PageFile> page_files() {
  static const std::array<PageFile, 3> files{
      {{"/", "text/html; charset=utf-8", between_marks(page_index_begin, page_index_end)},
       {"/app.js", "text/javascript; charset=utf-8", between_marks(page_script_begin, page_script_end)},
       {"/app.css", "text/css; charset=utf-8", between_marks(page_style_begin, page_style_end)}}};
  return files;
}

}  // namespace strikewright
