// SPDX-License-Identifier: MIT
//! \file
//! History: everything a run recorded, as columns over time. Values are for one wheel, the hotter of its axle.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace hatring::answer {

//! One quantity over time. `group` and `name` are its place in the result file: /front/GROUP/NAME.
struct Column {
  std::string group;            //!< "temperature", "joint", "rate", "heat", "pedal", "stress"
  std::string name;             //!< "ring_mean"
  std::string unit;             //!< as written into the result file: "K", "m", "N", "J", "K s-1"
  std::string long_name;        //!< one plain phrase
  std::vector<double> values;   //!< same length as History::time; NaN throughout when not applicable
  bool not_applicable = false;  //!< the part does not exist in this design (bobbins of a one-piece disc)
};

struct AxleHistory {
  std::string axle;  //!< "front" or "rear"
  std::vector<Column> columns;

  //! \returns the column, or nullptr
  [[nodiscard]] const Column* find(std::string_view group, std::string_view name) const {
    for (const Column& c : columns)
      if (c.group == group && c.name == name) return &c;
    return nullptr;
  }
};

//! Work done by the solver for one axle.
struct SolverWork {
  long steps = 0, rejected = 0, right_hand_sides = 0, factorisations = 0;
  double seconds = 0;  //!< wall time; outside the deterministic part of a result

  SolverWork& operator+=(const SolverWork& other) {
    steps += other.steps;
    rejected += other.rejected;
    right_hand_sides += other.right_hand_sides;
    factorisations += other.factorisations;
    seconds += other.seconds;
    return *this;
  }
};

struct History {
  std::vector<double> time;      //!< [s]
  std::vector<double> distance;  //!< from the start of the session [m]
  std::vector<double> speed;     //!< [m/s]
  std::vector<int> lap;          //!< 1-based; 0 when not on a lap
  AxleHistory front, rear;
  SolverWork front_work, rear_work;
};

}  // namespace hatring::answer
