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
  cold_ = properties(iron_.youngs_modulus(models::kReferenceTemperature),
                     iron_.proof_strength(models::kReferenceTemperature));
  cold_strength_ = iron_.ultimate_strength(models::kReferenceTemperature);

  std::vector<double> centres;
  for (const network::RingBand& band : network.ring_bands) {
    centres.push_back(0.5 * (band.inner + band.outer));
    means_.add(band.mean);
  }
  for (const network::Weights& cheek : network.cheeks) means_.add(cheek);
  const double bore = network.ring_bands.front().inner;
  bore_weights_ = models::AnnulusStress(bore, network.ring_bands.back().outer, centres).hoop_weights(bore);
  const session::Ring& ring = c.brake(axle).rotor.ring;
  const double plate = ring.kind == session::RingKind::vented ? ring.cheek_thickness : ring.thickness / 2;
  unit_coning_ =
      models::coning(1, 0, plate, plate, ring.thickness - 2 * plate, ring.inner_diameter / 2, ring.outer_diameter / 2)
          .outer_movement;
}

models::ConstrainedFibre::Properties RingStressRecorder::properties(double modulus, double proof) const {
  return {.stiffness = modulus / (1 - iron_.poisson),
          .tensile_yield = proof,
          .compressive_yield = iron_.compressive_ratio * proof};
}

solve::Series RingStressRecorder::bore_hoop(const Eigen::ArrayXXd& bands) const {
  solve::Series strains = solve::Series::Zero(bands.rows()), hottest = bands.col(0);
  for (std::size_t i = 0; i < bore_weights_.size(); ++i) {
    const auto band = bands.col(static_cast<Eigen::Index>(i));
    strains += bore_weights_[i] * strain(*strain_, band);
    hottest = hottest.max(band);
  }
  // One modulus over the body: that of the hottest band would be too low at the bore, that of the bore too high.
  return along(iron_.youngs_modulus, 0.5 * (bands.col(0) + hottest)) * strains;
}

RingStressRecorder::Side RingStressRecorder::side(const solve::Series& face, const solve::Series& cheek,
                                                  models::ConstrainedFibre& fibre) const {
  Side out;
  out.cheek = strain(*strain_, cheek);
  out.stress.resizeLike(face);
  out.residual.resizeLike(face);
  out.denied = out.cheek - strain(*strain_, face);
  const solve::Series modulus = along(iron_.youngs_modulus, face), proof = along(iron_.proof_strength, face);
  for (Eigen::Index i = 0; i < face.size(); ++i) {
    out.stress[i] = fibre.step(out.denied[i], properties(modulus[i], proof[i]));
    out.residual[i] = fibre.residual(cold_);
  }
  out.used = out.stress.max(0) / along(iron_.ultimate_strength, face);
  return out;
}

void RingStressRecorder::observe(const Moments& rows) {
  if (!applicable_) return;
  means_.find(rows.node, mean_);
  const auto bands = static_cast<Eigen::Index>(bore_weights_.size());
  const solve::Series hoop = bore_hoop(mean_), root = concentration_ * hoop;
  const auto outer = mean_.col(bands), inner = mean_.col(bands + 1);
  const auto outer_face = rows.face.col(0), inner_face = rows.face.col(1);
  // The sides of a disc in a fixed caliper: what holds for one holds for both.
  const bool alike = (outer_face == inner_face).all() && (outer == inner).all() && fibre_[0] == fibre_[1];
  const Side a = side(outer_face, outer, fibre_[0]);
  if (alike) fibre_[1] = fibre_[0];
  const Side b = alike ? a : side(inner_face, inner, fibre_[1]);
  const solve::Series residual = a.residual.max(b.residual);
  columns_.append(bore_hoop_, hoop);
  columns_.append(lug_root_, root);
  columns_.append(face_hoop_, a.stress.max(b.stress));
  columns_.append(face_strain_, (b.denied.abs() > a.denied.abs()).select(b.denied, a.denied));
  columns_.append(over_, (outer_face - outer).max(inner_face - inner));
  columns_.append(residual_, residual);
  columns_.append(utilisation_, (root.max(0) / along(iron_.ultimate_strength, mean_.col(0)))
                                    .max(a.used)
                                    .max(b.used)
                                    .max(residual.max(0) / cold_strength_));
  columns_.append(coning_, unit_coning_ * (a.cheek - b.cheek));
}

}  // namespace hatring::answer
