// SPDX-License-Identifier: MIT
#include "sim/answer/verdicts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/answer/places.hpp"

namespace hatring::answer {
namespace {

// Everything the rules below look at.
struct Bench {
  const session::Case& c;
  const session::Drive& drive;
  const std::vector<double>& time;
  const AxleHistory& history;
  const session::Brake& brake;
  std::vector<Verdict> out;

  [[nodiscard]] const std::vector<double>* values(std::string_view group, std::string_view name) const {
    const Column* column = history.find(group, name);
    return column && !column->not_applicable ? &column->values : nullptr;
  }
  [[nodiscard]] Rows all() const { return {0, time.size()}; }
};

Level level_of(double margin, double near) {
  return margin < 0 ? Level::exceeded : margin < near ? Level::near : Level::within;
}

// Where a limit of the config comes from: its default's reason, or the config itself.
std::string limit_reason(const session::Case& c, std::string_view key) {
  for (const session::Assumption& a : c.assumptions)
    if (a.key == fmt::format("limits.{}", key)) return a.reason;
  return fmt::format("limits.{} of the config", key);
}

// The highest of one temperature against a limit. No verdict without column or limit.
void below(Bench& b, const char* key, const char* part, const char* what, std::string_view name, double limit,
           std::string reason, std::string advice) {
  const std::vector<double>* v = b.values("temperature", name);
  if (!v || !(limit > 0)) return;
  const std::size_t i = highest(*v, b.all());
  const double margin = limit - (*v)[i];
  b.out.push_back({.axle = b.history.axle,
                   .key = key,
                   .part = part,
                   .what = what,
                   .level = level_of(margin, b.c.limits.near * (limit - b.c.air.temperature)),
                   .value = (*v)[i],
                   .limit = limit,
                   .margin = margin,
                   .unit = "K",
                   .place = place_at(b.drive, b.time[i]),
                   .reason = std::move(reason),
                   .advice = std::move(advice)});
}

// A limit of the config, or the material's own where the config sets none.
std::pair<double, std::string> or_material(const Bench& b, double limit, const char* key, const std::string& name) {
  if (limit > 0) return {limit, limit_reason(b.c, key)};
  const auto found = b.c.materials.find(name);
  if (found == b.c.materials.end()) return {0, ""};
  return {found->second.highest_service, fmt::format("{}: {}", name, found->second.highest_service_reason)};
}

void judge_ring(Bench& b) {
  below(b, "ring_face", "ring face", "peak temperature", "ring_face_outboard", b.c.limits.ring_face,
        limit_reason(b.c, "ring_face"), "Brake earlier and lighter, or fit more ring mass.");
  below(b, "ring_mean", "ring", "peak mean temperature", "ring_mean", b.c.limits.ring_mean,
        limit_reason(b.c, "ring_mean"), "Run fewer hot laps in a row, or give the ring more air.");
  const std::vector<double>* rate = b.values("rate", "ring_face");
  if (!rate || !(b.c.limits.face_rate > 0)) return;
  const std::size_t i = highest(*rate, b.all());
  const double margin = b.c.limits.face_rate - (*rate)[i];
  b.out.push_back(
      {.axle = b.history.axle,
       .key = "face_rate",
       .part = "ring face",
       .what = "heating rate",
       .level = level_of(margin, b.c.limits.near * b.c.limits.face_rate),
       .value = (*rate)[i],
       .limit = b.c.limits.face_rate,
       .margin = margin,
       .unit = "K s-1",
       .place = place_at(b.drive, b.time[i]),
       .reason = limit_reason(b.c, "face_rate"),
       .advice = "Warm the discs over a lap before the first hard stop; look for cracks at every hole and edge."});
}

void judge_hat(Bench& b) {
  const auto [limit, reason] =
      or_material(b, b.c.limits.hat, "hat",
                  b.brake.rotor.joint.kind == session::JointKind::one_piece ? b.brake.rotor.ring.material
                                                                            : b.brake.rotor.hat.material);
  below(b, "hat", "hat", "peak temperature of the flange", "hat_flange", limit, reason,
        "Roll longer before parking, or compare a steel hat.");
  const auto [bolt_limit, bolt_reason] = or_material(b, b.c.limits.fastener, "fastener", b.brake.rotor.joint.material);
  below(b, "fastener", "fastener", "peak temperature", "fastener", bolt_limit, bolt_reason,
        "Use fasteners made for this temperature; check their torque cold by the maker's figure.");
}

void judge_float(Bench& b) {
  const double clearance = b.brake.rotor.joint.float_clearance;
  for (const auto& [name, what, advice] :
       {std::tuple{"clearance_outward", "float left, ring outgrowing the hat",
                   "Fit a joint with more float, or cool the ring."},
        std::tuple{"clearance_inward", "float left, hat outgrowing the ring",
                   "Fit a joint with more float; do not cool the ring faster than the hat."}}) {
    const std::vector<double>* v = b.values("joint", name);
    if (!v) continue;
    const std::size_t i = lowest(*v, b.all());
    b.out.push_back({.axle = b.history.axle,
                     .key = "float",
                     .part = "joint",
                     .what = what,
                     .level = level_of((*v)[i], b.c.limits.near * clearance),
                     .value = (*v)[i],
                     .limit = 0,
                     .margin = (*v)[i],
                     .unit = "m",
                     .place = place_at(b.drive, b.time[i]),
                     .reason = "no clearance left: the joint would carry the growth as load",
                     .advice = advice});
  }
}

void judge_pads(Bench& b) {
  const session::Pads& pads = b.brake.pads;
  const bool own = b.c.limits.pad > 0;
  below(b, "pad", "pad", "peak temperature of the rubbing surface", "pad_outboard",
        own ? b.c.limits.pad : pads.window_high,
        own ? limit_reason(b.c, "pad") : std::string("top of the pad's window"),
        "Expect fade: brake earlier, or choose a compound for higher temperatures.");
  const std::vector<double>* v = b.values("temperature", "pad_outboard");
  if (!v || !(pads.window_low > 0)) return;
  // Too cold is a fault too: judged on the hottest moment of the hot laps.
  bool any = false;
  std::size_t best = 0;
  for (const session::Span& s : b.drive.spans()) {
    if (s.lap == 0 || s.phase != session::Phase::driving) continue;
    const Rows rows = rows_of(s, b.time);
    if (rows.first >= rows.last) continue;
    const std::size_t i = highest(*v, rows);
    if (!any || (*v)[i] > (*v)[best]) best = i;
    any = true;
  }
  if (!any || (*v)[best] >= pads.window_low) return;
  b.out.push_back({.axle = b.history.axle,
                   .key = "pad_window",
                   .part = "pad",
                   .what = "never as warm as their window",
                   .level = Level::near,
                   .value = (*v)[best],
                   .limit = pads.window_low,
                   .margin = (*v)[best] - pads.window_low,
                   .unit = "K",
                   .place = place_at(b.drive, b.time[best]),
                   .reason = "bottom of the pad's window",
                   .advice = "Weak bite and glazing: choose a compound that works colder, or close the ducts."});
}

void judge_caliper(Bench& b) {
  const session::Fluid& fluid = b.brake.fluid;
  const double boiling = fluid.judge_wet ? fluid.wet_boiling : fluid.dry_boiling;
  if (boiling > 0)
    below(b, "fluid", "brake fluid", "peak temperature in the caliper", "fluid", boiling - b.c.limits.fluid_margin,
          fmt::format("{} boiling point less limits.fluid_margin", fluid.judge_wet ? "wet" : "dry"),
          "Fresh fluid with a higher wet boiling point, more cool-down rolling, and no long stop straight after a hot "
          "lap.");
  below(b, "caliper", "caliper", "peak temperature of the body", "caliper", b.c.limits.caliper,
        limit_reason(b.c, "caliper"), "Seals age fast at this heat: inspect them; duct air to the caliper.");
}

}  // namespace

std::vector<Verdict> judge(const session::Case& c, const session::Drive& drive, const std::vector<double>& time,
                           const AxleHistory& history, session::Axle axle) {
  Bench b{c, drive, time, history, c.brake(axle), {}};
  judge_ring(b);
  judge_hat(b);
  judge_float(b);
  judge_pads(b);
  judge_caliper(b);
  for (Verdict& v : b.out)
    if (v.level == Level::within) v.advice.clear();
  return std::move(b.out);
}

namespace {

std::string where(const Place& p) {
  if (p.lap > 0) return fmt::format("on {}", p.span.starts_with("lap") ? p.span : "the " + p.span);
  return p.span == "parked" ? std::string("after parking") : fmt::format("during the {}", p.span);
}

// "gets too hot", "nearly gets too hot"
std::string trouble(const Verdict& v) {
  const char* nearly = v.level == Level::near ? "nearly " : "";
  if (v.key == "float") return fmt::format("{}runs out of float", nearly);
  if (v.key == "face_rate") return fmt::format("{}heats up too fast", nearly);
  if (v.key == "pad_window") return "never gets warm enough";
  return fmt::format("{}gets too hot", nearly);
}

}  // namespace

std::string first_sentence(const std::vector<Verdict>& verdicts) {
  if (verdicts.empty()) return "Nothing was judged: no limits apply to this run.";
  // No numbers here: they stand in the rows below, in the units the reader chose.
  const Verdict& v = verdicts.front();
  switch (v.level) {
    case Level::exceeded: {
      const auto over =
          std::count_if(verdicts.begin(), verdicts.end(), [](const Verdict& x) { return x.level == Level::exceeded; });
      const std::string others = over > 1 ? fmt::format(" {} more over.", over - 1) : "";
      return fmt::format("Over the limit: the {} {} {} {}.{} {}", v.axle, v.part, trouble(v), where(v.place), others,
                         v.advice);
    }
    case Level::near:
      return fmt::format("Within limits, but close: the {} {} {} {}. {}", v.axle, v.part, trouble(v), where(v.place),
                         v.advice);
    case Level::within:
      return fmt::format("Within limits. The {} {} comes closest to its own, {}.", v.axle, v.part, where(v.place));
    case Level::unknown:
      break;
  }
  return "Nothing could be judged.";
}

}  // namespace hatring::answer
