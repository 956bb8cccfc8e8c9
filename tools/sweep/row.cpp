// SPDX-License-Identifier: MIT
#include "tools/sweep/row.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <limits>
#include <new>

#include "sim/answer/measures.hpp"
#include "sim/answer/run_many.hpp"
#include "sim/answer/verdicts.hpp"

namespace hatring::tools {
namespace {

using io::SweepColumn;
using session::Axle;

const char* word(Axle axle) {
  return axle == Axle::front ? "front" : "rear";
}

// By measure and axle, in the order of the columns.
template <class Visit>
void for_each_measure(const Visit& visit) {
  for (const answer::Measure& m : answer::measures())
    if (!m.per_axle) visit(m, Axle::front);
  for (const Axle axle : {Axle::front, Axle::rear})
    for (const answer::Measure& m : answer::measures())
      if (m.per_axle) visit(m, axle);
}

std::vector<SweepColumn> make_measure_columns() {
  std::vector<SweepColumn> out;
  for_each_measure([&out](const answer::Measure& m, Axle axle) {
    const std::string_view unit = m.unit;
    const bool plain = unit == "share" || unit == "count" || unit == "level" || unit == "cost" || unit == "sessions";
    const std::string where = m.per_axle ? fmt::format("{}/", word(axle)) : "";
    const std::string title = fmt::format("{}{}{}", m.title, m.per_axle ? ", " : "", m.per_axle ? word(axle) : "");
    out.push_back(
        {fmt::format("measure/{}{}", where, m.key), plain ? "1" : m.unit, title, SweepColumn::Kind::number, {}});
  });
  return out;
}

std::vector<SweepColumn> make_limit_columns() {
  std::vector<SweepColumn> out;
  for (const Axle axle : {Axle::front, Axle::rear})
    for (const char* key : answer::verdict_keys())
      out.push_back({fmt::format("limit/{}/{}", word(axle), key),
                     "1",
                     fmt::format("worst verdict on the limit {}, {}", key, word(axle)),
                     SweepColumn::Kind::whole,
                     {"within", "near", "over", "not_judged", "no_such_part"}});
  return out;
}

// From good to bad; what was not judged says least.
int rank(std::int8_t level) {
  return level == static_cast<std::int8_t>(answer::Level::unknown) ? -1 : level == kAbsent ? -2 : level;
}

std::vector<std::int8_t> worst_levels(const answer::Answers& a) {
  const auto keys = answer::verdict_keys();
  std::vector<std::int8_t> out(limit_columns().size(), kAbsent);
  for (const answer::Verdict& v : a.verdicts) {
    const auto key = std::find_if(keys.begin(), keys.end(), [&](const char* k) { return v.key == k; });
    if (key == keys.end()) throw std::logic_error(fmt::format("verdict_keys() lacks `{}`", v.key));
    std::int8_t& level = out[static_cast<std::size_t>(key - keys.begin()) + (v.axle == "front" ? 0 : keys.size())];
    const auto here = static_cast<std::int8_t>(v.level);
    if (rank(here) > rank(level)) level = here;
  }
  return out;
}

Row row_of(const session::Case& c, const answer::Answers& a) {
  Row row{.status = RunStatus::done, .levels = worst_levels(a)};
  row.measures.reserve(measure_columns().size());
  for_each_measure([&](const answer::Measure& m, Axle axle) { row.measures.push_back(m.value(c, a, axle)); });
  return row;
}

std::string reason_of(const std::exception_ptr& fault) {
  try {
    std::rethrow_exception(fault);
  } catch (const io::ConfigError& e) {
    const io::Diagnostic& first = e.diagnostics().front();
    return fmt::format("{}: {}", first.key_path, first.message);
  } catch (const std::bad_alloc&) {
    throw;  // may go well another time
  } catch (const std::exception& e) {
    return e.what();
  }
}

Row failed(const std::exception_ptr& fault) {
  Row row = empty_row(RunStatus::failed);
  row.reason = reason_of(fault);
  std::replace(row.reason.begin(), row.reason.end(), '\n', ' ');
  return row;
}

// Numbers that somebody wrote in a unit of their own.
bool labelled(const study::Parameter& p) {
  return !p.unit.empty() && !p.labels.empty();
}

}  // namespace

const std::vector<SweepColumn>& measure_columns() {
  static const std::vector<SweepColumn> columns = make_measure_columns();
  return columns;
}

const std::vector<SweepColumn>& limit_columns() {
  static const std::vector<SweepColumn> columns = make_limit_columns();
  return columns;
}

namespace {

std::vector<SweepColumn> leading_columns(const io::Sweep& sweep) {
  std::vector<SweepColumn> out{
      {"run", "1", "Number of the run, from 1", SweepColumn::Kind::whole, {}},
      {"status", "1", "What became of the run", SweepColumn::Kind::whole, {"not_run", "done", "failed"}},
      {"reason", "1", "Why a run failed", SweepColumn::Kind::text, {}}};
  for (const study::Parameter& p : sweep.parameters()) {
    out.push_back({fmt::format("parameter/{}", p.name),
                   p.unit.empty() ? "1" : p.unit,
                   p.name,
                   p.unit.empty() ? SweepColumn::Kind::text : SweepColumn::Kind::number,
                   {}});
    if (labelled(p))
      out.push_back(
          {fmt::format("label/{}", p.name), "1", fmt::format("{}, as written", p.name), SweepColumn::Kind::text, {}});
  }
  return out;
}

}  // namespace

std::vector<SweepColumn> all_columns(const io::Sweep& sweep) {
  std::vector<SweepColumn> out = leading_columns(sweep);
  out.insert(out.end(), measure_columns().begin(), measure_columns().end());
  out.insert(out.end(), limit_columns().begin(), limit_columns().end());
  return out;
}

std::vector<io::SweepValues> columns_of(const io::Sweep& sweep, const std::vector<std::uint64_t>& runs,
                                        const std::vector<Row>& rows) {
  const auto column = [&rows](auto value) {
    std::vector<decltype(value(rows.front()))> out;
    out.reserve(rows.size());
    for (const Row& row : rows) out.push_back(value(row));
    return out;
  };
  std::vector<io::SweepValues> out;
  std::vector<int> numbers;
  std::vector<std::vector<study::Setting>> settings;
  for (const std::uint64_t run : runs) {
    numbers.push_back(static_cast<int>(run + 1));
    settings.push_back(sweep.settings(run));
  }
  out.emplace_back(std::move(numbers));
  out.emplace_back(column([](const Row& row) { return static_cast<int>(row.status); }));
  out.emplace_back(column([](const Row& row) { return row.reason; }));
  for (std::size_t i = 0; i < sweep.parameters().size(); ++i) {
    const study::Parameter& p = sweep.parameters()[i];
    std::vector<double> values;
    std::vector<std::string> labels;
    for (const auto& s : settings) {
      values.push_back(s[i].number);
      if (!p.labels.empty()) labels.push_back(p.labels[s[i].choice]);
    }
    if (!p.unit.empty()) out.emplace_back(std::move(values));
    if (!p.labels.empty()) out.emplace_back(std::move(labels));
  }
  for (std::size_t i = 0; i < measure_columns().size(); ++i)
    out.emplace_back(column([i](const Row& row) { return row.measures[i]; }));
  for (std::size_t i = 0; i < limit_columns().size(); ++i)
    out.emplace_back(column([i](const Row& row) { return static_cast<int>(row.levels[i]); }));
  return out;
}

Row empty_row(RunStatus status) {
  return {.status = status,
          .measures = std::vector<double>(measure_columns().size(), std::numeric_limits<double>::quiet_NaN()),
          .levels = std::vector<std::int8_t>(limit_columns().size(), kAbsent)};
}

RunPoints solved_runs(const io::Sweep& sweep) {
  return [&sweep](std::uint64_t first, std::size_t count) {
    std::vector<Row> rows(count);
    std::vector<session::Case> cases;
    std::vector<std::size_t> row_of_case;
    for (std::size_t i = 0; i < count; ++i) {
      try {
        cases.push_back(sweep.at(first + i));
        row_of_case.push_back(i);
      } catch (const std::exception&) {
        rows[i] = failed(std::current_exception());
      }
    }
    const auto faults = answer::run_many(
        cases, [&](std::size_t i, const answer::Run& run) { rows[row_of_case[i]] = row_of(cases[i], run.answers); });
    for (std::size_t i = 0; i < cases.size(); ++i)
      if (faults[i]) rows[row_of_case[i]] = failed(faults[i]);
    return rows;
  };
}

}  // namespace hatring::tools
