// SPDX-License-Identifier: MIT
#include "tools/cli/summary.hpp"

#include <fmt/color.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <sstream>

#include "sim/answer/places.hpp"
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

std::string where(const answer::Place& p, const DisplayUnits& units) {
  if (p.lap > 0) return fmt::format("lap {}, {}", p.lap, units.lap_distance(p.lap_distance));
  if (p.span == answer::kWholeSession) return p.span;
  return fmt::format("{}, {}", p.span, clock_time(p.time));
}

namespace {

constexpr std::size_t kWidth = 79;
constexpr std::size_t kShownWithin = 8;  // rows within limits that are worth a line on the terminal

fmt::text_style style_of(Level level, bool colour) {
  if (!colour) return {};
  if (level == Level::exceeded) return fmt::emphasis::bold | fmt::fg(fmt::terminal_color::red);
  if (level == Level::near) return fmt::emphasis::bold | fmt::fg(fmt::terminal_color::yellow);
  return fmt::emphasis::bold;
}

// A limit passed in part of the cooling band only has the smaller mark.
const char* mark_of(const answer::Verdict& v) {
  return v.level == Level::exceeded && v.crosses ? "[x]" : mark(v.level);
}

std::string band_of(const answer::Verdict& v, const DisplayUnits& units) {
  if (!v.band) return "";
  const std::string low = units.cell(v.band->low, v.unit), high = units.cell(v.band->high, v.unit);
  return low == high ? "" : fmt::format("{}..{}", low, high);
}

void verdict_rows(std::string& out, const answer::Answers& a, const DisplayUnits& units, bool colour) {
  out += fmt::format("{:<30}{:>8}{:>12}{:>6}{:>7}  {}\n", "    part", "reached", "band", "limit", "left", "where");
  std::size_t within = 0;
  std::set<std::string> marks;
  for (const answer::Verdict& v : a.verdicts) {
    if (v.level == answer::Level::within && ++within > kShownWithin) continue;
    std::string part = fmt::format("{} {}", v.axle, v.part);
    if (!v.aspect.empty()) part += ", " + v.aspect;
    const char* with_mark = mark_of(v);
    if (v.band) marks.insert(with_mark);
    out += fmt::format(style_of(v.level, colour), "{}", with_mark);
    // A part over its limit is placed where it first went over; any other where it came closest.
    out += fmt::format(" {:<26}{:>8}{:>12}{:>6}{:>7}  {}\n", part, units.value(v.value, v.unit), band_of(v, units),
                       units.cell(v.limit, v.unit), units.cell_difference(v.margin, v.unit),
                       where(v.since.value_or(v.place), units));
  }
  if (within > kShownWithin)
    out += fmt::format("    and {} more within limits, in the report and with --json\n", within - kShownWithin);
  std::string legend;
  for (const auto& [which, words] :
       {std::pair{"[X]", "over however the air cools"}, std::pair{"[x]", "over unless it cools more than assumed"},
        std::pair{"[!]", "close, or over if it cools less"}, std::pair{"[ ]", "within over the whole band"}})
    if (marks.contains(which)) legend += fmt::format("{}{} {}", legend.empty() ? "" : "; ", which, words);
  if (!legend.empty())
    out += wrapped(
               fmt::format("Band: with little and with much cooling. {}. Other uncertainties come on top. Where: first "
                           "over the limit, or closest to it.",
                           legend),
               kWidth - 4, 0) +
           "\n";
}

// Ring, hat, pad and fluid over the laps, both axles: does each lap end hotter than it began?
void lap_rows(std::string& out, const answer::Answers& a, const DisplayUnits& units) {
  out += fmt::format("{:<16}|{:^31}|{:^31}\n", fmt::format("lap, {}", units.temperature_unit()), "front", "rear");
  out += fmt::format("{:<16}|{:>13}{:>6}{:>6}{:>6}|{:>13}{:>6}{:>6}{:>6}\n", "", "ring", "face", "hat", "fluid", "ring",
                     "face", "hat", "fluid");
  for (std::size_t i = 0; i < a.front.laps.size(); ++i) {
    std::string label = a.front.laps[i].span.label;
    out += fmt::format("{:<16.16}", label);
    for (const answer::AxleAnswers* axle : {&a.front, &a.rear}) {
      const answer::LapRow& row = axle->laps[i];
      const auto high = [&](const char* name) { return units.temperature_number(row.highest.at(name)); };
      out += fmt::format("|{:>6.0f} -{:>5.0f}{:>6.0f}{:>6.0f}{:>6.0f}",
                         units.temperature_number(row.lowest.at("ring_mean")), high("ring_mean"),
                         high("ring_face_outboard"), high("hat_flange"), high("fluid"));
    }
    out += '\n';
  }
}

void joint_lines(std::string& out, const answer::Answers& a, const DisplayUnits& units) {
  for (const auto& [name, axle] : {std::pair{"front", &a.front}, std::pair{"rear", &a.rear}}) {
    const answer::JointAnswer& j = axle->joint;
    if (!j.applicable) continue;
    std::string line =
        fmt::format("{} joint: ring minus hat growth from {} ({}) to {} ({})", name, units.clearance(j.smallest),
                    where(j.smallest_place, units), units.clearance(j.largest), where(j.largest_place, units));
    const std::size_t turns = j.sign_changes.size();
    if (turns == 0)
      line += "; it never changed sign.";
    else
      line += fmt::format("; it changed sign {}, {}{}.", turns == 1 ? "once" : fmt::format("{} times", turns),
                          turns == 1 ? "" : "last ", where(j.sign_changes.back(), units));
    line += fmt::format(" It swings {:.0f} times, the largest by {}.", j.swings, units.clearance(j.largest_swing));
    line += fmt::format(" A float of {} each way takes all of it", units.clearance(j.needed_float));
    if (j.needed_band)
      line += fmt::format(", {} to {} with more or less cooling", units.clearance(j.needed_band->low),
                          units.clearance(j.needed_band->high));
    out += wrapped(line + ".", kWidth, 2) + "\n";
  }
}

const answer::Extreme* extreme(const answer::AxleAnswers& axle, std::string_view name) {
  for (const answer::Extreme& e : axle.extremes)
    if (e.name == name) return &e;
  return nullptr;
}

// More digits would say more than is known.
double two_digits(double v) {
  if (!(v > 0)) return 0;
  const double unit = std::pow(10, std::floor(std::log10(v)) - 1);
  return std::round(v / unit) * unit;
}

// What the joint carries, and what it takes out of the parts.
void load_lines(std::string& out, const answer::Answers& a, const DisplayUnits& units) {
  for (const auto& [name, axle] : {std::pair{"front", &a.front}, std::pair{"rear", &a.rear}}) {
    if (const answer::Extreme* load = extreme(*axle, "fastener_load")) {
      std::string line = fmt::format("{} fasteners: up to {} each across the joint ({})", name,
                                     units.force(load->highest), where(load->highest_place, units));
      if (const answer::Extreme* clamp = extreme(*axle, "preload"))
        line += fmt::format("; clamping force {} to {}, {} when cold again", units.force(clamp->lowest),
                            units.force(clamp->highest), units.force(extreme(*axle, "preload_cold")->lowest));
      out += wrapped(line + ". An estimate; follow the maker's torque.", kWidth, 2) + "\n";
    }
    if (!axle->damage.empty()) {
      const answer::DamageRow& d = axle->damage.front();
      std::string left =
          fmt::format("about {:.0f} more sessions like this one ({:.0f} to {:.0f})", two_digits(d.sessions_left),
                      two_digits(d.sessions_left / answer::kLifeBand), two_digits(d.sessions_left * answer::kLifeBand));
      if (d.sessions_left > answer::kManySessions) left = "more sessions than anybody drives";
      out +=
          wrapped(fmt::format("{} life: the {} goes first, after {}; {:.0f} % of the damage is one cycle from cold to "
                              "hot.",
                              name, d.part, left, 100 * d.largest_share),
                  kWidth, 2) +
          "\n";
    }
    const answer::SofteningAnswer& soft = axle->softening;
    if (soft.applicable && soft.time_above.front().second > 0)
      out +=
          wrapped(fmt::format(
                      "{} hat: {:.0f} min above {}, {:.0f} min above {} in this session; it has lost {:.0f} % of its "
                      "proof strength for good.",
                      name, soft.time_above[0].second / 60, units.temperature(soft.time_above[0].first),
                      soft.time_above[2].second / 60, units.temperature(soft.time_above[2].first),
                      100 * (1 - soft.strength_left)),
                  kWidth, 2) +
          "\n";
    for (const answer::QuenchRow& q : axle->quenches)
      out += wrapped(
                 fmt::format("caution, {} face where it meets water ({}): {} hot, its skin may fall by {} to {} there; "
                             "uneven around the disc.",
                             name, where(q.place, units), units.temperature(q.face), units.temperature_step(q.drop[0]),
                             units.temperature_step(q.drop[2])),
                 kWidth, 2) +
             "\n";
  }
}

std::string judged(const answer::FluidAnswer& f, const DisplayUnits& units) {
  if (f.basis == "aged")
    return fmt::format(", {} at its age ({:.1f} % water)", units.temperature(f.boiling_judged), 100 * f.water);
  return f.basis == "your own" ? fmt::format(", {} by your reading", units.temperature(f.boiling_judged)) : "";
}

void fluid_lines(std::string& out, const answer::Answers& a, const DisplayUnits& units) {
  for (const auto& [name, axle] : {std::pair{"front", &a.front}, std::pair{"rear", &a.rear}})
    out += wrapped(fmt::format("{} fluid: highest {} ({}{}); boils at {} wet, {} dry{}", name,
                               units.temperature(axle->fluid.peak), where(axle->fluid.place, units),
                               axle->fluid.after_parking ? ", after the car stopped" : "",
                               units.temperature(axle->fluid.boiling_wet), units.temperature(axle->fluid.boiling_dry),
                               judged(axle->fluid, units)),
                   kWidth, 2) +
           "\n";
}

void heat_lines(std::string& out, const answer::Answers& a, const DisplayUnits& units) {
  for (const auto& [name, axle] : {std::pair{"front", &a.front}, std::pair{"rear", &a.rear}}) {
    const answer::Balance& b = axle->balance;
    const double whole = b.friction > 0 ? b.friction : 1;
    out += wrapped(fmt::format("{} heat, one wheel: {} = air {:.0f} % + radiation {:.0f} % + wheel {:.0f} % + still "
                               "stored {:.0f} % (unexplained {:.1e} of it); ring took {:.0f} %",
                               name, units.energy(b.friction), 100 * b.convection / whole, 100 * b.radiation / whole,
                               100 * b.to_wheel / whole, 100 * b.stored / whole, b.residual / whole,
                               100 * b.to_ring / whole),
                   kWidth, 2) +
           "\n";
  }
}

}  // namespace

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

std::string summary(const session::Case& c, const answer::Run& run, const DisplayUnits& units, bool colour) {
  const answer::Answers& a = run.answers;
  std::string out = c.name + "\n\n";
  out += fmt::format(style_of(a.level, colour), "{}", wrapped(a.sentence, kWidth, 0)) + "\n\n";
  verdict_rows(out, a, units, colour);
  out += '\n';
  lap_rows(out, a, units);
  out += '\n';
  out += pedal_text(a, units) + '\n';
  joint_lines(out, a, units);
  load_lines(out, a, units);
  fluid_lines(out, a, units);
  heat_lines(out, a, units);
  out += wrapped(fmt::format("mass from geometry, one wheel: front ring {}, hat {}; rear ring {}, hat {}",
                             units.mass(a.front.ring_mass), units.mass(a.front.hat_mass), units.mass(a.rear.ring_mass),
                             units.mass(a.rear.hat_mass)),
                 kWidth, 2) +
         "\n";
  for (const std::string& w : a.warnings) out += wrapped("warning: " + w, kWidth, 2) + "\n";
  out += '\n';
  for (std::size_t i = 0; i < 2; ++i) out += wrapped(answer::cautions()[i], kWidth, 0) + "\n";
  return out;
}

}  // namespace hatring::tools
