// SPDX-License-Identifier: MIT
#include "sim/network/assumed.hpp"

namespace hatring::network::assumed {
namespace {

constexpr const Prior* kAll[] = {
    &kConvection,
    &kAirSpeedInWheel,
    &kWindInWheel,
    &kEnclosure,
    &kCoveredFace,
    &kShieldedFace,
    &kRoadWeight,
    &kVaneFlowFactor,
    &kStillPassage,
    &kDuctOnFace,
    &kDuctOnCaliper,
    &kWheelAirVolume,
    &kWheelVentArea,
    &kWheelWindArea,
    &kWheelBuoyantFlow,
    &kVaneMouthEmissivity,
    &kLugWidth,
    &kLugOverhang,
    &kLugShoulder,
    &kFlangeOverhang,
    &kHeadDiameter,
    &kFastenerLength,
    &kShankShare,
    &kJointRoughness,
    &kJointSlope,
    &kAluminiumHardness,
    &kSteelHardness,
    &kJointReality,
    &kLooseGap,
    &kGasJump,
    &kGapAirConductivity,
    &kBobbinContact,
    &kInnerBellAir,
    &kBellSeesOut,
    &kHubBoreDiameter,
    &kHubMass,
    &kHubArea,
    &kHatHubContact,
    &kHatWheelContact,
    &kHubWheel,
    &kWheelMass,
    &kWheelArea,
    &kWheelEmissivity,
    &kPadContact,
    &kPadGap,
    &kPadPerimeter,
    &kBareBacking,
    &kBackingPiston,
    &kBackingPistonReleased,
    &kPistonFluid,
    &kFluidCaliper,
    &kFluidWall,
    &kPistonCaliper,
    &kPadCaliper,
    &kCaliperUpright,
    &kCaliperSeesRing,
    &kCaliperEmissivity,
    &kFaceEmissivity,
    &kHatEmissivity,
    &kGivenEmissivity,
    &kGivenCooling,
    &kGivenJoint,
    &kGivenPadContact,
    &kFrontShare,
    &kGivenFrontShare,
    &kFrontFriction,
    &kCarMass,
    &kFluidAge,
};

}  // namespace

std::span<const Prior* const> all() {
  return kAll;
}

}  // namespace hatring::network::assumed
