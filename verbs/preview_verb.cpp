#include "verbs/preview_verb.hpp"

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>
#include <set>

#include "quantity/nearest.hpp"
#include "sighting/columns.hpp"
#include "sighting/csv.hpp"
#include "sighting/table.hpp"

namespace strikewright {
namespace {

constexpr const char* kFile = "file";
constexpr std::size_t kShown = 10;

/// The sign between cells: the one that the first line has most of.
char separator_of(const std::string& text) {
  const std::string first = text.substr(0, text.find_first_of("\r\n"));
  char best = ',';
  for (const char c : {';', '\t'})
    if (std::count(first.begin(), first.end(), c) > std::count(first.begin(), first.end(), best)) best = c;
  return best;
}

bool is_number_with_comma(const std::string& cell) {
  const std::size_t comma = cell.find(',');
  return comma != std::string::npos && cell.find_first_not_of("+-0123456789 ,") == std::string::npos &&
         cell.find(',', comma + 1) == std::string::npos;
}

/// The same table with commas between cells and points in numbers.
std::string with_commas(const std::string& text, char separator) {
  if (separator == ',') return text;
  std::string out, cell;
  bool quoted = false;
  const auto end_cell = [&] {
    if (is_number_with_comma(cell)) std::replace(cell.begin(), cell.end(), ',', '.');
    out += cell.find(',') == std::string::npos || cell.front() == '"' ? cell : csv_cell(cell);
    cell.clear();
  };
  for (const char c : text) {
    if (c == '"') quoted = !quoted;
    const bool ends = !quoted && (c == separator || c == '\n' || c == '\r');
    if (!ends) {
      cell += c;
      continue;
    }
    end_cell();
    out += c == separator ? ',' : c;
  }
  end_cell();
  return out;
}

std::vector<std::string> known_names() {
  std::vector<std::string> out;
  for (const Column& column : known_columns()) out.push_back(column.name);
  return out;
}

bool is_known(const std::string& name) {
  return std::any_of(known_columns().begin(), known_columns().end(),
                     [&](const Column& column) { return column.name == name; });
}

struct Mapped {
  std::string theirs, ours;
  bool guessed = false;
};

/// What was said about a column, or the nearest of our names that no other column has yet.
std::vector<Mapped> mapped_of(const std::vector<std::string>& header, const PreviewAsked& asked) {
  const std::vector<std::string> names = known_names();
  std::set<std::string> taken;
  for (const auto& [theirs, ours] : asked.columns) taken.insert(ours);
  std::vector<Mapped> out;
  for (const std::string& theirs : header) {
    if (const auto said = asked.columns.find(theirs); said != asked.columns.end()) {
      out.push_back({theirs, said->second, false});
      continue;
    }
    const std::string near = is_known(theirs) ? theirs : nearest_name(theirs, names);
    out.push_back({theirs, taken.insert(near).second ? near : "", true});
  }
  return out;
}

std::vector<Fault> faults_of(const std::vector<Mapped>& columns) {
  std::vector<Fault> out;
  std::set<std::string> taken;
  for (const Mapped& m : columns) {
    const bool sure = m.ours.starts_with("sure_");
    if (!m.ours.empty() && !sure && !is_known(m.ours))
      out.push_back({"columns, " + m.theirs, strikewright::quoted(m.ours),
                     "one of our columns, or nothing" + suggestion(m.ours, known_names())});
    if (!m.ours.empty() && !taken.insert(m.ours).second)
      out.push_back({"columns, " + m.theirs, strikewright::quoted(m.ours) + " a second time",
                     "each of our columns once"});
  }
  return out;
}

/// What rows do not say themselves, in front of what they say.
class Said {
 public:
  Said(const std::vector<Mapped>& columns, const PreviewAsked& asked) {
    const std::array<std::pair<const char*, std::string>, 5> all{{{"club", asked.club},
                                                                  {"condition", asked.condition},
                                                                  {"surface", asked.surface},
                                                                  {"ball", asked.ball ? "yes" : "no"},
                                                                  {"hand", asked.hand}}};
    for (const auto& [name, value] : all) {
      const bool theirs = std::any_of(columns.begin(), columns.end(),
                                      [n = std::string(name)](const Mapped& m) { return m.ours == n; });
      if (theirs) continue;
      names_ += csv_cell(name) + ",";
      values_ += csv_cell(value) + ",";
    }
  }
  [[nodiscard]] const std::string& names() const { return names_; }
  [[nodiscard]] const std::string& values() const { return values_; }

 private:
  std::string names_, values_;
};

/// Their rows under our names. Lines stay where they are, so that a fault names the line of their file.
std::string as_ours(const std::vector<CsvRow>& rows, const std::vector<Mapped>& columns, const Said& said) {
  std::string out;
  std::size_t line = 1;
  for (const CsvRow& row : rows) {
    for (; line < row.line; ++line) out += '\n';
    const bool header = &row == &rows.front();
    std::string cells = header ? said.names() : said.values();
    for (std::size_t k = 0; k < columns.size(); ++k) {
      if (columns[k].ours.empty()) continue;
      cells += csv_cell(header ? columns[k].ours : k < row.cells.size() ? row.cells[k] : "") + ",";
    }
    if (!cells.empty()) cells.pop_back();
    out += cells + '\n';
    ++line;
  }
  return out;
}

bool is_about_the_swing(const std::string& column) {
  static constexpr std::array<std::string_view, 7> kAbout{"club",    "hand", "condition", "ball",
                                                          "surface", "time", "swing"};
  return std::find(kAbout.begin(), kAbout.end(), column) != kAbout.end();
}

Document swing_document(const SeenSwing& swing, const std::vector<std::string>& header) {
  Document seen = Document::array();
  for (std::size_t k = 0; k < header.size() && k < swing.cells.size(); ++k)
    if (!is_about_the_swing(header[k]) && !swing.cells[k].empty())
      seen.push_back({{"column", header[k]}, {"text", swing.cells[k]}});
  return {{"club", swing.club}, {"condition", name_of(swing.condition)}, {"surface", name_of(swing.surface)},
          {"ball", swing.ball}, {"at", swing.time.value_or("")},         {"seen", std::move(seen)}};
}

Document fault_document(const Fault& fault) {
  return {{"place", fault.place}, {"found", fault.found}, {"expected", fault.expected}};
}

/// Reads their table as ours: swings, or everything that is wrong with it.
void add_swings(const std::string& ours, const PreviewAsked& asked, std::vector<Fault> faults,
                Document& out) {
  const Hand hand = asked.hand == "left" ? Hand::left : Hand::right;
  std::vector<SeenSwing> swings;
  out["swings"] = Document::array();
  TableReader reader(TableOptions{.file = kFile, .hand = hand},
                     [&](SeenSwing&& swing) { swings.push_back(std::move(swing)); });
  if (faults.empty()) (void)reader.feed(ours);  // a fault of it comes back from finish()
  if (const Result<std::size_t> rows = reader.finish(); !rows && faults.empty()) {
    const std::vector<Fault>& found = reader.faults();
    faults.insert(faults.end(), found.begin(), found.end());
    if (found.empty()) faults.push_back(rows.error());
  }
  for (const SeenSwing& swing : swings)
    if (swing.hand != hand)
      faults.push_back({std::string(kFile) + ":" + std::to_string(swing.line) + ", hand",
                        swing.hand == Hand::left ? "left" : "right", "the pupil's hand, " + asked.hand});
  out["faults"] = Document::array();
  for (const Fault& fault : faults) out["faults"].push_back(fault_document(fault));
  if (!faults.empty()) return;
  for (const SeenSwing& swing : swings) out["swings"].push_back(swing_document(swing, reader.header()));
}

}  // namespace

Answer<Document> preview_of(const PreviewAsked& asked) {
  std::vector<CsvRow> rows;
  CsvReader reader(kFile, [&](CsvRow&& row) {
    rows.push_back(std::move(row));
    return true;
  });
  const std::string text = with_commas(asked.text, separator_of(asked.text));
  if (const auto fed = reader.feed(text); !fed) return refused(fed.error());
  if (const auto done = reader.finish(); !done) return refused(done.error());
  if (rows.empty()) return refused({kFile, "nothing", "a first row with names, and one row for each swing"});
  const std::vector<Mapped> columns = mapped_of(rows.front().cells, asked);
  Document out{{"columns", Document::array()}, {"rows", Document::array()}};
  for (const Mapped& m : columns)
    out["columns"].push_back({{"theirs", m.theirs}, {"ours", m.ours}, {"guessed", m.guessed}});
  for (std::size_t k = 1; k < rows.size() && k <= kShown; ++k) out["rows"].push_back(rows[k].cells);
  add_swings(as_ours(rows, columns, Said(columns, asked)), asked, faults_of(columns), out);
  return out;
}

}  // namespace strikewright
