// SPDX-License-Identifier: MIT
//! \file
//! A small sweep's file, and the tools to spoil it with. For tests/sim/io/test_hostile_sweep.cpp and tests/fuzz.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "sim/io/result/hdf5_image.hpp"
#include "sim/io/result/seal.hpp"
#include "sim/io/result/shards.hpp"
#include "sim/io/result/sweep_file.hpp"

namespace hatring::io::testing {

//! What there is of everything that a sweep's file has.
inline const std::vector<SweepColumn>& small_columns() {
  using Kind = SweepColumn::Kind;
  static const std::vector<SweepColumn> columns{
      {"run", "1", "Number", Kind::whole, {}},
      {"status", "1", "State", Kind::whole, {"not_run", "done", "failed"}},
      {"reason", "1", "Why", Kind::text, {}},
      {"parameter/car.mass", "kg", "Mass", Kind::number, {}},
      {"label/car.mass", "1", "As written", Kind::text, {}},
      {"parameter/variant", "1", "Variant", Kind::text, {}},
      {"measure/verdict", "1", "Verdict", Kind::number, {}},
      {"measure/closest", "1", "Closest", Kind::number, {}},
      {"measure/front/face", "K", "Face", Kind::number, {}},
      {"limit/front/hat", "1", "Hat", Kind::whole, {"within", "near", "over", "not_judged", "no_such_part"}},
  };
  return columns;
}

inline SweepMeta small_meta(int runs, int shard = 1, int shards = 1) {
  return {"0.1", "now", "demo", "car: {mass: 900 kg}\n", "design: latin\n", runs, shard, shards};
}

//! Every run is done.
inline void write_small_sweep(const std::filesystem::path& file, const SweepMeta& meta) {
  const Shard shard{meta.shard, meta.shards};
  const std::uint64_t rows = shard.rows_below(static_cast<std::uint64_t>(meta.runs));
  write_sweep(file, meta, small_columns(), rows, [&](std::uint64_t first, std::size_t count) {
    const std::vector<double> face(count, 700);
    std::vector<int> run;
    for (std::uint64_t row = first; row < first + count; ++row)
      run.push_back(static_cast<int>(shard.run_of_row(row)) + 1);
    return std::vector<SweepValues>{run,
                                    std::vector<int>(count, 1),
                                    std::vector<std::string>(count),
                                    face,
                                    std::vector<std::string>(count, "900 kg"),
                                    std::vector<std::string>(count, "none"),
                                    std::vector<double>(count, 0),
                                    std::vector<double>(count, 0.5),
                                    face,
                                    std::vector<int>(count, 2)};
  });
}

//! Calls work(file) with the file open for changes, and seals it again: the seal is no secret.
template <class Work>
void spoil(const std::filesystem::path& file, const Work& work) {
  {
    const Hdf5Session library;  // quiet
    const H5::H5File open(file.string(), H5F_ACC_RDWR);
    work(open);
  }
  seal(file);
}

//! An attribute of another kind in the place of one of that name. `value` is what the type says.
inline void put_attribute(const H5::H5Object& object, const std::string& name, const H5::DataType& type,
                          const H5::DataSpace& space, const void* value) {
  if (object.attrExists(name)) object.removeAttr(name);
  object.createAttribute(name, type, space).write(type, value);
}

inline void put_number(const H5::H5Object& object, const std::string& name, int value) {
  put_attribute(object, name, H5::PredType::STD_I32LE, H5::DataSpace(), &value);
}

inline void put_text(const H5::H5Object& object, const std::string& name, const std::string& value) {
  const char* text = value.c_str();
  put_attribute(object, name, text_type(), H5::DataSpace(), static_cast<const void*>(&text));
}

//! A dataset that nothing is written into, in the place of one of that path.
inline H5::DataSet put_dataset(const H5::H5File& file, const std::string& path, const H5::DataType& type,
                               const H5::DataSpace& space, const H5::DSetCreatPropList& how = {}) {
  if (H5Lexists(file.getId(), path.c_str(), H5P_DEFAULT) > 0) file.unlink(path);
  const H5::DataSet data = file.createDataSet(path, type, space, how);
  describe(data, {path, "1", "no such thing"});
  return data;
}

inline H5::DSetCreatPropList in_chunks(hsize_t rows) {
  H5::DSetCreatPropList how;
  how.setChunk(1, &rows);
  return how;
}

//! Lets every row of a column of texts name the text of the first one.
inline void share_first_text(const H5::H5File& file, const std::string& path) {
  const H5::DataSet data = file.openDataSet(path);
  hsize_t rows = 0, chunk = 0;
  data.getSpace().getSimpleExtentDims(&rows);
  data.getCreatePlist().getChunk(1, &chunk);
  const hsize_t start = 0;
  hsize_t bytes = 0;
  check(H5Dget_chunk_storage_size(data.getId(), &start, &bytes), "H5Dget_chunk_storage_size");
  std::vector<char> raw(bytes);
  const std::size_t size = bytes / chunk;
  std::uint32_t filters = 0;
  check(H5Dread_chunk(data.getId(), H5P_DEFAULT, &start, &filters, raw.data()), "H5Dread_chunk");
  for (std::size_t i = size; i < raw.size(); ++i) raw[i] = raw[i - size];
  for (hsize_t first = 0; first < rows; first += chunk)
    check(H5Dwrite_chunk(data.getId(), H5P_DEFAULT, 0, &first, raw.size(), raw.data()), "H5Dwrite_chunk");
}

}  // namespace hatring::io::testing
