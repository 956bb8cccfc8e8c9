// SPDX-License-Identifier: MIT
//! \file
//! Answers about pads, pedal and the share of the axles. Filled by pedal.hpp.
#pragma once

#include <limits>
#include <string>
#include <vector>

#include "sim/answer/place.hpp"

namespace hatring::answer {

inline constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

//! Friction and line pressure of one axle while braking.
struct PedalAnswer {
  bool applicable = false;
  double lowest_friction = 0, highest_friction = 0;  //!< [-]
  double highest_pressure = 0;                       //!< [Pa]
  Place highest_pressure_place;
  double reference_friction = 0;  //!< that fade is counted from [-]
  double fade = 0;                //!< largest loss of a hot braking against the reference [-]
  Place fade_place{};
  double growth = 0;  //!< largest growth of pressure at one corner since the first hot lap [-]
  Place growth_place{};
};

//! One axle in one braking.
struct CornerAxle {
  double friction = kNone;         //!< mean [-]
  double lowest_friction = kNone;  //!< [-]
  double pressure = kNone;         //!< highest [Pa]
  double mean_pressure = kNone;    //!< [Pa]
  double growth = kNone;           //!< of the mean pressure since the first hot lap, same corner and speed [-]
  double fade = kNone;             //!< loss of mean friction against the reference; below 0 when better [-]
  double face_peak = kNone;        //!< hotter face [K]
  double face_mean = kNone;        //!< [K]
  double face_rise = kNone;        //!< of the hotter face, from the first moment of the braking to its highest [K]
  double bulk_rise = kNone;        //!< of the ring's mean, from the first moment to the last [K]
  double share = kNone;            //!< of the braking energy [-]
};

//! One braking of the whole car.
struct Corner {
  Place place;
  int number = 0;                          //!< of the braking in its lap, from 1
  double duration = 0;                     //!< [s]
  double entry_speed = 0, exit_speed = 0;  //!< [m/s]
  double effort = kNone;                   //!< highest pedal force [N]
  double brakes_used = kNone;              //!< highest pressure over the largest that the driver can make [-]
  double tyres_used = 0;                   //!< highest braking force over weight and tyre grip [-]
  bool reachable = true;                   //!< the driver can make the pressure
  double longer = 0;                       //!< braking distance added where he cannot [m]
  double ideal_front_share = 0;            //!< by load transfer at the mean deceleration [-]
  CornerAxle front, rear;

  //! What would give out first: "tyres", "brakes", or "" where it is not known.
  [[nodiscard]] const char* limited_by() const {
    return !(brakes_used >= 0) ? "" : brakes_used > tyres_used ? "brakes" : "tyres";
  }
};

//! One lap or snub of the whole car.
struct PedalLap {
  int lap = 0;
  std::string label;
  double effort = kNone;          //!< highest [N]
  double front_pressure = kNone;  //!< highest [Pa]
  double rear_pressure = kNone;
  double front_friction = kNone;  //!< mean over the brakings, by duration [-]
  double rear_friction = kNone;
  double growth = kNone;  //!< mean over the corners of the axle that grew more [-]
  double front_share = kNone;
};

struct PedalCar {
  bool effort_known = false;
  double largest_effort = 0;  //!< of the driver [N]
  double highest_effort = 0;  //!< that the trace asks for [N]
  Place highest_effort_place;
  int unreachable = 0;  //!< brakings that need more than the driver can make
  double longer = 0;    //!< the most that one of them gets longer [m]
  Place longer_place{};
  std::vector<Corner> corners;
  std::vector<PedalLap> laps;
};

//! Pads of one wheel over the session.
struct PadAnswer {
  double below = 0, inside = 0, above = 0;  //!< braking time of hot laps and snubs by the pad's window [s]
  double worn = 0;                          //!< friction layer lost, the thicker loss of the two pads [m]
  double left = 0, minimum = 0;             //!< [m]
  double worn_out_at = kNone;               //!< moment at which the minimum is passed, if it is [s]
  double sessions_left = kNone;             //!< like this one, to the minimum; infinite without wear
  double ring_worn = 0;                     //!< over both faces [m]
  double ring_left = 0;                     //!< [m]
  double ring_minimum = kNone;              //!< [m]
  double ring_sessions_left = kNone;
  double ring_capacity = 0;                 //!< heat capacity of the ring at 20 degC, at its thickness now [J/K]
  double ring_capacity_at_minimum = kNone;  //!< the same at its minimum thickness [J/K]
};

//! One stop of a bedding plan.
struct BeddingStop {
  Place place;
  int group = 0, number = 0;  //!< from 1
  double face_before = 0;     //!< [K]
  double face_peak = 0;       //!< [K]
  bool under_ceiling = true, reaches_band = false, above_band = false;
};
struct BeddingAnswer {
  bool applicable = false;
  double band_low = 0, band_high = 0, ceiling = 0;  //!< [K]
  int reached = 0, over = 0;                        //!< stops in or above the band, stops over the ceiling
  std::vector<BeddingStop> stops;
};

//! How the axles share the friction braking.
struct BrakeBalance {
  std::string law;                 //!< "fixed", "hydraulic", "ideal"
  int runs = 1;                    //!< until the share and the temperatures agreed
  double change = 0;               //!< of the share in the last of them, largest [-]
  bool settled = true;             //!< change below the tolerance
  double lowest = 0, highest = 0;  //!< front share of a braking [-]
  double rear_excess = 0;          //!< the most that the rear takes above its share of the weight [-]
  Place rear_excess_place{};
};

//! One line of the table "which fault is it".
struct Symptom {
  std::string pedal{};   //!< what the foot feels
  std::string cause{};   //!< what it usually means
  std::string shows{};   //!< what this run says about it
  std::string action{};  //!< what to do
  bool seen = false;     //!< this run makes it likely
};

}  // namespace hatring::answer
