// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "sim/io/tree.hpp"

namespace hatring::io {
namespace {

std::string line_of(const Mark& mark) {
  if (mark.source == nullptr) return {};
  const std::string& text = mark.source->text;
  if (!mark.source->has_lines) return text.substr(0, text.find('\n'));
  std::size_t begin = 0;
  for (int line = 1; line < mark.line; ++line) {
    begin = text.find('\n', begin);
    if (begin == std::string::npos) return {};
    ++begin;
  }
  constexpr std::size_t kLongest = 100'000;  // nobody reads such a line, and many errors may stand in it
  if (std::min(text.find('\n', begin), text.size()) - begin > kLongest) return {};
  std::string out = mark.line > 0 ? text.substr(begin, text.find('\n', begin) - begin) : std::string();
  if (!out.empty() && out.back() == '\r') out.pop_back();
  return out;
}

template <class Place>
void fill_place(Place& place, const Mark& mark) {
  if (mark.source == nullptr) return;
  place.file = mark.source->name;
  place.line = mark.source->has_lines ? mark.line : 0;
  place.column = mark.source->has_lines ? mark.column : 0;
  place.excerpt = line_of(mark);
}

Diagnostic diagnostic(const Mark& mark, std::string key_path, std::string message, std::string hint) {
  Diagnostic d;
  fill_place(d, mark);
  d.key_path = std::move(key_path);
  d.message = std::move(message);
  d.hint = std::move(hint);
  return d;
}

}  // namespace

void Report::error(const Mark& mark, std::string key_path, std::string message, std::string hint) {
  add(diagnostic(mark, std::move(key_path), std::move(message), std::move(hint)));
}

void Report::add(Diagnostic d) {
  diagnostics_.push_back(std::move(d));
  if (diagnostics_.size() < kMostErrors) return;
  diagnostics_.back().hint = fmt::format("reading ends here, after {} errors", kMostErrors);
  throw_if_any();
}

void Report::conflict(const Mark& mark, const Mark& other, std::string key_path, std::string message,
                      std::string note) {
  Diagnostic d = diagnostic(mark, std::move(key_path), std::move(message), {});
  Note n;
  fill_place(n, other);
  n.message = std::move(note);
  d.notes.push_back(std::move(n));
  add(std::move(d));
}

void Report::fatal(const Mark& mark, std::string key_path, std::string message, std::string hint) {
  error(mark, std::move(key_path), std::move(message), std::move(hint));
  throw_if_any();
  throw std::logic_error("unreachable: an error was just reported");
}

bool Report::touches(std::string_view key_path) const {
  const auto within = [](std::string_view path, std::string_view outer) {
    return path.substr(0, outer.size()) == outer && (path.size() == outer.size() || path[outer.size()] == '.');
  };
  return std::any_of(diagnostics_.begin(), diagnostics_.end(), [&](const Diagnostic& d) {
    return !d.key_path.empty() && (within(d.key_path, key_path) || within(key_path, d.key_path));
  });
}

void Report::throw_if_any() {
  if (diagnostics_.empty()) return;
  std::vector<std::string> files;  // in order of first appearance
  const auto rank = [&](const Diagnostic& d) { return std::find(files.begin(), files.end(), d.file) - files.begin(); };
  for (const Diagnostic& d : diagnostics_)
    if (rank(d) == static_cast<std::ptrdiff_t>(files.size())) files.push_back(d.file);
  std::stable_sort(diagnostics_.begin(), diagnostics_.end(), [&](const Diagnostic& a, const Diagnostic& b) {
    return std::pair(rank(a), a.line) < std::pair(rank(b), b.line);
  });
  // A part that two wheels share by alias or include is read twice; its mistakes are told once.
  const auto same = [](const Diagnostic& a, const Diagnostic& b) {
    return a.line > 0 && a.file == b.file && a.line == b.line && a.column == b.column && a.message == b.message;
  };
  std::vector<Diagnostic> once;
  for (Diagnostic& d : diagnostics_)
    if (std::none_of(once.begin(), once.end(), [&](const Diagnostic& seen) { return same(seen, d); }))
      once.push_back(std::move(d));
  throw ConfigError(std::move(once));
}

}  // namespace hatring::io
