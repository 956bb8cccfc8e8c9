// SPDX-License-Identifier: MIT
// Files of sweeps that are cut short, changed or made to do harm: an error that says what is wrong and what to do.
#include "tests/sim/io/hostile_sweep.hpp"

#include <fmt/format.h>
#include <sys/stat.h>

#include <catch2/catch.hpp>
#include <fstream>
#include <functional>

#include "tests/sim/io/sample.hpp"

using namespace hatring::io;
using namespace hatring::io::testing;
using Catch::Matchers::Contains;

namespace {

namespace fs = std::filesystem;
using Spoil = std::function<void(const H5::H5File&)>;

constexpr int kRuns = 20;
const hsize_t kRows = kRuns;

H5::DataSpace rows_of(hsize_t rows) {
  return {1, &rows};
}

// Reads all there is.
void read_all(const fs::path& path) {
  const SweepFile file(path);
  for (std::size_t i = 0; i < file.columns().size(); ++i) static_cast<void>(file.column(i));
}

std::string fault_of(const fs::path& path) {
  try {
    read_all(path);
  } catch (const SweepError& e) {
    return e.what();
  }
  return "";
}

std::string fault_after(const Spoil& work) {
  const Folder folder("hostile_sweep");
  const fs::path path = folder.path() / "sweep.h5";
  write_small_sweep(path, small_meta(kRuns));
  REQUIRE(fault_of(path).empty());
  spoil(path, work);
  const std::string fault = fault_of(path);
  if (!fault.empty()) CHECK_THAT(fault, Contains(path.string()));
  return fault;
}

struct Case {
  const char* what;
  const char* message;
  Spoil work;
};

void check_all(const std::vector<Case>& cases) {
  for (const Case& c : cases) {
    CAPTURE(c.what);
    const std::string fault = fault_after(c.work);
    CHECK_THAT(fault, Contains(c.message));
    CHECK_THAT(fault, Contains("writes it anew"));
  }
}

}  // namespace

TEST_CASE("hostile sweep file: attributes") {
  const H5::StrType fixed(H5::PredType::C_S1, 8);
  check_all({
      {"gone", "the attribute `session` is missing", [](const auto& f) { f.removeAttr("session"); }},
      {"number for text", "`session` is no text", [](const auto& f) { put_number(f, "session", 7); }},
      {"text of fixed length", "`created` is no text of free length",
       [&](const auto& f) { put_attribute(f, "created", fixed, {}, "12345678"); }},
      {"several texts", "`session` holds not one value",
       [](const auto& f) {
         const std::vector<const char*> texts(3, "a");
         put_attribute(f, "session", text_type(), rows_of(3), texts.data());
       }},
      {"endless text", "`session` has 2000000 characters",
       [](const auto& f) { put_text(f, "session", std::string(2'000'000, 'x')); }},
      {"text for number", "`runs` is no whole number", [](const auto& f) { put_text(f, "runs", "20"); }},
      {"wider number", "`runs` is no whole number",
       [](const auto& f) {
         const std::int64_t many = 20;
         put_attribute(f, "runs", H5::PredType::STD_I64LE, {}, &many);
       }},
      {"several numbers", "`runs` is no whole number",
       [](const auto& f) {
         const std::vector<int> runs(3, kRuns);
         put_attribute(f, "runs", H5::PredType::STD_I32LE, rows_of(3), runs.data());
       }},
      {"below zero", "`runs` is -1, expected 1 to 100000000", [](const auto& f) { put_number(f, "runs", -1); }},
      {"none", "`runs` is 0", [](const auto& f) { put_number(f, "runs", 0); }},
      {"too many", "`runs` is 2147483647", [](const auto& f) { put_number(f, "runs", 2147483647); }},
      {"more than there are", "`run` has 20 rows, expected 100000000",
       [](const auto& f) { put_number(f, "runs", 100'000'000); }},
      {"no shards", "`shards` is 0", [](const auto& f) { put_number(f, "shards", 0); }},
      {"shard 0", "`shard` is 0", [](const auto& f) { put_number(f, "shard", 0); }},
      {"shard beyond", "`shard` is 2, expected 1 to 1", [](const auto& f) { put_number(f, "shard", 2); }},
      {"half of the runs", "`run` has 20 rows, expected 12", [](const auto& f) { put_number(f, "shards", 2); }},
      {"unit gone", "the attribute `units` is missing",
       [](const auto& f) { f.openDataSet("run").removeAttr("units"); }},
  });
}

TEST_CASE("hostile sweep file: formats of other versions") {
  const auto of_format = [](int format) {
    return fault_after([format](const auto& f) { put_number(f, "sweep_format", format); });
  };
  CHECK_THAT(of_format(kSweepFormat + 1), Contains("which a newer version of hatring wrote") && Contains("use that"));
  CHECK_THAT(of_format(0), Contains("which an older version of hatring wrote") && Contains("run the sweep again"));
  CHECK_THAT(of_format(-5), Contains("`sweep_format` is -5"));
  CHECK_THAT(fault_after([](const auto& f) { f.removeAttr("sweep_format"); }), Contains("found another HDF5 file"));
}

TEST_CASE("hostile sweep file: lists of columns") {
  const auto columns = [](const std::string& text) {
    return [text](const H5::H5File& f) { put_text(f, "columns", text); };
  };
  std::string endless = "run\nstatus\n";
  for (int i = 0; i < 5000; ++i) endless += fmt::format("measure/{}\n", i);
  check_all({
      {"none", "do not begin with `run` and `status`", columns("")},
      {"others first", "do not begin with `run` and `status`", columns("status\nrun\n")},
      {"twice", "a column is named twice", columns("run\nstatus\nreason\nreason\n")},
      {"not there", "`measure/hue` is missing", columns("run\nstatus\nmeasure/hue\n")},
      {"nameless", "`measure//closest` is missing", columns("run\nstatus\nmeasure//closest\n")},
      {"a dot", "`./reason` is missing", columns("run\nstatus\n./reason\n")},
      {"a group", "`measure` is no dataset", columns("run\nstatus\nmeasure\n")},
      {"below a dataset", "`reason/a` is no dataset", columns("run\nstatus\nreason/a\n")},
      {"text of a scalar", "`config` is not stored as hatring stores it", columns("run\nstatus\nconfig\n")},
      {"too many", "it has 5002 columns", columns(endless)},
  });
}

TEST_CASE("hostile sweep file: columns of another kind") {
  const auto with = [](const H5::DataType& type, const H5::DataSpace& space, const H5::DSetCreatPropList& how) {
    return [=](const H5::H5File& f) { put_dataset(f, "measure/closest", type, space, how); };
  };
  const H5::PredType number = H5::PredType::IEEE_F64LE;
  const hsize_t square[] = {kRows, kRows};
  H5::DSetCreatPropList square_chunks;
  square_chunks.setChunk(2, square);
  H5::DSetCreatPropList packed = in_chunks(16);
  packed.setDeflate(9);
  H5::DSetCreatPropList elsewhere;
  elsewhere.setExternal("/dev/zero", 0, kRows * sizeof(double));
  H5::DSetCreatPropList virtually;
  virtually.setVirtual(rows_of(kRows), ".", "/measure/front/face", rows_of(kRows));
  H5::CompType pair(std::size_t{16});
  pair.insertMember("a", 0, number);
  constexpr hsize_t kUnlimited = H5S_UNLIMITED, kEnormous = hsize_t{1} << 50;
  check_all({
      {"gone", "`measure/closest` is missing", [](const auto& f) { f.unlink("measure/closest"); }},
      {"group", "`measure/closest` is no dataset",
       [](const auto& f) {
         f.unlink("measure/closest");
         static_cast<void>(make_group(f.openGroup("/"), "measure/closest"));
       }},
      {"link to itself", "`measure/closest` is a link",
       [](const auto& f) {
         f.unlink("measure/closest");
         f.link(H5L_TYPE_SOFT, "/measure/closest", "measure/closest");
       }},
      {"link to a file", "`measure/closest` is a link",
       [](const auto& f) {
         f.unlink("measure/closest");
         H5Lcreate_external("/dev/zero", "/a", f.getId(), "measure/closest", H5P_DEFAULT, H5P_DEFAULT);
       }},
      {"half as wide", "another kind", with(H5::PredType::IEEE_F32LE, rows_of(kRows), in_chunks(16))},
      {"pairs", "another kind", with(pair, rows_of(kRows), in_chunks(16))},
      {"lists", "another kind", with(H5::VarLenType(number), rows_of(kRows), in_chunks(16))},
      {"whole numbers", "a kind that is not its own",
       [](const auto& f) {
         const std::vector<int> zeros(kRows);
         put_dataset(f, "measure/closest", H5::PredType::STD_I32LE, rows_of(kRows), in_chunks(16))
             .write(zeros.data(), H5::PredType::NATIVE_INT);
       }},
      {"one value", "not stored as hatring stores it", with(number, {}, {})},
      {"square", "is no column of rows", with(number, {2, square}, square_chunks)},
      {"one row too few", "has 19 rows, expected 20", with(number, rows_of(kRows - 1), in_chunks(16))},
      {"enormous", "rows, expected 20", with(number, rows_of(kEnormous), in_chunks(16))},
      {"enormous chunks", "is no column of rows", with(number, {1, &kRows, &kUnlimited}, in_chunks(1 << 28))},
      {"never written", "rows that were never written", with(number, rows_of(kRows), in_chunks(16))},
      {"packed", "a filter", with(number, rows_of(kRows), packed)},
      {"in another file", "another file", with(number, rows_of(kRows), elsewhere)},
      {"virtual", "another layout", with(number, rows_of(kRows), virtually)},
      {"config as a number", "`config` is no text",
       [&](const auto& f) { put_dataset(f, "config", number, H5::DataSpace()); }},
      {"many configs", "`config` holds not one value",
       [](const auto& f) { put_dataset(f, "config", text_type(), rows_of(kEnormous)); }},
  });
}

TEST_CASE("hostile sweep file: values that cannot be") {
  const auto put = [](const char* path, int value) {
    return [=](const H5::H5File& f) {
      const std::vector<int> values(kRows, value);
      f.openDataSet(path).write(values.data(), H5::PredType::NATIVE_INT);
    };
  };
  check_all({
      {"another run", "`run` of run 1 is 5", put("run", 5)},
      {"no such state", "`status` of run 1 is 3", put("status", 3)},
      {"below zero", "`limit/front/hat` of run 1 is -1", put("limit/front/hat", -1)},
      {"words gone", "`status` of run 1 is 1",
       [](const auto& f) { f.openDataSet("status").removeAttr("flag_meanings"); }},
      {"one long text in every row", "its texts are longer than the file",
       [](const auto& f) {
         std::vector<const char*> texts(kRows, "");
         const std::string essay(100'000, 'x');
         texts[0] = essay.c_str();
         const H5::DataSet reason = f.openDataSet("reason");
         reason.write(static_cast<const void*>(texts.data()), text_type());
         share_first_text(f, "reason");
       }},
  });
}

TEST_CASE("hostile sweep file: files that were cut short or are none") {
  const Folder folder("cut_sweep");
  const fs::path whole = folder.path() / "whole.h5", path = folder.path() / "sweep.h5";
  write_small_sweep(whole, small_meta(kRuns));
  for (std::uintmax_t size = 0; size < fs::file_size(whole); size += fs::file_size(whole) / 37) {
    fs::copy_file(whole, path, fs::copy_options::overwrite_existing);
    fs::resize_file(path, size);
    CAPTURE(size);
    CHECK_THAT(fault_of(path), Contains(size <= kSealSize ? "sweep.h5: expected the result" : "cut short or changed"));
  }
  for (std::uintmax_t place = 0; place < fs::file_size(whole); place += 97) {
    fs::copy_file(whole, path, fs::copy_options::overwrite_existing);
    std::fstream file(path, std::ios::binary | std::ios::in | std::ios::out);
    file.seekg(static_cast<std::streamoff>(place));
    const char found = static_cast<char>(file.get());
    file.seekp(static_cast<std::streamoff>(place)).put(static_cast<char>(found ^ 1)).flush();
    CAPTURE(place);
    CHECK_THAT(fault_of(path), Contains("expected the result") || Contains("cut short or changed"));
  }
  CHECK_THAT(fault_of(folder.path()), Contains("expected the result file of a sweep"));
  CHECK_THAT(fault_of(folder.path() / "none"), Contains("expected the result file of a sweep"));
  const fs::path pipe = folder.path() / "pipe";
  REQUIRE(::mkfifo(pipe.c_str(), 0600) == 0);
  CHECK_THAT(fault_of(pipe), Contains("expected the result file of a sweep"));
}

TEST_CASE("hostile sweep file: a shard with columns of its own") {
  const Folder folder("own_columns");
  const fs::path one = folder.path() / "1", two = folder.path() / "2";
  write_small_sweep(one, small_meta(kRuns, 1, 2));
  write_small_sweep(two, small_meta(kRuns, 2, 2));
  spoil(two, [](const auto& f) { put_text(f, "columns", "run\nstatus\n"); });
  CHECK_THROWS_WITH(merge_sweeps({one, two}, folder.path() / "m", "now"), Contains("a column differs"));
  CHECK_FALSE(fs::exists(folder.path() / "m"));
}
