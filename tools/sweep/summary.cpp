// SPDX-License-Identifier: MIT
#include "tools/sweep/summary.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace hatring::tools {
namespace {

constexpr double kMost = 0.95;

// "measure/front/face" as {"measure", "front", "face"}, "measure/verdict" as {"measure", "", "verdict"}.
struct Path {
  std::string group, axle, key;
};

Path parts(const std::string& path) {
  const std::size_t first = path.find('/');
  if (first == std::string::npos) return {{}, {}, path};
  Path out{path.substr(0, first), {}, path.substr(first + 1)};
  if (out.group == "parameter" || out.group == "label") return out;
  if (const std::size_t second = out.key.find('/'); second != std::string::npos) {
    out.axle = out.key.substr(0, second);
    out.key.erase(0, second + 1);
  }
  return out;
}

const answer::Measure* measure_of(const std::string& key) {
  for (const answer::Measure& m : answer::measures())
    if (m.key == key) return &m;
  return nullptr;
}

MeasureSpread spread_of(const answer::Measure& m, const std::string& axle, std::vector<double> values) {
  MeasureSpread out{.measure = &m, .axle = axle};
  values.erase(std::remove_if(values.begin(), values.end(), [](double v) { return std::isnan(v); }), values.end());
  out.runs = values.size();
  if (values.empty()) return out;
  std::sort(values.begin(), values.end());
  out.lowest = values.front();
  out.highest = values.back();
  out.median = quantile_of(values, 0.5);
  out.most = quantile_of(values, m.better == answer::Better::lower ? kMost : 1 - kMost);
  return out;
}

class Summarizer {
 public:
  Summarizer(const std::filesystem::path& path, const std::string& sort) : path_(path), file_(path) {
    const std::size_t dot = sort.find('.');
    key_ = dot == std::string::npos ? sort : sort.substr(dot + 1);
    axle_ = dot == std::string::npos ? "" : sort.substr(0, dot);
    out_.meta = file_.meta();
    out_.rows = static_cast<std::size_t>(file_.rows());
  }

  SweepSummary go(std::size_t most) {
    for (std::size_t i = 0; i < file_.columns().size(); ++i) take(i, parts(file_.columns()[i].path));
    rank(most);
    return std::move(out_);
  }

 private:
  io::SweepError damaged(const std::string& what) const {
    return io::SweepError(fmt::format("{}: cannot be read: {}", path_.string(), what));
  }
  std::vector<double> numbers(std::size_t i) const { return std::get<std::vector<double>>(file_.column(i)); }
  std::vector<int> whole(std::size_t i) const { return std::get<std::vector<int>>(file_.column(i)); }
  std::vector<std::string> texts(std::size_t i) const { return std::get<std::vector<std::string>>(file_.column(i)); }

  void take(std::size_t i, const Path& path) {
    if (path.group == "parameter") {
      const io::SweepColumn& column = file_.columns()[i];
      out_.parameters.push_back({path.key, column.kind == io::SweepColumn::Kind::number ? column.unit : "", i, 0});
    } else if (path.group == "label") {
      // Stands right behind its parameter.
      if (out_.parameters.empty() || out_.parameters.back().name != path.key)
        throw damaged(fmt::format("`label/{}` does not stand behind its parameter", path.key));
      out_.parameters.back().labels = i;
    } else if (path.group == "measure") {
      take_measure(i, path);
    } else if (path.group == "limit") {
      take_limit(i, path);
    } else if (path.key == "run") {
      run_numbers_ = whole(i);
    } else if (path.key == "status") {
      const std::vector<int> status = whole(i);
      out_.done = static_cast<std::size_t>(std::count(status.begin(), status.end(), 1));
      out_.failed = static_cast<std::size_t>(std::count(status.begin(), status.end(), 2));
    } else if (path.key == "reason") {
      for (const std::string& reason : texts(i))
        if (!reason.empty()) ++out_.reasons[reason];
    }
  }

  void take_measure(std::size_t i, const Path& path) {
    const answer::Measure* m = measure_of(path.key);
    if (m == nullptr) return;
    std::vector<double> values = numbers(i);
    if (path.key == "verdict") {
      for (const double level : values) {
        if (std::isnan(level)) continue;
        if (level != 0 && level != 1 && level != 2 && level != 3)
          throw damaged(fmt::format("`measure/verdict` is {}", level));
        ++(level == 0 ? out_.within : level == 1 ? out_.near : out_.over);
      }
      levels_ = values;
    }
    if (path.key == key_ && (axle_ == path.axle || (axle_.empty() && path.axle != "rear"))) {
      out_.sorted_by = m;
      out_.sorted_axle = path.axle;
      sorted_values_ = values;
    }
    out_.measures.push_back(spread_of(*m, path.axle, std::move(values)));
  }

  void take_limit(std::size_t i, const Path& path) {
    LimitShare share{.axle = path.axle, .key = path.key};
    for (const int level : whole(i)) {
      if (level > static_cast<int>(answer::Level::exceeded)) continue;
      ++share.judged;
      if (level == static_cast<int>(answer::Level::near)) ++share.near;
      if (level == static_cast<int>(answer::Level::exceeded)) ++share.over;
    }
    if (share.judged > 0) out_.limits.push_back(std::move(share));
  }

  void rank(std::size_t most) {
    if (levels_.empty()) throw damaged("`measure/verdict` is missing");
    if (out_.sorted_by == nullptr)
      throw io::SweepError(fmt::format("no measure `{}` in the result of the sweep", key_));
    std::vector<std::size_t> order(out_.rows);
    std::iota(order.begin(), order.end(), std::size_t{0});
    order.erase(
        std::remove_if(order.begin(), order.end(), [this](std::size_t k) { return std::isnan(sorted_values_[k]); }),
        order.end());
    const bool lower = out_.sorted_by->better == answer::Better::lower;
    const auto better = [this, lower](std::size_t a, std::size_t b) {
      const double x = sorted_values_[a], y = sorted_values_[b];
      return x == y ? a < b : lower ? x < y : x > y;
    };
    most = std::min(most, order.size());
    std::partial_sort(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(most), order.end(), better);
    for (std::size_t k = 0; k < most; ++k)
      out_.best.push_back(
          {.run = run_numbers_[order[k]], .value = sorted_values_[order[k]], .level = levels_[order[k]]});
    for (std::size_t p = 0; p < out_.parameters.size(); ++p) {
      SweptParameter& parameter = out_.parameters[p];
      const io::SweepValues column = file_.column(parameter.column);
      const auto* numbers = std::get_if<std::vector<double>>(&column);
      const bool words = numbers == nullptr || parameter.labels > 0;
      const auto labels =
          words ? texts(numbers == nullptr ? parameter.column : parameter.labels) : std::vector<std::string>();
      for (std::size_t k = 0; k < most; ++k)
        out_.best[k].settings.push_back(
            {numbers == nullptr ? std::nan("") : (*numbers)[order[k]], words ? labels[order[k]] : std::string()});
    }
  }

  std::filesystem::path path_;
  io::SweepFile file_;
  std::string key_, axle_;
  SweepSummary out_;
  std::vector<int> run_numbers_;
  std::vector<double> levels_, sorted_values_;
};

}  // namespace

double quantile_of(const std::vector<double>& sorted, double share) {
  const double at = share * static_cast<double>(sorted.size() - 1);
  const auto below = static_cast<std::size_t>(at);
  const std::size_t above = std::min(below + 1, sorted.size() - 1);
  return sorted[below] + (at - static_cast<double>(below)) * (sorted[above] - sorted[below]);
}

SweepSummary summarize(const std::filesystem::path& file, const std::string& sort, std::size_t most) {
  return Summarizer(file, sort).go(most);
}

}  // namespace hatring::tools
