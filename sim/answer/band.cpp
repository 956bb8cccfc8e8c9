// SPDX-License-Identifier: MIT
#include "sim/answer/band.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "sim/answer/run_many.hpp"
#include "sim/network/assumed.hpp"

namespace hatring::answer {
namespace {

Band around(double a, double b, double c) {
  return {std::min({a, b, c}), std::max({a, b, c})};
}

void widen(Verdict& v, const Verdict& little, const Verdict& much) {
  v.band = around(v.value, little.value, much.value);
  if (v.level == Level::unknown) return;
  const bool over_little = little.level == Level::exceeded, over_much = much.level == Level::exceeded;
  if (v.level == Level::exceeded) {
    v.crosses = !(over_little && over_much);
    v.sure = v.crosses ? fmt::format("kept only if the air cools {} than assumed", over_little ? "more" : "less")
                       : "not kept anywhere in the band of cooling";
    return;
  }
  v.crosses = over_little || over_much;
  if (!v.crosses) {
    v.sure = v.margin < 0 ? "passed, which this row counts as near" : "kept over the whole band of cooling";
    return;
  }
  v.level = Level::near;
  v.sure = fmt::format("not kept if the air cools {} than assumed", over_little ? "less" : "more");
  v.advice = over_little ? little.advice : much.advice;
}

void widen(AxleAnswers& likely, const AxleAnswers& little, const AxleAnswers& much) {
  for (auto& [name, peak] : likely.peaks)
    peak.band = around(peak.value, little.peaks.at(name).value, much.peaks.at(name).value);
  if (likely.joint.applicable)
    likely.joint.needed_band = around(likely.joint.needed_float, little.joint.needed_float, much.joint.needed_float);
}

}  // namespace

BandedRun run_with_band(const session::Case& c, const RunOptions& options) {
  if (c.physics.convection) return {run(c, options)};
  const double factors[] = {1, network::assumed::kConvection.low, network::assumed::kConvection.high};
  std::optional<Run> likely;
  BandEnds ends;
  const auto take = [&](std::size_t i, Run done) {
    if (i == 0)
      likely = std::move(done);
    else
      (i == 1 ? ends.little : ends.much) = std::move(done.answers);
  };
  run_in_airs(c, factors, take, options);
  return {std::move(*likely), std::move(ends)};
}

const Verdict* counterpart(const Answers& answers, const Verdict& v) {
  const auto found = std::find_if(answers.verdicts.begin(), answers.verdicts.end(),
                                  [&v](const Verdict& other) { return same_limit(other, v); });
  return found == answers.verdicts.end() ? nullptr : &*found;
}

void widen(Answers& likely, const BandEnds& ends) {
  for (Verdict& v : likely.verdicts) {
    const Verdict *little = counterpart(ends.little, v), *much = counterpart(ends.much, v);
    // A fault that only some air brings about (pads that stay cold) has no counterpart where it does not occur.
    if (little && much) widen(v, *little, *much);
  }
  widen(likely.front, ends.little.front, ends.much.front);
  widen(likely.rear, ends.little.rear, ends.much.rear);
  conclude(likely);
}

}  // namespace hatring::answer
