// SPDX-License-Identifier: MIT
//! \file
//! What the runs of a sweep say together. Read from the result file, one column at a time.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "sim/answer/measures.hpp"
#include "sim/io/result/sweep_file.hpp"

namespace hatring::tools {

struct MeasureSpread {
  const answer::Measure* measure = nullptr;
  std::string axle;                            //!< "front", "rear", or empty for the whole car
  std::size_t runs = 0;                        //!< that have a value
  double lowest = 0, median = 0, highest = 0;  //!< in the measure's unit
  //! 95 % of the runs are at this value or on its better side.
  double most = 0;
};

struct LimitShare {
  std::string axle, key;
  std::size_t judged = 0, near = 0, over = 0;  //!< runs
};

struct RankedRun {
  struct Setting {
    double number;     //!< SI; NaN for what is no number
    std::string text;  //!< as the user wrote it; empty for a spread
  };
  int run = 0;  //!< from 1
  double value = 0;
  double level = 0;                 //!< answer::Level; NaN when nothing was judged
  std::vector<Setting> settings{};  //!< by parameter
};

struct SweptParameter {
  std::string name, unit;              //!< SI; empty where the choices are no numbers
  std::size_t column = 0, labels = 0;  //!< in the file; labels 0 for none
};

struct SweepSummary {
  io::SweepMeta meta;
  std::vector<SweptParameter> parameters;
  std::size_t rows = 0, done = 0, failed = 0;
  std::size_t within = 0, near = 0, over = 0;  //!< runs by their worst verdict
  std::vector<MeasureSpread> measures;
  std::vector<LimitShare> limits;  //!< those that some run judged
  const answer::Measure* sorted_by = nullptr;
  std::string sorted_axle;
  std::vector<RankedRun> best;                 //!< best first
  std::map<std::string, std::size_t> reasons;  //!< of failures
};

//! \param sort a measure's key, with "front." or "rear." before it or without (then the front's)
//! \param most of the best runs  \throws io::SweepError
[[nodiscard]] SweepSummary summarize(const std::filesystem::path& file, const std::string& sort, std::size_t most);

//! Value that `share` of the sorted values do not pass; between neighbours in proportion.
[[nodiscard]] double quantile_of(const std::vector<double>& sorted, double share);

}  // namespace hatring::tools
