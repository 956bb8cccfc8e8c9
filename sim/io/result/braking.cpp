// SPDX-License-Identifier: MIT
#include "sim/io/result/braking.hpp"

#include <fmt/format.h>

#include <numeric>

#include "sim/io/result/hdf5_image.hpp"

namespace hatring::io {

using answer::Corner;
using answer::CornerAxle;

void write_brakings(const H5::Group& root, const std::vector<Corner>& corners) {
  if (corners.empty()) return;
  std::vector<int> numbers(corners.size());
  std::iota(numbers.begin(), numbers.end(), 1);
  Hdf5Table table(make_group(root, "braking"), {"number", "1", "Number of the braking in the session"}, numbers);
  const auto add = [&](const std::string& name, const char* unit, const std::string& long_name, auto value) {
    std::vector<std::decay_t<decltype(value(corners.front()))>> column;
    column.reserve(corners.size());
    for (const Corner& c : corners) column.push_back(value(c));
    table.add({name, unit, long_name}, column);
  };
  add("span", "1", "Lap or part of the session", [](const Corner& c) { return c.place.span; });
  add("lap", "1", "Lap number, 0 when not on a lap", [](const Corner& c) { return c.place.lap; });
  add("time", "s", "Begin, from the start of the session", [](const Corner& c) { return c.place.time; });
  add("distance", "m", "Begin, from the start of the lap", [](const Corner& c) { return c.place.lap_distance; });
  add("duration", "s", "Duration", [](const Corner& c) { return c.duration; });
  add("entry_speed", "m s-1", "Speed at the begin", [](const Corner& c) { return c.entry_speed; });
  add("exit_speed", "m s-1", "Speed at the end", [](const Corner& c) { return c.exit_speed; });
  add("effort", "N", "Highest pedal force", [](const Corner& c) { return c.effort; });
  add("brakes_used", "1", "Highest pressure over the largest that the driver can make",
      [](const Corner& c) { return c.brakes_used; });
  add("tyres_used", "1", "Highest braking force over weight and tyre grip",
      [](const Corner& c) { return c.tyres_used; });
  add("longer", "m", "Braking distance added where the driver cannot make the pressure",
      [](const Corner& c) { return c.longer; });
  add("ideal_front_share", "1", "Front share by load transfer", [](const Corner& c) { return c.ideal_front_share; });
  for (const auto& [axle, side] : {std::pair{"front", &Corner::front}, std::pair{"rear", &Corner::rear}}) {
    const auto of = [&, axle = axle, side = side](const char* name, const char* unit, const char* long_name,
                                                  double CornerAxle::*member) {
      add(fmt::format("{}_{}", axle, name), unit, fmt::format("{}, {}", long_name, axle),
          [side, member](const Corner& c) { return c.*side.*member; });
    };
    of("share", "1", "Share of the braking energy", &CornerAxle::share);
    of("friction", "1", "Mean friction coefficient", &CornerAxle::friction);
    of("pressure", "Pa", "Highest line pressure", &CornerAxle::pressure);
    of("growth", "1", "Growth of the mean pressure since the first hot lap", &CornerAxle::growth);
    of("fade", "1", "Loss of friction against the pad's reference", &CornerAxle::fade);
    of("face_peak", "K", "Peak of the hotter face", &CornerAxle::face_peak);
  }
}

}  // namespace hatring::io
