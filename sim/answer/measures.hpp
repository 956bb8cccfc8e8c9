// SPDX-License-Identifier: MIT
//! \file
//! What variants are compared by. A row of the comparison is one entry in measures.cpp and nothing else.
#pragma once

#include <span>

#include "sim/answer/answers.hpp"

namespace hatring::answer {

enum class Better { lower, higher };

struct Measure {
  const char* key;    //!< for --sort and JSON
  const char* title;  //!< for people, short; temperatures and rates are the highest of the session
  const char* unit;   //!< SI; "share" is drawn as per cent, "count" whole, "level" a verdict's word, "cost" as given
  Better better;
  double least;   //!< a difference below this is not worth a decision, in `unit`
  bool per_axle;  //!< one row for each axle, else one for the car
  bool banded;    //!< depends on how well the air cools
  //! NaN where the variant has no such thing. The axle means nothing to a measure of the whole car.
  double (*value)(const session::Case&, const Answers&, session::Axle);
};

//! In the order in which they are shown.
[[nodiscard]] std::span<const Measure> measures();

//! The verdict closest to its limit (or furthest over), or nullptr; pads that stay cold are left aside.
[[nodiscard]] const Verdict* closest(const Answers& a);

}  // namespace hatring::answer
