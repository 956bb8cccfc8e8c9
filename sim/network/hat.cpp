// SPDX-License-Identifier: MIT
// Lugs, fasteners, hat, hub, and the way to the wheel.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "models/contact.hpp"
#include "models/disc_geometry.hpp"
#include "models/radiation.hpp"
#include "sim/network/assumed.hpp"
#include "sim/network/builder.hpp"
#include "sim/network/joint_geometry.hpp"

namespace hatring::network {
namespace {

using session::JointKind;

class HatBuilder {
 public:
  HatBuilder(Builder& b, const RingNodes& ring)
      : b_(b),
        ring_(ring),
        rotor_(b.brake.rotor),
        hat_(rotor_.hat),
        joint_(rotor_.joint),
        one_piece_(joint_.kind == JointKind::one_piece),
        at_(joint_geometry(rotor_)) {
    material_ = one_piece_ ? rotor_.ring.material : hat_.material;
    const models::HatGeometry shape = hat_geometry(rotor_);
    face_bore_ = shape.face_bore_radius;
    volumes_ = models::hat_volumes(shape);
  }

  HatNodes build() {
    make_hat();
    make_hub();
    b_.counts.lump || one_piece_ ? join_directly() : join_by_fasteners();
    see_ring();
    cool();
    return out_;
  }

 private:
  void make_hat() {
    const double density = b_.material(material_).density;
    if (b_.counts.lump) {
      out_.flange = out_.face =
          b_.add("hat", Part::hat, density * (volumes_.flange + volumes_.wall + volumes_.face), material_);
      out_.bell = {out_.flange};
      return;
    }
    out_.flange = b_.add("hat.flange", Part::hat, density * volumes_.flange, material_);
    const int n = b_.counts.bell;
    for (int i = 0; i < n; ++i)
      out_.bell.push_back(b_.add(fmt::format("hat.bell{}", i + 1), Part::hat, density * volumes_.wall / n, material_));
    out_.face = b_.add("hat.face", Part::hat, density * volumes_.face, material_);

    const double wall_area = M_PI * (2 * at_.bell_radius - hat_.wall_thickness) * hat_.wall_thickness;
    const double half_cell = Builder::half((hat_.depth - hat_.face_thickness) / n, wall_area);
    b_.net.link({out_.flange, out_.bell.front(), flange_half(), half_cell, 0, 0, "hat"});
    for (std::size_t i = 0; i + 1 < out_.bell.size(); ++i)
      b_.net.link({out_.bell[i], out_.bell[i + 1], half_cell, half_cell, 0, 0, "hat"});
    const double face_half =
        std::log(at_.bell_radius / (0.5 * (at_.bell_radius + face_bore_))) / (2 * M_PI * hat_.face_thickness);
    b_.net.link({out_.bell.back(), out_.face, half_cell, face_half, 0, 0, "hat"});
  }

  // From the middle of the flange inward to the bell.
  [[nodiscard]] double flange_half() const {
    return std::log(0.5 * (at_.bell_radius + at_.flange_outer_radius) / at_.bell_radius) /
           (2 * M_PI * hat_.flange_thickness);
  }

  void make_hub() {
    out_.hub = b_.add("hub", Part::hub, assumed::kHubMass, "carbon_steel");
    const double seat = models::annulus_area(face_bore_, at_.bell_radius - hat_.wall_thickness);
    b_.net.link(out_.face, out_.hub, assumed::kHatHubContact * seat, "hat_hub");
    b_.net.link(out_.face, b_.wheel, assumed::kHatWheelContact * seat, "hat_wheel");
    b_.net.link(out_.hub, b_.wheel, assumed::kHubWheel, "hub_wheel");
  }

  // Clamped metal faces, one fastener [W/K]: under the head by contact pressure, the rest of the lug as a loose gap.
  [[nodiscard]] double clamped(double conductivity_a, double conductivity_b, double hardness) const {
    const double d = joint_.fastener_diameter;
    const double lug_area = at_.lug_width * at_.lug_length - M_PI / 4 * d * d;
    const double pressed = std::min(models::bolted_contact_pressure_area(at_.head_diameter, d), lug_area);
    const double h =
        assumed::kJointReality * models::contact_coefficient(conductivity_a, conductivity_b, assumed::kJointRoughness,
                                                             assumed::kJointSlope, joint_.preload / pressed, hardness);
    const double loose = models::gap_coefficient(assumed::kGapAirConductivity, assumed::kLooseGap, assumed::kGasJump);
    return joint_.conductance_scale * models::joint_surface_factor(surface()) *
           (h * pressed + loose * (lug_area - pressed));
  }

  [[nodiscard]] models::JointSurface surface() const {
    switch (joint_.surface) {
      case session::JointSurface::corroded:
        return models::JointSurface::corroded;
      case session::JointSurface::pasted:
        return models::JointSurface::pasted;
      case session::JointSurface::gasketed:
        return models::JointSurface::gasketed;
      case session::JointSurface::dry:
        break;
    }
    return models::JointSurface::dry;
  }

  // Two clamped faces conduct by the softer one's hardness; aluminium is the soft one wherever it takes part.
  [[nodiscard]] double joint_conductance(const std::string& a, const std::string& b) const {
    const double t = models::kReferenceTemperature;
    const double ka = b_.material(a).conductivity(t), kb = b_.material(b).conductivity(t);
    const bool aluminium = b_.material(a).density < 3500 || b_.material(b).density < 3500;
    return clamped(ka, kb, aluminium ? assumed::kAluminiumHardness : assumed::kSteelHardness);
  }

  void join_directly() {
    if (one_piece_) {
      for (const auto& cell : ring_.bore) {
        const double share = cell.thickness / bore_thickness();
        const double neck = 2 * M_PI * ring_.bore_radius * std::min(hat_.flange_thickness, bore_thickness());
        b_.net.link({cell.node, out_.flange, Builder::half(2 * ring_.bore_half_width, neck) / share,
                     flange_half() / share, 0, 0, "ring_hat"});
      }
      return;
    }
    // Lumped two-piece: lugs belong to the ring, fasteners to the hat.
    const double k = joint_.kind == JointKind::floating ? bobbin() : joint_conductance(rotor_.ring.material, material_);
    b_.net.link(ring_.bore.front().node, out_.flange, joint_.fasteners * k, "ring_hat");
    b_.net.nodes[static_cast<std::size_t>(ring_.bore.front().node)].mass += lug_mass();
    b_.net.nodes[static_cast<std::size_t>(out_.flange)].mass += fastener_mass();
  }

  void join_by_fasteners() {
    const double d = joint_.fastener_diameter, n = joint_.fasteners;
    out_.lug = b_.add("lug", Part::lug, lug_mass(), rotor_.ring.material);
    out_.fastener = b_.add("fastener", Part::fastener, fastener_mass(), joint_.material);
    const double root = n * at_.lug_width * at_.lug_thickness;
    for (const auto& cell : ring_.bore) {
      const double share = cell.thickness / bore_thickness();
      b_.net.link({cell.node, out_.lug, ring_.bore_half_width / (2 * M_PI * ring_.bore_radius * cell.thickness),
                   0.5 * at_.lug_length / (root * share), 0, 0, "ring_lug"});
    }
    const double shank = n * M_PI / 4 * d * d;
    const double half_shank = Builder::half(at_.lug_thickness + hat_.flange_thickness, shank);
    const double head_to_hat = n * joint_conductance(joint_.material, material_);
    b_.net.link({out_.fastener, out_.flange, half_shank, 0, 1 / head_to_hat, 0, "ring_hat"});
    if (joint_.kind == JointKind::floating) {
      b_.net.link({out_.lug, out_.fastener, 0, half_shank, 1 / (n * bobbin()), 0, "ring_hat"});
      return;
    }
    const double head_to_lug = n * joint_conductance(rotor_.ring.material, joint_.material);
    b_.net.link({out_.lug, out_.fastener, 0, half_shank, 1 / head_to_lug, 0, "ring_hat"});
    const double lug_face = n * at_.lug_width * at_.lug_length;
    b_.net.link({out_.lug, out_.flange, Builder::half(at_.lug_thickness, lug_face),
                 Builder::half(hat_.flange_thickness, lug_face),
                 1 / (n * joint_conductance(rotor_.ring.material, material_)), 0, "ring_hat"});
  }

  // Loose bobbin in its slot [W/K], both flanks lightly touching.
  [[nodiscard]] double bobbin() const {
    return joint_.conductance_scale * assumed::kBobbinContact * M_PI * joint_.fastener_diameter * at_.lug_thickness;
  }
  [[nodiscard]] double bore_thickness() const {
    double sum = 0;
    for (const auto& cell : ring_.bore) sum += cell.thickness;
    return sum;
  }
  [[nodiscard]] double lug_mass() const {
    const double d = joint_.fastener_diameter;
    return b_.material(rotor_.ring.material).density * joint_.fasteners *
           (at_.lug_width * at_.lug_length - M_PI / 4 * d * d) * at_.lug_thickness;
  }
  [[nodiscard]] double fastener_mass() const {
    const double d = joint_.fastener_diameter;
    return b_.material(joint_.material).density * joint_.fasteners * M_PI / 4 * d * d * assumed::kFastenerLength *
           (at_.lug_thickness + hat_.flange_thickness);
  }

  // The ring's bore radiates on the part of the bell that stands in it.
  void see_ring() {
    const double length = std::min(rotor_.ring.thickness, hat_.depth);
    if (at_.bell_radius >= ring_.bore_radius) return;
    const double bore_area = 2 * M_PI * ring_.bore_radius * length, bell_area = 2 * M_PI * at_.bell_radius * length;
    const double factor =
        models::exchange_factor(b_.material(rotor_.ring.material).emissivity, bore_area, hat_.emissivity, bell_area,
                                models::bore_to_bell_view(ring_.bore_radius, at_.bell_radius, length));
    const auto facing = std::max<std::size_t>(
        1, static_cast<std::size_t>(std::lround(static_cast<double>(out_.bell.size()) * length / hat_.depth)));
    for (std::size_t i = 0; i < facing; ++i)
      for (const bool inboard : {false, true})
        b_.radiate((inboard ? ring_.bore.back() : ring_.bore[ring_.bore.size() / 2 - 1]).node, out_.bell[i],
                   0.5 * factor / static_cast<double>(facing));
  }

  void cool() {
    const double size = 2 * at_.bell_radius;
    const BluntBody law{size};
    // The outside and, less aired, the inside of the bell; the mounting face is covered by the wheel.
    const double bell_area =
        2 * M_PI * at_.bell_radius * hat_.depth * (1 + assumed::kInnerBellAir) / static_cast<double>(out_.bell.size());
    for (const NodeId node : out_.bell) {
      b_.cool(node, b_.air, bell_area, "hat and hub", law);
      b_.radiate(node, kAmbient, assumed::kBellSeesOut * hat_.emissivity * bell_area);
    }
    const double flange_area = 2 * models::annulus_area(at_.bell_radius, at_.flange_outer_radius);
    b_.cool(out_.flange, b_.air, flange_area, "hat and hub", law);
    b_.radiate(out_.flange, kAmbient, assumed::kBellSeesOut * hat_.emissivity * flange_area);
    b_.cool(out_.hub, b_.air, assumed::kHubArea, "hat and hub", law);
  }

  Builder& b_;
  const RingNodes& ring_;
  const session::Rotor& rotor_;
  const session::Hat& hat_;
  const session::Joint& joint_;
  bool one_piece_;
  std::string material_;
  JointGeometry at_;
  double face_bore_ = 0;
  models::HatVolumes volumes_;
  HatNodes out_;
};

}  // namespace

models::HatGeometry hat_geometry(const session::Rotor& rotor) {
  const JointGeometry at = joint_geometry(rotor);
  return {at.bell_radius,
          rotor.hat.wall_thickness,
          at.flange_outer_radius,
          rotor.hat.flange_thickness,
          std::min(assumed::kHubBoreDiameter / 2, 0.5 * at.bell_radius),
          rotor.hat.face_thickness,
          rotor.hat.depth};
}

HatNodes build_hat(Builder& b, const RingNodes& ring) {
  return HatBuilder(b, ring).build();
}

}  // namespace hatring::network
