#include "verbs/given_check.hpp"

#include <fmt/format.h>

#include <array>
#include <nlohmann/json.hpp>

#include "quantity/nearest.hpp"
#include "verbs/known_exercises.hpp"

namespace strikewright {
namespace {

struct DoseMember {
  const char* name;
  int least, most;
};
constexpr std::array<DoseMember, 5> kDose{
    {{"balls", 4, 60}, {"sets", 1, 10}, {"rest_s", 0, 300}, {"minutes", 3, 40}, {"days_a_week", 1, 6}}};

template <class Table>
std::vector<std::string> names_in(const Table& table) {
  std::vector<std::string> out;
  out.reserve(table.size());
  for (const auto& row : table) out.emplace_back(row.name);
  return out;
}

Result<void> check_exercise(Book& book, const Given& given) {
  if (given.exercise.empty()) return {};
  const Result<KnownExercises> known = known_exercises(book);
  if (!known) return unexpected(known.error());
  if (known->named(given.exercise) != nullptr) return {};
  if (const Result<Given> before = book.given(given.id); before && before->exercise == given.exercise)
    return {};
  const std::vector<std::string> names = names_in(known->all);
  return unexpected(
      Fault{"exercise", strikewright::quoted(given.exercise),
            "the name of an exercise of the catalogue or of your own" + suggestion(given.exercise, names)});
}

Result<void> check_cause(const Given& given) {
  if (given.cause.empty()) return {};
  const std::vector<std::string> names = names_in(kCauseFacts);
  for (const std::string& name : names)
    if (name == given.cause) return {};
  return unexpected(Fault{"cause", strikewright::quoted(given.cause),
                          fmt::format("{}", fmt::join(names, " or ")) + suggestion(given.cause, names)});
}

Result<void> check_member(const std::string& name, const Document& value) {
  for (const DoseMember& member : kDose) {
    if (name != member.name) continue;
    const bool whole = value.is_number_integer();
    if (whole && value.get<std::int64_t>() >= member.least && value.get<std::int64_t>() <= member.most)
      return {};
    return unexpected(Fault{"dose: " + name, strikewright::quoted(value.dump(-1, ' ', true)),
                            fmt::format("a whole number, {} to {}", member.least, member.most)});
  }
  const std::vector<std::string> names = names_in(kDose);
  return unexpected(Fault{"dose", strikewright::quoted(name),
                          fmt::format("{}", fmt::join(names, " or ")) + suggestion(name, names)});
}

}  // namespace

Result<void> check_given(Book& book, const Given& given) {
  if (auto good = check_exercise(book, given); !good) return good;
  if (auto good = check_cause(given); !good) return good;
  if (given.dose.empty()) return {};
  const Document dose = Document::parse(given.dose, nullptr, false);
  if (!dose.is_object()) return {};  // the book says what is wrong with it
  for (const auto& [name, value] : dose.items())
    if (auto good = check_member(name, value); !good) return good;
  return {};
}

}  // namespace strikewright
