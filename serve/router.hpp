#pragma once
// Which handler answers which method and path.

#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "serve/asked.hpp"

namespace strikewright {

struct Means;

/// Who may ask without being paired, when the server is shared.
enum class For { paired, anybody, this_machine };

/// One route, described once: the router, the description for other programs and docs/api.md are held to it.
struct Route {
  std::string method;                ///< "GET", "PUT", "POST", "DELETE"
  std::string pattern;               ///< "/api/lessons/{id}/reading"
  std::string says;                  ///< one plain phrase
  std::string takes{};               ///< name of the body's shape in openapi.cpp, "" = no body
  std::string gives{};               ///< name of the answer's shape
  std::vector<std::string> query{};  ///< names that may stand after the ?
  For whom = For::paired;
  bool slow = false;  ///< may think for a tenth of a second: not on the quick thread
  std::function<Reply(Means&, const Asked&)> handle{};
};

/// "%C3%A9" -> "é". nullopt: a broken %, bytes that are not UTF-8, or the character 0.
std::optional<std::string> decoded(std::string_view text, bool plus_is_blank = false);

class Router {
 public:
  explicit Router(std::vector<Route> routes);
  [[nodiscard]] const std::vector<Route>& routes() const { return routes_; }

  /// The route, with `named` and `query` of `asked` filled in, or the refusal: 400, 404, 405.
  [[nodiscard]] std::variant<const Route*, Reply> find(Asked& asked) const;

 private:
  std::vector<Route> routes_;
};

}  // namespace strikewright
