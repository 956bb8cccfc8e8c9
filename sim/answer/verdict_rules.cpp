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
  return fmt::format("limits.{} of the config", key);
}

namespace {

bool standing(const Place& p) {
  return p.lap == 0 && p.span == "parked";
}

}  // namespace

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

std::pair<double, std::string> or_material(const Bench& b, double limit, const char* key, const std::string& name) {
  if (limit > 0) return {limit, limit_reason(b.c, key)};
  const auto found = b.c.materials.find(name);
  if (found == b.c.materials.end()) return {0, ""};
  return {found->second.highest_service, fmt::format("{}: {}", name, found->second.highest_service_reason)};
}

}  // namespace hatring::answer
