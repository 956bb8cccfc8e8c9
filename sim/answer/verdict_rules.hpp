// SPDX-License-Identifier: MIT
//! \file
//! What the rules of verdicts*.cpp share. Not for use outside them.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "sim/answer/places.hpp"
#include "sim/answer/verdicts.hpp"

namespace hatring::answer {

//! Everything the rules look at, and where they put their verdicts.
struct Bench {
  const session::Case& c;
  const session::Drive& drive;
  const std::vector<double>& time;
  const AxleHistory& history;
  const session::Brake& brake;
  std::vector<Verdict> out;

  [[nodiscard]] const std::vector<double>* values(std::string_view group, std::string_view name) const {
    const Column* column = history.find(group, name);
    return column && !column->not_applicable ? &column->values : nullptr;
  }
  [[nodiscard]] Rows all() const { return {0, time.size()}; }
};

//! \param near margins below this are near
[[nodiscard]] Level level_of(double margin, double near);

//! Where a limit of the config comes from: its default's reason, or the config itself.
[[nodiscard]] std::string limit_reason(const session::Case& c, std::string_view key);

//! What to do: depends on whether the trouble begins while driving or only once the car stands.
struct Advice {
  std::string driving, parked;
};

[[nodiscard]] inline Advice same(const char* text) {
  return {text, text};
}

//! What one quantity is held against.
struct Rule {
  const char* key;
  const char* part;
  const char* aspect = "";
  std::string what;
  const char* unit;
  double limit = 0;
  bool keep_below = true;  //!< the values must stay below the limit; otherwise above
  double scale = 0;        //!< margin of a part that is cold and new; a small share of it is near
  double tolerance = 0;    //!< how well the limit is known: it is passed beyond that, and near from the limit on
  std::string reason{};
  Advice advice{};
};

//! The worst of some values, one for each recorded moment and none NaN, against a limit.
void judge_values(Bench& b, const std::vector<double>& values, Rule rule);

//! The highest of one temperature against a limit, on the hotter of the two sides where there are two. No verdict
//! without column or limit.
void below(Bench& b, const char* key, const char* part, const char* aspect, std::string what, std::string_view name,
           double limit, std::string reason, const Advice& advice);

//! A limit of the config, or the material's own where the config sets none.
[[nodiscard]] std::pair<double, std::string> or_material(const Bench& b, double limit, const char* key,
                                                         const std::string& name);

// The rules, by part.
void judge_ring(Bench& b);
void judge_shock(Bench& b);
void judge_hat(Bench& b);
void judge_joint(Bench& b);
void judge_pads(Bench& b);
void judge_caliper(Bench& b);
void judge_life(Bench& b, const AxleAnswers& answers);

}  // namespace hatring::answer
