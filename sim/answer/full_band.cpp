// SPDX-License-Identifier: MIT
#include "sim/answer/full_band.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <numeric>
#include <stdexcept>

#include "sim/answer/band.hpp"
#include "sim/session/error.hpp"

namespace hatring::answer {
namespace {

// Verdicts within limits that the weights of the inputs are averaged over when no limit is in question.
constexpr std::size_t kClosest = 3;

std::uint64_t blocks(std::uint64_t runs, std::size_t inputs) {
  return std::max<std::uint64_t>(2, std::bit_floor(runs / (inputs + 2)));
}

// Linear between the sorted values. \param sorted not empty
double quantile_of(const std::vector<double>& sorted, double share) {
  const double at = share * static_cast<double>(sorted.size() - 1);
  const auto below = static_cast<std::size_t>(at);
  const std::size_t above = std::min(below + 1, sorted.size() - 1);
  return std::lerp(sorted[below], sorted[above], at - static_cast<double>(below));
}

std::vector<InputWeight> weights(std::span<const double> margins, std::size_t inputs) {
  std::vector<InputWeight> out;
  const study::SobolIndices s = study::sobol_indices(margins, inputs);
  if (!(s.variance > 0)) return out;
  out.reserve(inputs);
  for (std::size_t i = 0; i < inputs; ++i)
    out.push_back({i, s.first[i], s.total[i], s.first_error[i], s.total_error[i]});
  std::stable_sort(out.begin(), out.end(),
                   [](const InputWeight& a, const InputWeight& b) { return a.total > b.total; });
  return out;
}

template <class Answers, class Visit>
void for_each_other(Answers& a, const Visit& visit) {
  for (auto* axle : {&a.front, &a.rear})
    for (auto& [name, peak] : axle->peaks) visit(peak);
  for (auto* axle : {&a.front, &a.rear}) visit(axle->joint);
}

Band around(double value, const Doubt& d) {
  return {std::min(value, d.low), std::max(value, d.high)};
}

double value_of(const Peak& p) {
  return p.value;
}
double value_of(const JointAnswer& j) {
  return j.needed_float;
}
void give_band(Peak& p, const Doubt& d) {
  p.band = around(p.value, d);
  p.median = d.likely;
}
void give_band(JointAnswer& j, const Doubt& d) {
  if (j.applicable) j.needed_band = around(j.needed_float, d);
}

// What the likely run says stays; the full band only takes away from how sure it is.
void judge(Verdict& v, const std::string& advice) {
  const double kept = v.doubt->kept;
  v.band = around(v.value, *v.doubt);
  if (v.level == Level::unknown) return;
  v.sure = how_sure(kept);
  if (v.level == Level::exceeded) {
    v.crosses = kept > 1 - kSurely;
    return;
  }
  v.crosses = kept < kSurely;
  if (!v.crosses) return;
  v.level = Level::near;
  if (v.advice.empty()) v.advice = advice;
}

bool matters(const Verdict& v) {
  return !v.doubt->weights.empty() && (v.crosses || v.level == Level::exceeded || v.level == Level::near);
}

// Which inputs weigh most where a limit is in question, else where a part comes closest to one.
void weigh(Answers& a) {
  FullBandAnswer& full = *a.full_band;
  std::vector<const Verdict*> over, closest;
  for (const Verdict& v : a.verdicts) {
    if (!v.doubt || v.doubt->weights.empty()) continue;
    if (matters(v)) over.push_back(&v);
    if (closest.size() < kClosest) closest.push_back(&v);
  }
  const std::vector<const Verdict*>& by = over.empty() ? closest : over;
  for (const Verdict* v : by)
    for (const InputWeight& w : v->doubt->weights)
      full.inputs[w.input].weight += w.total / static_cast<double>(by.size());
  full.order.resize(full.inputs.size());
  std::iota(full.order.begin(), full.order.end(), std::size_t{0});
  std::stable_sort(full.order.begin(), full.order.end(),
                   [&full](std::size_t x, std::size_t y) { return full.inputs[x].weight > full.inputs[y].weight; });
  const InputShown& most = full.inputs[full.order.front()];
  full.sentence = by.empty() ? "No answer depends on what is in doubt."
                             : fmt::format("The doubt of {} hangs most on {}. What would narrow it most: {}.",
                                           over.empty() ? "what comes closest to a limit" : "limits in question",
                                           most.name, most.reading);
}

InputShown shown(const UncertainInput& input) {
  InputShown out{input.key, input.name, input.reading, 0, {}};
  out.parts.reserve(input.parts.size());
  for (const InputPart& p : input.parts)
    out.parts.push_back({p.where, p.unit, p.reason, p.factor.low * p.value, p.value, p.factor.high * p.value});
  return out;
}

// One quantity over the runs that count.
std::vector<double> column(const std::vector<const BandRow*>& rows, std::vector<double> BandRow::*of, std::size_t i) {
  std::vector<double> out;
  out.reserve(rows.size());
  for (const BandRow* row : rows) out.push_back((row->*of)[i]);
  return out;
}

}  // namespace

std::string how_sure(double kept) {
  if (kept >= 1) return "kept in every run of the full band";
  if (kept <= 0) return "not kept in any run of the full band";
  const char* words = kept >= kSurely      ? "very likely kept"
                      : kept >= 0.7        ? "likely kept"
                      : kept > 0.3         ? "as likely kept as not"
                      : kept > 1 - kSurely ? "probably not kept"
                                           : "very likely not kept";
  return fmt::format("{} (in {:.0f} % of the runs of the full band)", words, std::clamp(100 * kept, 1.0, 99.0));
}

Doubt spread(std::span<const double> values, std::span<const double> margins, std::size_t inputs) {
  Doubt out;
  std::vector<double> sorted;
  std::size_t kept = 0, of = 0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (i % (inputs + 2) > 1) continue;  // the others share coordinates with these two
    ++of;
    if (!(margins[i] < 0)) ++kept;
    if (std::isfinite(values[i])) sorted.push_back(values[i]);
  }
  out.kept = of == 0 ? 1 : static_cast<double>(kept) / static_cast<double>(of);
  std::sort(sorted.begin(), sorted.end());
  if (sorted.empty()) {
    out.low = out.likely = out.high = kNone;
    return out;
  }
  out.low = quantile_of(sorted, 1 - kSurely);
  out.likely = quantile_of(sorted, 0.5);
  out.high = quantile_of(sorted, kSurely);
  out.weights = weights(margins, inputs);
  return out;
}

FullBand::FullBand(const session::Case& c, const Answers& likely, std::vector<UncertainInput> inputs,
                   std::uint64_t runs)
    : case_(c), likely_(likely), inputs_(std::move(inputs)), design_(inputs_.size(), blocks(runs, inputs_.size())) {}

session::Case FullBand::at(std::uint64_t run) const {
  std::vector<double> u(inputs_.size());
  design_.point(run, u);
  session::Case c = case_;
  for (std::size_t i = 0; i < inputs_.size(); ++i) set_input(c, inputs_[i], u[i]);
  return c;
}

BandRow FullBand::row(const Answers& answers) const {
  BandRow out;
  for (const Verdict& v : likely_.verdicts) {
    const Verdict* here = counterpart(answers, v);
    out.value.push_back(here ? here->value : kNone);
    out.margin.push_back(here ? here->margin : kNone);
    out.advice.push_back(here && here->level == Level::exceeded ? here->advice : "");
  }
  for_each_other(answers, [&out](const auto& x) { out.other.push_back(value_of(x)); });
  return out;
}

void FullBand::widen(Answers& answers, const std::vector<BandRow>& rows) const {
  const std::size_t inputs = inputs_.size(), block = this->block();
  FullBandAnswer full{.runs = rows.size()};
  std::vector<const BandRow*> done;
  for (std::size_t i = 0; i + block <= rows.size(); i += block) {
    std::uint64_t failed = 0;
    for (std::size_t k = 0; k < block; ++k) failed += rows[i + k].failed() ? 1 : 0;
    full.failed += failed;
    if (failed == 0)
      for (std::size_t k = 0; k < block; ++k) done.push_back(&rows[i + k]);
  }
  if (done.empty()) throw session::CaseError("every block of the full band has a run that cannot be done");
  for (const UncertainInput& input : inputs_) full.inputs.push_back(shown(input));
  if (full.failed > 0)
    answers.warnings.push_back(
        fmt::format("{} of {} runs of the full band could not be done and are left out", full.failed, full.runs));
  for (std::size_t i = 0; i < answers.verdicts.size(); ++i) {
    answers.verdicts[i].doubt = spread(column(done, &BandRow::value, i), column(done, &BandRow::margin, i), inputs);
    const auto broken = std::find_if(done.begin(), done.end(), [i](const BandRow* r) { return !r->advice[i].empty(); });
    judge(answers.verdicts[i], broken == done.end() ? "" : (*broken)->advice[i]);
  }
  std::size_t i = 0;
  for_each_other(answers, [&](auto& x) {
    const std::vector<double> values = column(done, &BandRow::other, i++);
    give_band(x, spread(values, values, inputs));
  });
  answers.full_band = std::move(full);
  conclude(answers);
  weigh(answers);
}

}  // namespace hatring::answer
