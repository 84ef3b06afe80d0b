#pragma once
// The book's records as JSON, both ways; the members of the structs in book/book.hpp, same names.

#include "book/book.hpp"
#include "verbs/answer.hpp"
#include "verbs/given_care.hpp"

namespace strikewright {

Document json_of(const Settings& settings);
Document json_of(const Pupil& pupil);
Document json_of(const Lesson& lesson);
Document json_of(const KeptSwing& swing);
/// With what it asks of the pupil: nothing that was given is told without its cautions.
Document json_of(const Given& given, const GivenCare& care);
Document json_of(const OwnExercise& exercise);
Document json_of(const SwingChange& change);

/// Members that are left out keep the default of a new record; strangers, wrong types and another id than
/// `id` are Faults. What a member may hold is the book's to judge.
/// @param place  where the document stood: "body" gives "name", "body.swings[3]" gives "swings[3].club"
Result<Settings> settings_from(const Document& document);
Result<Pupil> pupil_from(const Document& document, const Id& id);
Result<Lesson> lesson_from(const Document& document, const Id& id);
/// @param id      "" = the document must say
/// @param lesson  "" = the document must say
Result<KeptSwing> swing_from(const Document& document, const Id& id, const Id& lesson,
                             const std::string& place = "");
/// `{"swings": [...]}`, each with its id; at least one.
Result<std::vector<KeptSwing>> swings_from(const Document& document, const Id& lesson);

Result<Given> given_from(const Document& document, const Id& id);
Result<OwnExercise> own_exercise_from(const Document& document, const Id& id);

/// The JSON Schemas of the records, by name: "Pupil", "Lesson", ...
Document record_schemas();

}  // namespace strikewright
