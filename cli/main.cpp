// The program: real streams, real exit code.

#include <unistd.h>

#include <exception>
#include <iostream>

#include "command.hpp"

int main(int count, char** words) {
  using strikewright::Doors;
  std::ios::sync_with_stdio(false);
  Doors doors{.in = std::cin, .out = std::cout, .err = std::cerr};
  doors.out_is_terminal = isatty(STDOUT_FILENO) == 1;
  doors.err_is_terminal = isatty(STDERR_FILENO) == 1;
  std::vector<std::string> arguments;
  for (int k = 1; k < count; ++k) arguments.emplace_back(words[k]);
  try {
    const int code = strikewright::run_strikewright(arguments, doors);
    std::cout.flush();
    return std::cout ? code : 1;
  } catch (const std::exception& wrong) {
    std::cerr << "strikewright: our own mistake: " << wrong.what() << '\n';
    return 70;
  }
}
