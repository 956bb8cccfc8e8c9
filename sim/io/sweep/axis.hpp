// SPDX-License-Identifier: MIT
//! \file
//! One parameter of a sweep on the side of the config: which keys it sets, and to what.
#pragma once

#include "sim/io/loader.hpp"
#include "sim/io/reader.hpp"
#include "sim/io/sweep/spec.hpp"
#include "sim/study/parameter.hpp"

namespace hatring::io {

struct Axis {
  std::string name;
  Mark mark;
  std::vector<std::string> targets;  //!< key paths; the name itself for a variant
  bool variant = false;
  SweepSpec spec;
  //! Values to be read once before anything runs, the first one for as long as others are tried. The choices, or the
  //! likely value and the ends of a spread. nullptr: the session as it is.
  std::vector<NodePtr> tried;

  //! The value of a run as a config would give it.
  [[nodiscard]] NodePtr value(const study::Parameter& parameter, const study::Setting& setting) const;
  //! The values as text, complete.
  [[nodiscard]] std::string description(const study::Parameter& parameter) const;
};

//! \returns nothing when it was reported
[[nodiscard]] std::optional<Axis> make_axis(Report& report, Loader& loader, const Assignment& given);

//! Settles the unit and the numbers once it is known what the keys take; fills `tried` of a range. Reports.
[[nodiscard]] study::Parameter resolve(Report& report, Axis& axis, const std::map<std::string, Reader::Number>& seen);

//! A tree in which what was read from files stands in the place of their names.
[[nodiscard]] NodePtr substituted(const NodePtr& root, const std::map<const Node*, NodePtr>& in_place_of);

}  // namespace hatring::io
