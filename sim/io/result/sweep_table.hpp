// SPDX-License-Identifier: MIT
//! \file
//! Reading of a sweep's file. Used inside the life of an Hdf5Session.
#pragma once

#include "sim/io/result/hdf5_image.hpp"
#include "sim/io/result/sweep_file.hpp"

namespace hatring::io {

class SweepTable {
 public:
  //! \throws SweepError, H5::Exception
  explicit SweepTable(const std::filesystem::path& file);

  [[nodiscard]] const SweepMeta& meta() const { return meta_; }
  [[nodiscard]] const std::vector<SweepColumn>& columns() const { return columns_; }
  [[nodiscard]] std::uint64_t rows() const { return rows_; }
  [[nodiscard]] SweepValues values(std::size_t column, std::uint64_t first, std::size_t count) const;

 private:
  H5::H5File file_;
  SweepMeta meta_;
  std::vector<SweepColumn> columns_;
  std::vector<H5::DataSet> data_;
  std::uint64_t rows_ = 0;
};

}  // namespace hatring::io
