// SPDX-License-Identifier: MIT
#include "sim/io/result/sweep_table.hpp"

#include <fmt/format.h>

#include <sstream>

namespace hatring::io {
namespace {

std::string text_attribute(const H5::H5Object& object, const char* name) {
  std::string out;
  object.openAttribute(name).read(text_type(), out);
  return out;
}

int whole_attribute(const H5::H5Object& object, const char* name) {
  int out = 0;
  object.openAttribute(name).read(H5::PredType::NATIVE_INT, &out);
  return out;
}

std::string text_of(const H5::H5File& file, const char* name) {
  std::string out;
  file.openDataSet(name).read(out, text_type());
  return out;
}

template <class T>
std::vector<T> read(const H5::DataSet& data, const H5::DataType& type, const H5::DataSpace& memory,
                    const H5::DataSpace& in_file, std::size_t count) {
  std::vector<T> out(count);
  data.read(out.data(), type, memory, in_file);
  return out;
}

SweepColumn column_of(const H5::DataSet& data, const std::string& path) {
  SweepColumn column{path, text_attribute(data, "units"), text_attribute(data, "long_name"),
                     data.getTypeClass() == H5T_FLOAT     ? SweepColumn::Kind::number
                     : data.getTypeClass() == H5T_INTEGER ? SweepColumn::Kind::whole
                                                          : SweepColumn::Kind::text};
  if (!data.attrExists("flag_meanings")) return column;
  std::istringstream words(text_attribute(data, "flag_meanings"));
  for (std::string word; words >> word;) column.meanings.push_back(word);
  return column;
}

SweepValues empty(SweepColumn::Kind kind) {
  if (kind == SweepColumn::Kind::number) return std::vector<double>();
  if (kind == SweepColumn::Kind::whole) return std::vector<int>();
  return std::vector<std::string>();
}

}  // namespace

SweepTable::SweepTable(const std::filesystem::path& file) {
  if (!H5::H5File::isHdf5(file.string()))
    throw SweepError(fmt::format("{}: expected the result file of a sweep", file.string()));
  file_.openFile(file.string(), H5F_ACC_RDONLY);
  if (!file_.attrExists("sweep_format"))
    throw SweepError(fmt::format("{}: expected the result file of a sweep, found another HDF5 file", file.string()));
  if (const int format = whole_attribute(file_, "sweep_format"); format != kSweepFormat)
    throw SweepError(fmt::format("{}: found format {} of another version of the program, expected {}", file.string(),
                                 format, kSweepFormat));
  meta_ = {.program_version = text_attribute(file_, "program_version"),
           .created = text_attribute(file_, "created"),
           .session = text_attribute(file_, "session"),
           .config = text_of(file_, "config"),
           .description = text_of(file_, "design"),
           .runs = whole_attribute(file_, "runs"),
           .shard = whole_attribute(file_, "shard"),
           .shards = whole_attribute(file_, "shards")};
  std::istringstream paths(text_attribute(file_, "columns"));
  for (std::string path; std::getline(paths, path);) {
    data_.push_back(file_.openDataSet(path));
    columns_.push_back(column_of(data_.back(), path));
  }
  rows_ = static_cast<std::uint64_t>(data_.at(0).getSpace().getSimpleExtentNpoints());
}

SweepValues SweepTable::values(std::size_t column, std::uint64_t first, std::size_t count) const {
  if (count == 0) return empty(columns_[column].kind);
  const H5::DataSet& data = data_[column];
  const hsize_t start = first, size = count;
  H5::DataSpace in_file = data.getSpace();
  in_file.selectHyperslab(H5S_SELECT_SET, &size, &start);
  const H5::DataSpace memory(1, &size);
  switch (columns_[column].kind) {
    case SweepColumn::Kind::number:
      return read<double>(data, H5::PredType::NATIVE_DOUBLE, memory, in_file, count);
    case SweepColumn::Kind::whole:
      return read<int>(data, H5::PredType::NATIVE_INT, memory, in_file, count);
    case SweepColumn::Kind::text:
      break;
  }
  std::vector<char*> raw = read<char*>(data, text_type(), memory, in_file, count);
  std::vector<std::string> out;
  out.reserve(count);
  for (const char* text : raw) out.emplace_back(text == nullptr ? "" : text);
  H5::DataSet::vlenReclaim(raw.data(), text_type(), memory);
  return out;
}

}  // namespace hatring::io
