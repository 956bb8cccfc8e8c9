// SPDX-License-Identifier: MIT
#include "sim/io/schema/validate.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <map>
#include <numbers>
#include <optional>
#include <variant>

#include "sim/answer/half_lap.hpp"
#include "sim/network/assumed.hpp"
#include "sim/network/builder.hpp"

namespace hatring::io {
namespace {

using session::Brake;
using session::Case;
using session::JointKind;
using session::RingKind;

std::string mm(double length) {
  return fmt::format("{:.6g} mm", length * 1000);
}

//! Checks below one key path.
class Checker {
 public:
  Checker(Report& report, const Node& root, std::string base) : report_(report), root_(root), base_(std::move(base)) {}

  //! Unless `good`, says that two keys contradict each other.
  void pair(bool good, const std::string& key, const std::string& other, const std::string& message) {
    if (good || report_.touches(path(key)) || report_.touches(path(other))) return;
    report_.conflict(mark(path(key)), mark(path(other)), path(key), message,
                     fmt::format("`{}` stands here", path(other)));
  }
  //! Unless `good`, says that the value at a key will not do.
  void one(bool good, const std::string& key, const std::string& message, const std::string& hint) {
    if (!good && !report_.touches(path(key))) report_.error(mark(path(key)), path(key), message, hint);
  }
  [[nodiscard]] bool broken(const std::string& key) const { return report_.touches(path(key)); }
  [[nodiscard]] std::string path(const std::string& key) const { return child_path(base_, key); }

 private:
  //! Place of a key, or of the map it is missing from.
  [[nodiscard]] Mark mark(std::string_view key_path) const {
    const Node* node = &root_;
    Mark found = root_.mark;
    while (!key_path.empty()) {
      const std::string_view key = key_path.substr(0, key_path.find('.'));
      key_path.remove_prefix(std::min(key_path.size(), key.size() + 1));
      std::size_t index = 0;
      if (node->kind == Node::Kind::map) {
        const Entry* entry = node->find(key);
        if (entry == nullptr) return found;
        node = entry->value.get();
      } else if (std::from_chars(key.data(), key.data() + key.size(), index).ec == std::errc() &&
                 index < node->items.size()) {
        node = node->items[index].get();
      } else {
        return found;
      }
      found = node->mark;
    }
    return found;
  }

  Report& report_;
  const Node& root_;
  std::string base_;
};

void check_ring(Checker& check, const session::Ring& ring) {
  check.pair(ring.inner_diameter < ring.outer_diameter, "rotor.ring.inner_diameter", "rotor.ring.outer_diameter",
             fmt::format("the ring is inside out: found {}, expected less than the outer diameter of {}",
                         mm(ring.inner_diameter), mm(ring.outer_diameter)));
  check.pair(ring.swept_inner_diameter < ring.outer_diameter, "rotor.ring.swept_inner_diameter",
             "rotor.ring.outer_diameter",
             fmt::format("the swept track lies outside the ring: found {}, expected less than the outer diameter of {}",
                         mm(ring.swept_inner_diameter), mm(ring.outer_diameter)));
  check.pair(
      ring.swept_inner_diameter >= ring.inner_diameter, "rotor.ring.swept_inner_diameter", "rotor.ring.inner_diameter",
      fmt::format("the swept track lies outside the ring: found {}, expected no less than the inner diameter of {}",
                  mm(ring.swept_inner_diameter), mm(ring.inner_diameter)));
  if (ring.kind == RingKind::solid) return;
  check.pair(2 * ring.cheek_thickness < ring.thickness, "rotor.ring.cheek_thickness", "rotor.ring.thickness",
             fmt::format("the two cheeks are thicker than the ring: found 2 x {}, expected less than {}",
                         mm(ring.cheek_thickness), mm(ring.thickness)));
  check.pair(
      ring.vanes.count * ring.vanes.thickness < std::numbers::pi * ring.inner_diameter, "rotor.ring.vanes.thickness",
      "rotor.ring.inner_diameter",
      fmt::format("the vanes overlap at the inner edge: found {} x {}, expected less than its circumference of {}",
                  ring.vanes.count, mm(ring.vanes.thickness), mm(std::numbers::pi * ring.inner_diameter)));
}

//! Holes or slots that give the float must stay apart, inside their lugs and out of the swept track.
void check_float(Checker& check, const session::Rotor& rotor) {
  const session::Joint& joint = rotor.joint;
  const double hole = joint.fastener_diameter + 2 * joint.float_clearance;
  const double pitch = std::numbers::pi * joint.bolt_circle / joint.fasteners;
  check.pair(
      hole < pitch || joint.fastener_diameter >= pitch, "rotor.joint.float", "rotor.joint.fasteners",
      fmt::format("the float is larger than the hole pattern allows: found {} around fasteners of {}, expected less "
                  "than {}, where the holes of {} fasteners would meet",
                  mm(joint.float_clearance), mm(joint.fastener_diameter), mm((pitch - joint.fastener_diameter) / 2),
                  joint.fasteners));
  const double lug = (network::assumed::kLugOverhang - 0.5) * joint.fastener_diameter;
  check.pair(joint.float_clearance < lug, "rotor.joint.float", "rotor.joint.fastener_diameter",
             fmt::format("the float is larger than the lugs allow: found {}, expected less than {}, the metal beyond a "
                         "fastener of {} in a lug of usual length",
                         mm(joint.float_clearance), mm(lug), mm(joint.fastener_diameter)));
  check.pair(joint.bolt_circle + hole <= rotor.ring.swept_inner_diameter ||
                 joint.bolt_circle + joint.fastener_diameter > rotor.ring.swept_inner_diameter,
             "rotor.joint.float", "rotor.ring.swept_inner_diameter",
             fmt::format("the holes reach into the swept track: found a float of {}, expected no more than {}",
                         mm(joint.float_clearance),
                         mm((rotor.ring.swept_inner_diameter - joint.bolt_circle - joint.fastener_diameter) / 2)));
}

// Parts that meet at a joint must be known to grow.
void check_growth(Checker& check, const session::Rotor& rotor,
                  const std::map<std::string, models::Material>& materials) {
  if (rotor.joint.kind == JointKind::one_piece) return;
  for (const auto& [key, name] :
       {std::pair{"rotor.ring.material", &rotor.ring.material}, std::pair{"rotor.hat.material", &rotor.hat.material},
        std::pair{"rotor.joint.material", &rotor.joint.material}}) {
    const auto known = materials.find(*name);
    if (known == materials.end()) continue;
    check.one(!known->second.mean_expansion.empty(), key,
              fmt::format("found {}, which has no `mean_expansion`, expected a material whose growth is known", *name),
              fmt::format("give it under `materials: {{{}: {{mean_expansion: ...}}}}`", *name));
  }
}

void check_joint(Checker& check, const session::Rotor& rotor) {
  constexpr double kReach = 0.030;  // of a lug between bolt circle and bore [m]
  const session::Ring& ring = rotor.ring;
  const session::Joint& joint = rotor.joint;
  const session::Hat& hat = rotor.hat;
  check.pair(2 * hat.wall_thickness < hat.outer_diameter, "rotor.hat.wall_thickness", "rotor.hat.outer_diameter",
             fmt::format("the bell has no inside: found a wall of {}, expected less than half of {}",
                         mm(hat.wall_thickness), mm(hat.outer_diameter)));
  const double inside = hat.outer_diameter - 2 * hat.wall_thickness;
  const double bore = 2 * network::hat_geometry(rotor).face_bore_radius;
  check.pair(
      inside > bore || inside <= 0, "rotor.hat.wall_thickness", "rotor.hat.outer_diameter",
      fmt::format("the wall leaves no face around the hub's bore: found {}, expected less than {}, for a bore of {}",
                  mm(hat.wall_thickness), mm((hat.outer_diameter - bore) / 2), mm(bore)));
  check.pair(hat.face_thickness < hat.depth, "rotor.hat.face_thickness", "rotor.hat.depth",
             fmt::format("the face is thicker than the hat is deep: found {}, expected less than the depth of {}",
                         mm(hat.face_thickness), mm(hat.depth)));
  if (joint.kind == JointKind::one_piece) {
    check.pair(hat.outer_diameter <= ring.swept_inner_diameter, "rotor.hat.outer_diameter",
               "rotor.ring.swept_inner_diameter",
               fmt::format("the bell reaches into the swept track: found {}, expected no more than {}",
                           mm(hat.outer_diameter), mm(ring.swept_inner_diameter)));
    return;
  }
  check.pair(joint.bolt_circle > hat.outer_diameter, "rotor.joint.bolt_circle", "rotor.hat.outer_diameter",
             fmt::format("the hat's flange does not reach the bolt circle: found {}, expected more than the bell's "
                         "outer diameter of {}",
                         mm(joint.bolt_circle), mm(hat.outer_diameter)));
  check.pair(
      std::abs(joint.bolt_circle - ring.inner_diameter) / 2 <= kReach, "rotor.joint.bolt_circle",
      "rotor.ring.inner_diameter",
      fmt::format("the bolt circle is not near the ring's inner edge: found {}, expected within {} of radius from {}",
                  mm(joint.bolt_circle), mm(kReach), mm(ring.inner_diameter)));
  check.pair(joint.bolt_circle + joint.fastener_diameter <= ring.swept_inner_diameter, "rotor.joint.bolt_circle",
             "rotor.ring.swept_inner_diameter",
             fmt::format("the fasteners stand in the swept track: found {}, expected {} less than its inner edge of {}",
                         mm(joint.bolt_circle), mm(joint.fastener_diameter), mm(ring.swept_inner_diameter)));
  check.pair(joint.fasteners * joint.fastener_diameter < std::numbers::pi * joint.bolt_circle, "rotor.joint.fasteners",
             "rotor.joint.bolt_circle",
             fmt::format("the fasteners overlap: found {} of {}, expected less than the circumference of {}",
                         joint.fasteners, mm(joint.fastener_diameter), mm(std::numbers::pi * joint.bolt_circle)));
  if (joint.bolt_circle > hat.outer_diameter)
    check.pair(
        joint.bolt_circle - joint.fastener_diameter >= hat.outer_diameter, "rotor.joint.fastener_diameter",
        "rotor.hat.outer_diameter",
        fmt::format("the fasteners' holes cut into the bell: found {} on a circle of {}, expected no more than {}, "
                    "or a bell narrower than {}",
                    mm(joint.fastener_diameter), mm(joint.bolt_circle), mm(joint.bolt_circle - hat.outer_diameter),
                    mm(hat.outer_diameter)));
  const double head = network::assumed::kHeadDiameter * joint.fastener_diameter;
  check.pair(joint.kind != JointKind::rigid || joint.fastener_diameter + 2 * joint.hole_clearance < head,
             "rotor.joint.hole_clearance", "rotor.joint.fastener_diameter",
             fmt::format("the heads fall through their holes: found {}, expected less than {} under a head of {}",
                         mm(joint.hole_clearance), mm((head - joint.fastener_diameter) / 2), mm(head)));
  if (joint.kind == JointKind::floating) check_float(check, rotor);
}

void check_brake(Report& report, const Node& root, const std::string& base, const Brake& brake, Case& c) {
  constexpr double kMostCover = 0.3;
  Checker check(report, root, base);
  check_ring(check, brake.rotor.ring);
  check_joint(check, brake.rotor);
  check_growth(check, brake.rotor, c.materials);
  check.pair(brake.fluid.wet_boiling <= brake.fluid.dry_boiling, "fluid.wet_boiling", "fluid.dry_boiling",
             fmt::format("found a wet boiling point of {:.0f} degC, expected no more than the dry one of {:.0f} degC",
                         brake.fluid.wet_boiling - 273.15, brake.fluid.dry_boiling - 273.15));
  check.pair(2 * brake.caliper.piston_wall <= brake.caliper.piston_diameter, "caliper.piston_wall",
             "caliper.piston_diameter", "found a piston wall thicker than its radius");
  if (check.broken("pads.area") || check.broken("rotor.ring")) return;
  const session::Ring& ring = brake.rotor.ring;
  const double swept =
      std::numbers::pi / 4 * (std::pow(ring.outer_diameter, 2) - std::pow(ring.swept_inner_diameter, 2));
  check.pair(brake.pads.area < swept, "pads.area", "rotor.ring.swept_inner_diameter",
             fmt::format("found a pad of {:.4g} cm2, expected less than the swept track of {:.4g} cm2",
                         brake.pads.area * 1e4, swept * 1e4));
  if (brake.pads.area > kMostCover * swept && brake.pads.area < swept)
    c.warnings.push_back(
        fmt::format("{}: a pad of {:.4g} cm2 covers {:.0f} % of the swept track, where 10 to 15 % is usual: "
                    "it may be wider than the track or its area may be that of both pads",
                    check.path("pads.area"), brake.pads.area * 1e4, 100 * brake.pads.area / swept));
}

void check_materials(Report& report, const Node& root, const Case& c) {
  for (const auto& [name, material] : c.materials) {
    const models::Overageing& aged = material.overageing;
    if (!aged.known()) continue;
    Checker(report, root, child_path("materials", name))
        .pair(aged.hotter_temperature > aged.temperature && aged.hotter_time < aged.time,
              "overageing.hotter_temperature", "overageing.temperature",
              fmt::format("found {:.4g} h at {:.4g} K beside {:.4g} h at {:.4g} K, expected the hotter soak to be the "
                          "shorter",
                          aged.hotter_time / 3600, aged.hotter_temperature, aged.time / 3600, aged.temperature));
  }
}

// Puddles lie on the lap. Rain is the grip of the laps, not a patch.
void check_wet_patches(Report& report, const Node& root, const Case& c) {
  constexpr double kPuddle = 100;  // the chill of one face holds for a second or two [m]
  double lap = 0;
  for (const session::Step& step : c.session)
    if (const auto* drive = std::get_if<session::DriveStep>(&step); drive != nullptr && drive->trace < c.traces.size())
      lap = std::max(lap, answer::covered(c.traces[drive->trace]).back());
  for (std::size_t i = 0; i < c.wet_patches.size(); ++i) {
    const session::WetPatch& patch = c.wet_patches[i];
    Checker check(report, root, fmt::format("wet_patches.{}", i));
    check.pair(patch.from < patch.to, "to", "from", "found a patch that ends before it begins");
    check.one(!(lap > 0) || patch.to <= lap, "to",
              fmt::format("found a patch up to {:.6g} m, expected no more than the {:.6g} m of the longest lap",
                          patch.to, lap),
              "a patch is measured from the start of the lap");
    check.one(patch.to - patch.from <= kPuddle, "to",
              fmt::format("found a patch of {:.4g} m, expected a puddle of no more than {:g} m", patch.to - patch.from,
                          kPuddle),
              "for rain give the laps `grip: wet`, which brings the water too");
  }
}

}  // namespace

void validate(Report& report, const Node& root, Case& c) {
  const Entry* air = root.find("air");
  const auto given = [air](const char* key) {
    const Entry* entry = air == nullptr ? nullptr : air->value->find(key);
    return entry != nullptr && entry->value->kind != Node::Kind::null;
  };
  Checker(report, root, "air")
      .pair(!given("altitude") || !given("pressure"), "altitude", "pressure",
            "found both altitude and pressure, expected one of them");
  check_brake(report, root, "brakes.front", c.brakes.front, c);
  check_brake(report, root, "brakes.rear", c.brakes.rear, c);
  check_materials(report, root, c);
  check_wet_patches(report, root, c);
  const session::Hydraulic& h = c.brakes.hydraulic;
  if (c.brakes.share_law != session::ShareLaw::hydraulic && (h.separate || h.valve_pressure))
    c.warnings.emplace_back(
        "brakes.hydraulic has a bias bar or a valve, but brakes.front_share is not `hydraulic`: they have no effect on "
        "the share");
}

}  // namespace hatring::io
