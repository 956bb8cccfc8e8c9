// SPDX-License-Identifier: MIT
#include "tools/cli/page_json.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <span>
#include <string_view>

#include "tools/cli/pedal_json.hpp"
#include "tools/cli/run_json.hpp"
#include "tools/cli/section_json.hpp"
#include "tools/cli/version.hpp"

namespace hatring::tools {

using nlohmann::json;

std::vector<std::size_t> rows_to_draw(const std::vector<const std::vector<double>*>& columns, std::size_t rows,
                                      std::size_t wanted) {
  std::vector<std::size_t> out;
  if (rows == 0) return out;
  const std::size_t slices = std::max<std::size_t>(1, wanted / std::max<std::size_t>(1, 2 * columns.size()));
  std::vector<std::size_t> in_slice;
  for (std::size_t s = 0; s < slices; ++s) {
    const auto first = static_cast<std::ptrdiff_t>(s * rows / slices),
               last = static_cast<std::ptrdiff_t>((s + 1) * rows / slices);
    if (first == last) continue;
    in_slice.clear();
    for (const std::vector<double>* c : columns) {
      const auto [low, high] = std::minmax_element(c->begin() + first, c->begin() + last);
      in_slice.push_back(static_cast<std::size_t>(low - c->begin()));
      in_slice.push_back(static_cast<std::size_t>(high - c->begin()));
    }
    out.insert(out.end(), in_slice.begin(), in_slice.end());
  }
  out.push_back(0);
  out.push_back(rows - 1);
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

json rounded(const std::vector<double>& values, const std::vector<std::size_t>& rows, double step) {
  json out = json::array();
  for (const std::size_t i : rows) {
    // Dividing by the whole number 1/step prints 612.35 where multiplying by 0.01 would print 612.3500000000001.
    if (std::isfinite(values[i]))
      out.push_back(step < 1 ? std::round(values[i] / step) / std::round(1 / step)
                             : std::round(values[i] / step) * step);
    else
      out.push_back(nullptr);
  }
  return out;
}

namespace {

struct Drawn {
  std::string_view group, name;  // no name: all of the group
  double step;                   // finer than the page can show
};
constexpr Drawn kOfEveryRun[] = {{"temperature", "", 0.1},
                                 {"joint", "differential_expansion", 1e-6},
                                 {"joint", "clearance_outward", 1e-6},
                                 {"joint", "clearance_inward", 1e-6}};
constexpr Drawn kOfOneRun[] = {{"joint", "slip", 1e-6},
                               {"joint", "preload", 1},
                               {"joint", "preload_cold", 1},
                               {"pedal", "friction_coefficient", 0.001},
                               {"pedal", "pressure", 1e4}};

void add_columns(json& out, const answer::History& h, const std::vector<std::size_t>& rows,
                 std::span<const Drawn> drawn) {
  for (const answer::AxleHistory* axle : {&h.front, &h.rear})
    for (const answer::Column& c : axle->columns)
      for (const Drawn& d : drawn)
        if (!c.not_applicable && c.group == d.group && (d.name.empty() || c.name == d.name))
          out[axle->axle][c.group][c.name] = rounded(c.values, rows, d.step);
}

}  // namespace

void add_axle_series(json& out, const answer::History& h, const std::vector<std::size_t>& rows) {
  add_columns(out, h, rows, kOfEveryRun);
}

json spans_json(const session::Drive& drive) {
  json out = json::array();
  for (const session::Span& s : drive.spans()) {
    const char* phase = s.phase == session::Phase::driving  ? "driving"
                        : s.phase == session::Phase::parked ? "parked"
                                                            : "bench";
    out.push_back({{"lap", s.lap},
                   {"label", s.label},
                   {"phase", phase},
                   {"begin", s.begin},
                   {"end", s.end},
                   {"begin_distance", s.begin_distance},
                   {"end_distance", s.end_distance}});
  }
  return out;
}

namespace {

json series_json(const answer::History& h) {
  std::vector<const std::vector<double>*> guides{&h.speed};
  for (const answer::AxleHistory* axle : {&h.front, &h.rear})
    for (const char* name : {"ring_face_outboard", "ring_mean", "pad_outboard", "fluid"})
      guides.push_back(&axle->find("temperature", name)->values);
  const std::vector<std::size_t> rows = rows_to_draw(guides, h.time.size(), 4000);
  json out{{"time", rounded(h.time, rows, 0.01)},
           {"distance", rounded(h.distance, rows, 0.1)},
           {"speed", rounded(h.speed, rows, 0.01)}};
  out["lap"] = json::array();
  for (const std::size_t i : rows) out["lap"].push_back(h.lap[i]);
  add_axle_series(out, h, rows);
  add_columns(out, h, rows, kOfOneRun);
  return out;
}

json laps_json(const answer::AxleAnswers& a) {
  json out = json::array();
  for (const answer::LapRow& row : a.laps)
    out.push_back({{"lap", row.span.lap},
                   {"label", row.span.label},
                   {"begin", row.span.begin},
                   {"end", row.span.end},
                   {"heat", row.heat},
                   {"lowest", row.lowest},
                   {"highest", row.highest}});
  return out;
}

json brakings_json(const session::Case& c, const session::Drive& drive) {
  json out = json::array();
  for (const session::Braking& b : drive.brakings()) {
    const double share = drive.front_share(0.5 * (b.begin + b.end));
    const double front = share * 0.5 * c.brakes.hot_side_factor, rear = (1 - share) * 0.5 * c.brakes.hot_side_factor;
    out.push_back({{"lap", b.lap},
                   {"begin", b.begin},
                   {"end", b.end},
                   {"lap_distance", b.lap_distance},
                   {"entry_speed", b.entry_speed},
                   {"exit_speed", b.exit_speed},
                   {"brake", b.brake},
                   {"peak_power", b.peak_power},
                   {"front_wheel", front * b.brake},
                   {"rear_wheel", rear * b.brake}});
  }
  return out;
}

}  // namespace

json page_head(const char* kind, const std::string& title, const std::string& created) {
  return {{"format", 1},        {"program", {{"name", "hatring"}, {"version", kVersion}}},
          {"kind", kind},       {"title", title},
          {"created", created}, {"cautions", answer::cautions()}};
}

json page_head(const char* kind, const session::Case& c, const std::string& created) {
  json head = page_head(kind, c.name, created);
  head["mesh"] = session::mesh_name(c.physics.mesh);
  return head;
}

json page_json(const session::Case& c, const answer::Run& run, const std::string& created) {
  const answer::Answers& a = run.answers;
  json page = page_head("simulate", c, created);
  page["sentence"] = a.sentence;
  page["level"] = answer::to_string(a.level);
  page["warnings"] = a.warnings;
  page["verdicts"] = json::array();
  for (const answer::Verdict& v : a.verdicts) page["verdicts"].push_back(verdict_json(v));
  if (a.full_band) page["full_band"] = full_band_json(*a.full_band);
  page["spans"] = spans_json(run.drive);
  page["series"] = series_json(run.history);
  page["laps"] = both_axles(a, laps_json);
  page["brakings"] = brakings_json(c, run.drive);
  page["balance"] = both_axles(a, [](const answer::AxleAnswers& x) { return balance_json(x.balance); });
  page["joint"] = both_axles(a, [](const answer::AxleAnswers& x) { return joint_json(x.joint); });
  page["fluid"] = both_axles(a, [](const answer::AxleAnswers& x) { return fluid_json(x.fluid); });
  add_wear_and_tear(page, a);
  add_pedal(page, a);
  page["masses"] = both_axles(a, masses_json);
  // Lines to draw: the limit of each verdict on a peak temperature.
  page["limits"] = json::object();
  for (const answer::Verdict& v : a.verdicts)
    if (v.unit == "K" && v.what.starts_with("peak")) page["limits"][v.key][v.axle] = v.limit;
  page["assumptions"] = json::array();
  for (const session::Assumption& s : c.assumptions)
    if (!s.key.starts_with("cooldown."))  // has no part in this run
      page["assumptions"].push_back({{"key", s.key}, {"value", s.value}, {"reason", s.reason}});
  add_section(page, c, a);
  return page;
}

}  // namespace hatring::tools
