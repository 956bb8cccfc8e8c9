// SPDX-License-Identifier: MIT
#include "sim/answer/verdict_rules.hpp"

#include <fmt/format.h>

namespace hatring::answer {

Level level_of(double margin, double near) {
  return margin < 0 ? Level::exceeded : margin < near ? Level::near : Level::within;
}

std::string limit_reason(const session::Case& c, std::string_view key) {
  for (const session::Assumption& a : c.assumptions)
    if (a.key == fmt::format("limits.{}", key)) return a.reason;
  return "your own limit";
}

namespace {

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

}  // namespace

void judge_values(Bench& b, const std::vector<double>& values, Rule rule) {
  const std::size_t i = rule.keep_below ? highest(values, b.all()) : lowest(values, b.all());
  const Place worst = place_at(b.drive, b.time[i]);
  const double limit = rule.limit + (rule.keep_below ? rule.tolerance : -rule.tolerance);
  const std::optional<Place> since =
      first(b, values, [&](double v) { return rule.keep_below ? v > limit : v < limit; });
  const double margin = rule.keep_below ? limit - values[i] : values[i] - limit, scale = rule.scale + rule.tolerance;
  b.out.push_back({.axle = b.history.axle,
                   .key = rule.key,
                   .part = rule.part,
                   .aspect = rule.aspect,
                   .what = std::move(rule.what),
                   .level = level_of(margin, std::max(b.c.limits.near * scale, rule.tolerance)),
                   .value = values[i],
                   .limit = limit,
                   .margin = margin,
                   .scale = scale,
                   .unit = rule.unit,
                   .place = worst,
                   .since = since,
                   .reason = std::move(rule.reason),
                   .advice = standing(since.value_or(worst)) ? rule.advice.parked : rule.advice.driving});
}

void below(Bench& b, const char* key, const char* part, const char* aspect, std::string what, std::string_view name,
           double limit, std::string reason, const Advice& advice) {
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
  judge_values(b, *v,
               {.key = key,
                .part = part,
                .aspect = aspect,
                .what = std::move(what),
                .unit = "K",
                .limit = limit,
                .scale = (limit - b.c.air.temperature),
                .reason = std::move(reason),
                .advice = advice});
}

std::pair<double, std::string> or_material(const Bench& b, double limit, const char* key, const std::string& name) {
  if (limit > 0) return {limit, limit_reason(b.c, key)};
  const auto found = b.c.materials.find(name);
  if (found == b.c.materials.end()) return {0, ""};
  return {found->second.highest_service, fmt::format("limit of {}: {}", name, found->second.highest_service_reason)};
}

}  // namespace hatring::answer
