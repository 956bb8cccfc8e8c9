// SPDX-License-Identifier: MIT
//! \file
//! Reading of HDF5 files that nobody vouches for: an object is looked at before it is read, must be of exactly the kind
//! that the writer makes, and takes no more memory than its file is long. Links that lead elsewhere, other files,
//! filters, virtual and missing data are refused. Against damaged bytes there is the seal: sim/io/result/seal.hpp.
//! Used inside the life of an Hdf5Session. Checked by tests/sim/io/test_hostile_sweep.cpp and
//! tests/fuzz/sweep_file.cpp.
#pragma once

#include <cstdint>
#include <filesystem>
#include <stdexcept>

#include "sim/io/result/hdf5_image.hpp"
#include "sim/io/result/sweep_file.hpp"

namespace hatring::io {

//! The file is not what it should be; what() says in which way, without its name.
class Hdf5Fault : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

//! \throws Hdf5Fault unless there is one text, not longer than a mebibyte
[[nodiscard]] std::string text_attribute(const H5::H5Object& object, const char* name);
//! \throws Hdf5Fault unless there is one whole number from `least` to `most`
[[nodiscard]] int whole_attribute(const H5::H5Object& object, const char* name, int least, int most);

//! \throws Hdf5Fault when there is no such dataset in this very file, as one text
[[nodiscard]] std::string text_dataset(const H5::H5File& file, const std::string& path);

//! A column in chunks as the writer makes it. \throws Hdf5Fault when there is no such dataset in this very file
class Hdf5Column {
 public:
  Hdf5Column(const H5::H5File& file, const std::string& path, std::uint64_t rows);

  [[nodiscard]] SweepColumn::Kind kind() const { return kind_; }
  [[nodiscard]] const H5::DataSet& data() const { return data_; }
  //! Values `first` to `first + count`, all of them rows of the column and at least one.
  [[nodiscard]] std::vector<double> numbers(std::uint64_t first, std::size_t count) const;
  [[nodiscard]] std::vector<int> wholes(std::uint64_t first, std::size_t count) const;
  [[nodiscard]] std::vector<std::string> texts(std::uint64_t first, std::size_t count) const;

 private:
  void read(void* values, const H5::DataType& type, std::uint64_t first, std::size_t count,
            const H5::DSetMemXferPropList& how) const;

  H5::DataSet data_;
  SweepColumn::Kind kind_ = SweepColumn::Kind::number;
  std::size_t most_text_ = 0;  // bytes that its texts can have in all
};

}  // namespace hatring::io
