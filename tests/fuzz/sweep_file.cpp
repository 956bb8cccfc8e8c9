// SPDX-License-Identifier: MIT
// The file of a sweep, changed by the library that writes such files, to its summary and to a merged file. The input
// says what is changed: bytes of the file itself would try libhdf5 more than what reads by it.
#include <algorithm>
#include <array>

#include "tests/fuzz/folder.hpp"
#include "tests/fuzz/fuzzing.hpp"
#include "tests/sim/io/hostile_sweep.hpp"
#include "tools/sweep/summary.hpp"

using namespace hatring;
using io::testing::in_chunks;

namespace {

// The input, byte by byte; zeros when it has ended.
class Bytes {
 public:
  Bytes(const std::uint8_t* data, std::size_t size) : data_(data), left_(size) {}

  [[nodiscard]] bool any() const { return left_ > 0; }
  std::uint8_t next() {
    if (left_ == 0) return 0;
    --left_;
    return *data_++;
  }
  std::size_t below(std::size_t end) { return next() % end; }
  int number() {
    constexpr std::array kNumbers{0, 1, 2, 3, -1, 1 << 20, 99'999'999, 2147483647, -2147483647};
    const std::size_t which = below(kNumbers.size() + 1);
    return which < kNumbers.size() ? kNumbers.at(which) : next();
  }
  std::string text() {
    const std::size_t kind = below(4);
    if (kind == 0) return std::string(std::size_t{1} << below(21), 'x');
    std::string out;
    for (std::size_t count = below(64); count > 0 && any(); --count) out += static_cast<char>(next());
    return kind == 1 ? "run\nstatus\n" + out : out;
  }

 private:
  const std::uint8_t* data_;
  std::size_t left_;
};

class Spoiler {
 public:
  Spoiler(const H5::H5File& file, Bytes& bytes) : file_(file), bytes_(bytes) {}

  void go() {
    switch (bytes_.below(7)) {
      case 0:
        return attribute(file_, file_attribute());
      case 1:
        return attribute(file_.openDataSet(path()), bytes_.below(2) == 0 ? "units" : "flag_meanings");
      case 2:
        return io::testing::put_number(file_, file_attribute(), bytes_.number());
      case 3:
        return dataset(path());
      case 4:
        return link(path());
      case 5:
        return values(file_.openDataSet(path()));
      default:
        return io::testing::share_first_text(file_, path());
    }
  }

 private:
  std::string path() {
    const auto& columns = io::testing::small_columns();
    const std::size_t which = bytes_.below(columns.size() + 3);
    if (which < columns.size()) return columns[which].path;
    return std::array{"config", "design", "measure"}.at(which - columns.size());
  }
  const char* file_attribute() {
    constexpr std::array kNames{"sweep_format", "program_version", "created", "session", "runs",
                                "shard",        "shards",          "columns", "other"};
    return kNames.at(bytes_.below(kNames.size()));
  }
  H5::DataType type() {
    const H5::PredType number = H5::PredType::IEEE_F64LE;
    const hsize_t few = 3;
    switch (bytes_.below(12)) {
      case 0:
        return io::text_type();
      case 1:
        return H5::StrType(H5::PredType::C_S1, 1 + bytes_.below(200));
      case 2:
        return H5::VarLenType(number);
      case 3:
        return H5::ArrayType(number, 1, &few);
      case 4:
        return H5::PredType::STD_REF_OBJ;
      case 5:
        return H5::PredType::IEEE_F64BE;
      case 6:
        return H5::PredType::IEEE_F32LE;
      case 7:
        return H5::PredType::STD_U64LE;
      case 8:
        return H5::PredType::STD_I8LE;
      case 9:
        return H5::PredType::STD_I32LE;
      default:
        return number;
    }
  }
  H5::DataSpace space() {
    const std::array<hsize_t, 2> size{hsize_t{1} << bytes_.below(50), 1 + bytes_.below(30)};
    const hsize_t endless = H5S_UNLIMITED;
    switch (bytes_.below(6)) {
      case 0:
        return {};
      case 1:
        return H5::DataSpace(H5S_NULL);
      case 2:
        return {2, size.data()};
      case 3:
        return {1, size.data(), &endless};
      default:
        return {1, size.data() + 1, &endless};
    }
  }
  H5::DSetCreatPropList layout() {
    H5::DSetCreatPropList how = in_chunks(hsize_t{1} << bytes_.below(24));
    switch (bytes_.below(6)) {
      case 0:
        return {};
      case 1:
        how.setDeflate(9);
        return how;
      case 2:
        how.setShuffle();
        return how;
      case 3:
        how = {};
        how.setExternal("/dev/zero", 0, 1 << bytes_.below(20));
        return how;
      default:
        return how;
    }
  }

  void attribute(const H5::H5Object& object, const char* name) {
    switch (bytes_.below(4)) {
      case 0:
        return object.removeAttr(name);
      case 1:
        return io::testing::put_text(object, name, bytes_.text());
      default:
        const H5::DataType kind = type();
        const H5::DataSpace shape = space();
        if (object.attrExists(name)) object.removeAttr(name);
        object.createAttribute(name, kind, shape);
    }
  }
  void dataset(const std::string& where) {
    const H5::DataType kind = type();
    const H5::DataSpace shape = space();
    const H5::DataSet data = io::testing::put_dataset(file_, where, kind, shape, layout());
    io::testing::put_text(data, "flag_meanings", "a b");
    if (shape.getSimpleExtentNpoints() < 10'000 && bytes_.below(2) == 0) values(data);
  }
  void link(const std::string& where) {
    const std::string to = path();
    file_.unlink(where);
    switch (bytes_.below(5)) {
      case 0:
        return;
      case 1:
        return file_.link(H5L_TYPE_SOFT, to, where);
      case 2:
        return file_.link(H5L_TYPE_HARD, to, where);
      case 3:
        return file_.link(H5L_TYPE_HARD, "/", where);
      default:
        H5Lcreate_external(file_.getFileName().c_str(), to.c_str(), file_.getId(), where.c_str(), H5P_DEFAULT,
                           H5P_DEFAULT);
    }
  }
  // Fills a dataset of numbers or texts.
  void values(const H5::DataSet& data) {
    const auto count =
        static_cast<std::size_t>(std::clamp<hssize_t>(data.getSpace().getSimpleExtentNpoints(), 0, 10'000));
    if (data.getTypeClass() == H5T_STRING) {
      const std::string text = bytes_.text();
      const std::vector<const char*> texts(count, text.c_str());
      return data.write(static_cast<const void*>(texts.data()), io::text_type());
    }
    std::vector<double> numbers(count, bytes_.number());
    if (bytes_.below(2) == 0)
      for (double& n : numbers) n = bytes_.number();
    data.write(numbers.data(), H5::PredType::NATIVE_DOUBLE);
  }

  const H5::H5File& file_;
  Bytes& bytes_;
};

void spoil(const std::filesystem::path& path, Bytes& bytes) {
  constexpr int kMost = 12;
  for (int i = 0; i < kMost && bytes.any(); ++i) {
    try {
      io::testing::spoil(path, [&](const H5::H5File& file) { Spoiler(file, bytes).go(); });
    } catch (const H5::Exception&) {
      // Not everything that is asked for can be done.
    }
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const fuzz::Folder folder;
  const std::filesystem::path one = folder.path() / "1.h5", two = folder.path() / "2.h5";
  Bytes bytes(data, size);
  const int runs = 9 + static_cast<int>(bytes.below(40)), shards = 1 + static_cast<int>(bytes.below(2));
  std::vector<std::filesystem::path> files{one};
  io::testing::write_small_sweep(one, io::testing::small_meta(runs, 1, shards));
  spoil(one, bytes);
  if (shards == 2) {
    files.push_back(two);
    io::testing::write_small_sweep(two, io::testing::small_meta(runs, 2, shards));
    spoil(two, bytes);
  }
  fuzz::tolerant([&] { static_cast<void>(tools::summarize(one, "closest", 5)); });
  return fuzz::tolerant([&] { io::merge_sweeps(files, folder.path() / "whole.h5", "now"); });
}
