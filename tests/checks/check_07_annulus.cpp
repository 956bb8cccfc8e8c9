// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>

#include "models/thermal_stress.hpp"

using namespace hatring::models;

namespace {

constexpr double kBore = 0.095, kOuter = 0.155, kModulus = 110e9, kExpansion = 12e-6, kTolerance = 0.005;

// Hoop stress at a radius for a temperature profile, on nodes from edge to edge.
template <class Profile>
double hoop(double radius, const Profile& rise) {
  constexpr int kNodes = 121;
  std::vector<double> at, strain;
  for (int i = 0; i < kNodes; ++i) {
    at.push_back(std::min(kOuter, kBore + (kOuter - kBore) * i / (kNodes - 1)));
    strain.push_back(kExpansion * rise(at.back()));
  }
  const std::vector<double> weights = AnnulusStress(kBore, kOuter, at).hoop_weights(radius);
  return kModulus * std::inner_product(weights.begin(), weights.end(), strain.begin(), 0.0);
}

}  // namespace

TEST_CASE(
    "check 7: annulus 95/155 mm with the bore 100 K hotter: bore -71.28 and outer edge +60.72 MPa for a straight "
    "profile and -76.60 and +55.40 MPa for a logarithmic one (Timoshenko and Goodier: original not read)") {
  const auto straight = [](double r) { return 100 * (kOuter - r) / (kOuter - kBore); };
  const auto logarithmic = [](double r) { return 100 * std::log(kOuter / r) / std::log(kOuter / kBore); };
  CHECK(hoop(kBore, straight) == Approx(-71.28e6).epsilon(kTolerance));
  CHECK(hoop(kOuter, straight) == Approx(60.72e6).epsilon(kTolerance));
  CHECK(hoop(kBore, logarithmic) == Approx(-76.60e6).epsilon(kTolerance));
  CHECK(hoop(kOuter, logarithmic) == Approx(55.40e6).epsilon(kTolerance));
  // Braking makes the outside the hotter one: the signs turn.
  CHECK(hoop(kBore, [&](double r) { return -straight(r); }) == Approx(71.28e6).epsilon(kTolerance));
}

TEST_CASE(
    "check 7: aluminium flange 70/95 mm forced 0.1 mm into an iron ring 95/155 mm: pressure 15.81 - ring bore +34.82 - "
    "flange bore -69.16 - flange rim -53.36 MPa (Lame as in Timoshenko and Goodier: original not read)") {
  const Interference fit = lame_interference({kBore, kOuter, kModulus, 0.26}, {0.070, kBore, 68.9e9, 0.33}, 0.1e-3);
  CHECK(fit.pressure == Approx(15.81e6).epsilon(kTolerance));
  CHECK(fit.ring_bore_hoop == Approx(34.82e6).epsilon(kTolerance));
  CHECK(fit.flange_bore_hoop == Approx(-69.16e6).epsilon(kTolerance));
  CHECK(fit.flange_rim_hoop == Approx(-53.36e6).epsilon(kTolerance));
}
