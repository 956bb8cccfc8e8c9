// SPDX-License-Identifier: MIT
#include <fmt/color.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/answer/places.hpp"
#include "tools/cli/cooled.hpp"
#include "tools/cli/summary.hpp"

namespace hatring::tools {
namespace {

std::string minutes(double seconds) {
  return fmt::format("{:.1f}", seconds / 60);
}

std::string against(const answer::Verdict& v, const DisplayUnits& units) {
  return fmt::format("{} of {}", units.value(v.value, v.unit), units.value(v.limit, v.unit));
}

void plan_rows(std::string& out, const answer::Cooldown& x, const DisplayUnits& units) {
  out += fmt::format("    {:<36}{:>5}{:>6}  {}\n", "plan", "min", "left", "closest to its limit");
  for (const std::size_t i : rows_to_show(x)) {
    const answer::Outcome& o = x.plans[i];
    const answer::Verdict* v = o.tightest();
    out += fmt::format("{} {:<36.36}{:>5}{:>5.0f}%  {}\n",
                       i != x.chosen ? o.holds ? "[ ]" : "[X]"
                       : x.holds     ? "[>]"
                                     : "[~]",
                       name_of(o.plan), minutes(o.cost), 100 * o.left, v == nullptr ? "-" : limit_name(*v));
    if (v != nullptr) out += fmt::format("{:>53}{}\n", "", against(*v, units));
  }
  out +=
      wrapped(fmt::format("{}[X] over a limit. min: from the end of the last hot lap until the car stands, a fan "
                          "counting as what fetching it takes. left: of the limit that is closest, as a share of all "
                          "there was.",
                          x.holds ? "[>] chosen, " : "None holds every limit; [~] is the least bad, and "),
              kTextWidth, 0) +
      "\n";
}

void soak_rows(std::string& out, const answer::Cooldown& x, const DisplayUnits& units) {
  out += fmt::format("{:<34}{:>11}{:>11}{:>11}{:>11}\n", "", "front", "front", "rear", "rear");
  const char* best = x.holds ? "chosen" : "least bad";
  out += fmt::format("{:<34}{:>11}{:>11}{:>11}{:>11}\n", "", best, "park now", best, "park now");
  const answer::Outcome &a = x.best(), &b = x.park_now();
  const auto row = [&](const char* name, auto&& text) {
    out +=
        fmt::format("{:<34}{:>11}{:>11}{:>11}{:>11}\n", name, text(a.front), text(b.front), text(a.rear), text(b.rear));
  };
  using answer::Soak;
  const auto kelvin = [&](double t) { return std::isnan(t) ? std::string("-") : units.temperature(t); };
  const auto growth = [&](const std::optional<double>& g) { return g ? units.clearance(*g) : std::string("-"); };
  row("ring when the car comes to rest", [&](const Soak& s) { return kelvin(s.at_rest); });
  row("fluid, highest", [&](const Soak& s) { return kelvin(s.fluid); });
  row("  that long after coming to rest",
      [&](const Soak& s) { return s.fluid_after > 0 ? clock_time(s.fluid_after) : std::string("before"); });
  row("pistons, highest", [&](const Soak& s) { return kelvin(s.piston); });
  row("caliper, highest", [&](const Soak& s) { return kelvin(s.caliper); });
  row("hat flange, highest", [&](const Soak& s) { return kelvin(s.hat); });
  row("ring face, fastest cooling", [&](const Soak& s) { return units.value(s.cooling, "K s-1"); });
  row("joint, ring over hat at most", [&](const Soak& s) { return growth(s.largest_growth); });
  row("joint, ring over hat at least", [&](const Soak& s) { return growth(s.smallest_growth); });
}

void harm_lines(std::string& out, const answer::Cooldown& x, const DisplayUnits& units) {
  if (x.harms.empty()) {
    out += wrapped("No plan does harm by cooling harder: ring and joint keep half, or all that parking at once leaves.",
                   kTextWidth, 2) +
           "\n";
    return;
  }
  for (const answer::Harm& h : x.harms)
    out += wrapped(fmt::format("Cooling harder costs: {}, {} when parking at once, {} with {} (limit {}).{}",
                               limit_name(h.gentle), units.value(h.gentle.value, h.gentle.unit),
                               units.value(h.harsh.value, h.harsh.unit), name_of(x.plans[h.plan].plan),
                               units.value(h.harsh.limit, h.harsh.unit),
                               !h.chosen ? ""
                               : x.holds ? " The chosen plan pays some of it."
                                         : " The least bad plan pays some of it."),
                   kTextWidth, 2) +
           "\n";
}

// As in tools/report/src/cooldown.ts.
constexpr const char* kLapsLeaveOut =
    "Counted with the likely cooling; wear, softening and fatigue go on with every lap.";

std::string hot_laps(int n) {
  return fmt::format("{} hot lap{}", n, n == 1 ? "" : "s");
}

std::string most_line(const char* name, const answer::MostLaps& m, int searched, const DisplayUnits& units) {
  if (!m.limit) return fmt::format("  {}: {} or more\n", name, hot_laps(searched));
  const answer::Verdict& v = *m.limit;
  const answer::Place& place = v.since.value_or(v.place);
  // On the hot lap itself the sentence says so; the number of the lap in the session would only confuse.
  const std::string where = place.span.starts_with("lap") ? "" : fmt::format(" {}", answer::in_words(place));
  return "  " +
         wrapped(fmt::format("{}: {}; {} takes the {} past its limit of {}{}", name,
                             m.laps == 0 ? "not one hot lap" : hot_laps(m.laps), m.laps == 0 ? "the first" : "one more",
                             limit_name(v), units.value(v.limit, v.unit), where),
                 kTextWidth - 2, 4) +
         "\n";
}

void lap_rows(std::string& out, const answer::HotLaps& x, const DisplayUnits& units) {
  out += fmt::format("How many hot laps ({} planned, up to {} looked at, {:.1f} s each)\n", x.planned, x.searched,
                     x.lap_time);
  out += most_line("On track alone", x.driving, x.searched, units);
  out += most_line("With the plan above", x.with_plan, x.searched, units);
  out += most_line("When parking at once", x.with_park_now, x.searched, units);
  out += "  " + wrapped(kLapsLeaveOut, kTextWidth - 2, 2) + "\n";
  if (x.rests.empty()) return;
  out += fmt::format("  A lift-and-coast lap in between, limits on track alone:\n  {:<26}{:>11}{:>12}  {}\n", "",
                     "average lap", "hot laps", "the next passes");
  for (const answer::RestRow& r : x.rests) {
    const std::string laps = r.settled     ? "steady"
                             : r.hot.limit ? fmt::format("{}", r.hot.laps)
                                           : fmt::format("{} or more", r.hot.laps);
    out +=
        fmt::format("  {:<26}{:>11}{:>12}  {}\n",
                    fmt::format("every {}, {:g} pace", r.every == 1 ? "lap" : fmt::format("{} laps", r.every), r.pace),
                    fmt::format("+{:.1f} s", r.lap_costs), laps, r.hot.limit ? limit_name(*r.hot.limit) : "");
  }
  out += "  Steady: no hotter from lap to lap.\n";
}

}  // namespace

std::string cooldown_text(const Cooled& cooled, const DisplayUnits& units, bool colour) {
  const answer::Cooldown& x = cooled.search;
  std::string out = cooled.c.name + "\n\n";
  const std::string sentence = wrapped(first_sentence(x), kTextWidth, 0);
  out += colour ? fmt::format(fmt::emphasis::bold, "{}", sentence) : sentence;
  out += '\n';
  if (const std::string sure = how_sure(x); !sure.empty()) out += wrapped(sure, kTextWidth, 0) + '\n';
  out += '\n';
  plan_rows(out, x, units);
  out += '\n';
  soak_rows(out, x, units);
  out += '\n';
  harm_lines(out, x, units);
  out += '\n';
  lap_rows(out, cooled.laps, units);
  for (const std::string& w : cooled.c.warnings) out += wrapped("warning: " + w, kTextWidth, 2) + "\n";
  out += '\n';
  for (std::size_t i = 0; i < 2; ++i) out += wrapped(answer::cautions()[i], kTextWidth, 0) + "\n";
  return out;
}

}  // namespace hatring::tools
