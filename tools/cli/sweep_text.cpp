// SPDX-License-Identifier: MIT
// A sweep on the terminal: how the runs end, how far each measure goes, which limits fail how often, the best runs.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/answer/answers.hpp"
#include "tools/cli/summary.hpp"
#include "tools/cli/sweeping.hpp"

namespace hatring::tools {
namespace {

constexpr double kAlike = 0.1;  // of the least difference worth a decision

std::string per_cent(std::size_t part, std::size_t all) {
  return fmt::format("{:.0f} %",
                     100.0 * static_cast<double>(part) / static_cast<double>(std::max<std::size_t>(all, 1)));
}

std::string named(const answer::Measure& m, const std::string& axle, const DisplayUnits& units) {
  const std::string_view si = m.unit;
  const std::string unit = si == "cost" ? "" : units.cell_unit(si);
  return fmt::format("{}{}{}{}", axle, axle.empty() ? "" : " ", m.title, unit.empty() ? "" : ", " + unit);
}

std::string cell(double v, const answer::Measure& m, const DisplayUnits& units) {
  const std::string_view unit = m.unit;
  return units.cell(v, unit == "cost" ? "count" : unit);
}

std::string counts(const SweepSummary& s) {
  const std::size_t ended = s.done + s.failed;
  std::string out =
      s.rows == ended ? fmt::format("{} runs\n", s.rows) : fmt::format("{} of {} runs are done\n", ended, s.rows);
  for (const auto& [words, runs] :
       {std::pair{"within limits", s.within}, {"near a limit", s.near}, {"over a limit", s.over}})
    out += fmt::format("  {:<18}{:>8}{:>8}\n", words, runs, per_cent(runs, s.done));
  if (s.failed > 0) out += fmt::format("  {:<18}{:>8}\n", "could not be done", s.failed);
  return out;
}

void add_measures(std::string& out, const SweepSummary& s, const DisplayUnits& units) {
  std::string alike;
  out += fmt::format("{:<27}{:>12}{:>12}{:>12}{:>12}\n", "", "lowest", "median", "95 %", "highest");
  for (const MeasureSpread& m : s.measures) {
    if (m.runs == 0 || std::string_view(m.measure->unit) == "level") continue;
    if (m.highest - m.lowest <= kAlike * m.measure->least && m.runs == s.done) {
      alike += fmt::format("{}{} {}", alike.empty() ? "" : ", ", named(*m.measure, m.axle, units),
                           cell(m.median, *m.measure, units));
      continue;
    }
    out += fmt::format("{:<27}", named(*m.measure, m.axle, units));
    for (const double v : {m.lowest, m.median, m.most, m.highest})
      out += fmt::format("{:>12}", cell(v, *m.measure, units));
    out += '\n';
  }
  out += wrapped("95 %: so many runs are at that value or on its better side.", kTextWidth, 0) + "\n";
  if (!alike.empty()) out += wrapped(fmt::format("Alike in all: {}.", alike), kTextWidth, 0) + "\n";
}

void add_limits(std::string& out, const SweepSummary& s) {
  std::vector<const LimitShare*> passed;
  for (const LimitShare& limit : s.limits)
    if (limit.over + limit.near > 0) passed.push_back(&limit);
  if (passed.empty()) {
    out += "\nNo run passes or comes near any limit.\n";
    return;
  }
  std::stable_sort(passed.begin(), passed.end(),
                   [](const LimitShare* a, const LimitShare* b) { return a->over > b->over; });
  out += fmt::format("\n{:<27}{:>12}{:>12}{:>12}\n", "limit", "over", "near", "judged in");
  for (const LimitShare* limit : passed) {
    std::string key = limit->key;
    std::replace(key.begin(), key.end(), '_', ' ');
    out += fmt::format("{:<27}{:>12}{:>12}{:>12}\n", fmt::format("{} {}", limit->axle, key),
                       per_cent(limit->over, limit->judged), per_cent(limit->near, limit->judged), limit->judged);
  }
  out += "The other limits are kept in every run.\n";
}

std::string shown(const SweptParameter& p, const RankedRun::Setting& setting, const DisplayUnits& units) {
  if (!setting.text.empty()) return setting.text;
  if (p.unit == "K") return units.temperature(setting.number);
  if (p.unit == "kg") return units.mass(setting.number);
  return fmt::format("{:.4g}{}{}", setting.number, p.unit == "1" ? "" : " ", p.unit == "1" ? "" : p.unit);
}

void add_best(std::string& out, const SweepSummary& s, const DisplayUnits& units) {
  if (s.best.empty()) return;
  const bool all_over = s.over > 0 && s.within + s.near == 0;
  out += fmt::format("\n{} by {}:\n", all_over ? "No run keeps all its limits. Least bad" : "Best",
                     named(*s.sorted_by, s.sorted_axle, units));
  for (const RankedRun& run : s.best) {
    std::string line = fmt::format("run {}: {}", run.run, cell(run.value, *s.sorted_by, units));
    if (!std::isnan(run.level))
      line += fmt::format(", {}", answer::to_string(static_cast<answer::Level>(std::lround(run.level))));
    for (std::size_t i = 0; i < s.parameters.size(); ++i)
      line += fmt::format("; {} {}", s.parameters[i].name, shown(s.parameters[i], run.settings[i], units));
    out += wrapped(line, kTextWidth, 4) + "\n";
  }
}

void add_failures(std::string& out, const SweepSummary& s) {
  constexpr std::size_t kShown = 5;
  std::size_t shown = 0;
  for (const auto& [reason, count] : s.reasons) {
    if (++shown > kShown) break;
    out += wrapped(fmt::format("could not be done, {} {}: {}", count, count == 1 ? "run" : "runs", reason), kTextWidth,
                   2) +
           "\n";
  }
  if (s.reasons.size() > kShown)
    out += fmt::format("and {} other reasons, see `reason` in the file\n", s.reasons.size() - kShown);
}

}  // namespace

std::string sweep_text(const SweepSummary& s, const DisplayUnits& units) {
  std::string out = s.meta.session;
  if (s.meta.shards > 1) out += fmt::format(", shard {} of {}", s.meta.shard, s.meta.shards);
  out += fmt::format("\n\n{}\n", counts(s));
  if (s.done > 0) {
    add_measures(out, s, units);
    add_limits(out, s);
    add_best(out, s, units);
  }
  if (!s.reasons.empty()) out += '\n';
  add_failures(out, s);
  out += "\nEach run is made with the likely cooling.\n";
  for (std::size_t i = 0; i < 2; ++i) out += wrapped(answer::cautions()[i], kTextWidth, 0) + "\n";
  return out;
}

}  // namespace hatring::tools
