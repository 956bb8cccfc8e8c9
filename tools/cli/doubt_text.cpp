// SPDX-License-Identifier: MIT
#include "tools/cli/doubt_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "tools/cli/summary.hpp"

namespace hatring::tools {
namespace {

constexpr std::size_t kRows = 8, kRoom = 23;  // verdicts; columns for what they hang on
constexpr double kWorthNaming = 0.05;         // least total index

std::string hangs_on(const answer::Doubt& d, const answer::FullBandAnswer& full) {
  std::string out;
  for (const answer::InputWeight& w : d.weights) {
    const std::string next =
        fmt::format("{}{} {:.0f} %", out.empty() ? "" : ", ", full.inputs[w.input].key, 100 * std::min(1.0, w.total));
    if (w.total < kWorthNaming || out.size() + next.size() > kRoom) break;
    out += next;
  }
  return out;
}

}  // namespace

std::string part_of(const answer::Verdict& v) {
  return fmt::format("{} {}{}{}", v.axle, v.part, v.aspect.empty() ? "" : ", ", v.aspect);
}

std::string doubt_text(const answer::Answers& a, const DisplayUnits& units) {
  if (!a.full_band) return "";
  const answer::FullBandAnswer& full = *a.full_band;
  std::string out =
      fmt::format("{:<30}{:>6}{:>7}{:>6}{:>6}  {}\n", "    full band", "low", "likely", "high", "kept", "hangs on");
  std::size_t rows = 0;
  for (const answer::Verdict& v : a.verdicts) {
    if (!v.doubt || v.doubt->weights.empty()) continue;
    if (rows++ == kRows) break;
    const answer::Doubt& d = *v.doubt;
    out += fmt::format("{} {:<26.26}{:>6}{:>7}{:>6}{:>4.0f} %  {}\n", mark(v), part_of(v), units.cell(d.low, v.unit),
                       units.cell(d.likely, v.unit), units.cell(d.high, v.unit), 100 * d.kept, hangs_on(d, full));
  }
  out += wrapped(fmt::format("{} runs. {}", full.runs, full.sentence), kTextWidth, 0) + "\n";
  for (const std::size_t i : full.order) {
    const answer::InputShown& input = full.inputs[i];
    out += fmt::format("  {:<12}{:>4.0f} %  {}\n", input.key, 100 * std::min(1.0, input.weight), input.name);
  }
  return out;
}

}  // namespace hatring::tools
