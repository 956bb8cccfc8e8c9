// SPDX-License-Identifier: MIT
//! \file
//! A thin layer over the HDF5 library: a file built in memory out of tables whose columns share one dimension scale.
//! Failures of the library throw H5::Exception. Everything here is used inside the life of an Hdf5Session.
//! Checked by tests/sim/io/test_result_file.cpp.
#pragma once

#include <H5Cpp.h>

#include <cstddef>
#include <limits>
#include <mutex>
#include <span>
#include <string>
#include <vector>

namespace hatring::io {

//! In columns of numbers.
inline constexpr double kMissing = std::numeric_limits<double>::quiet_NaN();

//! Exclusive use of the library, which is neither thread-safe nor quiet: one of these lives at a time, others wait.
//! While it lives the library prints nothing and its last error is remembered.
class Hdf5Session {
 public:
  Hdf5Session();
  ~Hdf5Session();
  Hdf5Session(const Hdf5Session&) = delete;
  Hdf5Session& operator=(const Hdf5Session&) = delete;
  //! \returns "unable to create dataset: name already exists"
  [[nodiscard]] std::string reason_of(const H5::Exception& e) const {
    return last_error_.empty() ? e.getDetailMsg() : last_error_;
  }

 private:
  std::unique_lock<std::mutex> lock_;
  std::string last_error_;
  H5E_auto2_t previous_ = nullptr;
  void* previous_data_ = nullptr;
};

//! \returns the status, \throws H5::Exception when a call of the C interface failed
template <class Status>
Status check(Status status, const char* call) {
  if (status < 0) throw H5::Exception(call, "failed");
  return status;
}

//! Times would make files of the same content differ.
template <class Properties>
Properties without_times(Properties properties) {
  check(H5Pset_obj_track_times(properties.getId(), false), "H5Pset_obj_track_times");
  return properties;
}

//! An HDF5 file in memory, without times, so that the same content gives the same bytes.
class Hdf5Image {
 public:
  //! \param expected_size memory to start with [bytes]
  explicit Hdf5Image(std::size_t expected_size);
  [[nodiscard]] H5::Group root() const { return file_.openGroup("/"); }
  //! \returns the finished file, as long as this lives and nothing is added
  [[nodiscard]] std::span<const std::byte> bytes() const;

 private:
  H5::H5File file_;
};

//! \returns a new group without times
[[nodiscard]] H5::Group make_group(const H5::Group& parent, const std::string& name);
void set_attribute(const H5::H5Object& object, const char* name, const std::string& value);
void set_attribute(const H5::H5Object& object, const char* name, int value);
void set_attribute(const H5::H5Object& object, const char* name, double value);

//! What a dataset is called and means.
struct Label {
  std::string name, unit, long_name;
  bool not_applicable = false;  //!< the part does not exist; the values are NaN
};

//! Text of any length, UTF-8.
[[nodiscard]] H5::StrType text_type();
//! Unit and long name.
void describe(const H5::DataSet& data, const Label& label);
//! Makes a dataset a dimension scale, and another one's first dimension run along it.
void make_scale(const H5::DataSet& data);
void attach_scale(const H5::DataSet& data, const H5::DataSet& scale);

//! One text, a scalar dataset.
void write_text(const H5::Group& group, const Label& label, const std::string& text);

//! Datasets of one group, one dimension each, all attached to the group's dimension scale.
class Hdf5Table {
 public:
  //! Writes the dimension scale itself: time, or the number of a row.
  Hdf5Table(const H5::Group& group, const Label& scale, const std::vector<double>& values);
  Hdf5Table(const H5::Group& group, const Label& scale, const std::vector<int>& values);

  //! \throws std::invalid_argument when there are more or fewer values than in the scale
  void add(const Label& label, const std::vector<double>& values);
  //! The same, kept to seven digits: half the room.
  void add_single(const Label& label, const std::vector<double>& values);
  void add(const Label& label, const std::vector<int>& values);
  void add(const Label& label, const std::vector<std::string>& values);

 private:
  Hdf5Table(const H5::Group& group, std::size_t rows);
  H5::DataSet write(const Label& label, const H5::DataType& in_file, const H5::DataType& in_memory, const void* values,
                    std::size_t count, const H5::DSetCreatPropList& properties);
  void take_scale(const H5::DataSet& scale);
  void attach(const H5::DataSet& data);
  void add_numbers(const Label& label, const H5::PredType& in_file, const H5::PredType& in_memory, const void* values,
                   std::size_t count);

  H5::Group group_;
  hsize_t rows_;
  H5::DataSpace space_;
  H5::DSetCreatPropList plain_, missing_is_nan_;
  H5::DSetMemXferPropList transfer_;
  H5::DataSet scale_;
  std::vector<float> single_;
};

}  // namespace hatring::io
