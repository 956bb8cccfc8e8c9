// SPDX-License-Identifier: MIT
#include "tools/cli/summary.hpp"

#include <fmt/color.h>
#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <sstream>

#include "sim/answer/places.hpp"
#include "tools/cli/details_text.hpp"
#include "tools/cli/doubt_text.hpp"
#include "tools/cli/lap_text.hpp"
#include "tools/cli/pedal_text.hpp"

namespace hatring::tools {

using answer::Level;

// Word and mark, so that nothing hangs on colour.
const char* mark(Level level) {
  switch (level) {
    case Level::exceeded:
      return "[X]";
    case Level::near:
      return "[!]";
    case Level::within:
      return "[ ]";
    case Level::unknown:
      break;
  }
  return "[?]";
}

// A limit passed in part of the band only has the smaller mark.
const char* mark(const answer::Verdict& v) {
  return v.level == Level::exceeded && v.crosses ? "[x]" : mark(v.level);
}

namespace {

// Rows that fit one screen with the laps and the caution; those over their limit are shown however many they are.
constexpr std::size_t kRows = 14, kNearAtLeast = 4, kWithinAtMost = 4;

fmt::text_style style_of(Level level, bool colour) {
  if (!colour) return {};
  if (level == Level::exceeded) return fmt::emphasis::bold | fmt::fg(fmt::terminal_color::red);
  if (level == Level::near) return fmt::emphasis::bold | fmt::fg(fmt::terminal_color::yellow);
  return fmt::emphasis::bold;
}

std::string band_of(const answer::Verdict& v, const DisplayUnits& units) {
  if (!v.band) return "";
  const std::string low = units.cell(v.band->low, v.unit), high = units.cell(v.band->high, v.unit);
  return low == high ? "" : fmt::format("{}..{}", low, high);
}

// How many rows of each kind are shown. The verdicts are in order of urgency, so that these are the first of each.
struct Shown {
  std::size_t near, within;
};
Shown rows_to_show(const answer::Answers& a, bool all) {
  if (all) return {a.verdicts.size(), a.verdicts.size()};
  const auto count = [&a](Level level) {
    return static_cast<std::size_t>(std::count_if(a.verdicts.begin(), a.verdicts.end(),
                                                  [level](const answer::Verdict& v) { return v.level == level; }));
  };
  const std::size_t over = count(Level::exceeded), left = kRows - std::min(kRows, over);
  const std::size_t near = std::min(count(Level::near), std::max(left, kNearAtLeast));
  return {near, std::min(left - std::min(left, near), kWithinAtMost)};
}

// \returns how many rows were left out, in words; empty for none
std::string verdict_rows(std::string& out, const answer::Answers& a, const DisplayUnits& units, bool colour, bool all) {
  out += fmt::format("{:<30}{:>8}{:>12}{:>6}{:>7}  {}\n", "    part", "reached", "band", "limit", "left", "where");
  const Shown shown = rows_to_show(a, all);
  std::size_t near = 0, within = 0;
  std::set<std::string> marks;
  for (const answer::Verdict& v : a.verdicts) {
    if (v.level == Level::within && ++within > shown.within) continue;
    if (v.level == Level::near && ++near > shown.near) continue;
    const char* with_mark = mark(v);
    if (v.band) marks.insert(with_mark);
    out += fmt::format(style_of(v.level, colour), "{}", with_mark);
    // A part over its limit is placed where it first went over; any other where it came closest.
    out += fmt::format(" {:<26}{:>8} {:>11}{:>6}{:>7}  {}\n", part_of(v), units.value(v.value, v.unit),
                       band_of(v, units), units.cell(v.limit, v.unit), units.cell_difference(v.margin, v.unit),
                       place_text(v.since.value_or(v.place), units));
  }
  std::string legend;
  const bool full = a.full_band.has_value();
  for (const auto& [which, words] :
       {std::pair{"[X]", full ? "over in nearly all runs" : "over however the air cools"},
        std::pair{"[x]", full ? "over in the likely run, not in nearly all" : "over unless it cools more than assumed"},
        std::pair{"[!]", full ? "close, or over in some runs" : "close, or over if it cools less"},
        std::pair{"[ ]", full ? "kept in nearly all runs" : "within over the whole band"}})
    if (marks.contains(which)) legend += fmt::format("{} {}; ", which, words);
  if (!legend.empty())
    out += wrapped(fmt::format("{}band: {}; where: first over the limit, or closest to it.", legend,
                               full ? "5 % to 95 % with every input varied"
                                    : "with little and with much cooling; other doubts come on top"),
                   kTextWidth, 4) +
           "\n";
  std::string left_out;
  if (near > shown.near) left_out += fmt::format("{} more rows near their limit, ", near - shown.near);
  if (within > shown.within) left_out += fmt::format("{} within limits, ", within - shown.within);
  return left_out;
}

}  // namespace

std::string place_text(const answer::Place& p, const DisplayUnits& units) {
  if (p.lap > 0) return fmt::format("lap {}, {}", p.lap, units.lap_distance(p.lap_distance));
  if (p.span == answer::kWholeSession) return p.span;
  return fmt::format("{}, {}", p.span, clock_time(p.time));
}

std::string wrapped(const std::string& text, std::size_t width, std::size_t indent) {
  std::istringstream words(text);
  std::string out, word, line;
  while (words >> word) {
    if (!line.empty() && line.find_first_not_of(' ') != std::string::npos && line.size() + 1 + word.size() > width) {
      out += line + "\n";
      line = std::string(indent, ' ') + word;
      continue;
    }
    line += (line.empty() ? "" : " ") + word;
  }
  return out + line;
}

std::string summary(const session::Case& c, const answer::Run& run, const DisplayUnits& units, bool colour, bool all) {
  const answer::Answers& a = run.answers;
  std::string out = c.name + "\n\n";
  out += fmt::format(style_of(a.level, colour), "{}", wrapped(a.sentence, kTextWidth, 0)) + "\n\n";
  const std::string left_out = verdict_rows(out, a, units, colour, all);
  if (a.full_band) out += '\n' + doubt_text(a, units);
  out += '\n' + lap_strips(a, units) + '\n';
  if (const std::string bedding = bedding_text(a, units); !bedding.empty()) out += bedding + '\n';
  if (all) out += lap_table(a, units) + '\n' + pedal_text(a, units) + '\n' + details_text(a, units);
  std::string cautions = wet_patch_text(a, units);
  for (const std::string& w : a.warnings) cautions += wrapped("warning: " + w, kTextWidth, 2) + "\n";
  out += cautions;
  if (all || !cautions.empty()) out += '\n';
  for (std::size_t i = 0; i < 2; ++i) out += wrapped(answer::cautions()[i], kTextWidth, 0) + "\n";
  if (!all)
    out += '\n' +
           wrapped(fmt::format("Left out: {}pedal and pads, joint, bolts, life, fluid, heat balance; in the "
                               "report, or here with --all.",
                               left_out),
                   kTextWidth, 0) +
           '\n';
  return out;
}

}  // namespace hatring::tools
