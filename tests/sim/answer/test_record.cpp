// SPDX-License-Identifier: MIT
// Rows are worked up many at a time: nothing may depend on where one lot ends and the next begins.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>

#include "sim/answer/leg.hpp"
#include "sim/answer/run.hpp"
#include "sim/io/read_case.hpp"
#include "sim/solve/kernel.hpp"
#include "sim/solve/loads.hpp"

using namespace hatring;

namespace {

constexpr std::size_t kLot = solve::kMostMoments;

struct Recorded {
  // Braked hard enough for the faces to yield, then parked.
  explicit Recorded(const std::string& heat = "90 kW")
      : c(io::read_case("configs/demo.yaml",
                        {.set = {"session=[{hold: 15 s, speed: 120 km/h, heat: " + heat + "}, {park: 30 s}]"}})
              .c),
        drive(c),
        wheels(answer::assemble_wheels(c, answer::highest_speed(drive))) {
    for (std::size_t i = 0; i <= 2 * kLot; ++i)
      times.push_back(drive.duration() * static_cast<double>(i) / static_cast<double>(2 * kLot));
  }
  std::vector<answer::AxleHistory> record(std::size_t lanes, const std::vector<double>& at,
                                          answer::Passage* passage = nullptr) const {
    answer::SolverWork work;
    return answer::record_axles(session::Axle::rear, {lanes, {c, drive, wheels.rear, passage}}, at, {}, work);
  }

  session::Case c;
  session::Drive drive;
  answer::Wheels wheels;
  std::vector<double> times;
};

}  // namespace

TEST_CASE("record: a row is the same however many are before it") {
  const Recorded r;
  for (const std::size_t lanes : {1U, 3U}) {
    if (lanes > 1 && solve::lanes_kernel(static_cast<int>(lanes)) == nullptr)
      continue;  // switched off by HATRING_LANES
    const answer::AxleHistory whole = r.record(lanes, r.times).back();
    for (const std::size_t rows : {std::size_t{2}, kLot - 1, kLot, kLot + 1, kLot + 2, 2 * kLot, 2 * kLot + 1}) {
      CAPTURE(lanes, rows);
      std::vector<double> at(r.times.begin(), r.times.begin() + static_cast<std::ptrdiff_t>(rows) - 1);
      at.push_back(r.times.back());
      const answer::AxleHistory few = r.record(lanes, at).back();
      REQUIRE(few.columns.size() == whole.columns.size());
      for (const answer::Column& column : few.columns) {
        CAPTURE(column.group, column.name);
        REQUIRE(column.values.size() == rows);
        // Rates are slopes between rows; yielding goes on from row to row, so that only what came before must be alike.
        if (column.not_applicable || column.group == "rate") continue;
        const std::vector<double>& all = whole.find(column.group, column.name)->values;
        bool same = true;
        for (std::size_t i = 0; i + 1 < rows; ++i) same = same && column.values[i] == all[i];
        CHECK(same);
        if (column.group == "temperature" || column.group == "heat") CHECK(column.values.back() == all.back());
      }
    }
  }
}

TEST_CASE("record: what is kept at a mark is the same wherever the mark stands") {
  const Recorded r;
  const auto kept = [&](const std::vector<std::size_t>& marks) {
    answer::Passage passage;
    for (const std::size_t i : marks) passage.marks.push_back(r.times[i]);
    (void)r.record(1, r.times, &passage);
    REQUIRE(passage.kept.size() == marks.size());
    return passage.kept;
  };
  const std::vector<std::size_t> marks{0, 20, kLot - 2, kLot - 1, kLot, 2 * kLot - 1, 2 * kLot};
  const std::vector<answer::AxleState> together = kept(marks);
  for (std::size_t i = 0; i < marks.size(); ++i) {
    CAPTURE(marks[i]);
    const answer::AxleState alone = kept({marks[i]}).front();
    CHECK(alone.heat == together[i].heat);
    CHECK(alone.ring == together[i].ring);
    REQUIRE(alone.joint.has_value());
    CHECK(alone.joint->force() == together[i].joint->force());
    CHECK(alone.joint->cold() == together[i].joint->cold());
  }
  CHECK(together.back().ring[0].plastic_strain() < 0);
  CHECK(together[1].ring[0].stress() != together[2].ring[0].stress());
}

TEST_CASE("record: wheels side by side have each its own load, whether or not a neighbour has the same") {
  if (solve::lanes_kernel(5) == nullptr) return;  // switched off by HATRING_LANES
  const Recorded mild("60 kW"), again("60 kW"), hard("90 kW"), harder("95 kW");
  REQUIRE(mild.drive.as(again.drive));
  REQUIRE_FALSE(mild.drive.as(hard.drive));
  std::vector<answer::Wheel> wheels;
  const std::vector<const Recorded*> order{&mild, &again, &hard, &harder, &mild};
  for (const Recorded* r : order) wheels.push_back({r->c, r->drive, r->wheels.rear});
  answer::SolverWork work;
  const std::vector<answer::AxleHistory> together =
      answer::record_axles(session::Axle::rear, wheels, mild.times, {}, work);
  for (std::size_t i = 0; i < order.size(); ++i) {
    const answer::AxleHistory alone = order[i]->record(1, mild.times).front();
    for (const answer::Column& column : alone.columns) {
      if (column.not_applicable || column.group == "rate" || column.name == "residual") continue;
      CAPTURE(i, column.group, column.name);
      const std::vector<double>& other = together[i].find(column.group, column.name)->values;
      double largest = 0, apart = 0;
      for (std::size_t k = 0; k < other.size(); ++k) {
        largest = std::max(largest, std::abs(column.values[k]));
        apart = std::max(apart, std::abs(column.values[k] - other[k]));
      }
      CHECK(apart <= 2e-3 * largest);
    }
  }
}
