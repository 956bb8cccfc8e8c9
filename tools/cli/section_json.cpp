// SPDX-License-Identifier: MIT
#include "tools/cli/section_json.hpp"

#include <algorithm>
#include <cmath>

#include "sim/network/assumed.hpp"
#include "sim/network/joint_geometry.hpp"
#include "tools/cli/run_json.hpp"

namespace hatring::tools {

using nlohmann::json;

namespace {

const char* name_of(session::JointKind kind) {
  return kind == session::JointKind::one_piece ? "one_piece" : kind == session::JointKind::rigid ? "rigid" : "floating";
}

json geometry_json(const session::Brake& b) {
  const session::Ring& ring = b.rotor.ring;
  const session::Hat& hat = b.rotor.hat;
  const session::Joint& joint = b.rotor.joint;
  const network::JointGeometry at = network::joint_geometry(b.rotor);
  const bool two_piece = joint.kind != session::JointKind::one_piece;
  return {{"name", b.rotor.name},
          {"ring",
           {{"kind", ring.kind == session::RingKind::solid ? "solid" : "vented"},
            {"outer_diameter", ring.outer_diameter},
            {"inner_diameter", ring.inner_diameter},
            {"swept_inner_diameter", ring.swept_inner_diameter},
            {"thickness", ring.thickness},
            {"cheek_thickness", ring.cheek_thickness},
            {"vanes", ring.vanes.count}}},
          {"hat",
           {{"outer_diameter", hat.outer_diameter},
            {"wall_thickness", hat.wall_thickness},
            {"flange_thickness", hat.flange_thickness},
            {"face_thickness", hat.face_thickness},
            {"depth", hat.depth},
            {"flange_outer_radius", at.flange_outer_radius},
            {"hole_diameter", static_cast<double>(network::assumed::kHubBoreDiameter)}}},
          {"joint",
           {{"kind", name_of(joint.kind)},
            {"fasteners", joint.fasteners},
            {"bolt_circle", joint.bolt_circle},
            {"fastener_diameter", joint.fastener_diameter},
            {"head_diameter", at.head_diameter},
            {"lug_end_radius", two_piece ? at.bore_radius - at.lug_length : 0},
            {"lug_thickness", at.lug_thickness}}},
          {"pads", {{"thickness", b.pads.thickness}, {"backing_thickness", b.pads.backing_thickness}}},
          {"caliper",
           {{"pistons", b.caliper.pistons},
            {"piston_diameter", b.caliper.piston_diameter},
            {"piston_length", b.caliper.piston_length}}}};
}

// Share of the way to the limit that a verdict has used at some value; 1 is the limit.
double used_at(const answer::Verdict& v, double value) {
  // The margin falls as the value rises where the value must stay below its limit, and rises with it elsewhere.
  const bool keep_below = std::abs(v.limit - v.value - v.margin) <= std::abs(v.value - v.limit - v.margin);
  return 1 - (v.margin + (keep_below ? v.value - value : value - v.value)) / v.scale;
}

}  // namespace

void add_section(json& page, const session::Case& c, const answer::Answers& a) {
  page["geometry"] = {{"front", geometry_json(c.brakes.front)}, {"rear", geometry_json(c.brakes.rear)}};
  page["peaks"] = both_axles(a, peaks_json);
  for (std::size_t i = 0; i < a.verdicts.size(); ++i) {
    const answer::Verdict& v = a.verdicts[i];
    if (v.level == answer::Level::unknown || !(v.scale > 0) || !std::isfinite(v.margin)) continue;
    json& out = page.at("verdicts").at(i);
    out["used"] = 1 - answer::share_left(v);
    if (!v.band) continue;
    const auto [low, high] = std::minmax({used_at(v, v.band->low), used_at(v, v.band->high)});
    out["used_low"] = low;
    out["used_high"] = high;
  }
}

}  // namespace hatring::tools
