// SPDX-License-Identifier: MIT
// The comparison on the terminal: quantities down, set-ups across, in blocks that fit 80 columns.
#include <fmt/color.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "tools/cli/comparing.hpp"
#include "tools/cli/summary.hpp"

namespace hatring::tools {
namespace {

constexpr std::size_t kOthers = 3;  // set-ups beside the first in one block

using answer::Cell;
using answer::Change;

// A, B, ... Z, A2, B2, ...
std::string letter(std::size_t i) {
  const std::string one(1, static_cast<char>('A' + i % 26));
  return i < 26 ? one : fmt::format("{}{}", one, i / 26 + 1);
}

std::string short_level(double level) {
  constexpr const char* kWords[] = {"within", "near", "over"};
  return std::isnan(level) ? "?" : kWords[std::lround(level)];
}

std::string shown(const answer::ComparisonRow& row, std::size_t i, const DisplayUnits& units) {
  const Cell& cell = row.cells[i];
  const std::string_view unit = row.measure->unit;
  if (unit == "level") return short_level(cell.value);
  if (unit == "cost") return cell.text.empty() ? "-" : units.cell(cell.value, "count");
  return units.cell(cell.value, unit);
}

std::string with_difference(const answer::ComparisonRow& row, std::size_t i, const DisplayUnits& units) {
  const Cell& cell = row.cells[i];
  const std::string_view unit = row.measure->unit;
  std::string out = shown(row, i, units);
  if (cell.change != Change::none && unit != "level") {
    const std::string difference = units.cell_difference(cell.difference, unit == "cost" ? "count" : unit);
    if (!difference.empty()) out += fmt::format(" ({})", difference);
  }
  return out + (cell.best ? "*" : cell.change == Change::unclear && !row.same ? "=" : " ");
}

std::string heading(const answer::ComparisonRow& row, const Compared& all, const DisplayUnits& units) {
  std::string out = row.axle.empty() ? row.measure->title : fmt::format("{} {}", row.axle, row.measure->title);
  std::string unit = units.cell_unit(row.measure->unit);
  if (std::string_view(row.measure->unit) == "cost")
    for (const answer::Contender& x : all.contenders)
      if (x.c.cost) unit = x.c.cost->currency;
  return unit.empty() ? out : fmt::format("{}, {}", out, unit);
}

// Costs are shown when somebody has one.
bool worth_showing(const answer::ComparisonRow& row) {
  return !row.same &&
         std::any_of(row.cells.begin(), row.cells.end(), [](const Cell& c) { return !std::isnan(c.value); });
}

void block(std::string& out, const Compared& all, std::size_t from, const DisplayUnits& units) {
  const std::size_t to = std::min(from + kOthers, all.order.size());
  out += fmt::format("{:<27}{:>7}", "", letter(0));
  for (std::size_t k = from; k < to; ++k) out += fmt::format("{:>14} ", letter(all.order[k]));
  out += '\n';
  for (const answer::ComparisonRow& row : all.comparison.rows) {
    if (!worth_showing(row)) continue;
    std::string line =
        fmt::format("{:<27}{:>6}{}", heading(row, all, units), shown(row, 0, units), row.cells[0].best ? "*" : " ");
    for (std::size_t k = from; k < to; ++k) line += fmt::format("{:>15}", with_difference(row, all.order[k], units));
    out += line.substr(0, line.find_last_not_of(' ') + 1) + "\n";
  }
  out += '\n';
}

std::string alike(const Compared& all) {
  std::string out;
  for (const answer::ComparisonRow& row : all.comparison.rows) {
    if (!row.same || std::isnan(row.cells[0].value)) continue;
    out += fmt::format("{}{}{}", out.empty() ? "" : ", ", row.axle.empty() ? "" : row.axle + " ", row.measure->title);
  }
  return out;
}

// How often each difference from the first keeps its sign with every input varied.
std::string signs(const Compared& all, std::size_t i) {
  std::string surely, not_surely;
  for (const answer::ComparisonRow& row : all.comparison.rows) {
    const Cell& cell = row.cells[i];
    if (row.same || !cell.same_sign || std::string_view(row.measure->unit) == "level") continue;
    std::string& out = *cell.same_sign >= 1 ? surely : not_surely;
    out += fmt::format("{}{}{}{}", out.empty() ? "" : ", ", row.axle, row.axle.empty() ? "" : " ", row.measure->title);
    if (*cell.same_sign < 1) out += fmt::format(" {:.0f} %", std::min(99.0, 100 * *cell.same_sign));
  }
  if (surely.empty() && not_surely.empty()) return "";
  return fmt::format(
      "{} against A, every input varied alike in both. The same way in every run: {}. In part of them: {}.", letter(i),
      surely.empty() ? "nothing" : surely, not_surely.empty() ? "nothing" : not_surely);
}

}  // namespace

std::string comparison_text(const Compared& all, const DisplayUnits& units, bool colour) {
  std::string out = all.contenders.front().c.name + "\n\n";
  out += fmt::format(colour ? fmt::emphasis::bold : fmt::text_style(), "{}",
                     wrapped(all.comparison.sentence, kTextWidth, 0)) +
         "\n\n";
  for (const std::size_t i : all.order) {
    const answer::Contender& x = all.contenders[i];
    out += wrapped(fmt::format("{} {} {}{}: {}", mark(x.likely.level), letter(i), x.c.name, i == 0 ? " (as it is)" : "",
                               answer::to_string(x.likely.level)),
                   kTextWidth, 6) +
           "\n";
  }
  out += '\n';
  for (std::size_t from = 1; from < all.order.size(); from += kOthers) block(out, all, from, units);
  out += wrapped(fmt::format("In brackets: difference from A. * best of its row, or level with the best. = no clear "
                             "difference from A: it changes sign or is too small to matter with little, likely or much "
                             "cooling. Peaks, rates and growths are the highest of the session."),
                 kTextWidth, 0) +
         "\n";
  for (const std::size_t i : all.order)
    if (const std::string text = signs(all, i); !text.empty()) out += wrapped(text, kTextWidth, 2) + "\n";
  if (const std::string same = alike(all); !same.empty())
    out += wrapped(fmt::format("Alike in all: {}.", same), kTextWidth, 0) + "\n";
  for (const std::size_t i : all.order)
    for (const std::string& w : all.contenders[i].likely.warnings) {
      // What holds for the session as it is need not be said of each variant again.
      const auto& first = all.contenders.front().likely.warnings;
      if (i == 0 || std::find(first.begin(), first.end(), w) == first.end())
        out += wrapped(fmt::format("warning, {}: {}", letter(i), w), kTextWidth, 2) + "\n";
    }
  out += '\n';
  for (std::size_t i = 0; i < 2; ++i) out += wrapped(answer::cautions()[i], kTextWidth, 0) + "\n";
  return out;
}

}  // namespace hatring::tools
