// SPDX-License-Identifier: MIT
#include "sim/answer/joint_recorder.hpp"

#include "models/joint.hpp"
#include "sim/network/joint_geometry.hpp"

namespace hatring::answer {

JointRecorder::JointRecorder(const session::Case& c, session::Axle axle, const network::Network& network,
                             Columns& columns)
    : rotor_(c.brake(axle).rotor),
      columns_(columns),
      applicable_(rotor_.joint.kind != session::JointKind::one_piece),
      floats_(rotor_.joint.kind == session::JointKind::floating),
      lug_(probe_index(network, "ring_lug")),
      flange_(probe_index(network, "hat_flange")),
      bell_(probe_index(network, "hat_bell")),
      fastener_(probe_index(network, "fastener")) {
  growth_ = columns.add("joint", "differential_expansion", "m",
                        "Ring minus hat growth in radius at the bolt circle, free of the joint", !applicable_);
  outward_ = columns.add("joint", "clearance_outward", "m",
                         "Radial clearance left for the ring moving outward on the hat", !floats_);
  inward_ = columns.add("joint", "clearance_inward", "m",
                        "Radial clearance left for the hat moving outward in the ring", !floats_);
  along_ = columns.add("joint", "clearance_tangential", "m",
                       "Play left between bobbin and slot along the circle, both sides together", !floats_);
  axial_ = columns.add("joint", "clearance_axial", "m", "Axial play left between lug and bobbin's shoulders", !floats_);
  if (!applicable_) return;
  std::vector<network::NodeId> ring;
  for (network::NodeId i = 0; i < network.size(); ++i)
    if (network.nodes[static_cast<std::size_t>(i)].part == network::Part::ring) ring.push_back(i);
  ring_ = network.by_mass(ring);
  const models::Material& hat = c.materials.at(rotor_.hat.material);
  iron_ = &network.strains.at(rotor_.ring.material);
  hat_ = &network.strains.at(rotor_.hat.material);
  bobbin_ = &network.strains.at(rotor_.joint.material);
  const network::JointGeometry at = network::joint_geometry(rotor_);
  lug_thickness_ = at.lug_thickness;
  restraint_ =
      models::bell_restraint(at.bell_radius - rotor_.hat.wall_thickness / 2, rotor_.hat.wall_thickness,
                             at.flange_outer_radius - at.bell_radius, rotor_.hat.flange_thickness, hat.poisson);
}

solve::Series JointRecorder::differential(const Moments& rows) const {
  solve::Series mean = solve::Series::Zero(rows.size());
  for (const auto& [node, weight] : ring_) mean += weight * strain(*iron_, rows.node.col(node));
  const solve::Series lug = strain(*iron_, rows.part.col(lug_)), flange = strain(*hat_, rows.part.col(flange_)),
                      bell = strain(*hat_, rows.part.col(bell_));
  const double bolt = rotor_.joint.bolt_circle / 2;
  solve::Series out(rows.size());
  for (Eigen::Index i = 0; i < out.size(); ++i)
    out[i] = models::differential_expansion(models::ring_growth(rotor_.ring.inner_diameter / 2, bolt, mean[i], lug[i]),
                                            models::hat_growth(bolt, flange[i], bell[i], restraint_));
  return out;
}

solve::Series JointRecorder::observe(const Moments& rows) {
  if (!applicable_) return solve::Series::Zero(rows.size());
  solve::Series d = differential(rows);
  columns_.append(growth_, d);
  if (floats_) observe_float(rows, d);
  return d;
}

void JointRecorder::observe_float(const Moments& rows, const solve::Series& differential) {
  const session::Joint& joint = rotor_.joint;
  columns_.append(
      outward_, differential.unaryExpr([&](double d) { return models::clearance_outward(joint.float_clearance, d); }));
  columns_.append(inward_,
                  differential.unaryExpr([&](double d) { return models::clearance_inward(joint.float_clearance, d); }));
  // The slot widens with its lug, the bobbin with itself; the lug thickens between the bobbin's shoulders.
  const solve::Series lug = 1 + strain(*iron_, rows.part.col(lug_)),
                      bobbin = 1 + strain(*bobbin_, rows.part.col(fastener_));
  const double width = joint.fastener_diameter;
  columns_.append(along_, (width + joint.slot_gap) * lug - width * bobbin);
  columns_.append(axial_, (lug_thickness_ + joint.axial_float) * bobbin - lug_thickness_ * lug);
}

}  // namespace hatring::answer
