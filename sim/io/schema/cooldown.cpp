// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/io/schema/schema.hpp"

namespace hatring::io {

using session::CooldownPlans;

namespace {

constexpr std::size_t kMostValues = 20;

// A list of quantities of one kind, or one quantity alone.
void list(Section<CooldownPlans>& s, const std::string& name, std::vector<double> CooldownPlans::*member, Quantity kind,
          About<CooldownPlans> about, double step = 0) {
  Range range = make_range(kind, about.above, about.from, about.to, about.below);
  s.custom(
      name, fmt::format("{}, or a list of them", name_of(kind)),
      [member, kind, range, step](Reader& reader, const NodePtr& node, CooldownPlans& plans) {
        std::vector<NodePtr> items{node};
        if (node->kind == Node::Kind::list) items = node->items;
        if (items.empty() || items.size() > kMostValues) {
          reader.error(node->mark, fmt::format("found {} values, expected 1 to {}", items.size(), kMostValues));
          return;
        }
        std::vector<double> values;
        for (std::size_t i = 0; i < items.size(); ++i) {
          const Reader::Scope scope(reader, std::to_string(i));
          const auto value = reader.quantity(*items[i], kind, range);
          if (!value) return;
          if (step > 0 && std::abs(std::remainder(*value, step)) > 1e-9) {
            reader.error(items[i]->mark, fmt::format("found {:g}, expected a multiple of {:g}", *value, step));
            return;
          }
          values.push_back(*value);
        }
        std::sort(values.begin(), values.end());
        values.erase(std::unique(values.begin(), values.end()), values.end());
        plans.*member = std::move(values);
      },
      std::move(about), range);
}

}  // namespace

const Section<CooldownPlans>& cooldown_plans_section() {
  static const Section<CooldownPlans> section = [] {
    Section<CooldownPlans> s("What `hatring cooldown` tries after the last hot lap; other commands leave it aside.");
    list(s, "laps", &CooldownPlans::laps, Quantity::number,
         {.doc =
              "Cool-down laps. Half a lap is the first half of one by distance: where the pits, or a way to them, lie "
              "half way round.",
          .fallback = "[0, 0.5, 1, 2, 3]",
          .reason = "what sessions commonly leave time for, common practice, no source",
          .from = "0",
          .to = "10"},
         0.5);
    list(s, "pace", &CooldownPlans::pace, Quantity::number,
         {.doc = "Their speed over the trace's at every place.",
          .fallback = "[0.5, 0.65, 0.8]",
          .reason = "from a crawl to a lap a little off the pace, common practice, no source",
          .above = "0",
          .to = "1"});
    list(s, "roll", &CooldownPlans::roll, Quantity::time,
         {.doc = "Times of rolling slowly round the paddock, off the brakes.",
          .fallback = "[0 min, 1 min, 2 min, 3 min, 5 min]",
          .reason = "2 to 3 minutes are common advice, common practice, no source",
          .from = "0 s",
          .to = "1 h"});
    s.quantity("roll_speed", &CooldownPlans::roll_speed, Quantity::speed,
               {.doc = "Speed of that.",
                .fallback = "10 km/h",
                .reason = "a usual limit in paddocks, common practice, no source",
                .above = "0 km/h",
                .to = "60 km/h"})
        .quantity(
            "fan", &CooldownPlans::fan, Quantity::speed,
            {.doc = "Wind that a fan makes around the parked wheels, tried beside `air.wind`; 0 for no fan at hand.",
             .fallback = "4 m/s",
             .reason = "a household fan a step away, judgement",
             .from = "0 m/s",
             .to = "30 m/s"})
        .quantity("fan_time", &CooldownPlans::fan_time, Quantity::time,
                  {.doc = "What fetching and pointing the fan counts as, in the cost of a plan.",
                   .fallback = "2 min",
                   .reason = "judgement",
                   .from = "0 s",
                   .to = "1 h"})
        .quantity("soak", &CooldownPlans::soak, Quantity::time,
                  {.doc = "How long the parked car is followed.",
                   .fallback = "30 min",
                   .reason = "the fluid peaks some minutes after parking and the hat's growth turns later",
                   .from = "30 min",
                   .to = "24 h"})
        .integer("most_laps", &CooldownPlans::most_laps,
                 {.doc = "The search for the most hot laps ends there.",
                  .fallback = "30",
                  .reason = "longer than a session of a track day",
                  .from = "1",
                  .to = "200"});
    list(s, "rest_pace", &CooldownPlans::rest_pace, Quantity::number,
         {.doc = "Pace of a lift-and-coast lap between hot ones.",
          .fallback = "[0.65, 0.8]",
          .reason = "as cool-down laps",
          .above = "0",
          .to = "1"});
    return s;
  }();
  return section;
}

}  // namespace hatring::io
