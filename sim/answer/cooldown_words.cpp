// SPDX-License-Identifier: MIT
// A cool-down in words.
#include <fmt/format.h>

#include <cmath>

#include "sim/answer/cooldown.hpp"
#include "sim/answer/places.hpp"

namespace hatring::answer {
namespace {

std::string minutes(double seconds) {
  return fmt::format("{:.2g} min", seconds / 60);
}

std::string limit_name(const Verdict& v) {
  return fmt::format("{} {}{}{}", v.axle, v.part, v.aspect.empty() ? "" : " ", v.aspect);
}

std::string where(const Verdict& v) {
  return v.key == "pad_print" ? "when the car comes to rest" : in_words(v.place);
}

std::string listed(const std::vector<Verdict>& verdicts) {
  std::string out;
  for (std::size_t i = 0; i < verdicts.size(); ++i)
    out += fmt::format("{}{}", i == 0 ? "" : i + 1 == verdicts.size() ? " and " : ", ", limit_name(verdicts[i]));
  return out;
}

// What parking at once would break, worst first.
std::string broken_by_park_now(const Cooldown& x) {
  std::vector<Verdict> over;
  for (const Verdict& v : x.park_now().verdicts)
    if (counts_for_plan(v) && v.level == Level::exceeded) over.push_back(v);
  if (over.empty()) return "";
  return fmt::format(" Parking at once would take the {} over {}, worst {}.", listed(over),
                     over.size() == 1 ? "its limit" : "their limits", where(over.front()));
}

}  // namespace

std::string name_of(const Plan& plan) {
  if (plan.park_now()) return "park at once";
  std::string out;
  const auto add = [&](const std::string& part) { out += out.empty() ? part : ", " + part; };
  if (plan.laps > 0) {
    const double whole = std::floor(plan.laps);
    const std::string half = plan.laps > whole ? (whole > 0 ? " 1/2" : "1/2") : "";
    add(fmt::format("{}{} lap{} at {:g} pace", whole > 0 ? fmt::format("{:.0f}", whole) : "", half,
                    plan.laps > 1 ? "s" : "", plan.pace));
  }
  if (plan.roll > 0) add(fmt::format("{} rolling", minutes(plan.roll)));
  if (plan.fan) add(plan.laps > 0 || plan.roll > 0 ? "fan" : "park at once with a fan");
  return out;
}

std::string first_sentence(const Cooldown& x) {
  std::string out;
  const Outcome& best = x.best();
  if (x.holds) {
    const char* likely = x.holds_surely() ? "" : ", but not surely";
    out = best.plan.park_now() ? fmt::format("Parking at once holds every limit of the cool-down{}.", likely)
                               : fmt::format("The cheapest plan that holds every limit of the cool-down{}: {}.{}",
                                             likely, name_of(best.plan), broken_by_park_now(x));
    if (const Verdict* v = best.tightest())
      out += fmt::format(" The {} comes closest to its limit, {}.", limit_name(*v), where(*v));
  } else {
    out = fmt::format("None of the plans holds every limit; the least bad is: {}.", name_of(best.plan));
    if (!x.lost_by_all.empty())
      out += fmt::format(" The {} {} over in all of them, so fewer hot laps, more cooling or other parts are needed.",
                         listed(x.lost_by_all), x.lost_by_all.size() == 1 ? "is" : "are");
    out += best.plan.park_now() ? "" : broken_by_park_now(x);
  }
  if (!x.broken_before.empty())
    out += fmt::format(" Passed on the hot laps already: {}; no cool-down undoes that.", listed(x.broken_before));
  return out;
}

std::string how_sure(const Cooldown& x) {
  if (!x.band_chosen) return "";
  const bool little = x.band_chosen->little.holds, much = x.band_chosen->much.holds;
  const auto failing = [](const Outcome& o) {
    const Verdict* v = o.tightest();
    return v == nullptr ? std::string("a limit") : fmt::format("the {}", limit_name(*v));
  };
  if (!x.holds) {
    if (!little && !much) return "No limit is saved by air that cools more or less than assumed, within its band.";
    return fmt::format("It would hold if the air cools {} than assumed, within its band.", much ? "more" : "less");
  }
  if (x.holds_surely()) return "It holds over the whole band of cooling that is plausible.";
  std::string out =
      fmt::format("It fails if the air cools {} than assumed: then {} goes over.", little ? "more" : "less",
                  failing(little ? x.band_chosen->much : x.band_chosen->little));
  if (x.surest) return out + fmt::format(" What holds over the whole band: {}.", name_of(x.plans[*x.surest].plan));
  return out + " No plan holds over the whole band.";
}

}  // namespace hatring::answer
