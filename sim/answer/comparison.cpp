// SPDX-License-Identifier: MIT
#include "sim/answer/comparison.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace hatring::answer {

std::string_view to_string(Change change) {
  switch (change) {
    case Change::unclear:
      return "no clear difference";
    case Change::better:
      return "better";
    case Change::worse:
      return "worse";
    case Change::none:
      break;
  }
  return "";
}

std::vector<double> in_each_air(const Measure& m, const Contender& x, session::Axle axle) {
  std::vector<double> out{m.value(x.c, x.likely, axle)};
  if (!m.banded || !x.ends) return out;
  out.push_back(m.value(x.c, x.ends->little, axle));
  out.push_back(m.value(x.c, x.ends->much, axle));
  return out;
}

int clear_difference(const std::vector<double>& a, const std::vector<double>& b, double least) {
  // One of two with pinned convection has no ends: then the likely values are all there is.
  const std::size_t airs = std::min(a.size(), b.size());
  bool lower = true, higher = true;
  for (std::size_t i = 0; i < airs; ++i) {
    const double difference = b[i] - a[i];
    lower = lower && difference <= -least;
    higher = higher && difference >= least;
  }
  return lower ? -1 : higher ? 1 : 0;
}

namespace {

using Airs = std::vector<std::vector<double>>;  // by set-up

constexpr double kAlike = 0.1;  // of the least difference: told apart by nobody

bool comparable(const std::vector<Contender>& xs, const Measure& m, std::size_t i, std::size_t k) {
  if (std::string_view(m.unit) != "cost") return true;
  return xs[i].c.cost && xs[k].c.cost && xs[i].c.cost->currency == xs[k].c.cost->currency;
}

// Better in the sense of the measure: 1, -1 worse, 0 not clear.
int merit(const Measure& m, const Airs& airs, std::size_t i, std::size_t against) {
  const int clear = clear_difference(airs[against], airs[i], m.least);
  return m.better == Better::lower ? -clear : clear;
}

void fill_change(ComparisonRow& row, const std::vector<Contender>& xs, const Airs& airs, std::size_t i) {
  Cell& cell = row.cells[i];
  cell.difference = std::numeric_limits<double>::quiet_NaN();
  if (i == 0 || !comparable(xs, *row.measure, i, 0)) return;
  cell.difference = cell.value - row.cells[0].value;
  if (std::isnan(cell.difference)) return;
  const int clear = merit(*row.measure, airs, i, 0);
  cell.change = clear > 0 ? Change::better : clear < 0 ? Change::worse : Change::unclear;
}

void fill_best(ComparisonRow& row, const std::vector<Contender>& xs, const Airs& airs) {
  for (std::size_t i = 0; i < row.cells.size(); ++i) {
    bool beaten = std::isnan(row.cells[i].value), beats = false;
    for (std::size_t k = 0; k < row.cells.size() && !beaten; ++k) {
      if (k == i || std::isnan(row.cells[k].value)) continue;
      const int clear = comparable(xs, *row.measure, i, k) ? merit(*row.measure, airs, i, k) : -1;
      beaten = clear < 0;
      beats |= clear > 0;
    }
    row.cells[i].best = !beaten && beats;
  }
}

bool all_alike(const ComparisonRow& row) {
  const double first = row.cells[0].value;
  return std::all_of(row.cells.begin(), row.cells.end(), [&](const Cell& cell) {
    if (std::isnan(first) || std::isnan(cell.value)) return std::isnan(first) && std::isnan(cell.value);
    return std::abs(cell.value - first) <= kAlike * row.measure->least;
  });
}

ComparisonRow compared(const Measure& m, const std::vector<Contender>& xs, session::Axle axle) {
  ComparisonRow row{.measure = &m, .axle = !m.per_axle ? "" : axle == session::Axle::front ? "front" : "rear"};
  Airs airs;
  for (const Contender& x : xs) {
    airs.push_back(in_each_air(m, x, axle));
    Cell cell{.value = airs.back()[0]};
    if (airs.back().size() > 1) {
      const auto [low, high] = std::minmax_element(airs.back().begin(), airs.back().end());
      if (!std::isnan(cell.value)) cell.band = Band{*low, *high};
    }
    if (std::string_view(m.unit) == "level") cell.text = to_string(x.likely.level);
    if (std::string_view(m.unit) == "cost" && x.c.cost) cell.text = x.c.cost->text;
    row.cells.push_back(std::move(cell));
  }
  for (std::size_t i = 0; i < xs.size(); ++i) fill_change(row, xs, airs, i);
  fill_best(row, xs, airs);
  row.same = all_alike(row);
  return row;
}

}  // namespace

Comparison compare(const std::vector<Contender>& contenders) {
  Comparison out;
  for (const Measure& m : measures())
    if (!m.per_axle) out.rows.push_back(compared(m, contenders, session::Axle::front));
  for (const session::Axle axle : {session::Axle::front, session::Axle::rear})
    for (const Measure& m : measures())
      if (m.per_axle) out.rows.push_back(compared(m, contenders, axle));
  recommend(out, contenders);
  return out;
}

std::vector<std::size_t> order_by(const Comparison& comparison, std::string_view key) {
  const ComparisonRow* by = nullptr;
  for (const ComparisonRow& row : comparison.rows) {
    const std::string_view name = row.measure->key;
    const bool named = !row.axle.empty() && key.size() == row.axle.size() + 1 + name.size() &&
                       key.starts_with(row.axle) && key[row.axle.size()] == '.' && key.ends_with(name);
    if (named || (key == name && (!by || by->same))) by = &row;
  }
  std::vector<std::size_t> order(comparison.rows.front().cells.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  if (!by) return order;
  const auto before = [by](std::size_t i, std::size_t k) {
    const double a = by->cells[i].value, b = by->cells[k].value;
    if (std::isnan(a) || std::isnan(b)) return !std::isnan(a) && std::isnan(b);
    return by->measure->better == Better::lower ? a < b : a > b;
  };
  std::stable_sort(order.begin() + 1, order.end(), before);
  return order;
}

}  // namespace hatring::answer
