// The description and docs/api.md: every route, and nothing else.

#include <set>

#include "some_desk.hpp"

using namespace strikewright;

namespace {

std::set<std::string> routes_of(const Desk& desk) {
  std::set<std::string> out;
  for (const Route& route : desk.routes()) out.insert(route.method + ' ' + route.pattern);
  return out;
}

/// Every "$ref" anywhere in it.
void collect_references(const Document& value, std::set<std::string>& into) {
  if (value.is_object() && value.contains("$ref")) into.insert(value["$ref"].get<std::string>());
  if (value.is_structured())
    for (const Document& member : value) collect_references(member, into);
}

}  // namespace

TEST_CASE("the description has every route and nothing else") {
  SomeDesk d;
  const Document described = d.good("GET", "/api/openapi.json");
  CHECK(described == description());
  std::set<std::string> there;
  for (const auto& [path, methods] : described["paths"].items())
    for (const auto& [method, operation] : methods.items()) {
      std::string upper = method;
      for (char& c : upper) c = static_cast<char>(c - 'a' + 'A');
      there.insert(upper + ' ' + path);
      CHECK_FALSE(operation["summary"].get<std::string>().empty());
      CHECK(operation["responses"].contains("default"));
    }
  CHECK(there == routes_of(d.desk));
}

TEST_CASE("every shape that the description names is in it, and every shape in it is named") {
  const Document described = description();
  std::set<std::string> named, there;
  collect_references(described, named);
  for (const auto& [name, schema] : described["components"]["schemas"].items())
    there.insert("#/components/schemas/" + name);
  CHECK(named == there);
}

TEST_CASE("what the server answers has the members that the description says") {
  SomeDesk d;
  d.fill();
  d.good("GET", "/api/lessons/first/reading");
  const Document schemas = description()["components"]["schemas"];
  for (const Route& route : d.desk.routes()) {
    if (route.method != "GET" || !schemas.contains(route.gives)) continue;
    std::string target = route.pattern;
    const char* id = route.pattern.starts_with("/api/pupils")   ? "robin"
                     : route.pattern.starts_with("/api/swings") ? "s-1"
                     : route.pattern.starts_with("/api/given")  ? "g-1"
                                                                : "first";
    if (const std::size_t at = target.find("{id}"); at != std::string::npos) target.replace(at, 4, id);
    const Document answer = d.good("GET", target);
    for (const Document& member : schemas[route.gives].value("required", Document::array())) {
      CAPTURE(route.pattern);
      CHECK_MESSAGE(answer.contains(member.get<std::string>()), member);
    }
  }
}

TEST_CASE(
    "what was given has every member that the description says and no other; the program's are read only") {
  SomeDesk d;
  d.fill();
  const Document members = description()["components"]["schemas"]["Given"]["properties"];
  const Document given = d.good("GET", "/api/given/g-1");
  std::set<std::string> said, there;
  for (const auto& [name, schema] : members.items()) said.insert(name);
  for (const auto& [name, value] : given.items()) there.insert(name);
  CHECK(said == there);
  for (const char* added : {"permission", "reasons", "cautions"}) CHECK(members[added]["readOnly"] == true);
  // Taken without a word, and not believed.
  Document claimed = given;
  claimed["cautions"] = Document::array();
  CHECK(d.good("PUT", "/api/given/g-1", claimed.dump()) == given);
}

TEST_CASE("docs/api.md lists every route and nothing else") {
  SomeDesk d;
  std::set<std::string> listed;
  std::istringstream page(contents(SOURCE_DIR "/docs/api.md"));
  for (std::string line; std::getline(page, line);) {
    if (!line.starts_with("| `")) continue;
    const std::string name = line.substr(3, line.find('`', 3) - 3);
    listed.insert(name.substr(0, name.find('?')));
  }
  CHECK(listed == routes_of(d.desk));
}
