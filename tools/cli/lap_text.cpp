// SPDX-License-Identifier: MIT
#include "tools/cli/lap_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace hatring::tools {
namespace {

constexpr std::size_t kCells = 12;                     // of a strip
constexpr std::size_t kFirstLaps = 4, kLastLaps = 10;  // shown of a long session

double low(const answer::LapRow& row) {
  return row.lowest.at("ring_mean");
}
double high(const answer::LapRow& row, const char* name = "ring_mean") {
  return row.highest.at(name);
}

// From the coldest ring to the hottest, or to the limit if that is higher.
struct Scale {
  double from = 0, to = 1;
  std::optional<double> limit = {};

  [[nodiscard]] std::size_t cell(double temperature) const {
    const double share = (temperature - from) / (to - from);
    return std::min(kCells - 1, static_cast<std::size_t>(share * static_cast<double>(kCells)));
  }
};

Scale scale_of(const answer::Answers& a, const answer::AxleAnswers& axle, const char* name) {
  Scale s{.from = low(axle.laps.front()), .to = high(axle.laps.front())};
  for (const answer::LapRow& row : axle.laps) {
    s.from = std::min(s.from, low(row));
    s.to = std::max(s.to, high(row));
  }
  for (const answer::Verdict& v : a.verdicts)
    if (v.key == "ring_mean" && v.axle == name) s.limit = v.limit;
  // A limit that is far away would press the strips flat; past the end it is left out.
  constexpr double kReach = 1.6, kRoom = 1.08;
  if (s.limit && (*s.limit < s.from || *s.limit - s.from > kReach * (s.to - s.from))) s.limit.reset();
  if (s.limit) s.to = std::max(s.to, s.from + kRoom * (*s.limit - s.from));
  if (!(s.to > s.from)) s.to = s.from + 1;
  return s;
}

std::string strip(const Scale& s, const answer::LapRow& row) {
  std::string out(kCells, ' ');
  for (std::size_t i = s.cell(low(row)); i <= s.cell(high(row)); ++i) out[i] = '=';
  if (!s.limit) return out;
  const std::size_t at = s.cell(*s.limit);
  if (high(row) > *s.limit)
    for (std::size_t i = at; i <= s.cell(high(row)); ++i) out[i] = '#';
  else
    out[at] = ':';  // never covered by a ring that is cooler
  return out;
}

}  // namespace

std::string lap_strips(const answer::Answers& a, const DisplayUnits& units) {
  const std::size_t laps = a.front.laps.size();
  if (laps == 0) return "";
  const auto number = [&](double kelvin) { return units.temperature_number(kelvin); };
  const std::array scales{scale_of(a, a.front, "front"), scale_of(a, a.rear, "rear")};
  std::string out = fmt::format("{:<13} {:<24}{:<24}{:>7}{:>9}\n", fmt::format("lap, {}", units.temperature_unit()),
                                "front ring", "rear ring", "hats", "fluid");
  for (std::size_t i = 0; i < laps; ++i) {
    if (laps > kFirstLaps + kLastLaps && i == kFirstLaps) {
      out += fmt::format("{:<13} ({} more)\n", "...", laps - kFirstLaps - kLastLaps);
      i = laps - kLastLaps;
    }
    const answer::LapRow &front = a.front.laps[i], &rear = a.rear.laps[i];
    const auto pair = [&](const char* name) {
      return fmt::format("{:.0f}/{:.0f}", number(high(front, name)), number(high(rear, name)));
    };
    out += fmt::format("{:<13.13} ", front.span.label);
    for (const auto& [scale, row] : {std::pair{&scales[0], &front}, std::pair{&scales[1], &rear}})
      out += fmt::format("{:>4.0f}-{:<4.0f}[{}] ", number(low(*row)), number(high(*row)), strip(*scale, *row));
    out += fmt::format("{:>7}{:>9}\n", pair("hat_flange"), pair("fluid"));
  }
  std::string limits;
  for (const auto& [name, scale] : {std::pair{"front", &scales[0]}, std::pair{"rear", &scales[1]}})
    if (scale->limit) limits += fmt::format("{} {} {:.0f}", limits.empty() ? "" : ",", name, number(*scale->limit));
  out += "[==] ring mean: coolest to hottest of the lap. Hats, fluid: highest, front/rear";
  if (!limits.empty()) out += fmt::format("\n[: ] its limit,{}; [##] over it.", limits);
  return out + "\n";
}

std::string lap_table(const answer::Answers& a, const DisplayUnits& units) {
  std::string out;
  out += fmt::format("{:<16}|{:^31}|{:^31}\n", fmt::format("lap, {}", units.temperature_unit()), "front", "rear");
  out += fmt::format("{:<16}|{:>13}{:>6}{:>6}{:>6}|{:>13}{:>6}{:>6}{:>6}\n", "", "ring", "face", "hat", "fluid", "ring",
                     "face", "hat", "fluid");
  for (std::size_t i = 0; i < a.front.laps.size(); ++i) {
    std::string label = a.front.laps[i].span.label;
    out += fmt::format("{:<16.16}", label);
    for (const answer::AxleAnswers* axle : {&a.front, &a.rear}) {
      const answer::LapRow& row = axle->laps[i];
      const auto highest = [&](const char* name) { return units.temperature_number(high(row, name)); };
      out += fmt::format("|{:>6.0f} -{:>5.0f}{:>6.0f}{:>6.0f}{:>6.0f}", units.temperature_number(low(row)),
                         highest("ring_mean"), highest("ring_face_outboard"), highest("hat_flange"), highest("fluid"));
    }
    out += '\n';
  }
  return out;
}

}  // namespace hatring::tools
