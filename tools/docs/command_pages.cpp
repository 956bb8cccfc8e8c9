// SPDX-License-Identifier: MIT
// hatring_command_pages man|bash|zsh   prints the man page or a completion of the program.
#include <cstdio>
#include <exception>
#include <string_view>

#include "tools/docs/command_tree.hpp"

int main(int argc, char** argv) try {
  using namespace hatring::tools;
  const std::string_view page = argc == 2 ? argv[1] : "";
  const ProgramEntry program = program_entry();
  if (page == "man")
    std::fputs(man_page(program).c_str(), stdout);
  else if (page == "bash")
    std::fputs(bash_completion(program).c_str(), stdout);
  else if (page == "zsh")
    std::fputs(zsh_completion(program).c_str(), stdout);
  else
    return std::fputs("usage: hatring_command_pages man|bash|zsh\n", stderr), 2;
} catch (const std::exception& e) {
  std::fprintf(stderr, "hatring_command_pages: %s\n", e.what());
  return 1;
}
