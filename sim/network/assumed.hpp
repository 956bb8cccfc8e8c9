// SPDX-License-Identifier: MIT
//! \file
//! What the assembly assumes about parts that no driver can measure. Each value is a prior with a band, wide unless a
//! source says otherwise; `hatring explain` lists them. Checked by tests/sim/network/test_origin.cpp.
#pragma once

#include <span>

namespace hatring::network::assumed {

//! A value that carries itself: use it as the number that is likely.
struct Prior {
  double likely, low, high;  //!< low and high bound what is plausible, not what is possible
  const char* name;
  const char* unit;    //!< SI, "1" for a pure number
  const char* reason;  //!< a source, or on what ground
  // Implicit on purpose: a formula reads it as the number it stands for.
  constexpr operator double() const { return likely; }
};

//! Every prior below, in this order.
[[nodiscard]] std::span<const Prior* const> all();

// A table of two-line rows, which the formatter would take apart.
// clang-format off

// Air around the brake
inline constexpr Prior kConvection{
    1.0, 0.67, 1.5, "every convection coefficient together, until readings are fitted", "1",
    "the published laws for one disc lie 4 to 7 times apart; measured levels are met within 15 %, a car adds its own"};
inline constexpr Prior kAirSpeedInWheel{
    0.25, 0.1, 0.5, "air speed over caliper, pads and bell, of the road speed", "1", "judgement"};
inline constexpr Prior kWindInWheel{0.3, 0.1, 0.6, "air speed inside the wheel, of the wind, parked", "1", "judgement"};
inline constexpr Prior kEnclosure{
    0.6, 0.45, 1.0, "natural convection inside the wheel, of that of a free plate", "1",
    "from memory: stationary car discs lose 3 to 5 W/m2/K, which is less than a free plate"};
inline constexpr Prior kCoveredFace{
    0.12, 0.10, 0.15, "share of a ring face that pads and caliper cover", "1", "judgement, by the usual size of pads"};
inline constexpr Prior kShieldedFace{
    0.5, 0.3, 0.8, "cooling left on the inboard face behind a dust shield", "1", "judgement"};
inline constexpr Prior kRoadWeight{
    0.65, 0.5, 0.8, "weight of the road-speed law against the free disc, in their geometric mean", "1",
    "McPhee and Johnson 2008, abstract: the external heat it implies is met within 15 % at its three speeds; either "
    "law alone misses it two-fold or more"};
inline constexpr Prior kVaneFlowFactor{
    0.5, 0.3, 1.0, "air pumped through the vanes, of the ideal flow", "1",
    "judgement; the ideal head velocity is an upper bound (Limpert's form, from memory)"};
inline constexpr Prior kStillPassage{
    0.5, 0.3, 0.8, "share of the vane passages' wall that rising air reaches, parked", "1", "judgement"};
inline constexpr Prior kDuctOnFace{
    0.25, 0.1, 0.5, "share of the inboard face that a duct aimed at it sweeps", "1", "judgement"};
inline constexpr Prior kDuctOnCaliper{
    0.5, 0.3, 0.8, "share of the caliper that a duct aimed at it sweeps", "1", "judgement"};
inline constexpr Prior kWheelAirVolume{
    0.02, 0.01, 0.03, "air held in the wheel", "m3", "judgement, by the room between brake and rim"};
inline constexpr Prior kWheelVentArea{
    0.0075, 0.003, 0.02, "air exchanged by the wheel per metre driven", "m2", "judgement"};
inline constexpr Prior kWheelWindArea{
    0.006, 0.002, 0.02, "air exchanged by the wheel per metre of wind, parked", "m2", "judgement"};
inline constexpr Prior kWheelBuoyantFlow{
    0.004, 0.002, 0.008, "air exchanged by the wheel by buoyancy at 100 K", "m3/s", "judgement"};

// Ring lugs and joint
inline constexpr Prior kVaneMouthEmissivity{
    0.9, 0.8, 0.95, "emissivity of the mouths of the vane passages", "1", "from memory: cavities are near black"};
inline constexpr Prior kLugWidth{
    2.2, 1.8, 3.0, "width of a lug, in fastener diameters", "1", "common practice, no source"};
inline constexpr Prior kLugOverhang{
    1.1, 0.9, 1.5, "lug beyond the bolt circle, in fastener diameters", "1", "common practice, no source"};
inline constexpr Prior kLugShoulder{
    0.1, 0.05, 0.25, "height of a lug that the ring's hoop stress feels, in lug widths", "1",
    "judgement: a narrow lug takes little of it (short shoulders in Peterson's charts, from memory)"};
inline constexpr Prior kFlangeOverhang{
    1.25, 1.0, 1.75, "hat flange beyond the bolt circle, in fastener diameters", "1", "common practice, no source"};
inline constexpr Prior kHeadDiameter{
    1.5, 1.4, 1.8, "head of a fastener, in its diameters", "1", "common practice, no source"};
inline constexpr Prior kFastenerLength{
    2.0, 1.5, 2.5, "fastener with nut and washers, in grip lengths", "1", "common practice, no source"};
inline constexpr Prior kShankShare{
    0.5, 0.1, 0.9, "part of a fastener's grip without thread", "1", "judgement"};
inline constexpr Prior kJointRoughness{
    2.5e-6, 1e-6, 5e-6, "combined rms roughness of the joint's faces", "m", "judgement, turned or milled faces"};
inline constexpr Prior kJointSlope{
    0.15, 0.08, 0.25, "combined mean asperity slope of the joint's faces", "1", "judgement, turned or milled faces"};
inline constexpr Prior kAluminiumHardness{
    1.1e9, 0.9e9, 1.6e9, "micro-hardness of aluminium", "Pa", "from memory"};
inline constexpr Prior kSteelHardness{2.2e9, 1.8e9, 3.5e9, "micro-hardness of iron and steel", "Pa", "from memory"};
inline constexpr Prior kJointReality{
    0.3, 0.1, 1.0, "real bolted joints over clean flat laboratory ones", "1",
    "from memory: bare aluminium on steel passes 2000 to 15000 W/m2/K under the fastener"};
inline constexpr Prior kLooseGap{
    20e-6, 8e-6, 60e-6, "mean gap between lug and flange away from the fastener", "m", "judgement"};
inline constexpr Prior kGasJump{
    0.4e-6, 0.3e-6, 0.5e-6, "temperature jump distance of air near 1 bar", "m", "from memory"};
inline constexpr Prior kGapAirConductivity{
    0.03, 0.026, 0.045, "conductivity of the air in the joint", "W/m/K", "from memory, air at 20 to 300 degC"};
inline constexpr Prior kBobbinContact{800, 300, 1500, "loose bobbin in its slot", "W/m2/K", "from memory, weak"};

// Hat, hub, wheel
inline constexpr Prior kInnerBellAir{
    0.5, 0.2, 0.8, "cooling inside the bell, of that outside it", "1", "judgement"};
inline constexpr Prior kBellSeesOut{
    0.5, 0.3, 0.8, "view factor of hat flange and bell, both sides, to the surroundings", "1", "judgement"};
inline constexpr Prior kHubBoreDiameter{
    0.066, 0.055, 0.075, "hole in the hat's mounting face", "m", "common practice, no source"};
inline constexpr Prior kHubMass{2.5, 1.5, 4.0, "hub and bearing that warm up", "kg", "judgement"};
inline constexpr Prior kHubArea{0.03, 0.015, 0.05, "outside of the hub that the air sees", "m2", "judgement"};
inline constexpr Prior kHatHubContact{
    4000, 1500, 10000, "hat on hub, clamped by the wheel nuts, coated faces", "W/m2/K", "judgement"};
inline constexpr Prior kHatWheelContact{
    2000, 700, 6000, "wheel pad on the hat's face, painted", "W/m2/K", "judgement"};
inline constexpr Prior kHubWheel{8, 3, 20, "hub to upright through the bearing", "W/K", "judgement"};
inline constexpr Prior kWheelMass{9, 6, 14, "wheel centre and upright that warm up", "kg", "judgement"};
inline constexpr Prior kWheelArea{0.5, 0.3, 0.8, "outside of wheel centre and upright", "m2", "judgement"};
inline constexpr Prior kWheelEmissivity{
    0.8, 0.6, 0.95, "emissivity of wheel and upright, painted", "1", "from memory"};

// Pads and caliper
inline constexpr Prior kPadContact{4e4, 1e4, 1e5, "pad on ring while applied", "W/m2/K", "from memory, weak"};
inline constexpr Prior kPadGap{
    250, 80, 600, "released pad to ring", "W/m2/K", "judgement: conduction through about 0.1 mm of air, and radiation"};
inline constexpr Prior kPadPerimeter{
    4.2, 4.0, 5.0, "perimeter of a pad, in square roots of its area", "1", "geometry of a slightly oblong plate"};
inline constexpr Prior kBareBacking{
    0.4, 0.2, 0.7, "share of a backing plate's back that the air sees", "1", "judgement"};
inline constexpr Prior kBackingPiston{
    4000, 1500, 10000, "backing plate on a piston's rim, pressed", "W/m2/K", "judgement"};
inline constexpr Prior kBackingPistonReleased{
    400, 100, 1500, "backing plate on a piston's rim, at rest", "W/m2/K", "judgement: a light touch and an air film"};
inline constexpr Prior kPistonFluid{
    300, 100, 600, "piston to fluid", "W/m2/K", "judgement: natural convection in the bore"};
inline constexpr Prior kFluidCaliper{
    300, 100, 600, "fluid to bore walls", "W/m2/K", "judgement: natural convection in the bore"};
inline constexpr Prior kFluidWall{
    1.5, 1.0, 2.5, "bore walls that the fluid touches, in piston crowns", "1", "judgement"};
inline constexpr Prior kPistonCaliper{
    300, 100, 800, "piston to bore", "W/m2/K", "judgement: over a fluid film and the seals"};
inline constexpr Prior kPadCaliper{0.5, 0.2, 1.5, "one backing plate at its abutments", "W/K", "judgement"};
inline constexpr Prior kCaliperUpright{3, 1, 8, "caliper to upright, two bolts", "W/K", "judgement"};
inline constexpr Prior kCaliperSeesRing{
    0.25, 0.1, 0.5, "view factor of caliper and pad edges to the ring", "1", "judgement"};
inline constexpr Prior kCaliperEmissivity{
    0.8, 0.6, 0.95, "emissivity of the caliper, painted or anodised", "1", "from memory"};

// What a config gives or leaves to its default, and how far off that may be: factors on it, for the full band. A key
// that stands in the config counts as given by somebody who knows; one that was left out has the wide band.
inline constexpr Prior kFaceEmissivity{
    0.55, 0.3, 0.8, "emissivity of rubbed faces, where left out", "1", "top of 0.3 to 0.55 for swept iron, from memory"};
inline constexpr Prior kHatEmissivity{
    1.0, 0.6, 1.5, "emissivity of a hat over that of its material, where left out", "1", "judgement: surfaces vary"};
inline constexpr Prior kGivenEmissivity{
    1.0, 0.85, 1.15, "real emissivity over the one given", "1", "judgement: read from a table for the same finish"};
inline constexpr Prior kGivenCooling{
    1.0, 0.88, 1.14, "real convection over that of the cooling scale given", "1",
    "judgement: fitted to readings of another day"};
inline constexpr Prior kGivenJoint{
    1.0, 0.75, 1.33, "real conductance of a joint over that of the scale given", "1",
    "judgement: fitted to readings, but torque and faces change"};
inline constexpr Prior kGivenPadContact{
    1.0, 0.7, 1.4, "real pad contact over the one given", "1", "judgement: fitted to readings of the disc's face"};
inline constexpr Prior kFrontShare{
    1.0, 0.9, 1.1, "real front brake share over the default", "1", "judgement: cars differ"};
inline constexpr Prior kGivenFrontShare{
    1.0, 0.96, 1.04, "real front brake share over the one given", "1",
    "judgement: worked out from pistons and pads; the friction of two axles is never quite alike"};
inline constexpr Prior kFrontFriction{
    1.0, 0.9, 1.1, "friction of the front pads against the rear ones, of that of their curves", "1",
    "from memory: batches and bedding move a curve by about a tenth"};
inline constexpr Prior kCarMass{
    1.0, 0.96, 1.06, "real mass over the one given", "1",
    "judgement: papers leave out driver, fuel and what was added; name it as known once the car is weighed"};
inline constexpr Prior kFluidAge{
    1.0, 0.7, 1.6, "age by which fluid has taken up its water, over the one given", "1",
    "from memory, weak: 2 to 3 % a year, by climate and hoses"};

// clang-format on

}  // namespace hatring::network::assumed
