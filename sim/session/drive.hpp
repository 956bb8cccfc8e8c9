// SPDX-License-Identifier: MIT
//! \file
//! The Drive: the whole session as smooth functions of time, ready for the solver. Built once from a Case.
#pragma once

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "models/material.hpp"
#include "sim/session/case.hpp"
#include "sim/session/road.hpp"

namespace hatring::session {

enum class Phase { driving, parked, bench };

inline constexpr const char* kRolling = "rolling";  //!< label of the span of a RollStep

//! What the car does at one moment.
struct Moment {
  double speed = 0;         //!< [m/s]
  double acceleration = 0;  //!< along the road [m/s2]
  double brake_power = 0;   //!< of the friction brakes of the whole car, tyre slip taken off [W]
  double applied = 0;       //!< 0 pads released .. 1 pads applied, with a C1 ramp
};

//! A lap (or phase) of the session.
struct Span {
  int lap = 0;  //!< 1-based number of the lap; 0 for anything that is not a lap
  //! "out lap", "lap 3", "cool-down lap", "red flag", "parked", "stop", "slow-down", "pull-away", "rolling", "snub 4",
  //! "hold"
  std::string label{};
  Phase phase = Phase::driving;
  double begin = 0, end = 0;                    //!< [s]
  double begin_distance = 0, end_distance = 0;  //!< [m]
};

//! Energy ledger of one braking: [begin, end] is where the brakes count as on; their power rises and falls over the
//! rise time centred on these instants. Entry and exit speed are those of the smoothed trace. It closes: brake +
//! tyre_slip + clipped = kinetic - resisted (all J, whole car).
struct Braking {
  double begin = 0, end = 0;  //!< [s]
  double begin_distance = 0;  //!< from the start of the session [m]
  double lap_distance = 0;    //!< from the start of its lap [m]
  int lap = 0;
  double entry_speed = 0, exit_speed = 0;  //!< [m/s]
  double kinetic = 0;                      //!< change of 0.5 m k_rot v^2 [J]
  double resisted = 0;                     //!< integral of (drag + rolling + grade + engine) v dt [J]
  double tyre_slip = 0;                    //!< [J]
  double clipped = 0;                      //!< demand that no brake can meet (negative force inside the braking) [J]
  double brake = 0;                        //!< into the friction brakes [J]
  double peak_power = 0;                   //!< [W]
};

//! Same ledger over the whole session, benches (which have no road) left out; `off_brake` collects all demand outside
//! brakings (dead band, driving force), so that brake + tyre_slip + clipped + off_brake = kinetic - resisted.
struct DriveEnergy {
  double kinetic = 0, drag = 0, rolling = 0, grade = 0, engine = 0, tyre_slip = 0, clipped = 0, off_brake = 0,
         brake = 0;
};

//! One smooth piece: speed is a cubic in time, the acceleration is its exact derivative.
struct Piece {
  double begin = 0, end = 0;      //!< [s]
  double distance = 0;            //!< at begin [m]
  double c[4] = {0, 0, 0, 0};     //!< speed = c0 + c1 s + c2 s^2 + c3 s^3, s = t - begin
  double grade0 = 0, grade1 = 0;  //!< linear in time over the piece [-]
  int braking = -1;               //!< index into brakings, -1 when off the brakes
  [[nodiscard]] bool operator==(const Piece&) const = default;
};

//! Friction heat of one wheel on the bench, linear in time.
struct BenchHeat {
  double begin = 0, end = 0;       //!< [s]
  double from = 0, to = 0;         //!< [W]
  bool front = true, rear = true;  //!< which axles are heated
  [[nodiscard]] bool operator==(const BenchHeat&) const = default;
};

//! Air from a moment until the next such moment, or the end.
struct AirSpell {
  double begin = 0;  //!< [s]
  Air air{};
};

//! How the power of one braking rises and falls: level(t) times `scale` times the demand, tyre slip taken off in
//! `scale`. Before `begin` and after `end` of the braking the demand is held at its value there.
struct BrakeRamp {
  double on_begin = 0, on_end = 0, off_begin = 0, off_end = 0;  //!< [s]
  double power_on = 0, power_off = 0;                           //!< demand at begin and end of the braking [W]
  double scale = 1;  //!< makes the energy that of the braking without ramps [-]

  //! 0 released .. 1 applied, C1.
  [[nodiscard]] double level(double time) const;
  [[nodiscard]] bool operator==(const BrakeRamp&) const = default;
};

class Drive {
 public:
  //! Smooths the traces, strings laps, stops and parking together, finds the brakings and closes their energy.
  //! \throws CaseError when a step cannot be driven (message names the session entry)
  explicit Drive(const Case& c);

  [[nodiscard]] double duration() const { return spans_.empty() ? 0 : spans_.back().end; }
  //! Continuous from the right where something jumps (bench heat, phase changes): a step that ends at a restart wants
  //! the time just before it, std::nextafter(restart, 0). Times outside 0 .. duration() are clipped. No allocation.
  //! \param hint index of the piece found last; kept by the caller so that a forward sweep costs O(1) a call
  [[nodiscard]] Moment at(double time, std::size_t& hint) const;
  //! Friction heat of one wheel of the axle before the pad/ring split [W], for the hotter side; `m` is at(time).
  [[nodiscard]] double wheel_heat(Axle axle, double time, const Moment& m) const;
  //! Front axle's share of the friction-brake force: the case's, or the curve of set_front_share().
  [[nodiscard]] double front_share(double time) const {
    return front_share_.empty() ? fixed_share_ : front_share_(time);
  }
  //! From now on the share follows this curve over time (values within 0 and 1).
  void set_front_share(models::Curve share) { front_share_ = std::move(share); }
  [[nodiscard]] double distance(double time) const;
  //! Whether speed, pads and wheel heat are those of the other at every moment.
  [[nodiscard]] bool as(const Drive& other) const;

  //! Times, rising, at which the load or its slope jumps (brake on/off ramps, phase changes): the solver restarts
  //! there. First is 0, last is duration().
  [[nodiscard]] const std::vector<double>& restarts() const { return restarts_; }
  [[nodiscard]] const std::vector<Span>& spans() const { return spans_; }
  [[nodiscard]] const std::vector<Braking>& brakings() const { return brakings_; }
  [[nodiscard]] const std::vector<Piece>& pieces() const { return pieces_; }
  [[nodiscard]] const DriveEnergy& energy() const { return energy_; }
  //! Rising, the first from 0 on; each begins with a span. Drag is that of the case's air throughout.
  [[nodiscard]] const std::vector<AirSpell>& airs() const { return airs_; }

 private:
  std::vector<Piece> pieces_;
  std::vector<double> restarts_;
  std::vector<Span> spans_;
  std::vector<Braking> brakings_;
  std::vector<AirSpell> airs_;
  DriveEnergy energy_;
  // What acts on a piece besides its own braking: ramps that reach into it from the brakings around it, or a bench.
  struct Near {
    int before = -1, after = -1, hold = -1;
    [[nodiscard]] bool operator==(const Near&) const = default;
  };
  [[nodiscard]] std::size_t find(double time, std::size_t hint) const;
  void find_neighbours();
  void find_restarts(const std::vector<double>& bounds);

  std::vector<Near> near_;
  std::vector<BrakeRamp> ramps_;
  std::vector<BenchHeat> holds_;
  Road road_;
  models::Curve front_share_;
  double fixed_share_ = 0, hot_wheel_ = 0.5;  // part of its axle's power in the hotter wheel
};

}  // namespace hatring::session
