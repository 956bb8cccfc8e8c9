// SPDX-License-Identifier: MIT
#include "sim/io/result/hdf5_read.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstring>
#include <memory>
#include <new>

namespace hatring::io {
namespace {

constexpr std::size_t kMostAttribute = 1 << 20;  // characters
constexpr hsize_t kMostChunk = 1 << 16;          // rows; the writer takes fewer

// Memory for the texts that the library makes, given back in one go; no more than the file can hold once. (A file may
// name one and the same long text in every row.)
class TextMemory {
 public:
  explicit TextMemory(std::size_t most) : left_(most) {}

  [[nodiscard]] H5::DSetMemXferPropList properties() {
    H5::DSetMemXferPropList out;
    out.setVlenMemManager(take, this, give_back, this);
    return out;
  }
  [[nodiscard]] bool exhausted() const { return exhausted_; }

 private:
  static void* take(std::size_t size, void* self) { return static_cast<TextMemory*>(self)->piece(size); }
  static void give_back(void*, void*) {}

  void* piece(std::size_t size) {
    if (size > left_) {
      exhausted_ = true;
      return nullptr;
    }
    left_ -= size;
    char* memory = new (std::nothrow) char[size];
    if (memory != nullptr) pieces_.emplace_back(memory);
    return memory;
  }

  std::vector<std::unique_ptr<char[]>> pieces_;
  std::size_t left_;
  bool exhausted_ = false;
};

// One step down from a group; the link must be a plain one.
template <class Open>
auto open_below(const H5::Group& group, const std::string& name, const std::string& path, H5O_type_t type,
                const Open& open) {
  H5L_info_t link{};
  if (name.empty() || name == "." || H5Lexists(group.getId(), name.c_str(), H5P_DEFAULT) <= 0)
    throw Hdf5Fault(fmt::format("`{}` is missing", path));
  check(H5Lget_info(group.getId(), name.c_str(), &link, H5P_DEFAULT), "H5Lget_info");
  if (link.type != H5L_TYPE_HARD) throw Hdf5Fault(fmt::format("`{}` is a link, expected the values themselves", path));
  H5O_info_t object{};
  check(H5Oget_info_by_name2(group.getId(), name.c_str(), &object, H5O_INFO_BASIC, H5P_DEFAULT), "H5Oget_info");
  if (object.type != type) throw Hdf5Fault(fmt::format("`{}` is no dataset in groups", path));
  return open(name);
}

H5::DataSet open_dataset(const H5::H5File& file, const std::string& path) {
  H5::Group group = file.openGroup("/");
  std::string rest = path;
  for (std::size_t slash = rest.find('/'); slash != std::string::npos; slash = rest.find('/')) {
    group = open_below(group, rest.substr(0, slash), path, H5O_TYPE_GROUP,
                       [&](const std::string& name) { return group.openGroup(name); });
    rest.erase(0, slash + 1);
  }
  return open_below(group, rest, path, H5O_TYPE_DATASET,
                    [&](const std::string& name) { return group.openDataSet(name); });
}

// In the file itself, in this layout, as it is.
H5::DSetCreatPropList stored_plainly(const H5::DataSet& data, const std::string& path,
                                     std::initializer_list<H5D_layout_t> layouts) {
  H5::DSetCreatPropList properties = data.getCreatePlist();
  const bool known = std::find(layouts.begin(), layouts.end(), properties.getLayout()) != layouts.end();
  if (!known || properties.getNfilters() != 0 ||
      (properties.getLayout() == H5D_CONTIGUOUS && properties.getExternalCount() != 0))
    throw Hdf5Fault(
        fmt::format("`{}` is not stored as hatring stores it (another layout, a filter or another file)", path));
  return properties;
}

bool is_text(const H5::DataType& type) {
  return type.getClass() == H5T_STRING && type.isVariableStr();
}

void check_one_text(const H5::DataType& type, const H5::DataSpace& space, const std::string& path) {
  if (!is_text(type)) throw Hdf5Fault(fmt::format("`{}` is no text of free length", path));
  if (space.getSimpleExtentType() != H5S_SCALAR) throw Hdf5Fault(fmt::format("`{}` holds not one value", path));
}

H5::Attribute open_attribute(const H5::H5Object& object, const char* name) {
  if (!object.attrExists(name)) throw Hdf5Fault(fmt::format("the attribute `{}` is missing", name));
  return object.openAttribute(name);
}

std::string taken(const char* text, const std::string& name, std::size_t most) {
  if (text == nullptr) return {};
  const std::size_t length = std::strlen(text);
  if (length > most) throw Hdf5Fault(fmt::format("`{}` has {} characters, expected {} at most", name, length, most));
  return {text, length};
}

}  // namespace

std::string text_attribute(const H5::H5Object& object, const char* name) {
  const H5::Attribute attribute = open_attribute(object, name);
  check_one_text(attribute.getDataType(), attribute.getSpace(), name);
  char* text = nullptr;
  attribute.read(text_type(), &text);
  const std::unique_ptr<char, herr_t (*)(void*)> owner(text, H5free_memory);
  return taken(text, name, kMostAttribute);
}

int whole_attribute(const H5::H5Object& object, const char* name, int least, int most) {
  const H5::Attribute attribute = open_attribute(object, name);
  if (!(attribute.getDataType() == H5::PredType::STD_I32LE) || attribute.getSpace().getSimpleExtentType() != H5S_SCALAR)
    throw Hdf5Fault(fmt::format("the attribute `{}` is no whole number", name));
  int value = 0;
  attribute.read(H5::PredType::NATIVE_INT, &value);
  if (value < least || value > most)
    throw Hdf5Fault(fmt::format("the attribute `{}` is {}, expected {} to {}", name, value, least, most));
  return value;
}

std::string text_dataset(const H5::H5File& file, const std::string& path) {
  const H5::DataSet data = open_dataset(file, path);
  stored_plainly(data, path, {H5D_CONTIGUOUS, H5D_COMPACT});
  check_one_text(data.getDataType(), data.getSpace(), path);
  const std::size_t most = static_cast<std::size_t>(file.getFileSize());
  TextMemory memory(most);
  char* text = nullptr;
  data.read(&text, text_type(), H5::DataSpace::ALL, H5::DataSpace::ALL, memory.properties());
  return taken(text, path, most);
}

Hdf5Column::Hdf5Column(const H5::H5File& file, const std::string& path, std::uint64_t rows)
    : data_(open_dataset(file, path)), most_text_(static_cast<std::size_t>(file.getFileSize())) {
  const auto fault = [&](const std::string& what) { return Hdf5Fault(fmt::format("`{}` {}", path, what)); };
  hsize_t chunk = 0;
  const H5::DSetCreatPropList properties = stored_plainly(data_, path, {H5D_CHUNKED});
  const H5::DataSpace space = data_.getSpace();
  if (space.getSimpleExtentType() != H5S_SIMPLE || space.getSimpleExtentNdims() != 1 ||
      properties.getChunk(1, &chunk) != 1 || chunk > kMostChunk)
    throw fault("is no column of rows");
  hsize_t extent = 0;
  space.getSimpleExtentDims(&extent);
  if (extent != rows) throw fault(fmt::format("has {} rows, expected {}", extent, rows));
  const H5::DataType type = data_.getDataType();
  if (type == H5::PredType::STD_I32LE)
    kind_ = SweepColumn::Kind::whole;
  else if (is_text(type))
    kind_ = SweepColumn::Kind::text;
  else if (!(type == H5::PredType::IEEE_F64LE))
    throw fault("has values of another kind than hatring writes");
  // Rows that are nowhere cost nothing in the file, but memory here.
  const hsize_t stored = data_.getStorageSize();
  if (stored / type.getSize() < rows || stored > most_text_) throw fault("has rows that were never written");
}

void Hdf5Column::read(void* values, const H5::DataType& type, std::uint64_t first, std::size_t count,
                      const H5::DSetMemXferPropList& how) const {
  const hsize_t start = first, size = count;
  H5::DataSpace in_file = data_.getSpace();
  in_file.selectHyperslab(H5S_SELECT_SET, &size, &start);
  data_.read(values, type, H5::DataSpace(1, &size), in_file, how);
}

std::vector<double> Hdf5Column::numbers(std::uint64_t first, std::size_t count) const {
  std::vector<double> out(count);
  read(out.data(), H5::PredType::NATIVE_DOUBLE, first, count, {});
  return out;
}

std::vector<int> Hdf5Column::wholes(std::uint64_t first, std::size_t count) const {
  std::vector<int> out(count);
  read(out.data(), H5::PredType::NATIVE_INT, first, count, {});
  return out;
}

std::vector<std::string> Hdf5Column::texts(std::uint64_t first, std::size_t count) const {
  TextMemory memory(most_text_);
  std::vector<char*> raw(count, nullptr);
  try {
    read(raw.data(), text_type(), first, count, memory.properties());
  } catch (const H5::Exception&) {
    if (memory.exhausted()) throw Hdf5Fault("its texts are longer than the file");
    throw;
  }
  std::vector<std::string> out;
  out.reserve(count);
  for (const char* text : raw) out.push_back(taken(text, "text", most_text_));
  return out;
}

}  // namespace hatring::io
