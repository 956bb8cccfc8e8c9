// SPDX-License-Identifier: MIT
//! \file
//! What the assembly assumes about parts that no driver can measure. Each value is a prior, wide unless said otherwise;
//! `hatring explain` lists them. Common practice or judgement, no source, unless one is named.
#pragma once

namespace hatring::network::assumed {

// Air around the brake
inline constexpr double kAirSpeedInWheel = 0.25;      //!< of road speed, over caliper, pads and bell [-]
inline constexpr double kWindInWheel = 0.3;           //!< of the wind, parked [-]
inline constexpr double kEnclosure = 0.6;             //!< wheel around natural convection; 0.45 to 1.0 [-]
inline constexpr double kCoveredFace = 0.12;          //!< of a ring face, by pads and caliper; 0.10 to 0.15 [-]
inline constexpr double kShieldedFace = 0.5;          //!< left of the inboard face's cooling behind a dust shield [-]
inline constexpr double kVaneFlowFactor = 0.5;        //!< pumped over ideal vane flow; 0.3 to 1 [-]
inline constexpr double kWheelAirVolume = 0.02;       //!< [m3]
inline constexpr double kWheelVentArea = 0.0075;      //!< air exchanged per metre driven [m2]
inline constexpr double kWheelWindArea = 0.006;       //!< air exchanged per metre of wind, parked [m2]
inline constexpr double kWheelBuoyantFlow = 0.004;    //!< air exchanged by buoyancy at 100 K [m3/s]

// Ring lugs and joint
inline constexpr double kLugWidth = 2.2;              //!< in fastener diameters [-]
inline constexpr double kLugOverhang = 1.1;           //!< lug beyond the bolt circle, in fastener diameters [-]
inline constexpr double kHeadDiameter = 1.5;          //!< of the fastener, in its diameters [-]
inline constexpr double kFastenerLength = 2.0;        //!< with nut and washers, in grip lengths [-]
inline constexpr double kJointRoughness = 2.5e-6;     //!< combined rms [m]
inline constexpr double kJointSlope = 0.15;           //!< combined mean asperity slope [-]
inline constexpr double kAluminiumHardness = 1.1e9;   //!< micro-hardness of the softer face [Pa]
inline constexpr double kSteelHardness = 2.2e9;       //!< [Pa]
inline constexpr double kJointReality = 0.3;          //!< real bolted joints over clean flat laboratory ones [-]
inline constexpr double kBobbinContact = 800;         //!< loose bobbin in its slot; 300 to 1500 [W/m2/K]

// Hat, hub, wheel
inline constexpr double kHubBoreDiameter = 0.066;     //!< hole in the hat's mounting face [m]
inline constexpr double kHubMass = 2.5;               //!< hub and bearing [kg]
inline constexpr double kHatHubContact = 4000;        //!< clamped by the wheel nuts, coated faces [W/m2/K]
inline constexpr double kHatWheelContact = 2000;      //!< wheel pad on the hat's face, painted [W/m2/K]
inline constexpr double kHubWheel = 8;                //!< hub to upright through the bearing [W/K]
inline constexpr double kWheelMass = 9;               //!< wheel centre and upright that warm up [kg]
inline constexpr double kWheelArea = 0.5;             //!< their outside [m2]

// Pads and caliper
inline constexpr double kPadContact = 4e4;            //!< pad on ring while applied; 1e4 to 1e5 [W/m2/K]
inline constexpr double kPadGap = 250;                //!< released pad to ring: air film and radiation [W/m2/K]
inline constexpr double kBackingPiston = 4000;        //!< backing plate on a piston's rim, pressed [W/m2/K]
inline constexpr double kBackingPistonReleased = 400; //!< the same at rest: light touch and air film [W/m2/K]
inline constexpr double kPistonFluid = 300;           //!< piston to fluid, natural convection in the bore [W/m2/K]
inline constexpr double kFluidCaliper = 300;          //!< fluid to bore walls [W/m2/K]
inline constexpr double kPistonCaliper = 300;         //!< piston to bore over fluid film and seals [W/m2/K]
inline constexpr double kPadCaliper = 0.5;            //!< one backing plate at its abutments [W/K]
inline constexpr double kCaliperUpright = 3;          //!< two bolts [W/K]
inline constexpr double kCaliperSeesRing = 0.25;      //!< view factor of caliper and pad edges to the ring [-]
inline constexpr double kCaliperEmissivity = 0.8;     //!< painted or anodised [-]

}  // namespace hatring::network::assumed
