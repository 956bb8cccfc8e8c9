// SPDX-License-Identifier: MIT
#include "tools/docs/command_tree.hpp"

#include <sstream>

namespace hatring::tools {
namespace {

OptionEntry entry_of(const CLI::Option& option) {
  OptionEntry out;
  for (const std::string& name : option.get_lnames()) out.names.push_back("--" + name);
  for (const std::string& name : option.get_snames()) out.names.push_back("-" + name);
  out.doc = option.get_description();
  // A check for a few words is shown by the parser as NAME:{word,word}.
  const std::string type = option.get_type_size() == 0 ? "" : option.get_type_name();
  const std::size_t colon = type.find(':');
  out.value = type.substr(0, colon);
  if (colon != std::string::npos && type.at(colon + 1) == '{') {
    std::istringstream words(type.substr(colon + 2, type.find('}') - colon - 2));
    for (std::string word; std::getline(words, word, ',');) out.words.push_back(word);
  }
  out.repeatable = option.get_items_expected_max() > 1;
  return out;
}

std::vector<OptionEntry> entries_of(const CLI::App& command, bool positional) {
  std::vector<OptionEntry> out;
  for (const CLI::Option* option : command.get_options())
    if (option->get_positional() == positional) out.push_back(entry_of(*option));
  return out;
}

}  // namespace

ProgramEntry program_entry() {
  CLI::App app;
  Action action;
  describe_program(app, action);
  ProgramEntry out{app.get_description(), app.get_footer(), entries_of(app, false), {}};
  for (const CLI::App* command : app.get_subcommands([](CLI::App*) { return true; }))
    out.commands.push_back(
        {command->get_name(), command->get_description(), entries_of(*command, true), entries_of(*command, false)});
  return out;
}

}  // namespace hatring::tools
