// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <numeric>

#include "models/thermal_stress.hpp"

using namespace hatring::models;
using Catch::WithinAbs;
using Catch::WithinRel;

namespace {

constexpr double kBore = 0.095, kOuter = 0.155, kModulus = 110e9;

std::vector<double> band_centres(int bands) {
  std::vector<double> centres;
  for (int i = 0; i < bands; ++i) centres.push_back(kBore + (kOuter - kBore) * (i + 0.5) / bands);
  return centres;
}

// 100 K at 12e-6 from outer edge to bore.
std::vector<double> straight(const std::vector<double>& centres) {
  std::vector<double> strain;
  strain.reserve(centres.size());
  for (const double r : centres) strain.push_back(1.2e-3 * (kOuter - r) / (kOuter - kBore));
  return strain;
}

double stress(const std::vector<double>& weights, const std::vector<double>& strain) {
  return kModulus * std::inner_product(weights.begin(), weights.end(), strain.begin(), 0.0);
}

}  // namespace

TEST_CASE("annulus: an even strain makes no stress at any radius", "[stress]") {
  const AnnulusStress annulus(kBore, kOuter, band_centres(5));
  for (const double r : {kBore, 0.1, 0.11, 0.149, kOuter}) {
    const auto hoop = annulus.hoop_weights(r), radial = annulus.radial_weights(r);
    CHECK_THAT(std::accumulate(hoop.begin(), hoop.end(), 0.0), WithinAbs(0, 1e-12));
    CHECK_THAT(std::accumulate(radial.begin(), radial.end(), 0.0), WithinAbs(0, 1e-12));
  }
  CHECK(AnnulusStress(kBore, kOuter, {0.12}).hoop_weights(kBore).at(0) == Approx(0).margin(1e-12));
}

TEST_CASE("annulus: free edges and rings in equilibrium: d(r sigma_r)/dr = sigma_hoop", "[stress]") {
  const std::vector<double> centres = band_centres(6);
  const AnnulusStress annulus(kBore, kOuter, centres);
  const std::vector<double> strain{1e-3, 4e-3, 2e-3, 5e-3, 3e-3, 1e-3};
  const auto radial = [&](double r) { return stress(annulus.radial_weights(r), strain); };
  CHECK_THAT(radial(kBore), WithinAbs(0, 1));
  CHECK_THAT(radial(kOuter), WithinAbs(0, 1));
  constexpr double kStep = 1e-6;
  for (const double r : {0.099, 0.112, 0.127, 0.14, 0.152}) {
    const double slope = ((r + kStep) * radial(r + kStep) - (r - kStep) * radial(r - kStep)) / (2 * kStep);
    CHECK_THAT(slope, WithinRel(stress(annulus.hoop_weights(r), strain), 1e-4));
  }
}

TEST_CASE("annulus: bands that are held to the edges read a straight profile low by a fifth of 5 or a tenth of 9",
          "[stress]") {
  const auto bore = [](int bands) {
    const std::vector<double> centres = band_centres(bands);
    return stress(AnnulusStress(kBore, kOuter, centres).hoop_weights(kBore), straight(centres));
  };
  const double exact = -71.28e6;
  CHECK(bore(5) / exact == Approx(0.81).margin(0.02));
  CHECK(bore(9) / exact == Approx(0.895).margin(0.02));
  CHECK(bore(201) / exact == Approx(1).margin(0.006));
}

TEST_CASE("annulus: nonsense is refused", "[stress]") {
  CHECK_THROWS_AS(AnnulusStress(0.1, 0.09, {0.095}), std::invalid_argument);
  CHECK_THROWS_AS(AnnulusStress(kBore, kOuter, {}), std::invalid_argument);
  CHECK_THROWS_AS(AnnulusStress(kBore, kOuter, {0.12, 0.11}), std::invalid_argument);
  CHECK_THROWS_AS(AnnulusStress(kBore, kOuter, {0.09, 0.11}), std::invalid_argument);
}

TEST_CASE("face: 100 K over the cheek gives 178 MPa of compression (E alpha dT/(1-nu) by hand)", "[stress]") {
  CHECK_THAT(face_stress(110e9, 0.26, 0, 100 * 12e-6), WithinRel(-178.38e6, 1e-3));
  CHECK(face_stress(110e9, 0.26, 1e-3, 0) > 0);
}

TEST_CASE("fibre: below yield it comes back without a trace", "[stress]") {
  ConstrainedFibre fibre;
  const ConstrainedFibre::Properties iron{100e9, 150e6, 300e6};
  CHECK_THAT(fibre.step(-0.002, iron), WithinRel(-200e6, 1e-12));
  CHECK(fibre.plastic_strain() == 0);
  CHECK(fibre.step(0, iron) == 0);
  CHECK(fibre.residual(iron) == 0);
}

TEST_CASE("fibre: 0.5 % of squeeze at 300 MPa leaves tension up to yield (elastic-perfectly-plastic by hand)",
          "[stress]") {
  ConstrainedFibre fibre;
  const ConstrainedFibre::Properties iron{100e9, 150e6, 300e6};
  CHECK_THAT(fibre.step(-0.004, iron), WithinRel(-300e6, 1e-12));
  CHECK_THAT(fibre.plastic_strain(), WithinRel(-0.001, 1e-9));
  CHECK_THAT(fibre.residual(iron), WithinRel(100e6, 1e-9));
  fibre.step(-0.005, iron);
  CHECK_THAT(fibre.residual(iron), WithinRel(150e6, 1e-12));  // 200 MPa would be left, it yields at 150
  CHECK_THAT(fibre.step(0, iron), WithinRel(150e6, 1e-12));
  CHECK_THAT(fibre.plastic_strain(), WithinRel(-0.0015, 1e-9));
  // From now on the same squeeze is elastic: shakedown.
  CHECK_THAT(fibre.step(-0.0045, iron), WithinRel(-300e6, 1e-9));
  CHECK_THAT(fibre.step(0, iron), WithinRel(150e6, 1e-9));
}

TEST_CASE("fibre: weak while hot and stiff when cold leaves more than the hot stress says", "[stress]") {
  ConstrainedFibre fibre;
  const ConstrainedFibre::Properties hot{80e9, 60e6, 120e6}, cold{110e9, 165e6, 325e6};
  CHECK_THAT(fibre.step(-0.0025, hot), WithinRel(-120e6, 1e-12));
  CHECK_THAT(fibre.residual(cold), WithinRel(110e6, 1e-9));  // (0.0025 - 0.0015) * 110 GPa
  CHECK_THROWS_AS(fibre.step(0, {0, 1, 1}), std::invalid_argument);
}

TEST_CASE("thick rings: growth times modulus is the hoop strain of Lame's stresses", "[stress]") {
  const ThickRing ring{kBore, kOuter, kModulus, 0.26}, flange{0.070, kBore, 68.9e9, 0.33};
  const Interference fit = lame_interference(ring, flange, 0.1e-3);
  const double bore_strain = (fit.ring_bore_hoop + 0.26 * fit.pressure) / kModulus;
  const double rim_strain = (fit.flange_rim_hoop + 0.33 * fit.pressure) / 68.9e9;
  CHECK_THAT(kBore * (bore_strain - rim_strain), WithinRel(0.1e-3, 1e-12));
  CHECK_THAT(bore_compliance(ring) * fit.pressure, WithinRel(kBore * bore_strain, 1e-12));
  CHECK_THAT(bore_stiffness(ring, 0.008) * bore_compliance(ring),
             WithinRel(2 * std::numbers::pi * kBore * 0.008, 1e-12));
  CHECK_THAT(rim_stiffness(flange, 0.008) * rim_compliance(flange),
             WithinRel(2 * std::numbers::pi * kBore * 0.008, 1e-12));
  CHECK(lame_interference(ring, flange, -1e-4).pressure == 0);
  CHECK(lame_interference(ring, {0, kBore, 68.9e9, 0.33}, 1e-4).flange_bore_hoop < 0);
  CHECK_THROWS_AS(lame_interference(ring, {0.05, 0.07, 68.9e9, 0.33}, 1e-4), std::invalid_argument);
  CHECK_THROWS_AS(bore_compliance({0.1, 0.1, kModulus, 0.3}), std::invalid_argument);
}

TEST_CASE("coning: a solid plate of two equal layers bends by 3/2 of the strain over its thickness (Timoshenko 1925)",
          "[stress]") {
  const Coning solid = coning(1e-3, 0, 0.005, 0.005, 0, kBore, kOuter);
  CHECK_THAT(solid.curvature, WithinRel(1.5 * 1e-3 / 0.010, 1e-12));
  CHECK_THAT(solid.slope, WithinRel(-0.15 * kOuter, 1e-12));
  CHECK_THAT(solid.outer_movement, WithinRel(-0.15 * (kOuter * kOuter - kBore * kBore) / 2, 1e-12));
  // Far apart, the cheeks set the curvature by their distance alone.
  CHECK_THAT(coning(1e-3, 0, 0.001, 0.001, 0.099, kBore, kOuter).curvature, WithinRel(1e-3 / 0.1, 1e-3));
  CHECK(coning(0, 1e-3, 0.007, 0.007, 0.012, kBore, kOuter).outer_movement > 0);
  CHECK(coning(1e-3, 1e-3, 0.006, 0.008, 0.012, kBore, kOuter).outer_movement == 0);
  CHECK_THROWS_AS(coning(0, 0, 0, 0.005, 0, kBore, kOuter), std::invalid_argument);
}

TEST_CASE("concentration and shock numbers (Inglis and Kingery by hand)", "[stress]") {
  CHECK_THAT(notch_concentration(0.004, 0.001), WithinRel(5.0, 1e-12));
  CHECK(notch_concentration(0.002, 0.002) == kHoleConcentration);  // a half-circle is half a hole
  CHECK_THROWS_AS(notch_concentration(0.001, 0), std::invalid_argument);
  CHECK_THAT(biot_number(500, 0.007, 50), WithinRel(0.07, 1e-12));
  CHECK_THAT(shock_resistance(250e6, 0.26, 110e9, 11.7e-6), WithinRel(143.7, 1e-3));
  CHECK(utilisation(-50e6, 100e6) == 0.5);
  CHECK(std::isinf(utilisation(1, 0)));
}

TEST_CASE("thermal stress: iron feels a fifth of a stress peak", "[thermal_stress]") {
  CHECK_THAT(felt_concentration(3, kIronNotchSensitivity), WithinRel(1.4, 1e-12));
  CHECK(felt_concentration(2.5, 0) == 1);
  CHECK(felt_concentration(2.5, 1) == 2.5);
  CHECK_THROWS_AS(felt_concentration(2.5, 1.1), std::invalid_argument);
}
