// SPDX-License-Identifier: MIT
#include "sim/answer/joint_load_recorder.hpp"

#include <cmath>
#include <limits>

#include "models/joint.hpp"
#include "models/thermal_stress.hpp"
#include "sim/network/assumed.hpp"

namespace hatring::answer {
namespace {

using session::JointKind;

bool has_strength(const models::Material& m) {
  return !m.youngs_modulus.empty() && !m.proof_strength.empty() && !m.ultimate_strength.empty() &&
         !m.mean_expansion.empty();
}

// A one-piece disc has neither hat nor fasteners of their own; the ring stands in for them, unused.
const models::Material& material(const session::Case& c, const session::Rotor& rotor, const std::string& name) {
  return c.materials.at(rotor.joint.kind == JointKind::one_piece ? rotor.ring.material : name);
}

}  // namespace

JointLoadRecorder::JointLoadRecorder(const session::Case& c, session::Axle axle, const network::Network& network,
                                     Columns& columns)
    : car_(c.car),
      rotor_(c.brake(axle).rotor),
      iron_(c.materials.at(rotor_.ring.material)),
      hat_(material(c, rotor_, rotor_.hat.material)),
      bolt_(material(c, rotor_, rotor_.joint.material)),
      columns_(columns),
      at_(network::joint_geometry(rotor_)),
      applicable_(rotor_.joint.kind != JointKind::one_piece && has_strength(iron_) && has_strength(hat_) &&
                  has_strength(bolt_)),
      rigid_(applicable_ && rotor_.joint.kind == JointKind::rigid),
      ring_probe_(probe_index(network, "ring_mean")),
      lug_probe_(probe_index(network, "ring_lug")),
      flange_probe_(probe_index(network, "hat_flange")),
      fastener_probe_(probe_index(network, "fastener")) {
  const auto add = [&](const char* group, const char* name, const char* unit, const char* long_name, bool applies) {
    return columns.add(group, name, unit, long_name, !applies);
  };
  load_ = add("joint", "fastener_load", "N", "Load across the joint at the hardest-worked fastener", applicable_);
  carried_ =
      add("joint", "fastener_carried", "N", "Part of that load that bears on fastener, holes and lug", applicable_);
  slip_ = add("joint", "slip", "m", "Slip of the clamped faces from where they were assembled", rigid_);
  clamp_ = add("joint", "preload", "N", "Clamping force of one fastener", rigid_);
  clamp_cold_ = add("joint", "preload_cold", "N", "Clamping force that would be left at 20 degC", rigid_);
  fastener_stress_ = add("stress", "fastener", "Pa", "Fastener: tension, bending and shear as one stress", applicable_);
  hole_stress_ = add("stress", "hat_hole", "Pa", "Bearing pressure of a fastener on its hole in the hat", applicable_);
  lug_stress_ = add("stress", "lug", "Pa", "Mean stress of the ring's lug beside its hole or slot", applicable_);
  used_fastener_ = add("stress", "fastener_utilisation", "1", "The same over proof strength now", applicable_);
  used_hole_ = add("stress", "hat_hole_utilisation", "1", "The same over what the hole bears now", applicable_);
  used_lug_ = add("stress", "lug_utilisation", "1", "The same over tensile strength now", applicable_);
  if (!applicable_) return;

  const session::Joint& joint = rotor_.joint;
  iron_strain_ = &network.strains.at(rotor_.ring.material);
  hat_strain_ = &network.strains.at(rotor_.hat.material);
  bolt_strain_ = &network.strains.at(joint.material);
  const double hole = joint.fastener_diameter + 2 * (rigid_ ? joint.hole_clearance : 0);
  const double grip = at_.lug_thickness + rotor_.hat.flange_thickness;
  const double pitch = models::coarse_pitch(joint.fastener_diameter);
  stress_area_ = models::stress_area(joint.fastener_diameter, pitch);
  const models::Fastener fastener{.diameter = joint.fastener_diameter,
                                  .pitch = pitch,
                                  .shank = network::assumed::kShankShare * grip,
                                  .head_diameter = at_.head_diameter,
                                  .hole_diameter = hole};
  section_ = {.area = stress_area_,
              .diameter = joint.fastener_diameter,
              .hat_thickness = rotor_.hat.flange_thickness,
              .ring_thickness = at_.lug_thickness,
              .gap = 0,
              .lug_width = at_.lug_width,
              .hole_diameter = hole};
  // Compliance is geometry over modulus: the geometry is worked out once, of what is rigid but for one part.
  constexpr double kRigid = std::numeric_limits<double>::infinity();
  const auto lap = [&](double flange, double lug, double bolt) {
    return models::LapJoint{.diameter = joint.fastener_diameter,
                            .thickness1 = rotor_.hat.flange_thickness,
                            .thickness2 = at_.lug_thickness,
                            .modulus1 = flange,
                            .modulus2 = lug,
                            .modulus = bolt,
                            .poisson = bolt_.poisson};
  };
  unit_hole_flange_ = models::hole_compliance(lap(1, kRigid, kRigid));
  unit_hole_lug_ = models::hole_compliance(lap(kRigid, 1, kRigid));
  const session::Ring& ring = rotor_.ring;
  const double plates = ring.kind == session::RingKind::vented ? 2 * ring.cheek_thickness : ring.thickness;
  unit_ = {.ring = models::bore_stiffness({at_.bore_radius, ring.outer_diameter / 2, 1, iron_.poisson}, plates),
           .flange = models::rim_stiffness(
               {at_.bell_radius - rotor_.hat.wall_thickness, at_.flange_outer_radius, 1, hat_.poisson},
               rotor_.hat.flange_thickness),
           .fastener = models::fastener_compliance(lap(1, 1, 1)) + models::hole_compliance(lap(kRigid, kRigid, 1)),
           .lug = models::lug_compliance(at_.lug_length, at_.lug_width, at_.lug_thickness, 1)};
  if (!rigid_) return;
  bearing_area_ = models::bearing_area(fastener);
  const models::ClampedLayer layers[] = {{rotor_.hat.flange_thickness, 1}, {at_.lug_thickness, 1}};
  unit_bolt_ = models::bolt_compliance(fastener, grip, 1);
  unit_clamped_ = models::clamped_compliance(fastener, layers, at_.lug_width) / grip;
  const solve::Series cold = solve::Series::Constant(1, models::kReferenceTemperature);
  preload_.emplace(joint.preload, clamping_compliance(metal(cold, cold, cold, cold))[0]);
}

JointLoadRecorder::Metal JointLoadRecorder::metal(const solve::Series& ring, const solve::Series& lug,
                                                  const solve::Series& flange, const solve::Series& fastener) const {
  return {.ring_modulus = along(iron_.youngs_modulus, ring),
          .lug_modulus = along(iron_.youngs_modulus, lug),
          .flange_modulus = along(hat_.youngs_modulus, flange),
          .fastener_modulus = along(bolt_.youngs_modulus, fastener),
          .lug_strength = along(iron_.ultimate_strength, lug),
          .flange_bearing = models::kBearingOverStrength * along(hat_.ultimate_strength, flange),
          .fastener_proof = along(bolt_.proof_strength, fastener)};
}

solve::Series JointLoadRecorder::clamping_compliance(const Metal& m) const {
  return unit_bolt_ / m.fastener_modulus +
         unit_clamped_ * (rotor_.hat.flange_thickness / m.flange_modulus + at_.lug_thickness / m.lug_modulus);
}

solve::Series JointLoadRecorder::clamping(const Moments& rows, const Metal& m) {
  solve::Series clamp = solve::Series::Zero(rows.size());
  if (!rigid_) return clamp;
  const auto lug = rows.part.col(lug_probe_), flange = rows.part.col(flange_probe_),
             bolt = rows.part.col(fastener_probe_);
  const double t1 = rotor_.hat.flange_thickness, t2 = at_.lug_thickness;
  const solve::Series mismatch =
      t1 * strain(*hat_strain_, flange) + t2 * strain(*iron_strain_, lug) - (t1 + t2) * strain(*bolt_strain_, bolt);
  const solve::Series compliance = clamping_compliance(m);
  // Most that head, faces and thread can clamp [N].
  const solve::Series limit = (m.flange_bearing * bearing_area_)
                                  .min(models::kBearingOverStrengthIron * m.lug_strength * bearing_area_)
                                  .min(m.fastener_proof * stress_area_);
  solve::Series cold(rows.size());
  for (Eigen::Index i = 0; i < rows.size(); ++i) {
    clamp[i] = preload_->step(
        {.mismatch = mismatch[i], .compliance = compliance[i], .limit = limit[i], .temperature = flange[i]});
    cold[i] = preload_->cold();
  }
  columns_.append(clamp_, clamp);
  columns_.append(clamp_cold_, cold);
  return clamp;
}

void JointLoadRecorder::observe(const Moments& rows, const solve::Series& differential) {
  if (!applicable_) return;
  const session::Joint& joint = rotor_.joint;
  const Metal m = metal(rows.part.col(ring_probe_), rows.part.col(lug_probe_), rows.part.col(flange_probe_),
                        rows.part.col(fastener_probe_));
  const solve::Series clamp = clamping(rows, m);
  const solve::Series ring = unit_.ring * m.ring_modulus, flange = unit_.flange * m.flange_modulus,
                      fastener = unit_.fastener / m.fastener_modulus + unit_hole_flange_ / m.flange_modulus +
                                 unit_hole_lug_ / m.lug_modulus,
                      lug = unit_.lug / m.lug_modulus;
  const models::JointSetting setting{.fasteners = joint.fasteners,
                                     .clearance = rigid_ ? joint.hole_clearance : joint.float_clearance,
                                     .friction = rigid_ ? joint.grip_friction : 0,
                                     .faces = 1};
  const double sharing = std::min(1 / joint.carrying_share, static_cast<double>(joint.fasteners));
  solve::Series total(rows.size()), carried(rows.size()), slip(rows.size()), fastener_stress(rows.size()),
      hole(rows.size()), lug_stress(rows.size());
  for (Eigen::Index i = 0; i < rows.size(); ++i) {
    const double tangential =
        models::tangential_load(brake_torque(car_, rows.load[i]), at_.bolt_radius, joint.fasteners, sharing);
    const models::JointLoad load =
        models::joint_load({.ring = ring[i], .flange = flange[i], .fastener = fastener[i], .lug = lug[i]}, setting,
                           differential[i], tangential, clamp[i]);
    const models::FastenerStress s = models::fastener_stress(section_, load.carried);
    const double tension = clamp[i] / stress_area_ + s.bending;
    fastener_stress[i] = std::sqrt(tension * tension + 3 * s.shear * s.shear);  // von Mises
    total[i] = load.total;
    carried[i] = load.carried;
    slip[i] = load.slip;
    hole[i] = s.bearing_hat;
    lug_stress[i] = s.lug_net_section;
  }
  columns_.append(load_, total);
  columns_.append(carried_, carried);
  columns_.append(fastener_stress_, fastener_stress);
  columns_.append(hole_stress_, hole);
  columns_.append(lug_stress_, lug_stress);
  columns_.append(used_fastener_, fastener_stress / m.fastener_proof);
  columns_.append(used_hole_, hole / m.flange_bearing);
  columns_.append(used_lug_, lug_stress / m.lug_strength);
  if (rigid_) columns_.append(slip_, slip);
}

}  // namespace hatring::answer
