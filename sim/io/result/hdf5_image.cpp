// SPDX-License-Identifier: MIT
#include "sim/io/result/hdf5_image.hpp"

#include <fmt/format.h>
#include <hdf5_hl.h>

#include <algorithm>
#include <stdexcept>
#include <utility>

namespace hatring::io {
namespace {

// For texts on their way into the file; the library's own choice is a megabyte, cleared for each dataset.
constexpr std::size_t kTextBuffer = 1 << 14;

// Called for each level of the error stack, the most specific one first: keeps the two ends.
herr_t collect(unsigned level, const H5E_error2_t* error, void* out) {
  auto& ends = *static_cast<std::pair<std::string, std::string>*>(out);
  (level == 0 ? ends.second : ends.first) = error->desc != nullptr ? error->desc : "";
  return 0;
}

herr_t remember(hid_t stack, void* out) {
  std::pair<std::string, std::string> ends;
  H5Ewalk2(stack, H5E_WALK_UPWARD, collect, &ends);
  *static_cast<std::string*>(out) = ends.first.empty() ? ends.second : ends.first + ": " + ends.second;
  return 0;
}

std::mutex& library_mutex() {
  static std::mutex mutex;
  return mutex;
}

}  // namespace

H5::StrType text_type() {
  H5::StrType type(H5::PredType::C_S1, H5T_VARIABLE);
  type.setCset(H5T_CSET_UTF8);
  return type;
}

void describe(const H5::DataSet& data, const Label& label) {
  set_attribute(data, "units", label.unit);
  set_attribute(data, "long_name", label.long_name);
}

void make_scale(const H5::DataSet& data) {
  const std::string path = data.getObjName();
  check(H5DSset_scale(data.getId(), path.substr(path.rfind('/') + 1).c_str()), "H5DSset_scale");
}

void attach_scale(const H5::DataSet& data, const H5::DataSet& scale) {
  check(H5DSattach_scale(data.getId(), scale.getId(), 0), "H5DSattach_scale");
}

Hdf5Session::Hdf5Session() : lock_(library_mutex()) {
  check(H5Eget_auto2(H5E_DEFAULT, &previous_, &previous_data_), "H5Eget_auto2");
  check(H5Eset_auto2(H5E_DEFAULT, remember, &last_error_), "H5Eset_auto2");
}

Hdf5Session::~Hdf5Session() {
  H5Eset_auto2(H5E_DEFAULT, previous_, previous_data_);
}

Hdf5Image::Hdf5Image(std::size_t expected_size) {
  const H5::FileAccPropList access;
  access.setCore(std::max<std::size_t>(expected_size, 1 << 16), false);
  // Readable everywhere; later superblocks have a checksum over what bytes() clears.
  access.setLibverBounds(H5F_LIBVER_EARLIEST, H5F_LIBVER_V18);
  file_ = H5::H5File("result", H5F_ACC_TRUNC, without_times(H5::FileCreatPropList()), access);
}

std::span<const std::byte> Hdf5Image::bytes() const {
  file_.flush(H5F_SCOPE_GLOBAL);
  const ssize_t size = check(H5Fget_file_image(file_.getId(), nullptr, 0), "H5Fget_file_image");
  // The handle of a file in memory is that memory: a copy would cost as much as writing the file.
  void* memory = nullptr;
  check(H5Fget_vfd_handle(file_.getId(), H5P_DEFAULT, &memory), "H5Fget_vfd_handle");
  std::byte* const begin = *static_cast<std::byte**>(memory);
  // HDF5 file format specification, superblock version 0: the consistency flags, which say that the file is open.
  constexpr std::size_t kVersion = 8, kFlags = 20, kFlagsEnd = 24;
  if (size < ssize_t{kFlagsEnd} || begin[kVersion] != std::byte{0})
    throw H5::Exception("Hdf5Image", "superblock of another version than 0");
  std::fill(begin + kFlags, begin + kFlagsEnd, std::byte{0});
  return {begin, static_cast<std::size_t>(size)};
}

H5::Group make_group(const H5::Group& parent, const std::string& name) {
  const auto properties = without_times(H5::PropList(H5P_GROUP_CREATE));
  const hid_t id =
      check(H5Gcreate2(parent.getId(), name.c_str(), H5P_DEFAULT, properties.getId(), H5P_DEFAULT), "H5Gcreate2");
  H5::Group group(id);
  check(H5Gclose(id), "H5Gclose");  // the object holds a reference of its own
  return group;
}

void set_attribute(const H5::H5Object& object, const char* name, const std::string& value) {
  const H5::StrType type = text_type();
  object.createAttribute(name, type, H5::DataSpace()).write(type, value);
}

void set_attribute(const H5::H5Object& object, const char* name, int value) {
  object.createAttribute(name, H5::PredType::STD_I32LE, H5::DataSpace()).write(H5::PredType::NATIVE_INT, &value);
}

void set_attribute(const H5::H5Object& object, const char* name, double value) {
  object.createAttribute(name, H5::PredType::IEEE_F64LE, H5::DataSpace()).write(H5::PredType::NATIVE_DOUBLE, &value);
}

void write_text(const H5::Group& group, const Label& label, const std::string& text) {
  const H5::StrType type = text_type();
  const H5::DataSet data =
      group.createDataSet(label.name, type, H5::DataSpace(), without_times(H5::DSetCreatPropList()));
  data.write(text, type);
  describe(data, label);
}

Hdf5Table::Hdf5Table(const H5::Group& group, std::size_t rows)
    : group_(group),
      rows_(rows),
      space_(1, &rows_),
      plain_(without_times(H5::DSetCreatPropList())),
      missing_is_nan_(without_times(H5::DSetCreatPropList())) {
  transfer_.setBuffer(kTextBuffer, nullptr, nullptr);
  missing_is_nan_.setFillValue(H5::PredType::NATIVE_DOUBLE, &kMissing);
}

Hdf5Table::Hdf5Table(const H5::Group& group, const Label& scale, const std::vector<double>& values)
    : Hdf5Table(group, values.size()) {
  take_scale(write(scale, H5::PredType::IEEE_F64LE, H5::PredType::NATIVE_DOUBLE, values.data(), values.size(), plain_));
}

Hdf5Table::Hdf5Table(const H5::Group& group, const Label& scale, const std::vector<int>& values)
    : Hdf5Table(group, values.size()) {
  take_scale(write(scale, H5::PredType::STD_I32LE, H5::PredType::NATIVE_INT, values.data(), values.size(), plain_));
}

void Hdf5Table::take_scale(const H5::DataSet& scale) {
  scale_ = scale;
  make_scale(scale_);
}

void Hdf5Table::attach(const H5::DataSet& data) {
  attach_scale(data, scale_);
}

H5::DataSet Hdf5Table::write(const Label& label, const H5::DataType& in_file, const H5::DataType& in_memory,
                             const void* values, std::size_t count, const H5::DSetCreatPropList& properties) {
  if (count != rows_)
    throw std::invalid_argument(fmt::format("{} has {} values, {} expected", label.name, count, rows_));
  const H5::DataSet data = group_.createDataSet(label.name, in_file, space_, properties);
  data.write(values, in_memory, H5::DataSpace::ALL, H5::DataSpace::ALL, transfer_);
  describe(data, label);
  return data;
}

void Hdf5Table::add_numbers(const Label& label, const H5::PredType& in_file, const H5::PredType& in_memory,
                            const void* values, std::size_t count) {
  const H5::DataSet data = write(label, in_file, in_memory, values, count, missing_is_nan_);
  data.createAttribute("_FillValue", in_file, H5::DataSpace()).write(H5::PredType::NATIVE_DOUBLE, &kMissing);
  if (label.not_applicable) set_attribute(data, "not_applicable", 1);
  attach(data);
}

void Hdf5Table::add(const Label& label, const std::vector<double>& values) {
  add_numbers(label, H5::PredType::IEEE_F64LE, H5::PredType::NATIVE_DOUBLE, values.data(), values.size());
}

void Hdf5Table::add_single(const Label& label, const std::vector<double>& values) {
  // The library would convert as well, many times as slowly.
  single_.resize(values.size());
  std::ranges::transform(values, single_.begin(), [](double value) { return static_cast<float>(value); });
  add_numbers(label, H5::PredType::IEEE_F32LE, H5::PredType::NATIVE_FLOAT, single_.data(), single_.size());
}

void Hdf5Table::add(const Label& label, const std::vector<int>& values) {
  attach(write(label, H5::PredType::STD_I32LE, H5::PredType::NATIVE_INT, values.data(), values.size(), plain_));
}

void Hdf5Table::add(const Label& label, const std::vector<std::string>& values) {
  std::vector<const char*> text;
  text.reserve(values.size());
  for (const std::string& v : values) text.push_back(v.c_str());
  const H5::StrType type = text_type();
  attach(write(label, type, type, text.data(), text.size(), plain_));
}

}  // namespace hatring::io
