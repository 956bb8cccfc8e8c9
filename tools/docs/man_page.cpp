// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "tools/cli/version.hpp"
#include "tools/docs/command_tree.hpp"

namespace hatring::tools {
namespace {

//! Text as roff prints it: hyphens that can be copied, no line taken for a request.
std::string roff(const std::string& text) {
  std::string out;
  for (const char c : text) {
    const bool line_start = out.empty() || out.back() == '\n';
    if (line_start && (c == '.' || c == '\'')) out += "\\&";
    if (c == '\\')
      out += "\\e";
    else if (c == '-')
      out += "\\-";
    else
      out += c;
  }
  return out;
}

std::string options_text(const std::vector<OptionEntry>& options) {
  std::string out;
  for (const OptionEntry& option : options) {
    std::string names;
    for (const std::string& name : option.names)
      names += fmt::format("{}\\fB{}\\fR", names.empty() ? "" : ", ", roff(name));
    const std::string gap = names.empty() || option.value.empty() ? "" : " ";
    const std::string value = option.value.empty() ? "" : fmt::format("\\fI{}\\fR", roff(option.value));
    out += fmt::format(".TP\n{}{}{}\n{}", names, gap, value, roff(option.doc));
    if (!option.words.empty()) out += fmt::format(": {}", roff(fmt::format("{}", fmt::join(option.words, ", "))));
    out += ".\n";
  }
  return out;
}

std::string command_text(const CommandEntry& command) {
  std::string line = fmt::format("\\fBhatring {}\\fR", roff(command.name));
  for (const OptionEntry& p : command.positional) line += fmt::format(" \\fI{}\\fR", roff(p.value));
  return fmt::format(".SS {}\n{} [\\fIoptions\\fR]\n.PP\n{}.\n{}{}", roff(command.name), line, roff(command.doc),
                     options_text(command.positional), options_text(command.options));
}

}  // namespace

std::string man_page(const ProgramEntry& program) {
  // "hatring: what it is."
  const std::string what = program.doc.substr(program.doc.find(": ") + 2);
  std::string out = fmt::format(
      ".TH HATRING 1 \"\" \"hatring {}\"\n.SH NAME\nhatring \\- {}\n.SH SYNOPSIS\n\\fBhatring\\fR \\fIcommand\\fR "
      "[\\fIoptions\\fR]\n.SH COMMANDS\n",
      kVersion, roff(what));
  for (const CommandEntry& command : program.commands) out += command_text(command);
  out += ".SH OPTIONS\n" + options_text(program.options) + ".SH CAUTIONS AND EXIT CODES\n";
  // An empty line of the footer parts paragraphs.
  for (std::size_t at = 0; at < program.footer.size();) {
    const std::size_t end = std::min(program.footer.find('\n', at), program.footer.size());
    const std::string line = program.footer.substr(at, end - at);
    out += line.empty() ? ".PP\n" : roff(line) + "\n";
    at = end + 1;
  }
  return out;
}

}  // namespace hatring::tools
