// SPDX-License-Identifier: MIT
//! \file
//! The same session with other parts, side by side. Two variants are held against each other in the same air: with
//! little, likely and much cooling. A difference is clear when its sign and a least size hold in all three; that the
//! bands of the variants overlap does not matter, because the air that is better for one is better for the other.
//! Checked by tests/sim/answer/test_comparison.cpp.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/answer/band.hpp"
#include "sim/answer/measures.hpp"

namespace hatring::answer {

//! One set-up as it was run.
struct Contender {
  session::Case c;
  Answers likely;                //!< widened by `ends` when there are any
  std::optional<BandEnds> ends;  //!< none when convection is pinned or only the likely air was run
};

//! Against the first set-up.
enum class Change { none, unclear, better, worse };
[[nodiscard]] std::string_view to_string(Change change);  //!< "", "no clear difference", "better", "worse"

struct Cell {
  double value = 0;            //!< NaN: no such thing in this set-up
  std::optional<Band> band{};  //!< of a measure that depends on the air
  double difference = 0;       //!< from the first, in the likely air; NaN where there is nothing to compare
  Change change = Change::none;
  bool best = false;  //!< no other is clearly better, and it is clearly better than some
  //! With --band: share of the runs with every input varied, alike in both, in which the difference has this sign.
  std::optional<double> same_sign{};
  std::string text{};  //!< what to show in place of the number: the verdict's words, the cost as given
};

struct ComparisonRow {
  const Measure* measure = nullptr;
  std::string axle;           //!< "front", "rear", or empty for the whole car
  bool same = false;          //!< alike in all set-ups
  std::vector<Cell> cells{};  //!< by set-up
};

struct Comparison {
  std::vector<ComparisonRow> rows;
  std::size_t recommended = 0;  //!< index of the set-up
  std::string sentence;         //!< which, and why
};

//! \param contenders at least one; the first is what differences are taken from
[[nodiscard]] Comparison compare(const std::vector<Contender>& contenders);

//! Set-ups in the order of one measure, best first, those without a value last. The first set-up stays in front: every
//! difference is taken from it.
//! \param key a measure's key, with "front." or "rear." before it or without; without, the front's row counts, or the
//!            rear's when the front's is the same in all
//! \returns the order as it is when there is no such row
[[nodiscard]] std::vector<std::size_t> order_by(const Comparison& comparison, std::string_view key);

//! Fills `recommended` and `sentence`. Fewest limits passed, then furthest from the closest limit, each where clear;
//! then the lower cost, the lower rotating mass, the order of naming.
void recommend(Comparison& comparison, const std::vector<Contender>& contenders);

//! Whether b differs from a by `least` or more, the same way in each air. Both lists likely, little, much, or likely
//! alone. \returns -1 lower, 1 higher, 0 not clear
[[nodiscard]] int clear_difference(const std::vector<double>& a, const std::vector<double>& b, double least);

//! A measure in the airs that were run: likely, little, much, or likely alone.
[[nodiscard]] std::vector<double> in_each_air(const Measure& m, const Contender& x, session::Axle axle);

}  // namespace hatring::answer
