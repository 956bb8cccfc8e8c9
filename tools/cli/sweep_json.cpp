// SPDX-License-Identifier: MIT
#include <cmath>

#include "sim/answer/answers.hpp"
#include "tools/cli/sweeping.hpp"

namespace hatring::tools {

using nlohmann::json;

namespace {

json measures_json(const SweepSummary& s) {
  json out = json::array();
  for (const MeasureSpread& m : s.measures) {
    if (m.runs == 0) continue;
    out.push_back({{"key", m.measure->key},
                   {"axle", m.axle},
                   {"title", m.measure->title},
                   {"unit", m.measure->unit},
                   {"better", m.measure->better == answer::Better::lower ? "lower" : "higher"},
                   {"runs", m.runs},
                   {"lowest", m.lowest},
                   {"median", m.median},
                   {"most", m.most},
                   {"highest", m.highest}});
  }
  return out;
}

json limits_json(const SweepSummary& s) {
  json out = json::array();
  for (const LimitShare& limit : s.limits)
    out.push_back({{"key", limit.key},
                   {"axle", limit.axle},
                   {"judged", limit.judged},
                   {"near", limit.near},
                   {"over", limit.over}});
  return out;
}

json best_json(const SweepSummary& s) {
  json out = json::array();
  for (const RankedRun& run : s.best) {
    json settings = json::object();
    for (std::size_t i = 0; i < s.parameters.size(); ++i) {
      const RankedRun::Setting& setting = run.settings[i];
      settings[s.parameters[i].name] = std::isnan(setting.number) ? json(setting.text) : json(setting.number);
    }
    const bool judged = !std::isnan(run.level);
    out.push_back({{"run", run.run},
                   {"value", run.value},
                   {"level", answer::to_string(judged ? static_cast<answer::Level>(std::lround(run.level))
                                                      : answer::Level::unknown)},
                   {"settings", std::move(settings)}});
  }
  return out;
}

}  // namespace

json sweep_json(const SweepSummary& s, const std::filesystem::path& file, std::uint64_t fresh, double wall) {
  json parameters = json::array(), reasons = json::array();
  for (const SweptParameter& p : s.parameters) parameters.push_back({{"name", p.name}, {"unit", p.unit}});
  for (const auto& [reason, count] : s.reasons) reasons.push_back({{"reason", reason}, {"runs", count}});
  return {{"session", s.meta.session},
          {"file", file.string()},
          {"runs", s.rows},
          {"done", s.done},
          {"fresh", fresh},
          {"failed", s.failed},
          {"levels", {{"within", s.within}, {"near", s.near}, {"over", s.over}}},
          {"parameters", std::move(parameters)},
          {"measures", measures_json(s)},
          {"limits", limits_json(s)},
          {"sorted_by", s.sorted_axle.empty() ? s.sorted_by->key : s.sorted_axle + "." + s.sorted_by->key},
          {"best", best_json(s)},
          {"failures", std::move(reasons)},
          {"timing", {{"wall_seconds", wall}}}};
}

}  // namespace hatring::tools
