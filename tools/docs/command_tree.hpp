// SPDX-License-Identifier: MIT
//! \file
//! The commands and options of the program as its own parser knows them, for the man page and the completions.
#pragma once

#include <string>
#include <vector>

#include "tools/cli/commands.hpp"

namespace hatring::tools {

struct OptionEntry {
  std::vector<std::string> names;  //!< "--out", "-h"; empty for a positional one
  std::string value;               //!< "DIR"; empty for a flag
  std::vector<std::string> words;  //!< the values it takes, where they are a few
  std::string doc;
  bool repeatable = false;
};

struct CommandEntry {
  std::string name, doc;
  std::vector<OptionEntry> positional, options;
};

struct ProgramEntry {
  std::string doc, footer;
  std::vector<OptionEntry> options;
  std::vector<CommandEntry> commands;
};

[[nodiscard]] ProgramEntry program_entry();

//! For `man`, in roff with the man macros.
[[nodiscard]] std::string man_page(const ProgramEntry& program);
[[nodiscard]] std::string bash_completion(const ProgramEntry& program);
[[nodiscard]] std::string zsh_completion(const ProgramEntry& program);

}  // namespace hatring::tools
