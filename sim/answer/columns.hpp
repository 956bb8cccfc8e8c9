// SPDX-License-Identifier: MIT
//! \file
//! Columns of a run while it is being recorded.
#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <limits>
#include <string>
#include <utility>
#include <vector>

#include "sim/answer/history.hpp"

namespace hatring::answer {

//! Collects columns; keeps the order in which they are first named.
class Columns {
 public:
  //! \param length number of moments that will be recorded
  explicit Columns(std::size_t length) : length_(length) {}

  //! \returns the index of a new column, filled with NaN when the part does not exist
  std::size_t add(std::string group, std::string name, std::string unit, std::string long_name,
                  bool not_applicable = false) {
    std::vector<double> values;
    if (not_applicable)
      values.assign(length_, std::numeric_limits<double>::quiet_NaN());
    else
      values.reserve(length_);
    list.push_back(
        {std::move(group), std::move(name), std::move(unit), std::move(long_name), std::move(values), not_applicable});
    return list.size() - 1;
  }
  //! \param rows values of the column in the rows that follow
  template <class Rows>
  void append(std::size_t column, const Eigen::ArrayBase<Rows>& rows) {
    std::vector<double>& values = list[column].values;
    const std::size_t before = values.size();
    values.resize(before + static_cast<std::size_t>(rows.size()));
    Eigen::Map<Eigen::ArrayXd>(values.data() + before, rows.size()) = rows;
  }

  std::vector<Column> list;

 private:
  std::size_t length_;
};

}  // namespace hatring::answer
