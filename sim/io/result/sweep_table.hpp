// SPDX-License-Identifier: MIT
//! \file
//! Reading of a sweep's file. Used inside the life of an Hdf5Session.
#pragma once

#include "sim/io/result/hdf5_read.hpp"

namespace hatring::io {

class SweepTable {
 public:
  //! \throws SweepError that names the file, when it is none or was damaged
  SweepTable(const std::filesystem::path& file, const Hdf5Session& library);

  [[nodiscard]] const std::filesystem::path& file() const { return path_; }
  [[nodiscard]] const SweepMeta& meta() const { return meta_; }
  [[nodiscard]] const std::vector<SweepColumn>& columns() const { return columns_; }
  [[nodiscard]] std::uint64_t rows() const { return rows_; }
  //! \throws SweepError
  [[nodiscard]] SweepValues values(std::size_t column, std::uint64_t first, std::size_t count) const;

 private:
  void open();
  void add_column(const std::string& path);
  [[nodiscard]] SweepValues read(std::size_t column, std::uint64_t first, std::size_t count) const;
  void check_wholes(const SweepColumn& column, std::uint64_t first, const std::vector<int>& values) const;
  template <class Work>
  auto reading(const Work& work) const;

  std::filesystem::path path_;
  const Hdf5Session& library_;
  H5::H5File file_;
  SweepMeta meta_;
  std::vector<SweepColumn> columns_;
  std::vector<Hdf5Column> data_;
  std::uint64_t rows_ = 0;
};

}  // namespace hatring::io
