// SPDX-License-Identifier: MIT
//! \file
//! A track that stands in files, to a computed lap.
#pragma once

#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "sim/io/track/track.hpp"
#include "sim/session/lap_speed.hpp"
#include "tests/fuzz/fuzzing.hpp"

namespace hatring::fuzz {

//! A folder of this process, in memory where the machine has such a place, with a car in it; removed at the end.
class LapFolder {
 public:
  LapFolder() {
    namespace fs = std::filesystem;
    std::error_code none;
    const fs::path memory("/dev/shm");
    path_ = (fs::is_directory(memory, none) ? memory : fs::temp_directory_path()) /
            ("hatring_fuzz_" + std::to_string(getpid()));
    fs::create_directories(path_);
    write("car.yaml", "car: {mass: 1140 kg, power: 120 kW, grip: 1.1}\n");
  }
  ~LapFolder() {
    std::error_code none;
    std::filesystem::remove_all(path_, none);
  }
  LapFolder(const LapFolder&) = delete;
  LapFolder& operator=(const LapFolder&) = delete;

  void write(const char* name, const std::string& text) const { std::ofstream(path_ / name, std::ios::binary) << text; }

  //! The lap of track.yaml.
  void drive() const {
    const io::LapInput in = io::read_lap(path_ / "track.yaml", path_ / "car.yaml");
    constexpr double kLongest = 20'000;  // a lap of so many metres has shown what it has to show
    if (in.track.length() > kLongest) return;
    static_cast<void>(session::lap_speed(session::point_mass_of(in.c, {}), in.track));
  }

 private:
  std::filesystem::path path_;
};

}  // namespace hatring::fuzz
