// SPDX-License-Identifier: MIT
#include "sim/session/driver_pace.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/session/cubic.hpp"
#include "sim/session/error.hpp"
#include "sim/session/lap_join.hpp"
#include "sim/session/speed_passes.hpp"

namespace hatring::session {
namespace {

constexpr double kNearlyAll = 0.95;  // percentile that stands for the largest: a spike is not what the car can do
constexpr double kSameSpeed = 0.05;  // a lap whose ends differ by less of its top speed is driven round and round
constexpr double kShortest = 1e-6;   // cells shorter than this are a stand [m]
constexpr double kUnhurried = 1.5;   // braking where the trace has none to learn from [m/s2]

struct Cell {
  double begin = 0, end = 0;  // [s]
  double speed = 0;           // root mean square of both ends [m/s]
  double force = 0;           // of the tyres along the road, positive driving [N]
  double length = 0;          // [m]
  double grade = 0;
  int braking = -1;
};

double resistance(const Road& road, double speed, double grade) {
  const models::Resistances r = models::resistances(road.load, speed, 0, grade);
  return r.drag + r.rolling + r.grade;
}

// The value below which this share of the weight lies.
double percentile(std::vector<std::pair<double, double>> value_and_weight, double share) {
  if (value_and_weight.empty()) return 0;
  std::sort(value_and_weight.begin(), value_and_weight.end());
  double all = 0, sum = 0;
  for (const auto& [value, weight] : value_and_weight) all += weight;
  for (const auto& [value, weight] : value_and_weight)
    if ((sum += weight) >= share * all) return value;
  return value_and_weight.back().first;
}

class SlowerLap {
 public:
  SlowerLap(const Profile& lap, const Road& road, const Effort& effort, const std::string& name)
      : road_(road), grip_(effort.pace * effort.grip), power_(effort.pace), name_(name) {
    if (!(effort.pace > 0 && effort.pace <= 1 && grip_ > 0 && effort.grip <= 1))
      throw CaseError(fmt::format(
          "driver_pace is {:g} and grip {:g}; both must be above 0 and no more than 1: a trace does not tell how it "
          "could be driven faster",
          effort.pace, effort.grip));
    sample(lap);
    learn();
  }

  Trace run() {
    SpeedBounds bounds{.distance = distance_, .ceiling = ceiling(), .gain = {}, .loss = {}, .closed = closed()};
    const double mass = road_.load.mass * road_.load.rotating_factor;
    bounds.gain = [&, mass](std::size_t i, double v) {
      return (pull(cells_[i], v) - resistance(road_, v, cells_[i].grade)) / mass;
    };
    bounds.loss = [&, mass](std::size_t i, double v) {
      return (braking_[i] + resistance(road_, v, cells_[i].grade)) / mass;
    };
    Trace out;
    out.name = name_;
    out.speed = fastest(bounds);
    out.distance = distance_;
    if (std::any_of(grade_.begin(), grade_.end(), [](double g) { return g != 0; })) out.grade = grade_;
    return out;
  }

 private:
  void sample(const Profile& lap) {
    for (const Piece& p : lap.pieces) {
      const double h = length_of(p);
      const int parts = std::max(1, static_cast<int>(std::ceil(travelled_at(p, h) / kLapStep)));
      for (int i = 1; i <= parts; ++i) add(part_of(p, h * (i - 1) / parts, h * i / parts));
    }
  }

  void add(const Piece& p) {
    const double h = length_of(p), length = travelled_at(p, h);
    const double from = std::max(0.0, p.c[0]), to = std::max(0.0, speed_at(p, h));
    if (distance_.empty()) push_node(0, from, p.grade0);
    if (length < kShortest) return;
    if (stood_ && to > kStanding)
      throw CaseError(
          fmt::format("trace '{}': it stands still {:.0f} m into the lap, so driver_pace and grip cannot "
                      "be applied; use pace",
                      name_, distance_.back()));
    moved_ = moved_ || to > kStanding;
    stood_ = stood_ || (moved_ && to < kStanding);
    const double speed = std::sqrt((from * from + to * to) / 2), grade = (p.grade0 + p.grade1) / 2;
    const double force = road_.load.mass * road_.load.rotating_factor * (to * to - from * from) / (2 * length) +
                         resistance(road_, speed, grade);
    cells_.push_back({p.begin, p.end, speed, force, length, grade, p.braking});
    push_node(distance_.back() + length, to, p.grade1);
  }

  void push_node(double distance, double speed, double grade) {
    distance_.push_back(distance);
    speed_.push_back(speed);
    grade_.push_back(grade);
  }

  [[nodiscard]] bool closed() const {
    const double top = *std::max_element(speed_.begin(), speed_.end());
    return std::min(speed_.front(), speed_.back()) > kStanding &&
           std::abs(speed_.front() - speed_.back()) < kSameSpeed * top;
  }

  // What the car and its brakes can do, as far as the trace shows it.
  void learn() {
    std::vector<std::pair<double, double>> power, pull, braking;
    for (const Cell& c : cells_) {
      if (c.force > 0) power.emplace_back(c.force * c.speed, c.length);
      if (c.force > 0) pull.emplace_back(c.force, c.length);
      if (c.force < 0 && c.braking >= 0) braking.emplace_back(-c.force, c.length);
    }
    most_power_ = percentile(power, kNearlyAll);
    most_pull_ = percentile(pull, 1);
    most_braking_ = percentile(braking, kNearlyAll);
    learn_braking();
  }

  // Braking force that the slower driver uses in each cell, from the last one back to the first.
  void learn_braking() {
    const double unhurried = kUnhurried * road_.load.mass;
    braking_.assign(cells_.size(), 0);
    double next = most_braking_ > 0 ? most_braking_ : unhurried;
    for (int round = 0; round < 2; ++round)  // the second one knows the first braking of the next lap
      for (std::size_t end = cells_.size(); end > 0;) {
        std::size_t begin = end - 1;
        const int number = cells_[begin].braking;
        while (begin > 0 && cells_[begin - 1].braking == number) --begin;
        if (number >= 0)
          next = put_braking(begin, end);
        else
          std::fill(braking_.begin() + static_cast<std::ptrdiff_t>(begin),
                    braking_.begin() + static_cast<std::ptrdiff_t>(end), grip_ * next);
        end = begin;
      }
  }

  // \returns the mean force of this braking
  double put_braking(std::size_t begin, std::size_t end) {
    double work = 0, length = 0;
    for (std::size_t i = begin; i < end; ++i) {
      work += std::max(0.0, -cells_[i].force) * cells_[i].length;
      length += cells_[i].length;
    }
    const double mean = work / length;
    bool rising = true;
    for (std::size_t i = begin; i < end; ++i) {
      const double own = std::max(0.0, -cells_[i].force);
      rising = rising && own < mean;
      braking_[i] = grip_ * (rising ? mean : own);
    }
    return mean;
  }

  // Largest or smallest value among the cells whose middle lies within half a pedal change.
  [[nodiscard]] std::vector<double> around(const std::vector<double>& values, bool largest) const {
    std::vector<double> out(values.size());
    const auto middle = [this](std::size_t i) { return (cells_[i].begin + cells_[i].end) / 2; };
    for (std::size_t i = 0, first = 0; i < values.size(); ++i) {
      while (middle(first) < middle(i) - kPedalChange / 2) ++first;
      out[i] = values[first];
      for (std::size_t k = first; k < values.size() && middle(k) <= middle(i) + kPedalChange / 2; ++k)
        out[i] = largest ? std::max(out[i], values[k]) : std::min(out[i], values[k]);
    }
    return out;
  }

  [[nodiscard]] std::vector<double> ceiling() const {
    std::vector<double> use;
    for (const Cell& c : cells_) {
      const double most = c.force > 0 ? most_power_ / c.speed : most_braking_;
      use.push_back(most > 0 ? std::min(1.0, std::abs(c.force) / most) : 0);
    }
    use = around(around(use, true), false);  // fills what is shorter than a pedal change
    const auto share = [&use, this](std::size_t cell) { return 1 - (1 - grip_) * (1 - use[cell] * use[cell]); };
    std::vector<double> out;
    for (std::size_t i = 0; i < speed_.size(); ++i)
      out.push_back(speed_[i] * std::sqrt(std::min(share(i == 0 ? 0 : i - 1), share(std::min(i, cells_.size() - 1)))));
    return out;
  }

  [[nodiscard]] double pull(const Cell& c, double speed) const {
    if (c.force <= 0) return 0;
    const double by_power = speed > 0 ? power_ * c.force * c.speed / speed : c.force;
    return std::min({c.force, by_power, grip_ * most_pull_});
  }

  const Road& road_;
  double grip_, power_;
  const std::string& name_;
  std::vector<double> distance_, speed_, grade_;  // at the nodes
  std::vector<Cell> cells_;
  std::vector<double> braking_;  // [N]
  bool moved_ = false, stood_ = false;
  double most_power_ = 0, most_pull_ = 0, most_braking_ = 0;
};

}  // namespace

Trace slower_lap(const Profile& lap, const Road& road, const Effort& effort, const std::string& name) {
  return SlowerLap(lap, road, effort, name).run();
}

}  // namespace hatring::session
