// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <iterator>

#include "sim/io/result/shards.hpp"
#include "sim/io/result/sweep_file.hpp"
#include "tests/sim/io/sample.hpp"

using namespace hatring::io;
using Catch::Matchers::Contains;
using hatring::io::testing::Folder;

namespace {

const std::vector<SweepColumn> kColumns{
    {"run", "1", "Number", SweepColumn::Kind::whole, {}},
    {"status", "1", "State", SweepColumn::Kind::whole, {"not_run", "done"}},
    {"parameter/a.b, c.d", "1", "Text", SweepColumn::Kind::text, {}},
    {"measure/front/face", "K", "Face", SweepColumn::Kind::number, {}},
};
constexpr std::uint64_t kRuns = 2500;  // more than two blocks

std::vector<SweepValues> rows(std::uint64_t first, std::size_t count, const Shard& shard = {}, int status = 1) {
  std::vector<int> run, state;
  std::vector<std::string> text;
  std::vector<double> face;
  for (std::uint64_t row = first; row < first + count; ++row) {
    const int number = static_cast<int>(shard.run_of_row(row)) + 1;
    run.push_back(number);
    state.push_back(status);
    text.push_back(number % 3 == 0 ? "" : "run " + std::to_string(number));
    face.push_back(number % 5 == 0 ? std::nan("") : number * 0.5);
  }
  return {run, state, text, face};
}

void write(const std::filesystem::path& file, int shard = 1, int shards = 1, const std::string& design = "d",
           int status = 1) {
  const Shard of{shard, shards};
  write_sweep(file, {"0.1", "now", "demo", "car: {}", design, static_cast<int>(kRuns), shard, shards}, kColumns,
              of.rows_below(kRuns), [&](std::uint64_t first, std::size_t n) { return rows(first, n, of, status); });
}

std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::string merge_fault(const std::vector<std::filesystem::path>& files, const std::filesystem::path& out) {
  try {
    merge_sweeps(files, out, "now");
  } catch (const SweepError& e) {
    return e.what();
  }
  return "";
}

}  // namespace

TEST_CASE("sweep file: what was written is read again block by block") {
  const Folder folder("sweep_file");
  const auto path = folder.path() / "sweep.h5";
  write(path);
  const SweepFile file(path);
  CHECK(file.rows() == kRuns);
  CHECK(file.meta().session == "demo");
  CHECK(file.meta().config == "car: {}");
  CHECK(file.meta().runs == static_cast<int>(kRuns));
  REQUIRE(file.columns().size() == kColumns.size());
  const auto all = rows(0, kRuns);
  for (std::size_t i = 0; i < kColumns.size(); ++i) {
    CHECK(file.columns()[i].path == kColumns[i].path);
    CHECK(file.columns()[i].unit == kColumns[i].unit);
    CHECK(file.columns()[i].meanings == kColumns[i].meanings);
    if (i != 3) CHECK(file.column(i) == all[i]);
  }
  const auto face = std::get<std::vector<double>>(file.column(3));
  CHECK(std::isnan(face[4]));
  CHECK(face[kRuns - 2] == (kRuns - 1) * 0.5);
}

TEST_CASE("sweep file: every run is in one shard, and groups of eight stay together") {
  for (const int shards : {1, 2, 7}) {
    std::vector<int> held(100, 0);
    for (int i = 1; i <= shards; ++i) {
      const Shard shard{i, shards};
      for (std::uint64_t row = 0; row < shard.rows_below(held.size()); ++row) {
        const std::uint64_t run = shard.run_of_row(row);
        ++held.at(run);
        CHECK(shard.rows_below(run) == row);
        CHECK(run / 8 % static_cast<std::uint64_t>(shards) == static_cast<std::uint64_t>(i - 1));
      }
    }
    CHECK(held == std::vector<int>(100, 1));
  }
}

TEST_CASE("sweep file: shards merge into the bytes of the whole") {
  const Folder folder("sweep_merge");
  const auto at = [&](const char* name) { return folder.path() / name; };
  write(at("whole.h5"));
  for (const int shards : {2, 7}) {
    std::vector<std::filesystem::path> files;
    for (int i = shards; i >= 1; --i) {
      files.push_back(at(("part" + std::to_string(i)).c_str()));
      write(files.back(), i, shards);
    }
    merge_sweeps(files, at("merged.h5"), "now");
    CHECK(bytes_of(at("merged.h5")) == bytes_of(at("whole.h5")));
  }
}

TEST_CASE("sweep file: what does not belong together is refused") {
  const Folder folder("sweep_refused");
  const auto at = [&](const char* name) { return folder.path() / name; };
  write(at("1"), 1, 2);
  write(at("2"), 2, 2);
  write(at("other"), 2, 2, "another");
  write(at("third"), 1, 3);
  write(at("open"), 2, 2, "d", 0);
  CHECK_THAT(merge_fault({at("1"), at("other")}, at("m")), Contains("the design differs"));
  CHECK_THAT(merge_fault({at("1"), at("third")}, at("m")), Contains("the number of shards differs"));
  CHECK_THAT(merge_fault({at("1")}, at("m")), Contains("shard 2 of 2 is missing"));
  CHECK_THAT(merge_fault({at("1"), at("1")}, at("m")), Contains("given twice"));
  CHECK_THAT(merge_fault({at("1"), at("open")}, at("m")), Contains("1248 of 1248 runs are not done"));
  CHECK_THAT(merge_fault({folder.write("text", "no")}, at("m")), Contains("expected the result file of a sweep"));
  CHECK_THAT(merge_fault({}, at("m")), Contains("no files"));
  CHECK_FALSE(std::filesystem::exists(at("m")));
}
