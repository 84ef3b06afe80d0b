#pragma once
// Other people's eyes: what poppler finds in a PDF, what the pixels of a picture are.

#include <cairo.h>
#include <unistd.h>

#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

namespace strikewright::looked_at {

/// A file with this content, gone at the end of the block.
class Held {
 public:
  explicit Held(const std::string& content, const std::string& ending = ".pdf") {
    static int count = 0;
    path_ = std::filesystem::temp_directory_path() /
            ("strikewright-sheet-" + std::to_string(::getpid()) + "-" + std::to_string(count++) + ending);
    std::ofstream(path_, std::ios::binary) << content;
  }
  ~Held() { std::filesystem::remove(path_); }
  Held(const Held&) = delete;
  Held& operator=(const Held&) = delete;
  [[nodiscard]] std::string path() const { return path_.string(); }

 private:
  std::filesystem::path path_;
};

/// What a poppler command says about the PDF, warnings included: "pdftotext -bbox" is called with file and
/// "-".
inline std::string poppler(const std::string& command, const std::string& pdf,
                           const std::string& after = "") {
  const Held file(pdf);
  FILE* pipe = ::popen((command + " '" + file.path() + "' " + after + " 2>&1").c_str(), "r");
  if (pipe == nullptr) throw std::runtime_error("no " + command);
  std::string said;
  char some[4096];
  for (std::size_t got = 0; (got = std::fread(some, 1, sizeof some, pipe)) > 0;) said.append(some, got);
  if (::pclose(pipe) != 0) throw std::runtime_error(command + ": " + said);
  return said;
}

/// The text with every run of blanks, line ends and page ends as one blank; blanks that do not break, too.
inline std::string in_one_line(const std::string& text) {
  std::string line;
  for (std::size_t k = 0; k < text.size(); ++k) {
    const bool firm = text.compare(k, 2, "\u00a0") == 0;
    const bool blank = firm || text[k] == ' ' || text[k] == '\n' || text[k] == '\f' || text[k] == '\t';
    if (firm) ++k;
    if (!blank)
      line += text[k];
    else if (!line.empty() && line.back() != ' ')
      line += ' ';
  }
  return line;
}

/// The PDF's text in the order in which it was set.
inline std::string text_of(const std::string& pdf) {
  return in_one_line(poppler("pdftotext -raw", pdf, "-"));
}

struct Raster {
  int width = 0, height = 0;
  std::vector<std::uint32_t> pixels;  // 0xRRGGBB
  [[nodiscard]] std::uint32_t at(int x, int y) const { return pixels[std::size_t(y * width + x)]; }
};

inline Raster raster_of(cairo_surface_t* surface) {
  cairo_surface_flush(surface);
  Raster raster{cairo_image_surface_get_width(surface), cairo_image_surface_get_height(surface), {}};
  const unsigned char* data = cairo_image_surface_get_data(surface);
  const int stride = cairo_image_surface_get_stride(surface);
  for (int y = 0; y < raster.height; ++y)
    for (int x = 0; x < raster.width; ++x) {
      const unsigned char* pixel = data + y * stride + 4 * x;
      raster.pixels.push_back(std::uint32_t(pixel[2] << 16 | pixel[1] << 8 | pixel[0]));
    }
  return raster;
}

inline Raster raster_of_png(const std::string& png) {
  struct Rest {
    const std::string& png;
    std::size_t at = 0;
  } rest{png};
  const auto read = [](void* closure, unsigned char* to, unsigned length) {
    auto* from = static_cast<Rest*>(closure);
    if (from->at + length > from->png.size()) return CAIRO_STATUS_READ_ERROR;
    from->png.copy(reinterpret_cast<char*>(to), length, from->at);
    from->at += length;
    return CAIRO_STATUS_SUCCESS;
  };
  cairo_surface_t* surface = cairo_image_surface_create_from_png_stream(read, &rest);
  if (cairo_surface_status(surface) != CAIRO_STATUS_SUCCESS) throw std::runtime_error("no PNG");
  Raster raster = raster_of(surface);
  cairo_surface_destroy(surface);
  return raster;
}

/// How many pixels are of a colour, give or take `near` in each of its parts?
inline int count_of(const Raster& raster, std::uint32_t colour, int near = 10) {
  int count = 0;
  for (const std::uint32_t pixel : raster.pixels) {
    bool same = true;
    for (const int shift : {0, 8, 16})
      same = same && std::abs(int(pixel >> shift & 0xffu) - int(colour >> shift & 0xffu)) <= near;
    count += same ? 1 : 0;
  }
  return count;
}

}  // namespace strikewright::looked_at
