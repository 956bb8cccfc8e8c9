// SPDX-License-Identifier: MIT
//! \file
//! Answers: what a run means for the driver. Plain values, computed once from the History; every writer
//! (terminal, JSON, result file, report) prints these and computes nothing of its own.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "sim/answer/doubt.hpp"
#include "sim/answer/history.hpp"
#include "sim/answer/pedal_answers.hpp"
#include "sim/answer/place.hpp"
#include "sim/session/case.hpp"
#include "sim/session/drive.hpp"

namespace hatring::answer {

//! Never 'safe': the best a verdict can say is that a part stayed within the limits listed.
enum class Level { within, near, exceeded, unknown };
[[nodiscard]] std::string_view to_string(
    Level level);  //!< "within limits", "near the limit", "over the limit", "not judged"

struct Verdict {
  std::string axle;      //!< "front", "rear"
  std::string key;       //!< the limit's key in the config, under `limits`
  std::string part;      //!< "ring face", "hat", "brake fluid", "joint", ...
  std::string aspect{};  //!< what tells this row from others of the part, in a word or two: "float outward", "load"
  std::string what;      //!< the quantity judged, in plain words: "peak temperature", "float left, ring outwards"
  Level level = Level::unknown;
  double value = 0, limit = 0, margin = 0;  //!< in `unit`; margin > 0 is on the good side
  double scale = 0;                         //!< margin of a part that is cold and new: margin / scale ranks the rows
  //! "K" (temperature; margin is a difference), "m", "K s-1", "N", "share", "sessions"
  std::string unit;
  Place place{};                 //!< of the worst moment
  std::optional<Place> since{};  //!< first moment over the limit; none when it is never exceeded
  std::string reason{};          //!< where the limit comes from
  std::string advice{};          //!< what to do, one sentence; empty when within
  std::optional<Band> band{};    //!< of `value`; none when only the likely air was run
  bool crosses = false;          //!< the limit is kept in part of the band only
  std::string sure{};            //!< how surely the limit is kept, one phrase; empty without a band
  std::optional<Doubt> doubt{};  //!< over all inputs; none unless the full band was run
};

struct Peak {
  double value = 0;  //!< [K]
  Place place;
  std::optional<Band> band{};      //!< of `value` [K]
  std::optional<double> median{};  //!< over all inputs; none unless the full band was run [K]
};

//! Heat over the whole run, one wheel [J]. friction = stored + convection + radiation + to_wheel + residual.
struct Balance {
  double friction = 0, to_ring = 0, to_pads = 0, stored = 0, convection = 0, radiation = 0, to_wheel = 0, residual = 0;
};

//! Lowest and highest of one lap, per temperature name.
struct LapRow {
  session::Span span;
  double heat = 0;                                //!< friction heat of one wheel in this span [J]
  std::map<std::string, double> lowest, highest;  //!< by result name [K]
};

//! Fastest rise and fall of one quantity over the rate window.
struct RateRow {
  std::string name;  //!< of the column in the result's group `rate`: "ring_face"
  std::string what;  //!< "ring face, outboard"
  std::string unit;  //!< "K s-1" or "m s-1"
  double rise = 0;   //!< largest, not below 0
  double fall = 0;   //!< smallest, not above 0
  Place rise_place, fall_place;
};

//! Highest and lowest of one column of the groups `joint` and `stress`.
struct Extreme {
  std::string group, name, what, unit;  //!< as in the result file
  double highest = 0, lowest = 0;
  Place highest_place, lowest_place;
};

//! Fatigue of one part. Lives can be wrong by `kLifeBand` either way.
inline constexpr double kLifeBand = 10;
//! More sessions than that are endless to a driver: shown as such, and not told apart.
inline constexpr double kManySessions = 10000;
struct DamageRow {
  std::string part;          //!< "ring bore", "ring face", "lugs", "hat holes", "fasteners"
  std::string what;          //!< the stress that was counted
  double per_session = 0;    //!< Miner's sum of this session [-]
  double before = 0;         //!< of the sessions before, as `history` has them [-]
  double sessions_left = 0;  //!< until the sum is 1, this session taken off; a million at most
  double cycles = 0;         //!< counted
  double largest_range = 0;  //!< [Pa]
  double largest_share = 0;  //!< share of the largest cycle in the damage; the rest is the many smaller ones [-]
};

//! Softening of an aluminium hat by the hours that it has been hot, over its life.
struct SofteningAnswer {
  bool applicable = false;
  double share = 0;                                     //!< of the time to the least allowed strength, this session [-]
  double share_before = 0;                              //!< before it [-]
  double strength_left = 1, strength_left_before = 1;   //!< proof strength over that of new metal [-]
  std::vector<std::pair<double, double>> time_above{};  //!< temperature [K], time above it in this session [s]
};

//! A wet patch met by hot discs: least, likely and most of what it does to the face. A caution, not a verdict.
struct QuenchRow {
  Place place{};
  double face = 0;                    //!< before it [K]
  double drop[3] = {0, 0, 0};         //!< of the skin [K]
  double stress[3] = {0, 0, 0};       //!< tension that the drop adds [Pa]
  double utilisation[3] = {0, 0, 0};  //!< over the iron's tensile strength there [-]
};

//! Hat and ring at the bolt circle.
struct JointAnswer {
  bool applicable = false;
  double largest = 0, smallest = 0;  //!< differential expansion, ring minus hat [m]
  Place largest_place, smallest_place;
  std::vector<Place> sign_changes;    //!< moments at which it passes zero after having grown
  double float_clearance = 0;         //!< [m]; 0 when rigid
  double swings = 0;                  //!< cycles of the growth, counted by rainflow
  double largest_swing = 0;           //!< [m]
  double needed_float = 0;            //!< radial clearance each way that this session uses [m]
  std::optional<Band> needed_band{};  //!< of it; none when only the likely air was run [m]
};

//! Brake fluid of one axle.
struct FluidAnswer {
  double peak = 0, boiling_dry = 0, boiling_wet = 0;  //!< [K]
  double water = kNone;                               //!< by the fluid's age [kg/kg]; NaN where no age is given
  double boiling_aged = kNone;                        //!< boiling point with that water [K]
  double boiling_judged = 0;                          //!< that the verdict uses [K]
  std::string basis{};                                //!< "wet", "dry", "aged", "your own"
  Place place;
  bool after_parking = false;  //!< the peak came after the car stopped
};

struct AxleAnswers {
  std::map<std::string, Peak> peaks;  //!< by result name ("ring_face_outboard")
  Balance balance;
  std::vector<LapRow> laps;
  std::vector<RateRow> rates;
  std::vector<Extreme> extremes;
  std::vector<DamageRow> damage;  //!< shortest life first
  SofteningAnswer softening;
  std::vector<QuenchRow> quenches;
  JointAnswer joint;
  FluidAnswer fluid;
  PedalAnswer pedal;
  PadAnswer pads;
  BeddingAnswer bedding;
  double ring_mass = 0, hat_mass = 0;         //!< from geometry, one wheel [kg]
  double corner_mass = 0, rotating_mass = 0;  //!< as used, one wheel: disc, pads, caliper, fluid; the disc alone [kg]
  double rotating_inertia = 0;                //!< of the disc about its axle [kg m2]
};

//! Ends the first sentence of what was not `soaked`.
inline constexpr const char* kNotSoaked = " Heat soak was not looked at: the session ends on the move.";

struct Answers {
  std::string sentence;           //!< first thing the driver reads
  Level level = Level::unknown;   //!< the worst of the verdicts
  bool soaked = true;             //!< the car stands at the end, or it is a bench: heat soak was looked at
  std::vector<Verdict> verdicts;  //!< worst first
  AxleAnswers front, rear;
  PedalCar pedal;
  BrakeBalance brake_balance;
  std::vector<Symptom> symptoms;
  std::optional<FullBandAnswer> full_band;  //!< none unless it was run
  std::vector<std::string> warnings;

  [[nodiscard]] const AxleAnswers& axle(session::Axle which) const {
    return which == session::Axle::front ? front : rear;
  }
};

//! \param c the case that was run  \param d its drive  \param h what the solver recorded
//! \param balance how the share of the axles was found
[[nodiscard]] Answers answer(const session::Case& c, const session::Drive& d, const History& h,
                             const BrakeBalance& balance);

//! What a verdict has left as a share of all there was to use up: 1 untouched, 0 at the limit, negative over it. NaN
//! where nothing is judged.
[[nodiscard]] double share_left(const Verdict& v);

//! Whether two verdicts hold the same quantity of the same part against a limit.
[[nodiscard]] bool same_limit(const Verdict& a, const Verdict& b);

//! Sorts the verdicts, worst first, and draws level and sentence from them.
void conclude(Answers& answers);

//! The cautions printed by every report, the README and --help.
[[nodiscard]] const std::vector<std::string>& cautions();

}  // namespace hatring::answer
