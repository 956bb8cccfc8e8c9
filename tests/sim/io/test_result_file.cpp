// SPDX-License-Identifier: MIT
#include "sim/io/result/file.hpp"

#include <H5Cpp.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <thread>

#include "tests/sim/io/result_sample.hpp"

namespace hatring::io {
namespace {

namespace fs = std::filesystem;
using Catch::Matchers::Contains;

// A new empty folder, gone with its content at the end.
class Folder {
 public:
  Folder() {
    std::string name = (fs::temp_directory_path() / "hatring_result_XXXXXX").string();
    REQUIRE(::mkdtemp(name.data()) != nullptr);
    path = name;
  }
  ~Folder() {
    std::error_code ignored;
    fs::permissions(path, fs::perms::owner_all, ignored);
    fs::remove_all(path, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  [[nodiscard]] std::size_t entries() const {
    return static_cast<std::size_t>(std::distance(fs::directory_iterator(path), fs::directory_iterator()));
  }
  fs::path path;
};

std::string content(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  REQUIRE(in);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::string failure(const fs::path& file, const answer::Run& run) {
  try {
    write_result(file, run, sample_meta());
  } catch (const ResultError& e) {
    return e.what();
  }
  return "no failure";
}

std::vector<double> numbers(const H5::H5File& file, const std::string& name) {
  const H5::DataSet data = file.openDataSet(name);
  std::vector<double> values(static_cast<std::size_t>(data.getSpace().getSimpleExtentNpoints()));
  data.read(values.data(), H5::PredType::NATIVE_DOUBLE);
  return values;
}

std::vector<std::string> texts(const H5::H5File& file, const std::string& name) {
  const H5::DataSet data = file.openDataSet(name);
  std::vector<char*> raw(static_cast<std::size_t>(data.getSpace().getSimpleExtentNpoints()));
  data.read(raw.data(), data.getDataType());
  std::vector<std::string> values;
  for (const char* text : raw) values.emplace_back(text == nullptr ? "" : text);
  H5::DataSet::vlenReclaim(raw.data(), data.getDataType(), data.getSpace());
  return values;
}

std::string attribute(const H5::H5Object& object, const char* name) {
  const H5::Attribute a = object.openAttribute(name);
  std::string value;
  a.read(a.getDataType(), value);
  return value;
}

int check_script(const fs::path& file) {
  const std::string command = std::string(HATRING_PYTHON) + " tests/tools/check_result.py '" + file.string() + "' >" +
                              (file.parent_path() / "log").string() + " 2>&1";
  const int status = std::system(command.c_str());
  INFO(content(file.parent_path() / "log"));
  REQUIRE(WIFEXITED(status));
  return WEXITSTATUS(status);
}

TEST_CASE("a result file reads back as it was written") {
  const Folder folder;
  const answer::Run run = sample_run();
  write_result(folder.path / "result.h5", run, sample_meta());
  const H5::H5File file((folder.path / "result.h5").string(), H5F_ACC_RDONLY);

  CHECK(numbers(file, "time") == run.history.time);
  CHECK(numbers(file, "speed") == run.history.speed);
  CHECK(numbers(file, "lap") == std::vector<double>{1, 1, 1, 0});
  // Heat is subtracted from itself; of all else seven digits are kept.
  CHECK(file.openDataSet("rear/heat/friction").getFloatType() == H5::PredType::IEEE_F64LE);
  CHECK(file.openDataSet("front/temperature/ring_mean").getFloatType() == H5::PredType::IEEE_F32LE);
  const H5::DataSet joint = file.openDataSet("front/joint/clearance_outward");
  CHECK(joint.openAttribute("_FillValue").getFloatType() == joint.getFloatType());
  const std::vector<double> kept = numbers(file, "front/temperature/ring_mean"),
                            had = run.history.front.find("temperature", "ring_mean")->values;
  REQUIRE(kept.size() == had.size());
  for (std::size_t i = 0; i < kept.size(); ++i) CHECK(kept[i] == Approx(had[i]).epsilon(1e-7));
  CHECK(numbers(file, "rear/heat/friction") == std::vector<double>{0, 1000, 2000, 4000});
  CHECK(numbers(file, "rear/rate/time") == run.history.time);
  CHECK(attribute(file.openDataSet("front/rate/ring_mean"), "units") == "K s-1");
  CHECK(attribute(file.openDataSet("front/rate/ring_mean"), "long_name") == "Heating rate");

  CHECK(texts(file, "verdict/level") == std::vector<std::string>{"over the limit", "within limits"});
  CHECK(texts(file, "verdict/reason") == std::vector<std::string>{"beyond the iron’s range", ""});
  CHECK(numbers(file, "verdict/margin") == std::vector<double>{-50, 2e-4});
  CHECK(numbers(file, "verdict/distance") == std::vector<double>{50, 0});
  CHECK(texts(file, "laps/axle") == std::vector<std::string>{"front", "rear"});
  CHECK(numbers(file, "laps/highest_ring_mean") == std::vector<double>{303.15, 303.15});
  CHECK(numbers(file, "laps/lowest_ring_mean")[0] == 293.15);
  CHECK(std::isnan(numbers(file, "laps/lowest_ring_mean")[1]));

  CHECK(texts(file, "config") == std::vector<std::string>{sample_meta().config});
  CHECK(attribute(file.openGroup("/"), "created") == sample_meta().created);
  CHECK(attribute(file.openGroup("front"), "side") == "hotter wheel of the axle; left and right are taken equal");
}

TEST_CASE("parts that do not exist are NaN and say so") {
  const Folder folder;
  write_result(folder.path / "result.h5", sample_run(), sample_meta());
  const H5::H5File file((folder.path / "result.h5").string(), H5F_ACC_RDONLY);
  for (const double v : numbers(file, "front/joint/clearance_outward")) CHECK(std::isnan(v));
  CHECK(file.openDataSet("front/joint/clearance_outward").attrExists("not_applicable"));
  CHECK_FALSE(file.openDataSet("front/joint/differential_expansion").attrExists("not_applicable"));
}

TEST_CASE("a hotter side is named with its factor") {
  const Folder folder;
  ResultMeta meta = sample_meta();
  meta.hot_side_factor = 1.06;
  write_result(folder.path / "result.h5", sample_run(), meta);
  const H5::H5File file((folder.path / "result.h5").string(), H5F_ACC_RDONLY);
  CHECK_THAT(attribute(file.openGroup("rear"), "side"), Contains("1.06 times"));
}

TEST_CASE("h5py and xarray open every group, and the heat balance closes") {
  if (std::system((std::string(HATRING_PYTHON) + " -c 'import h5py, xarray, h5netcdf' 2>/dev/null").c_str()) != 0) {
    WARN("not checked: h5py, xarray or h5netcdf is missing");
    return;
  }
  const Folder folder;
  answer::Run run = sample_run();
  SECTION("whole") {
    write_result(folder.path / "result.h5", run, sample_meta());
    CHECK(check_script(folder.path / "result.h5") == 0);
  }
  SECTION("without verdicts and laps") {
    run.answers = {};
    write_result(folder.path / "result.h5", run, sample_meta());
    CHECK(check_script(folder.path / "result.h5") == 0);
  }
  SECTION("heat that went missing") {
    for (answer::Column& c : run.history.rear.columns)
      if (c.name == "convection") c.values.back() *= 0.99;
    write_result(folder.path / "result.h5", run, sample_meta());
    CHECK(check_script(folder.path / "result.h5") == 1);
  }
}

TEST_CASE("the same run gives the same bytes, also from two threads at once") {
  const Folder folder;
  const answer::Run run = sample_run();
  std::thread other([&] { write_result(folder.path / "a.h5", run, sample_meta()); });
  write_result(folder.path / "b.h5", run, sample_meta());
  other.join();
  CHECK(content(folder.path / "a.h5") == content(folder.path / "b.h5"));
  ResultMeta later = sample_meta();
  later.created = "2020-02-02T02:02:03Z";
  write_result(folder.path / "c.h5", run, later);
  CHECK(content(folder.path / "a.h5") != content(folder.path / "c.h5"));
}

TEST_CASE("an existing result is replaced, never written into") {
  const Folder folder;
  const fs::path file = folder.path / "result.h5";
  std::ofstream(file) << "old";
  std::ifstream reader(file);  // someone who has the old file open
  write_result(file, sample_run(), sample_meta());
  CHECK(std::string(std::istreambuf_iterator<char>(reader), {}) == "old");
  CHECK(H5::H5File::isHdf5(file.string()));
  CHECK(folder.entries() == 1);
}

TEST_CASE("a folder that does not exist is named") {
  const Folder folder;
  const std::string message = failure(folder.path / "nowhere" / "result.h5", sample_run());
  CHECK_THAT(message, Contains("nowhere/result.h5") && Contains("No such file or directory"));
  CHECK(folder.entries() == 0);
}

TEST_CASE("a folder that may not be written is named") {
  if (::geteuid() == 0) {
    WARN("not checked: permissions do not bind the superuser");
    return;
  }
  const Folder folder;
  fs::permissions(folder.path, fs::perms::owner_read | fs::perms::owner_exec);
  CHECK_THAT(failure(folder.path / "result.h5", sample_run()), Contains("Permission denied"));
  CHECK(folder.entries() == 0);
}

TEST_CASE("a folder in the place of the file stays, and nothing is left beside it") {
  const Folder folder;
  fs::create_directory(folder.path / "result.h5");
  CHECK_THAT(failure(folder.path / "result.h5", sample_run()), Contains("Is a directory"));
  CHECK(folder.entries() == 1);
}

TEST_CASE("a write that fails half-way leaves the old result and nothing else") {
  const Folder folder;
  const fs::path file = folder.path / "result.h5";
  std::ofstream(file) << "old";
  rlimit before{};
  REQUIRE(::getrlimit(RLIMIT_FSIZE, &before) == 0);
  const auto handler = std::signal(SIGXFSZ, SIG_IGN);
  const rlimit small{4096, before.rlim_max};
  REQUIRE(::setrlimit(RLIMIT_FSIZE, &small) == 0);
  const std::string message = failure(file, sample_run());
  ::setrlimit(RLIMIT_FSIZE, &before);
  std::signal(SIGXFSZ, handler);
  CHECK_THAT(message, Contains("result.h5") && Contains("cannot write") && Contains("File too large"));
  CHECK(content(file) == "old");
  CHECK(folder.entries() == 1);
}

TEST_CASE("what the library refuses is told in its own words, and a later write is good") {
  const Folder folder;
  answer::Run run = sample_run();
  run.history.front.columns.push_back(run.history.front.columns.front());
  CHECK_THAT(failure(folder.path / "result.h5", run), Contains("result.h5") && Contains("already exists"));
  run.history.front.columns.back().name = "short";
  run.history.front.columns.back().values.pop_back();
  CHECK_THAT(failure(folder.path / "result.h5", run), Contains("short has 3 values, 4 expected"));
  CHECK(folder.entries() == 0);
  CHECK(failure(folder.path / "result.h5", sample_run()) == "no failure");
}

}  // namespace
}  // namespace hatring::io
