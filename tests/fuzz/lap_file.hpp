// SPDX-License-Identifier: MIT
//! \file
//! A track that stands in files, to a computed lap.
#pragma once

#include "sim/io/track/track.hpp"
#include "sim/session/lap_speed.hpp"
#include "tests/fuzz/folder.hpp"
#include "tests/fuzz/fuzzing.hpp"

namespace hatring::fuzz {

//! A folder with a car in it.
class LapFolder : public Folder {
 public:
  LapFolder() { write("car.yaml", "car: {mass: 1140 kg, power: 120 kW, grip: 1.1}\n"); }

  //! The lap of track.yaml.
  void drive() const {
    const io::LapInput in = io::read_lap(path() / "track.yaml", path() / "car.yaml");
    constexpr double kLongest = 20'000;  // a lap of so many metres has shown what it has to show
    if (in.track.length() > kLongest) return;
    static_cast<void>(session::lap_speed(session::point_mass_of(in.c, {}), in.track));
  }
};

}  // namespace hatring::fuzz
