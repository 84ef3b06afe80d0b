#include "sheet/pdf_facts.hpp"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <utility>

#include "quantity/utf8.hpp"

namespace strikewright {
namespace {

// The number behind `key` at or after `from`; -1 if there is none.
long number_after(const std::string& text, std::string_view key, std::size_t from) {
  const std::size_t at = text.find(key, from);
  return at == std::string::npos ? -1 : std::strtol(text.c_str() + at + key.size(), nullptr, 10);
}

// A text string in UTF-16BE with its mark, as hexadecimal digits (ISO 32000-1, 7.9.2.2).
std::string text_string(std::string_view text) {
  std::string hex = "<FEFF";
  const auto add = [&](unsigned unit) {
    char digits[8];
    std::snprintf(digits, sizeof digits, "%04X", unit & 0xffffu);
    hex += digits;
  };
  for (std::size_t length = 0; (length = utf8_length(text)) > 0; text.remove_prefix(length)) {
    const auto byte = [&](std::size_t k) {
      return static_cast<unsigned>(static_cast<unsigned char>(text[k]));
    };
    unsigned letter = length == 1 ? byte(0) : byte(0) & (0xffu >> (length + 1));
    for (std::size_t k = 1; k < length; ++k) letter = letter << 6 | (byte(k) & 0x3fu);
    if (letter < 0x10000u) {
      add(letter);
    } else {
      add(0xd800u + ((letter - 0x10000u) >> 10));
      add(0xdc00u + ((letter - 0x10000u) & 0x3ffu));
    }
  }
  return hex + ">";
}

// New editions of objects, appended to a file with a table of where they are.
class Update {
 public:
  explicit Update(std::string& pdf) : pdf_(pdf) {}
  /// Object `number` (generation 0) anew, with `more` at the front of its dictionary; `old` is where its body
  /// begins.
  void renew(long number, std::size_t old, const std::string& more) {
    const std::string rest = pdf_.substr(old, pdf_.find("\nendobj", old) - old);
    places_.emplace_back(number, pdf_.size());
    pdf_ += std::to_string(number) + " 0 obj\n<< " + more + rest + "\nendobj\n";
  }
  void finish(const std::string& trailer) {
    const std::size_t table = pdf_.size();
    pdf_ += "xref\n";
    std::sort(places_.begin(), places_.end());
    for (const auto& [number, place] : places_) {
      char entry[64];
      std::snprintf(entry, sizeof entry, "%ld 1\n%010zu 00000 n \n", number, place);
      pdf_ += entry;
    }
    pdf_ += trailer + "startxref\n" + std::to_string(table) + "\n%%EOF\n";
  }

 private:
  std::string& pdf_;
  std::vector<std::pair<long, std::size_t>> places_;
};

}  // namespace

std::string with_facts(std::string pdf, std::string_view language, const std::vector<std::string>& shown) {
  constexpr std::string_view kFigure = " 0 obj\n<< /Type /StructElem\n   /S /Figure";
  const std::size_t trailer = pdf.rfind("trailer");
  if (trailer == std::string::npos) return pdf;
  const long root = number_after(pdf, "/Root ", trailer), size = number_after(pdf, "/Size ", trailer),
             info = number_after(pdf, "/Info ", trailer), table = number_after(pdf, "startxref", trailer);
  const std::string name = "\n" + std::to_string(root) + " 0 obj\n<<";
  const std::size_t catalog = pdf.rfind(name, trailer);
  if (root < 0 || size < 0 || info < 0 || table < 0 || catalog == std::string::npos) return pdf;

  Update update(pdf);
  std::size_t at = 0;
  for (const std::string& one : shown) {
    at = pdf.find(kFigure, at);
    if (at == std::string::npos) break;
    const std::size_t line = pdf.rfind('\n', at) + 1;
    const std::size_t body = pdf.find("<<", at) + 2;
    at = body;
    if (!one.empty())
      update.renew(std::strtol(pdf.c_str() + line, nullptr, 10), body, "/Alt " + text_string(one));
  }
  update.renew(root, catalog + name.size(),
               "/Lang (" + std::string(language) +
                   ") /MarkInfo << /Marked true >> /ViewerPreferences << /DisplayDocTitle true >>");
  update.finish("trailer\n<< /Size " + std::to_string(size) + " /Root " + std::to_string(root) +
                " 0 R /Info " + std::to_string(info) + " 0 R /Prev " + std::to_string(table) + " >>\n");
  return pdf;
}

}  // namespace strikewright
