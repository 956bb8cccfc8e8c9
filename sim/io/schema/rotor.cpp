// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "sim/io/schema/schema.hpp"
#include "sim/network/assumed.hpp"

namespace hatring::io {

using session::Hat;
using session::Joint;
using session::JointKind;
using session::JointSurface;
using session::Ring;
using session::RingKind;
using session::Rotor;
using session::Vanes;

namespace {

bool vented(const Ring& ring) {
  return ring.kind == RingKind::vented;
}

const Section<Vanes>& vanes_section() {
  static const Section<Vanes> section = [] {
    Section<Vanes> s("Ribs between the two cheeks of a vented ring.");
    s.integer("count", &Vanes::count, {.doc = "Number of vanes.", .from = "1", .to = "500"})
        .quantity("thickness", &Vanes::thickness, Quantity::length,
                  {.doc = "Of one vane, measured around the ring.", .from = "0.5 mm", .to = "50 mm"});
    return s;
  }();
  return section;
}

const Section<Ring>& ring_section() {
  static const Section<Ring> section = [] {
    Section<Ring> s("The iron friction ring.");
    s.quantity("outer_diameter", &Ring::outer_diameter, Quantity::length, {.doc = "", .from = "50 mm", .to = "1 m"})
        .quantity("inner_diameter", &Ring::inner_diameter, Quantity::length,
                  {.doc = "Of the bore, without the lugs.", .from = "10 mm", .to = "1 m"})
        .quantity(
            "thickness", &Ring::thickness, Quantity::length,
            {.doc = "Over both faces, as it is now: a worn ring holds less heat.", .from = "2 mm", .to = "100 mm"})
        .quantity("minimum_thickness", &Ring::minimum_thickness, Quantity::length,
                  {.doc = "As stamped on the disc; wear is counted down to it.",
                   .optional = true,
                   .from = "2 mm",
                   .to = "100 mm"})
        .quantity("swept_inner_diameter", &Ring::swept_inner_diameter, Quantity::length,
                  {.doc = "Inner edge of the track that the pads rub; it ends at the outer diameter.",
                   .from = "10 mm",
                   .to = "1 m"})
        .choice("kind", &Ring::kind,
                std::vector<std::pair<std::string, RingKind>>{{"vented", RingKind::vented}, {"solid", RingKind::solid}},
                {.doc = "", .fallback = "vented", .reason = "usual for track discs, common practice"})
        .quantity("cheek_thickness", &Ring::cheek_thickness, Quantity::length,
                  {.doc = "Of one cheek, as it is now.",
                   .from = "1 mm",
                   .to = "50 mm",
                   .when_text = "vented rings",
                   .when = vented})
        .section("vanes", &Ring::vanes, vanes_section(), {.when_text = "vented rings", .when = vented})
        .material(
            "material", &Ring::material,
            {.doc = "", .fallback = "grey_iron", .reason = "the usual material of friction rings, common practice"})
        .quantity("emissivity", &Ring::emissivity, Quantity::number,
                  {.doc = "Of the rubbed faces.",
                   .fallback = fmt::format("{:g}", network::assumed::kFaceEmissivity.likely),
                   .reason = network::assumed::kFaceEmissivity.reason,
                   .from = "0",
                   .to = "1"})
        .quantity("mass", &Ring::mass, Quantity::mass,
                  {.doc = "As weighed; only compared with the mass from the geometry.",
                   .optional = true,
                   .above = "0 kg",
                   .to = "100 kg"});
    return s;
  }();
  return section;
}

Fallback usual_emissivity(const Hat& hat, const session::Case& c) {
  const auto material = c.materials.find(hat.material);
  if (material == c.materials.end()) return {"0.3", "dull aluminium, from memory"};
  return {fmt::format("{:g}", material->second.emissivity), "of " + hat.material + " as usually found"};
}

const Section<Hat>& hat_section() {
  static const Section<Hat> section = [] {
    Section<Hat> s(
        "The hat (bell) that carries the ring: a flange at the bolt circle, a cylindrical wall, a face at the hub.");
    s.material("material", &Hat::material,
               {.doc = "The ring's own when the joint is `one_piece`.",
                .when_text = "two-piece discs",
                .when = [](const Hat& hat) { return hat.material.empty(); }})
        .quantity("outer_diameter", &Hat::outer_diameter, Quantity::length,
                  {.doc = "Of the bell wall.", .from = "20 mm", .to = "800 mm"})
        .quantity("wall_thickness", &Hat::wall_thickness, Quantity::length,
                  {.doc = "Of the bell wall.", .from = "1 mm", .to = "50 mm"})
        .quantity("flange_thickness", &Hat::flange_thickness, Quantity::length,
                  {.doc = "At the bolt circle.", .from = "1 mm", .to = "50 mm"})
        .quantity("face_thickness", &Hat::face_thickness, Quantity::length,
                  {.doc = "Of the mounting face at the hub.", .from = "1 mm", .to = "50 mm"})
        .quantity("depth", &Hat::depth, Quantity::length,
                  {.doc = "From the flange to the mounting face.", .from = "1 mm", .to = "300 mm"})
        .quantity("emissivity", &Hat::emissivity, Quantity::number,
                  {.doc = "Bare aluminium about 0.1, anodised about 0.8.",
                   .from = "0",
                   .to = "1",
                   .computed = usual_emissivity,
                   .computed_text = "that of the material"})
        .quantity("mass", &Hat::mass, Quantity::mass,
                  {.doc = "As weighed; only compared with the mass from the geometry.",
                   .optional = true,
                   .above = "0 kg",
                   .to = "50 kg"});
    return s;
  }();
  return section;
}

//! 60 % of the proof load of class 10.9: 0.6 x 830 MPa over 0.78 of the shank's area.
Fallback usual_preload(const Joint& joint, const session::Case&) {
  if (joint.kind == JointKind::floating) return {"0 N", "bobbins of a floating joint do not clamp the ring"};
  constexpr double kStress = 0.6 * 830e6, kThreadArea = 0.78;
  const double area = std::numbers::pi / 4 * joint.fastener_diameter * joint.fastener_diameter;
  return {fmt::format("{:.3g} kN", kStress * kThreadArea * area / 1000),
          "60 % of the proof load of class 10.9 (ISO 898-1, from memory); follow the maker's torque"};
}

//! The faces' friction falls with what is between them.
Fallback usual_grip(const Joint& joint, const session::Case&) {
  if (joint.surface == JointSurface::pasted) return {"0.10", "greasy faces, after VDI 2230, from memory"};
  return {"0.15", "dry machined iron on steel or aluminium, low end, after VDI 2230, from memory"};
}

//! Half the difference of hole and shank in the fine series of ISO 273, about 5 % of the diameter.
Fallback usual_hole_clearance(const Joint& joint, const session::Case&) {
  return {fmt::format("{:.3g} mm", 25 * joint.fastener_diameter), "fine series of ISO 273, from memory"};
}

Fallback usual_share(const Joint& joint, const session::Case&) {
  if (joint.kind == JointKind::floating)
    return {"0.5", "slots and bobbins never touch all at once: half of them, judgement"};
  return {"1", "clamped faces share the torque evenly"};
}

const Section<Joint>& joint_section() {
  static const Section<Joint> section = [] {
    const auto two_piece = [](const Joint& joint) { return joint.kind != JointKind::one_piece; };
    const auto floating = [](const Joint& joint) { return joint.kind == JointKind::floating; };
    const auto rigid = [](const Joint& joint) { return joint.kind == JointKind::rigid; };
    const std::string all = "two-piece discs";
    Section<Joint> s("How ring and hat are held together.");
    s.choice("kind", &Joint::kind,
             std::vector<std::pair<std::string, JointKind>>{
                 {"rigid", JointKind::rigid}, {"floating", JointKind::floating}, {"one_piece", JointKind::one_piece}},
             {.doc = "Bolted hard, on bobbins with clearance, or cast in one piece."})
        .integer("fasteners", &Joint::fasteners,
                 {.doc = "Number of bolts or bobbins.", .from = "3", .to = "60", .when_text = all, .when = two_piece})
        .quantity("bolt_circle", &Joint::bolt_circle, Quantity::length,
                  {.doc = "Diameter.", .from = "20 mm", .to = "900 mm", .when_text = all, .when = two_piece})
        .quantity("fastener_diameter", &Joint::fastener_diameter, Quantity::length,
                  {.doc = "", .from = "3 mm", .to = "20 mm", .when_text = all, .when = two_piece})
        .material("material", &Joint::material,
                  {.doc = "Of the bolts or bobbins.",
                   .fallback = "bolt_10_9",
                   .reason = "usual class of ring bolts, common practice, no source",
                   .when_text = all,
                   .when = two_piece})
        .quantity("preload", &Joint::preload, Quantity::force,
                  {.doc = "Clamping force of one fastener, cold.",
                   .from = "0 N",
                   .to = "200 kN",
                   .when_text = all,
                   .when = two_piece,
                   .computed = usual_preload,
                   .computed_text = "floating: 0 N; rigid: 60 % of the proof load of class 10.9"})
        .quantity("float", &Joint::float_clearance, Quantity::length,
                  {.doc = "Radial clearance each way at 20 degC, ring centred on the hat.",
                   .above = "0 mm",
                   .to = "5 mm",
                   .when_text = "floating joints",
                   .when = floating})
        .quantity("axial_float", &Joint::axial_float, Quantity::length,
                  {.doc = "Total axial play.",
                   .fallback = "0.2 mm",
                   .reason = "middle of 0.1 to 0.3 mm, from memory",
                   .from = "0 mm",
                   .to = "5 mm",
                   .when_text = "floating joints",
                   .when = floating})
        .quantity("slot_gap", &Joint::slot_gap, Quantity::length,
                  {.doc = "Play of a bobbin along the circle in its slot, both sides together, at 20 degC.",
                   .fallback = "0.15 mm",
                   .reason = "a sliding fit that heat does not close, judgement",
                   .from = "0 mm",
                   .to = "3 mm",
                   .when_text = "floating joints",
                   .when = floating})
        .quantity("hole_clearance", &Joint::hole_clearance, Quantity::length,
                  {.doc = "Radial clearance of a fastener in its hole.",
                   .from = "0 mm",
                   .to = "5 mm",
                   .when_text = "rigid joints",
                   .when = rigid,
                   .computed = usual_hole_clearance,
                   .computed_text = "2.5 % of the fastener's diameter"})
        .quantity("lug_root_radius", &Joint::lug_root_radius, Quantity::length,
                  {.doc = "Fillet where a lug leaves the ring; a sharper one cracks sooner.",
                   .fallback = "3 mm",
                   .reason = "a generous milled fillet, judgement; measure yours with a radius gauge",
                   .from = "0.2 mm",
                   .to = "50 mm",
                   .when_text = all,
                   .when = two_piece})
        .quantity("carrying_share", &Joint::carrying_share, Quantity::number,
                  {.doc = "Share of the fasteners that carry the braking torque.",
                   .above = "0",
                   .to = "1",
                   .when_text = all,
                   .when = two_piece,
                   .computed = usual_share,
                   .computed_text = "floating: 0.5; rigid: 1"})
        .choice("surface", &Joint::surface,
                std::vector<std::pair<std::string, JointSurface>>{{"dry", JointSurface::dry},
                                                                  {"corroded", JointSurface::corroded},
                                                                  {"pasted", JointSurface::pasted},
                                                                  {"gasketed", JointSurface::gasketed}},
                {.doc = "State of the faces between ring and hat: it decides how much heat the hat takes.",
                 .fallback = "dry",
                 .reason = "clean and bare, as assembled",
                 .when_text = all,
                 .when = two_piece})
        .quantity("conductance_scale", &Joint::conductance_scale, Quantity::number,
                  {.doc = "Multiplies the heat that lugs, fasteners and bobbins pass: the knob that readings of the "
                          "hat calibrate.",
                   .fallback = "1",
                   .reason = "not calibrated; a joint's conductance is uncertain three times either way",
                   .from = "0.01",
                   .to = "100",
                   .when_text = all,
                   .when = two_piece})
        .quantity("grip_friction", &Joint::grip_friction, Quantity::number,
                  {.doc = "Friction between the clamped faces of ring, hat and fastener.",
                   .above = "0",
                   .to = "1",
                   .when_text = "rigid joints",
                   .when = rigid,
                   .computed = usual_grip,
                   .computed_text = "pasted: 0.10; otherwise 0.15"});
    return s;
  }();
  return section;
}

//! A one-piece disc is of one material.
void read_hat(Reader& reader, const NodePtr& node, Rotor& rotor) {
  if (rotor.joint.kind == JointKind::one_piece) rotor.hat.material = rotor.ring.material;
  hat_section().read(reader, node, node->mark, rotor.hat);
}

}  // namespace

const Section<Rotor>& rotor_section() {
  static const Section<Rotor> section = [] {
    Section<Rotor> s("A disc: ring, hat and the joint between them.");
    s.text("name", &Rotor::name, {.doc = "For reports.", .optional = true})
        .section("ring", &Rotor::ring, ring_section())
        .section("joint", &Rotor::joint, joint_section())
        .custom("hat", "a map", read_hat, {.doc = hat_section().doc()}, {}, &hat_section());
    return s;
  }();
  return section;
}

}  // namespace hatring::io
