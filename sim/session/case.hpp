// SPDX-License-Identifier: MIT
//! \file
//! The Case: plain structs that say what is to be run. SI units throughout (K, m, kg, s, W, Pa, N).
//! sim/io fills a Case from YAML; tests may fill one by hand. Nothing here computes.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "models/material.hpp"
#include "sim/session/cooldown_plans.hpp"
#include "sim/session/steps.hpp"

namespace hatring::session {

enum class Driven { front, rear, all };
enum class RingKind { vented, solid };
enum class JointKind { rigid, floating, one_piece };
enum class JointSurface { dry, corroded, pasted, gasketed };
enum class CaliperKind { fixed, sliding };
enum class DuctAim { eye, face, caliper };
enum class Mesh { lump, coarse, standard, fine };
[[nodiscard]] constexpr const char* mesh_name(Mesh mesh) {
  constexpr const char* kNames[] = {"lump", "coarse", "standard", "fine"};
  return kNames[static_cast<int>(mesh)];
}

//! The whole car, as far as it decides how much kinetic energy the brakes must take.
struct Car {
  double mass = 0;                    //!< with driver and fuel [kg]
  double front_mass_fraction = 0.5;   //!< share of the weight on the front axle at rest [-]
  double cg_height = 0.45;            //!< [m]
  double wheelbase = 2.5;             //!< [m]
  double tyre_radius = 0.30;          //!< rolling radius [m]
  double drag_area = 0.6;             //!< drag coefficient times frontal area [m2]
  double rolling_resistance = 0.013;  //!< [-]
  double rotating_factor = 1.05;      //!< effective over actual mass, for the spinning parts [-]
  double engine_drag = 350;           //!< engine braking force at the tyres of the driven axle [N]
  Driven driven = Driven::rear;
  double tyre_slip_share = 0.05;  //!< share of the braking power that heats the tyres [-]

  // What the car can do, for a lap that is computed; a session that drives a trace has no use for it.
  double power = 0;                 //!< rated, of the engine; 0 = not given [W]
  double drive_efficiency = 0.88;   //!< share of it that reaches the road [-]
  std::vector<double> gear_tops{};  //!< key `gears.top_speeds`: road speed at the rev limit, rising; may be empty [m/s]
  double full_power_from = 0.85;    //!< key `gears.full_power_from`: share of the rev limit [-]
  double grip = 0;                  //!< of the tyres on the dry road; 0 = not given [-]
  double lift_area = 0;             //!< lift coefficient times area; negative is downforce [m2]
  double braking_share = 0.9;       //!< share of the grip that the driver uses on the brakes [-]
};

struct Vanes {
  int count = 0;
  double thickness = 0;  //!< circumferential thickness of one vane [m]
};

//! The iron friction ring.
struct Ring {
  double outer_diameter = 0;                  //!< [m]
  double inner_diameter = 0;                  //!< [m]
  double thickness = 0;                       //!< over both cheeks, as it is now (worn) [m]
  std::optional<double> minimum_thickness{};  //!< as stamped on the disc [m]
  double swept_inner_diameter = 0;  //!< inner edge of the track that the pads rub; it ends at the outer diameter [m]
  RingKind kind = RingKind::vented;
  double cheek_thickness = 0;  //!< vented only [m]
  Vanes vanes;                 //!< vented only
  std::string material;
  double emissivity = 0.55;    //!< of the rubbed faces [-]
  std::optional<double> mass;  //!< weighed mass; checked against the geometry [kg]
};

//! The hat (bell) that carries the ring: a flange at the bolt circle, a cylindrical wall, a mounting face.
struct Hat {
  std::string material;
  double outer_diameter = 0;    //!< of the bell wall [m]
  double wall_thickness = 0;    //!< [m]
  double flange_thickness = 0;  //!< [m]
  double face_thickness = 0;    //!< of the mounting face at the hub [m]
  double depth = 0;             //!< from flange to the mounting face [m]
  double emissivity = 0.3;      //!< [-]
  std::optional<double> mass;   //!< weighed mass; checked against the geometry [kg]
};

//! How ring and hat are held together.
struct Joint {
  JointKind kind = JointKind::rigid;
  int fasteners = 0;
  double bolt_circle = 0;        //!< diameter [m]
  double fastener_diameter = 0;  //!< [m]
  std::string material;          //!< of the fasteners or bobbins
  double preload = 0;            //!< of one fastener, cold [N]
  double float_clearance = 0;    //!< key `float`: radial clearance each way at 20 degC, centred [m]
  double axial_float = 0;        //!< total axial play at 20 degC [m]
  double slot_gap = 0;           //!< tangential play of a bobbin in its slot at 20 degC, both sides together [m]
  double hole_clearance = 0;     //!< radial clearance of a rigid joint's fastener in its hole [m]
  double grip_friction = 0.15;   //!< between the clamped faces of a rigid joint [-]
  double carrying_share = 1;     //!< share of the fasteners that carry the braking torque [-]
  double lug_root_radius = 0;    //!< fillet where a lug leaves the ring [m]
  JointSurface surface = JointSurface::dry;
  double conductance_scale =
      1;  //!< multiplies what the joint conducts; the knob that readings of the hat calibrate [-]
};

struct Rotor {
  std::string name;
  Ring ring;
  Hat hat;
  Joint joint;
};

//! Friction coefficient against the temperature of the disc's face, at the compound's own reference speed and pressure.
struct FrictionTable {
  std::vector<double> temperature;  //!< rising [K]
  std::vector<double> values;       //!< [-]
};

//! A factor on the friction coefficient against something else; empty = 1 everywhere.
struct FactorTable {
  std::vector<double> at;      //!< rising, SI
  std::vector<double> values;  //!< [-]
};

//! Volume lost by friction work; see models::Wear.
struct PadWear {
  double rate = 0;       //!< pad, while cool [m3/J]
  double ring_rate = 0;  //!< friction ring, while cool [m3/J]
  double onset = 0;      //!< temperature of the disc's face at which wear has doubled [K]
  double doubling = 0;   //!< [K difference]
};

//! What a bedding plan must do to each stop, as temperature of the disc's face.
struct Bedding {
  double band_low = 0, band_high = 0;  //!< the stops should peak in it [K]
  double ceiling = 0;                  //!< no stop may peak above it [K]
};

//! One of the two pads of a wheel.
struct Pads {
  std::string name;
  std::string material;              //!< of the friction layer
  double area = 0;                   //!< rubbing area of one pad [m2]
  double thickness = 0;              //!< friction layer as it is now [m]
  double backing_thickness = 0.005;  //!< [m]
  std::string backing_material;
  std::optional<double> contact{};  //!< pad on ring while applied; network::assumed::kPadContact if unset [W/m2/K]
  double shim_resistance = 0;       //!< extra resistance between backing plate and pistons, times area [m2 K/W]
  FrictionTable friction;
  FactorTable speed_factor{};     //!< against rubbing speed [m/s]
  FactorTable pressure_factor{};  //!< against force over pad area [Pa]
  double reference_friction = 0;  //!< that fade is counted from [-]
  double window_low = 0;          //!< working window of the disc's face temperature [K]
  double window_high = 0;         //!< [K]
  double minimum_thickness = 0;   //!< of the friction layer [m]
  PadWear wear{};
  std::optional<Bedding> bedding{};
};

struct Caliper {
  std::string material;
  double mass = 0;  //!< bare body [kg]
  CaliperKind kind = CaliperKind::fixed;
  int pistons = 0;               //!< in all: both sides of a fixed caliper, the one side of a sliding one
  double piston_diameter = 0;    //!< [m]
  double piston_length = 0.025;  //!< [m]
  double piston_wall = 0.004;    //!< wall of the hollow piston [m]
  std::string piston_material;
  double fluid_volume = 0;  //!< brake fluid inside the caliper [m3]
  double surface_area = 0;  //!< outside surface that the air sees [m2]

  //! Pistons that push one pad: the clamping force is line pressure times their area in either kind, for the body of a
  //! sliding caliper pulls the other pad with the same force.
  [[nodiscard]] double pistons_of_a_pad() const { return kind == CaliperKind::sliding ? pistons : pistons / 2.0; }
};

struct Fluid {
  std::string name;
  double dry_boiling = 0;                                       //!< [K]
  double wet_boiling = 0;                                       //!< [K]
  std::optional<double> age{};                                  //!< since it was filled in fresh [s]
  enum class Judge { wet, dry, aged, own } judge = Judge::wet;  //!< boiling point that the verdict uses
  double own_boiling = 0;                                       //!< measured, used when judge is own [K]
};

struct Cooling {
  double duct_area = 0;  //!< cross-section of the hose, 0 for none [m2]
  DuctAim aim = DuctAim::eye;
  double duct_efficiency = 0.2;  //!< hose air speed over road speed [-]
  bool shield = false;           //!< dust shield behind the inboard face
  double scale = 1;              //!< multiplies every convection coefficient; the calibrated knob [-]
};

//! Time that a hat has spent hot before this session.
struct Soak {
  double temperature = 0;  //!< [K]
  double duration = 0;     //!< [s]
};

//! What the parts of one axle have been through: sessions like this one, and what is known otherwise.
struct Wear {
  int ring_sessions = 0, hat_sessions = 0, fastener_sessions = 0;
  std::vector<Soak> hat_soak;
};

struct History {
  Wear front, rear;
};

//! One wheel's brake; both wheels of the axle carry the same.
struct Brake {
  Rotor rotor;
  Pads pads;
  Caliper caliper;
  Fluid fluid;
  Cooling cooling;
};

//! Pedal, servo, master cylinders, valve; see models::Hydraulics.
struct Hydraulic {
  bool known = false;               //!< cylinder, pedal ratio and servo are the car's own: pedal force means something
  bool separate = false;            //!< one master cylinder per axle and a bias bar; otherwise a tandem
  double master_diameter = 0;       //!< tandem, or front [m]
  double rear_master_diameter = 0;  //!< separate only [m]
  double bias_bar = 0.5;            //!< separate only: share of the push on the front cylinder [-]
  double pedal_ratio = 1;           //!< [-]
  double booster_gain = 1;          //!< [-]
  double booster_assist = 0;        //!< [N]
  double largest_effort = 0;        //!< of the driver, on the pedal [N]
  std::optional<double> valve_pressure{};  //!< rear line [Pa]
  double valve_slope = 0;                  //!< [-]
};

//! What decides the front share: a number, the load transfer, or piston areas, radii and friction.
enum class ShareLaw { fixed, ideal, hydraulic };

struct Brakes {
  double front_share = 0.65;  //!< of the friction-brake force, where the law is fixed [-]
  ShareLaw share_law = ShareLaw::fixed;
  Hydraulic hydraulic{};
  double rise_time = 0.15;  //!< of the brake force, on and off [s]
  double dead_band =
      0.03;  //!< decelerations below this are not braking, as a share of g, where the trace has no brake channel [-]
  double hot_side_factor = 1;  //!< heat of the hotter wheel of an axle over the mean of the two [-]
  Brake front, rear;
};

struct Air {
  double temperature = 297.15;  //!< [K]
  double pressure = 101325;     //!< [Pa]
  double wind = 1;              //!< [m/s]
};

//! A place on the lap with water on the road.
struct WetPatch {
  double from = 0, to = 0;  //!< from the start of the lap [m]
};

struct Initial {
  std::optional<double> everything;    //!< key `default`; the air's temperature if not given [K]
  std::map<std::string, double> node;  //!< by result name (ring_mean, caliper, ...) [K]
};

//! A recorded or drawn speed trace of one lap (or of any drive). Same length everywhere; empty = not there.
struct Trace {
  std::string name;
  std::vector<double> time;      //!< rising; either this or distance is given [s]
  std::vector<double> distance;  //!< rising [m]
  std::vector<double> speed;     //!< [m/s]
  std::vector<double> grade;     //!< rise over run, uphill positive [-]
  std::vector<double> brake;     //!< any brake signal: above `brake_threshold` means on
  double brake_threshold = 0;
};

//! Limits that verdicts are judged against; every one has a default with a reason in the schema.
struct Limits {
  double ring_face = 0;      //!< brief peak of the rubbed face [K]
  double ring_mean = 0;      //!< mean of the ring [K]
  double hat = 0;            //!< hottest point of the hat; unset (0) = by material [K]
  double pad = 0;            //!< disc's face, for the pads; unset (0) = top of the pads' window [K]
  double caliper = 0;        //!< caliper body, for its seals [K]
  double fluid_margin = 0;   //!< to stay below boiling by [K difference]
  double fastener = 0;       //!< unset (0) = by material [K]
  double face_rate = 0;      //!< heating rate of the face over the window below [K/s]
  double rate_window = 0.5;  //!< [s]
  double cooling_rate = 0;   //!< cooling rate of the face over the window, as a positive number [K/s]
  double shock = 0;          //!< tension left in the face by hot yielding, or at the bore, over the iron's strength [-]
  double joint_stress = 0;   //!< stress of fastener, hole or lug over the strength at its temperature [-]
  double preload_left = 0;   //!< least clamping force, hot or cold again, over the force as assembled [-]
  double hat_strength = 0;   //!< least proof strength left by soaking, over that of new metal [-]
  double sessions_left = 0;  //!< least number of further sessions like this one that fatigue leaves [-]
  double most_play = 0;      //!< radial float beyond what the session needs: the pads are knocked back above it [m]
  double pad_print = 0;      //!< mean of the ring when the car comes to rest: hot pads print on it above [K]
  double fade = 0;           //!< loss of friction in one braking against the pad's reference [-]
  double pedal_growth = 0;   //!< more pressure at the same corner than on the first hot lap [-]
  double cold_share = 0;     //!< of the braking time of the hot laps, below the pad's window [-]
  double hot_share = 0;      //!< the same, above it [-]
  double rear_bias = 0;      //!< share of the braking that the rear may take above its share of the weight [-]
  double tyre_grip = 0;      //!< tyre force over weight that the tyres can give [-]
  double near = 0.1;         //!< a margin below this share of (limit - air temperature) is reported as 'near' [-]
};

//! Pins for textbook cases; unset = the full model.
struct Physics {
  std::optional<double> convection;  //!< one constant coefficient on every free face [W/m2/K]
  bool radiation = true;
  bool constant_properties = false;  //!< every property at its 20 degC value
  enum class Partition { contact, effusivity, fixed } partition = Partition::contact;
  double ring_share = 1;                //!< used when partition is fixed [-]
  std::map<std::string, double> links;  //!< link family name (hat_hub, ...) to conductance [W/K]
  Mesh mesh = Mesh::standard;
  enum class PadPressure { uniform_wear, uniform_pressure } pad_pressure = PadPressure::uniform_wear;
};

struct Output {
  double interval = 0.1;         //!< while driving [s]
  double parked_interval = 1.0;  //!< [s]
};

//! A value the config left out, what was used, and why.
struct Assumption {
  std::string key;    //!< full key path
  std::string value;  //!< with unit, as a config would write it
  std::string reason;
};

//! What the parts of a set-up cost, as its config says it.
struct Cost {
  double amount = 0;
  std::string currency;  //!< "EUR", as written; empty when not named
  std::string text;      //!< as written
};

//! All that one run needs.
struct Case {
  std::string name;
  std::optional<Cost> cost;  //!< only shown and compared
  Car car;
  Brakes brakes;
  std::map<std::string, models::Material> materials;
  Air air;
  std::vector<WetPatch> wet_patches;
  Initial initial;
  std::vector<Trace> traces;
  std::vector<Step> session;
  Limits limits;
  CooldownPlans cooldown;
  History history;
  Physics physics;
  Output output;
  std::vector<Assumption> assumptions;
  std::vector<std::string> warnings;  //!< remarks of the reader (weighed mass off, beyond table, ...)

  [[nodiscard]] const Brake& brake(Axle axle) const { return axle == Axle::front ? brakes.front : brakes.rear; }
  [[nodiscard]] const Wear& wear(Axle axle) const { return axle == Axle::front ? history.front : history.rear; }
};

}  // namespace hatring::session
