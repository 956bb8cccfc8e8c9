// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>
#include <map>

#include "tools/cli/summary.hpp"
#include "tools/cli/trace_report.hpp"

namespace hatring::tools {
namespace {

constexpr double kBtuPerPound = 2326;  // exact for the International Table BTU [J/kg]

std::string lap_time(double seconds) {
  const double minutes = std::floor(seconds / 60);
  return fmt::format("{:.0f}:{:05.2f}", minutes, seconds - 60 * minutes);
}

std::string energy_text(double joules, const BrakingZones& zones, const DisplayUnits& units, bool us) {
  if (zones.basis != BrakingZones::Basis::kilogram) return units.energy(joules);
  return us ? fmt::format("{:.2f} BTU/lb", joules / kBtuPerPound) : fmt::format("{:.2f} kJ/kg", joules / 1e3);
}

std::string power_text(double watts, const BrakingZones& zones) {
  return zones.basis == BrakingZones::Basis::kilogram ? fmt::format("{:.0f} W/kg", watts)
                                                      : fmt::format("{:.0f} kW", watts / 1e3);
}

void guess_lines(std::string& out, const io::LogReading& r) {
  out += "READ AS   ([?] deserves a second look; what changes a line stands at its end)\n";
  std::string absent;
  for (const io::LogGuess& g : r.guesses) {
    if (g.choice == "none" && g.reason == io::kNoSuchName)
      absent += fmt::format("{}{}", absent.empty() ? "" : ", ", g.what);
    else
      out += wrapped(fmt::format("{} {}: {}; {}.{}", g.doubtful ? "[?]" : "[ ]", g.what, g.choice, g.reason,
                                 g.option.empty() ? "" : fmt::format(" ({})", g.option)),
                     kTextWidth, 6) +
             "\n";
  }
  if (!absent.empty())
    out += wrapped(fmt::format("[ ] not found: {}; {}. (--column WHAT=NAME)", absent, io::kNoSuchName), kTextWidth, 6) +
           "\n";
}

void fault_lines(std::string& out, const io::LogReading& r) {
  if (r.faults.empty()) return;
  out += "\nLEFT OUT OR MENDED\n";
  std::map<std::string, std::vector<std::size_t>> by_kind;
  std::vector<std::string> order;
  for (const io::LogFault& f : r.faults) {
    if (!by_kind.contains(f.what)) order.push_back(f.what);
    by_kind[f.what].push_back(f.line);
  }
  for (const std::string& what : order)
    out += fmt::format("    {}\n",
                       wrapped(fmt::format("line {}: {}.", io::line_ranges(by_kind[what]), what), kTextWidth - 4, 6));
}

void lap_rows(std::string& out, const io::LogReading& r, const DisplayUnits& units) {
  if (r.laps.laps.empty()) return;
  out += fmt::format("\n{:<8}{:>10}{:>11}{:>12}{:>12}\n", "LAPS", "time", "length", "fastest", "slowest");
  for (std::size_t k = 0; k < r.laps.laps.size(); ++k) {
    const io::LogLap& lap = r.laps.laps[k];
    out += fmt::format("{:>8}{:>10}{:>11}{:>12}{:>12}  {}\n", lap.number, lap_time(lap.end - lap.begin),
                       units.lap_distance(lap.length), units.road_speed(lap.top), units.road_speed(lap.lowest),
                       r.laps.chosen == k ? "<- this one" : lap.incomplete);
  }
}

const char* basis_text(BrakingZones::Basis basis) {
  switch (basis) {
    case BrakingZones::Basis::car:
      return "Heat of the brakes of the whole car; drag, rolling, engine, hills and tyre slip taken off.";
    case BrakingZones::Basis::mass:
      return "Kinetic energy of this mass; drag, engine and hills are still in it. With --car they are taken off.";
    case BrakingZones::Basis::kilogram:
      break;
  }
  return "Kinetic energy of each kilogram; drag, engine and hills are still in it. Give --mass or, better, --car.";
}

void braking_rows(std::string& out, const BrakingZones& z, const DisplayUnits& units, bool us) {
  if (!z.failure.empty()) {
    out += fmt::format("\n{}\n", wrapped(fmt::format("No brakings: the trace cannot be driven as it is: {}", z.failure),
                                         kTextWidth, 2));
    return;
  }
  out += fmt::format("\n{:<9}{:>10}{:>10}{:>13}{:>10}{:>10}{:>8}{:>7}\n", "BRAKING", "entry", "exit", "energy", "peak",
                     "slowest", "rounded", "time");
  for (std::size_t i = 0; i < z.brakings.size(); ++i) {
    const session::Braking& b = z.brakings[i];
    const answer::BrakingStyle& style = z.styles[i];
    out += fmt::format("{:>9}{:>10}{:>10}{:>13}{:>10}{:>10}{:>8}{:>7}\n", units.lap_distance(b.lap_distance),
                       units.road_speed(b.entry_speed), units.road_speed(b.exit_speed),
                       energy_text(b.brake, z, units, us), power_text(b.peak_power, z), units.road_speed(style.slowest),
                       fmt::format("{:.0f} %", 100 * style.rounding), fmt::format("{:.1f} s", b.end - b.begin));
  }
  out += wrapped(fmt::format("{} brakings, {} in {} and {}. {}", z.brakings.size(), energy_text(z.energy, z, units, us),
                             units.road_distance(z.distance), lap_time(z.duration), basis_text(z.basis)),
                 kTextWidth, 2) +
         "\n";
  if (!z.brakings.empty())
    out +=
        wrapped(
            "Slowest: until the next braking. Rounded: 0 % is a pedal hit, held and dropped, 50 % one let out evenly "
            "from the first moment.",
            kTextWidth, 2) +
        "\n";
}

}  // namespace

std::string trace_text(const io::LogReading& r, const BrakingZones& zones, const DisplayUnits& units) {
  const bool us = std::string(units.temperature_unit()) == "degF";
  std::string out =
      wrapped(fmt::format("{}: {} rows, {} columns", r.source, r.rows, r.columns), kTextWidth, 2) + "\n\n";
  guess_lines(out, r);
  fault_lines(out, r);
  lap_rows(out, r, units);
  braking_rows(out, zones, units, us);
  return out;
}

}  // namespace hatring::tools
