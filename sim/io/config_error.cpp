// SPDX-License-Identifier: MIT
#include "sim/io/config_error.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

namespace hatring::io {
namespace {

std::string place(const std::string& file, int line, int column) {
  return line > 0 ? fmt::format("{}:{}:{}", file, line, column) : file;
}

bool continues_character(char c) {
  return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
}

//! The line and a caret below its column; a long line is cut to a window around the caret.
std::string excerpt_text(const std::string& excerpt, int line, int column) {
  if (excerpt.empty()) return {};
  if (line == 0) return fmt::format("      | {}\n", excerpt);
  constexpr std::size_t kWindow = 100, kBefore = 60;
  const std::size_t caret = std::min(excerpt.size(), static_cast<std::size_t>(std::max(column, 1)) - 1);
  std::size_t begin = excerpt.size() > kWindow && caret > kBefore ? caret - kBefore : 0;
  while (begin < excerpt.size() && continues_character(excerpt[begin])) ++begin;
  std::size_t end = std::min(excerpt.size(), begin + kWindow);
  while (end < excerpt.size() && continues_character(excerpt[end])) ++end;
  const std::string lead = begin > 0 ? "..." : "";
  std::string pad(lead.size(), ' ');
  for (std::size_t i = begin; i < caret; ++i) {
    if (excerpt[i] == '\t')
      pad += '\t';
    else if (!continues_character(excerpt[i]))
      pad += ' ';
  }
  return fmt::format("{:5} | {}{}{}\n      | {}^\n", line, lead, std::string_view(excerpt).substr(begin, end - begin),
                     end < excerpt.size() ? "..." : "", pad);
}

std::string all_text(const std::vector<Diagnostic>& diagnostics) {
  std::string out;
  for (const Diagnostic& d : diagnostics) out += to_text(d);
  std::replace_if(out.begin(), out.end(), is_control, '?');  // from the file's own text
  if (diagnostics.size() > 1) out += fmt::format("{} errors\n", diagnostics.size());
  return out;
}

}  // namespace

std::string to_text(const Diagnostic& d) {
  std::string out = fmt::format("{}: error: {}{}{}\n", place(d.file, d.line, d.column), d.key_path,
                                d.key_path.empty() ? "" : ": ", d.message);
  out += excerpt_text(d.excerpt, d.line, d.column);
  if (!d.hint.empty()) out += fmt::format("        {}\n", d.hint);
  for (const Note& n : d.notes)
    out += fmt::format("{}: note: {}\n", place(n.file, n.line, n.column), n.message) +
           excerpt_text(n.excerpt, n.line, n.column);
  return out;
}

ConfigError::ConfigError(std::vector<Diagnostic> diagnostics)
    : std::runtime_error(all_text(diagnostics)), diagnostics_(std::move(diagnostics)) {}

}  // namespace hatring::io
