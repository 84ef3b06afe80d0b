#pragma once
// The demo's book in a folder of its own that goes with the test.

#include <doctest/doctest.h>

#include <filesystem>

#include "book/book.hpp"
#include "verbs/demo_verb.hpp"

struct ScratchBook {
  std::filesystem::path folder;
  std::unique_ptr<strikewright::Book> book;
  ScratchBook() {
    std::string name = (std::filesystem::temp_directory_path() / "strikewright-verbs-XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    folder = name;
    auto opened = strikewright::open_book((folder / "demo.strike").string());
    REQUIRE(opened);
    book = std::move(*opened);
  }
  ~ScratchBook() {
    book.reset();
    std::error_code ignored;
    std::filesystem::remove_all(folder, ignored);
  }
  ScratchBook(const ScratchBook&) = delete;
  ScratchBook& operator=(const ScratchBook&) = delete;
};
