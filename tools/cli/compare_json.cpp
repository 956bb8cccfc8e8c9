// SPDX-License-Identifier: MIT
// The comparison as JSON, for scripts and for the report page.
#include <algorithm>

#include "tools/cli/comparing.hpp"
#include "tools/cli/json_list.hpp"
#include "tools/cli/page_json.hpp"
#include "tools/cli/run_json.hpp"

namespace hatring::tools {

using nlohmann::json;

namespace {

json cell_json(const answer::Cell& cell) {
  json out{{"value", cell.value},
           {"difference", cell.difference},
           {"change", answer::to_string(cell.change)},
           {"best", cell.best}};
  if (cell.band) {
    out["value_low"] = cell.band->low;
    out["value_high"] = cell.band->high;
  }
  if (cell.same_sign) out["same_sign"] = *cell.same_sign;
  if (!cell.text.empty()) out["text"] = cell.text;
  return out;
}

json rows_json(const answer::Comparison& comparison) {
  json out = json::array();
  for (const answer::ComparisonRow& row : comparison.rows) {
    const answer::Measure& m = *row.measure;
    json cells = json::array();
    for (const answer::Cell& cell : row.cells) cells.push_back(cell_json(cell));
    out.push_back({{"key", m.key},
                   {"axle", row.axle},
                   {"title", m.title},
                   {"unit", m.unit},
                   {"better", m.better == answer::Better::lower ? "lower" : "higher"},
                   {"least", m.least},
                   {"same", row.same},
                   {"cells", std::move(cells)}});
  }
  return out;
}

json cost_json(const session::Case& c) {
  if (!c.cost) return nullptr;
  return {{"amount", c.cost->amount}, {"currency", c.cost->currency}, {"text", c.cost->text}};
}

// One choice of moments for all set-ups, so that their curves share an axis: by the first one's.
std::vector<std::size_t> shared_rows(const answer::History& h) {
  constexpr std::size_t kMoments = 1100;  // keeps a page of six set-ups near one megabyte
  std::vector<const std::vector<double>*> guides{&h.speed};
  for (const answer::AxleHistory* axle : {&h.front, &h.rear})
    guides.push_back(&axle->find("temperature", "ring_face_outboard")->values);
  return rows_to_draw(guides, h.time.size(), kMoments);
}

}  // namespace

json comparison_json(const Compared& all, double wall_seconds) {
  json variants = json::array();
  double solver = 0;
  for (std::size_t i = 0; i < all.runs.size(); ++i) {
    const answer::History& h = all.runs[i].history;
    const double seconds = h.front_work.seconds + h.rear_work.seconds;
    solver += seconds;
    json one = run_json(all.runs[i], seconds);
    one["name"] = all.contenders[i].c.name;
    one["file"] = all.files[i].string();
    one["cost"] = cost_json(all.contenders[i].c);
    variants.push_back(std::move(one));
  }
  return {{"sentence", all.comparison.sentence},
          {"recommended", all.contenders[all.comparison.recommended].c.name},
          {"sorted_by", all.sorted_by},
          {"order", all.order},
          {"variants", std::move(variants)},
          {"rows", rows_json(all.comparison)},
          {"timing", {{"wall_seconds", wall_seconds}, {"solver_seconds", solver}}}};
}

json comparison_page(const Compared& all, const std::string& created) {
  json page = page_head("compare", all.contenders.front().c, created);
  page["sentence"] = all.comparison.sentence;
  page["level"] = answer::to_string(all.contenders[all.comparison.recommended].likely.level);
  page["spans"] = spans_json(all.runs.front().drive);

  const answer::History& first = all.runs.front().history;
  const std::vector<std::size_t> rows = shared_rows(first);
  page["series"] = {{"time", rounded(first.time, rows, 0.01)},
                    {"distance", rounded(first.distance, rows, 0.1)},
                    {"speed", rounded(first.speed, rows, 0.01)}};
  json variants = json::array();
  for (std::size_t i = 0; i < all.runs.size(); ++i) {
    const answer::Answers& a = all.contenders[i].likely;
    json one{{"name", all.contenders[i].c.name},
             {"level", answer::to_string(a.level)},
             {"sentence", a.sentence},
             {"cost", cost_json(all.contenders[i].c)},
             {"verdicts", json_list(a.verdicts, verdict_json)},
             {"warnings", a.warnings},
             {"series", json::object()}};
    add_axle_series(one["series"], all.runs[i].history, rows);
    variants.push_back(std::move(one));
  }
  page["comparison"] = {{"recommended", all.comparison.recommended},
                        {"order", all.order},
                        {"sorted_by", all.sorted_by},
                        {"variants", std::move(variants)},
                        {"rows", rows_json(all.comparison)}};
  return page;
}

}  // namespace hatring::tools
