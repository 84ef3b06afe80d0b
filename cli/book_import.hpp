#pragma once
// What `strikewright book import` takes: a document of export, or a sightings file as one more lesson of a
// pupil.

#include "book/book.hpp"
#include "doors.hpp"

namespace strikewright {

/// The pupil whose id or whole name this is; of several of one name none, with their ids in the fault.
Result<Pupil> pupil_called(Book& book, const std::string& name);

/// A document of `book export`; how many records came in.
Result<int> import_document(Book& book, const std::string& file, Doors& doors);

struct LessonCame {
  Pupil pupil;
  Id lesson;
  int swings = 0;
  bool new_pupil = false;
  bool already = false;  ///< the same file was there: nothing was done
};

/// A sightings file; a pupil of a name that is not in the book is added. Faults in the file are reported to
/// `doors`, whose exit code says so; nothing is kept then.
Result<LessonCame> import_sightings(Book& book, const std::string& file, const std::string& pupil,
                                    Doors& doors);

}  // namespace strikewright
