// SPDX-License-Identifier: MIT
#include "sim/answer/verdicts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

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

// What to do: depends on whether the trouble begins while driving or only once the car stands.
struct Advice {
  std::string driving, parked;
};

Advice same(const char* text) {
  return {text, text};
}

// The first moment at which a column is on the wrong side of a limit.
template <class Wrong>
std::optional<Place> first(const Bench& b, const std::vector<double>& values, Wrong wrong) {
  const auto found = std::find_if(values.begin(), values.end(), wrong);
  if (found == values.end()) return std::nullopt;
  return place_at(b.drive, b.time[static_cast<std::size_t>(found - values.begin())]);
}

bool standing(const Place& p) {
  return p.lap == 0 && p.span == "parked";
}

// The highest of one temperature against a limit, on the hotter of the two sides where there are two. No verdict
// without column or limit.
void below(Bench& b, const char* key, const char* part, std::string what, std::string_view name, double limit,
           std::string reason, const Advice& advice) {
  const std::vector<double>* v = b.values("temperature", name);
  if (name.ends_with("_outboard") && v) {
    const std::string other = std::string(name.substr(0, name.size() - 8)) + "inboard";
    const std::vector<double>* inboard = b.values("temperature", other);
    constexpr double kTold = 0.5;  // sides that differ by less are not worth a word [K]
    if (inboard && (*inboard)[highest(*inboard, b.all())] > (*v)[highest(*v, b.all())] + kTold) {
      v = inboard;
      what += ", inboard";
    }
  }
  if (!v || !(limit > 0)) return;
  const std::size_t i = highest(*v, b.all());
  const Place worst = place_at(b.drive, b.time[i]);
  const std::optional<Place> since = first(b, *v, [limit](double t) { return t > limit; });
  const double margin = limit - (*v)[i];
  b.out.push_back({.axle = b.history.axle,
                   .key = key,
                   .part = part,
                   .what = std::move(what),
                   .level = level_of(margin, b.c.limits.near * (limit - b.c.air.temperature)),
                   .value = (*v)[i],
                   .limit = limit,
                   .margin = margin,
                   .unit = "K",
                   .place = worst,
                   .since = since,
                   .reason = std::move(reason),
                   .advice = standing(since.value_or(worst)) ? advice.parked : advice.driving});
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
        limit_reason(b.c, "ring_face"), same("Brake earlier and lighter, or fit more ring mass."));
  below(b, "ring_mean", "ring", "peak mean temperature", "ring_mean", b.c.limits.ring_mean,
        limit_reason(b.c, "ring_mean"), same("Run fewer hot laps in a row, or give the ring more air."));
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
  const bool one_piece = b.brake.rotor.joint.kind == session::JointKind::one_piece;
  const auto [limit, reason] =
      or_material(b, b.c.limits.hat, "hat", one_piece ? b.brake.rotor.ring.material : b.brake.rotor.hat.material);
  const std::string other = one_piece ? "" : " Compare a hat of another material.";
  below(b, "hat", "hat", "peak temperature of the flange", "hat_flange", limit, reason,
        {"Run fewer hot laps in a row." + other, "Roll longer before parking." + other});
  const auto [bolt_limit, bolt_reason] = or_material(b, b.c.limits.fastener, "fastener", b.brake.rotor.joint.material);
  below(b, "fastener", "fastener", "peak temperature", "fastener", bolt_limit, bolt_reason,
        same("Use fasteners made for this temperature; check their torque cold by the maker's figure."));
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
                     .since = first(b, *v, [](double left) { return left < 0; }),
                     .reason = "no clearance left: the joint would carry the growth as load",
                     .advice = advice});
  }
}

// A bolted joint takes the growth as load. The load is not computed yet, so the growth is shown and not judged.
void show_bolted(Bench& b) {
  const std::vector<double>* v = b.values("joint", "differential_expansion");
  if (!v || b.brake.rotor.joint.kind != session::JointKind::rigid) return;
  const std::size_t top = highest(*v, b.all()), bottom = lowest(*v, b.all());
  const std::size_t i = (*v)[top] >= -(*v)[bottom] ? top : bottom;
  const double none = std::numeric_limits<double>::quiet_NaN();
  b.out.push_back({.axle = b.history.axle,
                   .key = "bolted",
                   .part = "joint",
                   .what = "growth that the bolted joint must carry as load",
                   .level = Level::unknown,
                   .value = (*v)[i],
                   .limit = none,
                   .margin = none,
                   .unit = "m",
                   .place = place_at(b.drive, b.time[i]),
                   .reason = "no limit: the load on bolts and holes is not computed; look for cracks at the holes"});
}

void judge_pads(Bench& b) {
  const session::Pads& pads = b.brake.pads;
  const bool own = b.c.limits.pad > 0;
  below(b, "pad", "pad", "peak temperature of the rubbing surface", "pad_outboard",
        own ? b.c.limits.pad : pads.window_high,
        own ? limit_reason(b.c, "pad") : std::string("top of the pad's window"),
        same("Expect fade: brake earlier, or choose a compound for higher temperatures."));
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
          {"Run fewer hot laps in a row, and use fresh fluid with a higher wet boiling point.",
           "Roll longer before you park, and use fresh fluid with a higher wet boiling point."});
  below(b, "caliper", "caliper", "peak temperature of the body", "caliper", b.c.limits.caliper,
        limit_reason(b.c, "caliper"), same("Seals age fast at this heat: inspect them; duct air to the caliper."));
}

}  // namespace

std::vector<Verdict> judge(const session::Case& c, const session::Drive& drive, const std::vector<double>& time,
                           const AxleHistory& history, session::Axle axle) {
  Bench b{c, drive, time, history, c.brake(axle), {}};
  judge_ring(b);
  judge_hat(b);
  judge_float(b);
  show_bolted(b);
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
      const Place& since = v.since.value_or(v.place);
      const std::string worst = since.span == v.place.span ? "" : fmt::format(", worst {}", where(v.place));
      return fmt::format("Over the limit: the {} {} {} {}{}.{} {}", v.axle, v.part, trouble(v), where(since), worst,
                         others, v.advice);
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
