// SPDX-License-Identifier: MIT
#include "sim/answer/verdicts.hpp"

#include <fmt/format.h>

#include "sim/answer/places.hpp"
#include "sim/answer/verdict_rules.hpp"

namespace hatring::answer {

std::vector<Verdict> judge(const session::Case& c, const session::Drive& drive, const std::vector<double>& time,
                           const AxleHistory& history, session::Axle axle, const AxleAnswers& answers) {
  Bench b{c, drive, time, history, c.brake(axle), {}};
  judge_ring(b);
  judge_shock(b);
  judge_hat(b);
  judge_joint(b);
  judge_life(b, answers);
  judge_pads(b);
  judge_caliper(b);
  for (Verdict& v : b.out)
    if (v.level == Level::within) v.advice.clear();
  return std::move(b.out);
}

namespace {

// Who is in trouble, where the row's part is not yet a subject.
std::string subject(const Verdict& v) {
  if (v.key == "cold_share" || v.key == "hot_share" || v.key == "fade") return "pads";
  if (v.key == "pedal_growth") return "pedal";
  return v.part;
}

// "gets too hot", "nearly gets too hot"
std::string trouble(const Verdict& v) {
  const char* nearly = v.level == Level::near ? "nearly " : "";
  const bool many = subject(v).ends_with('s');
  if (v.key == "shock") return fmt::format("{}meets thermal shock", nearly);
  if (v.key == "play") return fmt::format("{}loses its play", nearly);
  if (v.key == "most_play") return "has more play than it needs";
  if (v.key == "joint_stress") return fmt::format("{}{} too much", nearly, many ? "carry" : "carries");
  if (v.key == "slip") return fmt::format("{}slips onto its bolts", nearly);
  if (v.key == "preload_left") return fmt::format("{}loses its grip", nearly);
  if (v.key == "sessions_left" && v.level == Level::near) return "may crack before long";
  if (v.key == "sessions_left") return fmt::format("{} likely to crack soon", many ? "are" : "is");
  if (v.key == "hat_strength") return fmt::format("has {}softened too far", nearly);
  if (v.key == "float") return fmt::format("{}runs out of float", nearly);
  if (v.key == "face_rate") return fmt::format("{}heats up too fast", nearly);
  if (v.key == "cooling_rate") return fmt::format("{}cools down too fast", nearly);
  if (v.key == "cold_share") return "work too long below their window";
  if (v.key == "hot_share") return fmt::format("{}work too long above their window", nearly);
  if (v.key == "fade") return fmt::format("{}fade too much", nearly);
  if (v.key == "pedal_growth") return fmt::format("{}gets too hard lap by lap", nearly);
  if (v.key == "effort" || v.key == "rear_bias" || v.key == "pad_left" || v.key == "ring_left" || v.key == "bedding")
    return fmt::format("{}passes its limit", nearly);
  if (v.key == "pad_print") return fmt::format("is {}too hot to stand", nearly);
  return fmt::format("{}gets too hot", nearly);
}

}  // namespace

std::span<const char* const> verdict_keys() {
  static constexpr const char* kKeys[] = {
      "ring_face", "ring_mean", "face_rate", "cooling_rate", "shock",        "pad_print",     "hat",
      "fastener",  "float",     "play",      "most_play",    "joint_stress", "slip",          "preload_left",
      "pad",       "fluid",     "caliper",   "fade",         "pedal_growth", "cold_share",    "hot_share",
      "pad_left",  "ring_left", "bedding",   "effort",       "rear_bias",    "sessions_left", "hat_strength"};
  return kKeys;
}

std::string first_sentence(const std::vector<Verdict>& verdicts) {
  if (verdicts.empty()) return "Nothing was judged: no limits apply to this run.";
  // No numbers here: they stand in the rows below, in the units the reader chose.
  const Verdict& v = verdicts.front();
  switch (v.level) {
    case Level::exceeded: {
      const auto over =
          std::count_if(verdicts.begin(), verdicts.end(), [](const Verdict& x) { return x.level == Level::exceeded; });
      const std::string others = over > 1 ? fmt::format(" {} more over.", over - 1) : "";
      const Place& since = v.since.value_or(v.place);
      const std::string worst = since.span == v.place.span ? "" : fmt::format(", worst {}", in_words(v.place));
      return fmt::format("{}: the {} {} {} {}{}.{} {}", v.crosses ? "Likely over the limit" : "Over the limit", v.axle,
                         subject(v), trouble(v), in_words(since), worst, others, v.advice);
    }
    case Level::near:
      // Limits that are passed without danger come last among those that are near: there is no other.
      if (v.margin < 0 && (v.key == "cold_share" || v.key == "most_play"))
        return fmt::format("Within limits but for {}: the {} {} {}. {}",
                           v.key == "cold_share" ? "cold pads" : "a loose joint", v.axle, subject(v), trouble(v),
                           v.advice);
      if (v.crosses)
        return fmt::format("Likely within limits, but not surely: the limit of the {} {} is {}, worst {}. {}", v.axle,
                           v.part, v.sure, in_words(v.place), v.advice);
      return fmt::format("Within limits, but close: the {} {} {} {}. {}", v.axle, subject(v), trouble(v),
                         in_words(v.place), v.advice);
    case Level::within:
      return fmt::format("Within limits. The {} {} comes closest to its own, {}.", v.axle, v.part, in_words(v.place));
    case Level::unknown:
      break;
  }
  return "Nothing could be judged.";
}

}  // namespace hatring::answer
