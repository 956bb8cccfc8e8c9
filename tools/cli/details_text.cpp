// SPDX-License-Identifier: MIT
#include "tools/cli/details_text.hpp"

#include <fmt/format.h>

#include <cmath>

#include "tools/cli/summary.hpp"

namespace hatring::tools {
namespace {

void joint_lines(std::string& out, const answer::Answers& a, const DisplayUnits& units) {
  for (const auto& [name, axle] : {std::pair{"front", &a.front}, std::pair{"rear", &a.rear}}) {
    const answer::JointAnswer& j = axle->joint;
    if (!j.applicable) continue;
    std::string line = fmt::format("{} joint: ring minus hat growth from {} ({}) to {} ({})", name,
                                   units.clearance(j.smallest), place_text(j.smallest_place, units),
                                   units.clearance(j.largest), place_text(j.largest_place, units));
    const std::size_t turns = j.sign_changes.size();
    if (turns == 0)
      line += "; it never changed sign.";
    else
      line += fmt::format("; it changed sign {}, {}{}.", turns == 1 ? "once" : fmt::format("{} times", turns),
                          turns == 1 ? "" : "last ", place_text(j.sign_changes.back(), units));
    line += fmt::format(" It swings {:.0f} times, the largest by {}.", j.swings, units.clearance(j.largest_swing));
    line += fmt::format(" A float of {} each way takes all of it", units.clearance(j.needed_float));
    if (j.needed_band)
      line += fmt::format(", {} to {} over the band", units.clearance(j.needed_band->low),
                          units.clearance(j.needed_band->high));
    out += wrapped(line + ".", kTextWidth, 2) + "\n";
  }
}

const answer::Extreme* extreme(const answer::AxleAnswers& axle, std::string_view name) {
  for (const answer::Extreme& e : axle.extremes)
    if (e.name == name) return &e;
  return nullptr;
}

// More digits would say more than is known.
double two_digits(double v) {
  if (!(v > 0)) return 0;
  const double unit = std::pow(10, std::floor(std::log10(v)) - 1);
  return std::round(v / unit) * unit;
}

// What the joint carries, and what it takes out of the parts.
void load_lines(std::string& out, const answer::Answers& a, const DisplayUnits& units) {
  for (const auto& [name, axle] : {std::pair{"front", &a.front}, std::pair{"rear", &a.rear}}) {
    if (const answer::Extreme* load = extreme(*axle, "fastener_load")) {
      std::string line = fmt::format("{} fasteners: up to {} each across the joint ({})", name,
                                     units.force(load->highest), place_text(load->highest_place, units));
      if (const answer::Extreme* clamp = extreme(*axle, "preload"))
        line += fmt::format("; clamping force {} to {}, {} when cold again", units.force(clamp->lowest),
                            units.force(clamp->highest), units.force(extreme(*axle, "preload_cold")->lowest));
      out += wrapped(line + ". An estimate; follow the maker's torque.", kTextWidth, 2) + "\n";
    }
    if (!axle->damage.empty()) {
      const answer::DamageRow& d = axle->damage.front();
      std::string left =
          fmt::format("about {:.0f} more sessions like this one ({:.0f} to {:.0f})", two_digits(d.sessions_left),
                      two_digits(d.sessions_left / answer::kLifeBand), two_digits(d.sessions_left * answer::kLifeBand));
      if (d.sessions_left > answer::kManySessions)
        left = fmt::format("more than {:.0f} sessions by this count", answer::kManySessions);
      out +=
          wrapped(fmt::format("{} life: the {} goes first, after {}; {:.0f} % of the damage is one cycle from cold to "
                              "hot. Look for cracks all the same.",
                              name, d.part, left, 100 * d.largest_share),
                  kTextWidth, 2) +
          "\n";
    }
    const answer::SofteningAnswer& soft = axle->softening;
    if (soft.applicable && soft.time_above.front().second > 0)
      out +=
          wrapped(fmt::format(
                      "{} hat: {:.0f} min above {}, {:.0f} min above {} in this session; it has lost {:.0f} % of its "
                      "proof strength for good.",
                      name, soft.time_above[0].second / 60, units.temperature(soft.time_above[0].first),
                      soft.time_above[2].second / 60, units.temperature(soft.time_above[2].first),
                      100 * (1 - soft.strength_left)),
                  kTextWidth, 2) +
          "\n";
  }
}

std::string judged(const answer::FluidAnswer& f, const DisplayUnits& units) {
  if (f.basis == "aged")
    return fmt::format(", {} at its age ({:.1f} % water)", units.temperature(f.boiling_judged), 100 * f.water);
  return f.basis == "your own" ? fmt::format(", {} by your reading", units.temperature(f.boiling_judged)) : "";
}

void fluid_lines(std::string& out, const answer::Answers& a, const DisplayUnits& units) {
  for (const auto& [name, axle] : {std::pair{"front", &a.front}, std::pair{"rear", &a.rear}})
    out += wrapped(fmt::format("{} fluid: highest {} ({}{}); boils at {} wet, {} dry{}", name,
                               units.temperature(axle->fluid.peak), place_text(axle->fluid.place, units),
                               axle->fluid.after_parking ? ", after the car stopped" : "",
                               units.temperature(axle->fluid.boiling_wet), units.temperature(axle->fluid.boiling_dry),
                               judged(axle->fluid, units)),
                   kTextWidth, 2) +
           "\n";
}

void heat_lines(std::string& out, const answer::Answers& a, const DisplayUnits& units) {
  for (const auto& [name, axle] : {std::pair{"front", &a.front}, std::pair{"rear", &a.rear}}) {
    const answer::Balance& b = axle->balance;
    const double whole = b.friction > 0 ? b.friction : 1;
    out += wrapped(fmt::format("{} heat, one wheel: {} = air {:.0f} % + radiation {:.0f} % + wheel {:.0f} % + still "
                               "stored {:.0f} % (unexplained {:.1e} of it); ring took {:.0f} %",
                               name, units.energy(b.friction), 100 * b.convection / whole, 100 * b.radiation / whole,
                               100 * b.to_wheel / whole, 100 * b.stored / whole, b.residual / whole,
                               100 * b.to_ring / whole),
                   kTextWidth, 2) +
           "\n";
  }
}

}  // namespace

std::string wet_patch_text(const answer::Answers& a, const DisplayUnits& units) {
  std::string out;
  for (const auto& [name, axle] : {std::pair{"front", &a.front}, std::pair{"rear", &a.rear}})
    for (const answer::QuenchRow& q : axle->quenches)
      out += wrapped(fmt::format(
                         "caution, {} face at a wet patch ({}): {} hot, its skin may fall by {} to {} there; uneven "
                         "around the disc.",
                         name, place_text(q.place, units), units.temperature(q.face), units.temperature_step(q.drop[0]),
                         units.temperature_step(q.drop[2])),
                     kTextWidth, 2) +
             "\n";
  return out;
}

std::string details_text(const answer::Answers& a, const DisplayUnits& units) {
  std::string out;
  joint_lines(out, a, units);
  load_lines(out, a, units);
  fluid_lines(out, a, units);
  heat_lines(out, a, units);
  out += wrapped(fmt::format("mass from geometry, one wheel: front ring {}, hat {}; rear ring {}, hat {}",
                             units.mass(a.front.ring_mass), units.mass(a.front.hat_mass), units.mass(a.rear.ring_mass),
                             units.mass(a.rear.hat_mass)),
                 kTextWidth, 2) +
         "\n";
  return out;
}

}  // namespace hatring::tools
