#include "sheet/pdf_facts.hpp"

#include <cstdio>
#include <cstdlib>

namespace strikewright {
namespace {

// The number behind `key` at or after `from`; -1 if there is none.
long number_after(const std::string& text, std::string_view key, std::size_t from) {
  const std::size_t at = text.find(key, from);
  return at == std::string::npos ? -1 : std::strtol(text.c_str() + at + key.size(), nullptr, 10);
}

}  // namespace

std::string with_language(std::string pdf, std::string_view language) {
  const std::size_t trailer = pdf.rfind("trailer");
  if (trailer == std::string::npos) return pdf;
  const long root = number_after(pdf, "/Root ", trailer), size = number_after(pdf, "/Size ", trailer),
             info = number_after(pdf, "/Info ", trailer), table = number_after(pdf, "startxref", trailer);
  const std::string name = std::to_string(root) + " 0 obj\n<<";
  const std::size_t catalog = pdf.rfind("\n" + name);
  if (root < 0 || size < 0 || info < 0 || table < 0 || catalog == std::string::npos) return pdf;
  const std::size_t inside = catalog + 1 + name.size(), end = pdf.find("\nendobj", inside);
  const std::string rest = pdf.substr(inside, end - inside);

  const std::size_t place = pdf.size();
  pdf += name + " /Lang (" + std::string(language) + ") /ViewerPreferences << /DisplayDocTitle true >>" +
         rest + "\nendobj\n";
  const std::size_t new_table = pdf.size();
  char entry[64];
  std::snprintf(entry, sizeof entry, "xref\n%ld 1\n%010zu 00000 n \n", root, place);
  pdf += entry;
  pdf += "trailer\n<< /Size " + std::to_string(size) + " /Root " + std::to_string(root) + " 0 R /Info " +
         std::to_string(info) + " 0 R /Prev " + std::to_string(table) + " >>\nstartxref\n" +
         std::to_string(new_table) + "\n%%EOF\n";
  return pdf;
}

}  // namespace strikewright
