// SPDX-License-Identifier: MIT
#include "sim/answer/ring_stress_recorder.hpp"

#include <algorithm>
#include <cmath>

#include "sim/network/assumed.hpp"
#include "sim/network/joint_geometry.hpp"

namespace hatring::answer {
namespace {

// Fewer bands flatten the radial profile, and the stress that lives on it is gone.
constexpr std::size_t kLeastBands = 4;

// Peak over nominal hoop stress where the joint meets the ring's bore, as far as iron feels it.
double concentration(const session::Rotor& rotor) {
  if (rotor.joint.kind == session::JointKind::one_piece) return 1;
  const network::JointGeometry at = network::joint_geometry(rotor);
  const double peak =
      at.bolt_radius > at.bore_radius
          ? models::kHoleConcentration
          : models::notch_concentration(network::assumed::kLugShoulder * at.lug_width, rotor.joint.lug_root_radius);
  return models::felt_concentration(peak, models::kIronNotchSensitivity);
}

}  // namespace

RingStressRecorder::RingStressRecorder(const session::Case& c, session::Axle axle, const network::Network& network,
                                       Columns& columns)
    : iron_(c.materials.at(c.brake(axle).rotor.ring.material)),
      columns_(columns),
      applicable_(network.ring_bands.size() >= kLeastBands &&
                  network.strains.contains(c.brake(axle).rotor.ring.material) && !iron_.youngs_modulus.empty() &&
                  !iron_.proof_strength.empty() && !iron_.ultimate_strength.empty()),
      ring_(c.brake(axle).rotor.ring),
      concentration_(concentration(c.brake(axle).rotor)) {
  bore_hoop_ =
      columns.add("stress", "bore_hoop", "Pa", "Hoop stress at the ring's bore, tension positive", !applicable_);
  lug_root_ =
      columns.add("stress", "lug_root", "Pa",
                  "Peak hoop stress where lugs or holes meet the bore, stress concentration included", !applicable_);
  face_hoop_ = columns.add("stress", "face_hoop", "Pa",
                           "Stress of the friction face that is in more tension, yielding included", !applicable_);
  face_strain_ =
      columns.add("stress", "face_strain", "1",
                  "Strain that the more strained face is denied by its cheek, negative when squeezed", !applicable_);
  over_ = columns.add("stress", "face_over_cheek", "K", "Hotter face above the mean of its cheek, a difference",
                      !applicable_);
  residual_ =
      columns.add("stress", "face_residual", "Pa",
                  "Tension that yielding so far would leave in a face once the ring is evenly cold", !applicable_);
  utilisation_ = columns.add("stress", "utilisation", "1",
                             "Largest tension at bore, lug root or face over the iron's strength at its temperature",
                             !applicable_);
  coning_ = columns.add(
      "joint", "coning", "m",
      "Axial movement of the ring's outer edge against its bore, outboard positive, cheeks unevenly hot", !applicable_);
  if (!applicable_) return;
  strain_ = &network.strains.at(c.brake(axle).rotor.ring.material);
  cold_ = properties(models::kReferenceTemperature);
  cold_strength_ = iron_.ultimate_strength(models::kReferenceTemperature);

  std::vector<double> centres;
  for (const network::RingBand& band : network.ring_bands) {
    centres.push_back(0.5 * (band.inner + band.outer));
    means_.add(band.mean);
  }
  for (const network::Weights& cheek : network.cheeks) means_.add(cheek);
  const double bore = network.ring_bands.front().inner;
  bore_weights_ = models::AnnulusStress(bore, network.ring_bands.back().outer, centres).hoop_weights(bore);
  band_strain_.resize(centres.size());
}

models::ConstrainedFibre::Properties RingStressRecorder::properties(double t) const {
  const double proof = iron_.proof_strength(t);
  return {.stiffness = iron_.youngs_modulus(t) / (1 - iron_.poisson),
          .tensile_yield = proof,
          .compressive_yield = iron_.compressive_ratio * proof};
}

void RingStressRecorder::observe(const Snapshot& now) {
  if (!applicable_) return;
  means_.find(now.node);
  const std::size_t bands = band_strain_.size();
  double hottest_band = 0;
  for (std::size_t i = 0; i < bands; ++i) {
    band_strain_[i] = (*strain_)(means_[i]);
    hottest_band = std::max(hottest_band, means_[i]);
  }
  // One modulus over the body: that of the hottest band would be too low at the bore, that of the bore too high.
  const double bore = means_[0];
  const double modulus = iron_.youngs_modulus(0.5 * (bore + hottest_band));
  const double hoop = models::weighted_stress(modulus, bore_weights_, band_strain_);
  const double root = concentration_ * hoop;
  double cheek[2], worst = -1e300, residual = -1e300, strain = 0,
                   used = std::max(0.0, root) / iron_.ultimate_strength(bore);
  double over = -1e300;
  // The sides of a disc in a fixed caliper: what holds for one holds for both.
  const bool alike = now.face[0] == now.face[1] && means_[bands] == means_[bands + 1] && fibre_[0] == fibre_[1];
  for (const std::size_t s : {0U, 1U}) {
    if (s == 1 && alike) {
      cheek[1] = cheek[0];
      fibre_[1] = fibre_[0];
      break;
    }
    const double face = now.face[s], below = means_[bands + s];
    cheek[s] = (*strain_)(below);
    over = std::max(over, face - below);
    const double denied = cheek[s] - (*strain_)(face);
    const double stress = fibre_[s].step(denied, properties(face));
    if (std::abs(denied) > std::abs(strain)) strain = denied;
    worst = std::max(worst, stress);
    residual = std::max(residual, fibre_[s].residual(cold_));
    used = std::max(used, std::max(0.0, stress) / iron_.ultimate_strength(face));
  }
  used = std::max(used, std::max(0.0, residual) / cold_strength_);
  columns_.push(bore_hoop_, hoop);
  columns_.push(lug_root_, root);
  columns_.push(face_hoop_, worst);
  columns_.push(face_strain_, strain);
  columns_.push(over_, over);
  columns_.push(residual_, residual);
  columns_.push(utilisation_, used);
  const double plate = ring_.kind == session::RingKind::vented ? ring_.cheek_thickness : ring_.thickness / 2;
  columns_.push(coning_, models::coning(cheek[0], cheek[1], plate, plate, ring_.thickness - 2 * plate,
                                        ring_.inner_diameter / 2, ring_.outer_diameter / 2)
                             .outer_movement);
}

}  // namespace hatring::answer
