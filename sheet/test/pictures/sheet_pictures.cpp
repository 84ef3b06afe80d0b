// sheet_pictures FOLDER [all]: writes the pictures of docs/sheets; "all" adds those that only eyes need.

#include <cstdio>
#include <fstream>
#include <string>

#include "sheet/sheet.hpp"
#include "sheet/test/some_sheets.hpp"

namespace {

using namespace strikewright;

bool write(const std::string& file, const Result<std::string>& made) {
  if (!made) {
    std::fprintf(stderr, "sheet_pictures: %s: %s\n", file.c_str(), made.error().sentence().c_str());
    return false;
  }
  std::ofstream out(file, std::ios::binary);
  out << *made;
  return out.good();
}

bool write_more(const std::string& folder) {
  SheetContent left = some::pupil("en");
  left.hand = "left";
  left.paper = Paper::letter;
  left.units = UnitSystem::yards;
  SheetContent junior = some::pupil("de");
  junior.junior = true;
  SheetContent bare = some::pupil("en");
  bare.picture.reset();
  bare.exercise->drawing.clear();
  bare.sessions.clear();
  bare.targets.clear();
  bare.note.clear();
  return write(folder + "/left-letter.png", sheet_png(left, 150.0)) &&
         write(folder + "/junior-de.png", sheet_png(junior, 150.0)) &&
         write(folder + "/bare.png", sheet_png(bare, 150.0)) &&
         write(folder + "/summary-de.png", sheet_png(some::summary("de"), 150.0)) &&
         write(folder + "/pupil-en.pdf", sheet_pdf(some::pupil("en"))) &&
         write(folder + "/pupil-en.svg", sheet_svg(some::pupil("en"))) &&
         write(folder + "/pupil-en.html", sheet_html(some::pupil("en"))) &&
         write(folder + "/summary-de.html", sheet_html(some::summary("de")));
}

}  // namespace

int main(int count, char** words) {
  if (count < 2) {
    std::fputs("usage: sheet_pictures FOLDER [all]\n", stderr);
    return 2;
  }
  const std::string folder = words[1];
  bool good = write(folder + "/pupil-en.png", sheet_png(some::pupil("en"), 150.0)) &&
              write(folder + "/pupil-de.png", sheet_png(some::pupil("de"), 150.0)) &&
              write(folder + "/summary-en.png", sheet_png(some::summary("en"), 150.0));
  if (good && count > 2 && std::string(words[2]) == "all") good = write_more(folder);
  return good ? 0 : 1;
}
