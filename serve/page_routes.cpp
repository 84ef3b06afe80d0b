// The page's own files: all that an unpaired device gets.

#include "serve/page.hpp"
#include "serve/routes.hpp"
#include "serve/secrets.hpp"

namespace strikewright {

std::vector<Route> page_routes() {
  std::vector<Route> out;
  for (const PageFile& file : page_files()) {
    const std::string tag = '"' + hash_of(file.packed).substr(0, 32) + '"';
    out.push_back({.method = "GET",
                   .pattern = std::string(file.path),
                   .says = "a file of the page",
                   .gives = "PageFile",
                   .whom = For::anybody,
                   .handle = [&file, tag](Means&, const Asked& asked) -> Reply {
                     if (asked.if_none_match == tag)
                       return {.status = 304, .type = "", .headers = {{"ETag", tag}}};
                     return {.type = std::string(file.type),
                             .body = std::string(file.packed),
                             .headers = {{"ETag", tag}, {"Content-Encoding", "gzip"}}};
                   }});
  }
  return out;
}

}  // namespace strikewright
