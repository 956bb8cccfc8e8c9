// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>

#include "tools/cli/cooled.hpp"
#include "tools/cli/json_list.hpp"
#include "tools/cli/run_json.hpp"
#include "tools/cli/version.hpp"

namespace hatring::tools {

using nlohmann::json;

namespace {

json optional(const std::optional<double>& v) {
  return v ? json(*v) : json(nullptr);
}

json soak_json(const answer::Soak& s) {
  return {{"at_rest", s.at_rest},
          {"fluid", s.fluid},
          {"fluid_after", s.fluid_after},
          {"piston", s.piston},
          {"caliper", s.caliper},
          {"hat", s.hat},
          {"cooling", s.cooling},
          {"largest_growth", optional(s.largest_growth)},
          {"smallest_growth", optional(s.smallest_growth)}};
}

json outcome_json(const answer::Outcome& o) {
  json out{{"name", name_of(o.plan)},
           {"laps", o.plan.laps},
           {"pace", o.plan.laps > 0 ? json(o.plan.pace) : json(nullptr)},
           {"roll", o.plan.roll},
           {"fan", o.plan.fan},
           {"driving", o.driving},
           {"cost", o.cost},
           {"left", o.left},
           {"holds", o.holds},
           {"unbeaten", o.unbeaten},
           {"front", soak_json(o.front)},
           {"rear", soak_json(o.rear)}};
  const answer::Verdict* v = o.tightest();
  out["tightest"] = v != nullptr ? verdict_json(*v) : json(nullptr);
  return out;
}

json band_json(const std::optional<answer::OutcomeBand>& band) {
  if (!band) return nullptr;
  return {{"little", outcome_json(band->little)}, {"much", outcome_json(band->much)}};
}

json most_json(const answer::MostLaps& m) {
  return {{"laps", m.laps}, {"limit", m.limit ? verdict_json(*m.limit) : json(nullptr)}};
}

json hot_laps_json(const answer::HotLaps& x) {
  json rests = json::array();
  for (const answer::RestRow& r : x.rests)
    rests.push_back({{"every", r.every},
                     {"pace", r.pace},
                     {"rest_costs", r.rest_costs},
                     {"lap_costs", r.lap_costs},
                     {"laps", r.hot.laps},
                     {"limit", r.hot.limit ? verdict_json(*r.hot.limit) : json(nullptr)},
                     {"settled", r.settled}});
  return {{"planned", x.planned},
          {"searched", x.searched},
          {"lap_time", x.lap_time},
          {"driving", most_json(x.driving)},
          {"with_plan", most_json(x.with_plan)},
          {"with_park_now", most_json(x.with_park_now)},
          {"rests", rests}};
}

// The part that JSON output and page share.
json search_json(const Cooled& cooled) {
  const answer::Cooldown& x = cooled.search;
  json out{{"sure", how_sure(x)}, {"chosen", x.chosen}, {"park_now", 0}, {"holds", x.holds}, {"unbeaten", x.unbeaten}};
  out["surest"] = x.surest ? json(*x.surest) : json(nullptr);
  out["plans"] = json::array();
  for (const answer::Outcome& o : x.plans) out["plans"].push_back(outcome_json(o));
  out["broken_before"] = json_list(x.broken_before, verdict_json);
  out["lost_by_all"] = json_list(x.lost_by_all, verdict_json);
  out["band"] = {{"chosen", band_json(x.band_chosen)}, {"park_now", band_json(x.band_park_now)}};
  out["harms"] = json::array();
  for (const answer::Harm& h : x.harms)
    out["harms"].push_back(
        {{"gentle", verdict_json(h.gentle)}, {"harsh", verdict_json(h.harsh)}, {"plan", h.plan}, {"chosen", h.chosen}});
  out["hot_laps"] = hot_laps_json(cooled.laps);
  return out;
}

// Some columns at equal steps; null after the end.
json curves_json(const answer::History& h, const std::vector<double>& times) {
  json out;
  for (const answer::AxleHistory* axle : {&h.front, &h.rear})
    for (const char* name : {"ring_mean", "hat_flange", "caliper", "fluid"}) {
      const answer::Column* column = axle->find("temperature", name);
      if (column == nullptr || column->not_applicable) continue;
      json values = json::array();
      std::size_t i = 0;
      for (const double t : times) {
        while (i + 2 < h.time.size() && h.time[i + 1] < t) ++i;
        if (t > h.time.back()) {
          values.push_back(nullptr);
          continue;
        }
        const double w = (t - h.time[i]) / (h.time[i + 1] - h.time[i]);
        values.push_back(std::round(10 * ((1 - w) * column->values[i] + w * column->values[i + 1])) / 10);
      }
      out[axle->axle][name] = std::move(values);
    }
  return out;
}

}  // namespace

json cooldown_json(const Cooled& cooled, double wall_seconds) {
  json out = search_json(cooled);
  out["sentence"] = first_sentence(cooled.search);
  out["level"] = answer::to_string(level_of(cooled.search));
  out["verdicts"] = json_list(cooled.search.best().verdicts, verdict_json);
  out["warnings"] = cooled.c.warnings;
  out["timing"] = {{"wall_seconds", wall_seconds}};
  return out;
}

json cooldown_page(const Cooled& cooled, const std::string& created) {
  constexpr double kStep = 5;  // of the curves [s]
  const answer::Cooldown& x = cooled.search;
  json page{{"format", 1},
            {"program", {{"name", "hatring"}, {"version", kVersion}}},
            {"kind", "cooldown"},
            {"title", cooled.c.name},
            {"created", created},
            {"mesh", session::mesh_name(cooled.c.physics.mesh)},
            {"sentence", first_sentence(x)},
            {"level", answer::to_string(level_of(x))},
            {"warnings", cooled.c.warnings},
            {"cautions", answer::cautions()},
            {"verdicts", json_list(x.best().verdicts, verdict_json)}};
  std::vector<double> times;
  const double end = std::max(x.chosen_history.time.back(), x.park_now_history.time.back());
  for (int i = 0; i * kStep <= end; ++i) times.push_back(i * kStep);
  page["cooldown"] = search_json(cooled);
  page["cooldown"]["park_now_curves"] = curves_json(x.park_now_history, times);
  page["series"] = {{"time", times}};
  const json curves = curves_json(x.chosen_history, times);
  for (const auto& [axle, columns] : curves.items()) page["series"][axle]["temperature"] = columns;
  page["limits"] = json::object();
  for (const answer::Verdict& v : x.best().verdicts)
    if (v.unit == "K" && v.what.starts_with("peak")) page["limits"][v.key][v.axle] = v.limit;
  page["assumptions"] = json::array();
  for (const session::Assumption& s : cooled.c.assumptions)
    page["assumptions"].push_back({{"key", s.key}, {"value", s.value}, {"reason", s.reason}});
  return page;
}

}  // namespace hatring::tools
