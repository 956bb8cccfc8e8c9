// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "tools/docs/command_tree.hpp"

namespace hatring::tools {
namespace {

//! What stands in place of a value: "SESSION.yaml" is a file that ends like it, "DIR" a folder.
std::string ending_of(const std::string& value) {
  const std::size_t dot = value.find('.');
  return dot == std::string::npos || dot == 0 ? "" : value.substr(dot + 1, value.find('.', dot + 1) - dot - 1);
}

std::string words_of(const std::vector<OptionEntry>& options) {
  std::string out;
  for (const OptionEntry& option : options)
    for (const std::string& name : option.names) out += (out.empty() ? "" : " ") + name;
  return out;
}

//! The values of one option, as lines of the bash function.
std::string bash_values(const OptionEntry& option) {
  if (!option.words.empty()) return fmt::format("_hatring_words '{}'", fmt::join(option.words, " "));
  if (option.value == "DIR") return "_hatring_files -d";
  const std::string ending = ending_of(option.value);
  return ending.empty() ? "COMPREPLY=()" : "_hatring_files -f " + ending;
}

std::string bash_command(const CommandEntry& command) {
  std::string out = fmt::format("    {})\n      case $previous in\n", command.name);
  for (const OptionEntry& option : command.options)
    if (!option.value.empty())
      out += fmt::format("        {}) {} ;;\n", fmt::join(option.names, " | "), bash_values(option));
  const std::string file = command.positional.empty() ? "" : ending_of(command.positional.front().value);
  out += fmt::format(
      "        *)\n          if [[ $word == -* ]]; then\n            _hatring_words '{}'\n          else\n            "
      "_hatring_files -f {}\n          fi\n          ;;\n      esac\n      ;;\n",
      words_of(command.options), file);
  return out;
}

//! In single quotes and within the brackets of _arguments.
std::string zsh(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '\'')
      out += "'\\'";
    else if (c == '[' || c == ']' || c == ':')
      out += '\\';
    out += c;
  }
  return out;
}

std::string zsh_value(const OptionEntry& option) {
  if (option.value.empty()) return "";
  std::string action = " ";
  const std::string ending = ending_of(option.value);
  if (!option.words.empty())
    action = fmt::format("({})", fmt::join(option.words, " "));
  else if (option.value == "DIR")
    action = "_files -/";
  else if (!ending.empty())
    action = fmt::format("_files -g \"*.{}(-.)\"", ending);
  return fmt::format(":{}:{}", zsh(option.value), action);
}

std::string zsh_options(const std::vector<OptionEntry>& options) {
  std::string out;
  for (const OptionEntry& option : options)
    for (const std::string& name : option.names)
      out += fmt::format(" \\\n        '{}{}[{}]{}'", option.repeatable ? "*" : "", name, zsh(option.doc),
                         zsh_value(option));
  return out;
}

}  // namespace

std::string bash_completion(const ProgramEntry& program) {
  std::string names;
  for (const CommandEntry& command : program.commands) names += (names.empty() ? "" : " ") + command.name;
  std::string out = R"(# shellcheck shell=bash
# bash completion for hatring, made from the program's own options.
_hatring_words() {
  mapfile -t COMPREPLY < <(compgen -W "$1" -- "$word")
}
# _hatring_files -d: folders; _hatring_files -f ENDING: folders and files that end so.
_hatring_files() {
  mapfile -t COMPREPLY < <(compgen -d -- "$word"; [[ $1 == -d ]] || compgen -f -X "!*.$2" -- "$word")
}
_hatring() {
  local word=${COMP_WORDS[COMP_CWORD]} previous=${COMP_WORDS[COMP_CWORD - 1]}
  # --option=value comes as three words.
  [[ $word == = ]] && word=
  [[ $previous == = ]] && previous=${COMP_WORDS[COMP_CWORD - 2]}
  case ${COMP_WORDS[1]} in
)";
  for (const CommandEntry& command : program.commands) out += bash_command(command);
  out += fmt::format("    *) _hatring_words '{} {}' ;;\n  esac\n}}\ncomplete -o filenames -F _hatring hatring\n", names,
                     words_of(program.options));
  return out;
}

std::string zsh_completion(const ProgramEntry& program) {
  std::string out =
      "#compdef hatring\n# zsh completion for hatring, made from the program's own options.\n_hatring() {\n"
      "  local context state line\n  local -a commands=(";
  for (const CommandEntry& command : program.commands)
    out += fmt::format("\n    '{}:{}'", command.name, zsh(command.doc));
  out += fmt::format("\n  )\n  _arguments -C{} \\\n        '1:command:->command' '*::argument:->rest'\n",
                     zsh_options(program.options));
  out += "  if [[ $state == command ]]; then\n    _describe command commands\n    return\n  fi\n  case $words[1] in\n";
  for (const CommandEntry& command : program.commands) {
    std::string files;
    for (const OptionEntry& p : command.positional)
      files += fmt::format(" \\\n        '{}{}'", p.repeatable ? "*" : "", zsh_value(p));
    out += fmt::format("    {})\n      _arguments{}{}\n      ;;\n", command.name, zsh_options(command.options), files);
  }
  return out + "  esac\n}\n_hatring \"$@\"\n";
}

}  // namespace hatring::tools
