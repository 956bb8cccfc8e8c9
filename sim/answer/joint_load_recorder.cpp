// SPDX-License-Identifier: MIT
#include "sim/answer/joint_load_recorder.hpp"

#include <cmath>

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
  fastener_ = {.diameter = joint.fastener_diameter,
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
  if (!rigid_) return;
  const double cold = models::kReferenceTemperature;
  preload_.emplace(joint.preload, clamping_compliance({cold, cold, cold, cold}));
}

models::JointSprings JointLoadRecorder::springs(const Temperatures& t) const {
  const session::Ring& ring = rotor_.ring;
  const session::Hat& hat = rotor_.hat;
  const double iron = iron_.youngs_modulus(t.ring), lug = iron_.youngs_modulus(t.lug),
               flange = hat_.youngs_modulus(t.flange);
  const double plates = ring.kind == session::RingKind::vented ? 2 * ring.cheek_thickness : ring.thickness;
  const models::LapJoint lap{.diameter = rotor_.joint.fastener_diameter,
                             .thickness1 = hat.flange_thickness,
                             .thickness2 = at_.lug_thickness,
                             .modulus1 = flange,
                             .modulus2 = lug,
                             .modulus = bolt_.youngs_modulus(t.fastener),
                             .poisson = bolt_.poisson};
  return {
      .ring = models::bore_stiffness({at_.bore_radius, ring.outer_diameter / 2, iron, iron_.poisson}, plates),
      .flange = models::rim_stiffness(
          {at_.bell_radius - hat.wall_thickness, at_.flange_outer_radius, flange, hat_.poisson}, hat.flange_thickness),
      .fastener = models::fastener_compliance(lap) + models::hole_compliance(lap),
      .lug = models::lug_compliance(at_.lug_length, at_.lug_width, at_.lug_thickness, lug)};
}

double JointLoadRecorder::clamping_compliance(const Temperatures& t) const {
  const models::ClampedLayer layers[] = {{rotor_.hat.flange_thickness, hat_.youngs_modulus(t.flange)},
                                         {at_.lug_thickness, iron_.youngs_modulus(t.lug)}};
  return models::bolt_compliance(fastener_, at_.lug_thickness + rotor_.hat.flange_thickness,
                                 bolt_.youngs_modulus(t.fastener)) +
         models::clamped_compliance(fastener_, layers, at_.lug_width);
}

double JointLoadRecorder::clamping_limit(const Temperatures& t) const {
  const double area = models::bearing_area(fastener_);
  return std::min({models::kBearingOverStrength * hat_.ultimate_strength(t.flange) * area,
                   models::kBearingOverStrengthIron * iron_.ultimate_strength(t.lug) * area,
                   bolt_.proof_strength(t.fastener) * stress_area_});
}

models::Preload::Now JointLoadRecorder::clamping(const Temperatures& t) const {
  const double hat = rotor_.hat.flange_thickness, lug = at_.lug_thickness;
  const double mismatch =
      hat * (*hat_strain_)(t.flange) + lug * (*iron_strain_)(t.lug) - (hat + lug) * (*bolt_strain_)(t.fastener);
  return {
      .mismatch = mismatch, .compliance = clamping_compliance(t), .limit = clamping_limit(t), .temperature = t.flange};
}

void JointLoadRecorder::observe(const Snapshot& now, double differential) {
  if (!applicable_) return;
  const session::Joint& joint = rotor_.joint;
  const Temperatures t{now.part[ring_probe_], now.part[lug_probe_], now.part[flange_probe_], now.part[fastener_probe_]};
  const double clamp = rigid_ ? preload_->step(clamping(t)) : 0;
  const double tangential =
      models::tangential_load(brake_torque(car_, now.load), at_.bolt_radius, joint.fasteners,
                              std::min(1 / joint.carrying_share, static_cast<double>(joint.fasteners)));
  const models::JointLoad load = models::joint_load(springs(t),
                                                    {.fasteners = joint.fasteners,
                                                     .clearance = rigid_ ? joint.hole_clearance : joint.float_clearance,
                                                     .friction = rigid_ ? joint.grip_friction : 0,
                                                     .faces = 1},
                                                    differential, tangential, clamp);
  const models::FastenerStress s = models::fastener_stress(section_, load.carried);
  const double tension = clamp / stress_area_ + s.bending;
  const double fastener = std::sqrt(tension * tension + 3 * s.shear * s.shear);  // von Mises

  columns_.push(load_, load.total);
  columns_.push(carried_, load.carried);
  columns_.push(fastener_stress_, fastener);
  columns_.push(hole_stress_, s.bearing_hat);
  columns_.push(lug_stress_, s.lug_net_section);
  columns_.push(used_fastener_, fastener / bolt_.proof_strength(t.fastener));
  columns_.push(used_hole_, s.bearing_hat / (models::kBearingOverStrength * hat_.ultimate_strength(t.flange)));
  columns_.push(used_lug_, s.lug_net_section / iron_.ultimate_strength(t.lug));
  if (!rigid_) return;
  columns_.push(slip_, load.slip);
  columns_.push(clamp_, clamp);
  columns_.push(clamp_cold_, preload_->cold());
}

}  // namespace hatring::answer
