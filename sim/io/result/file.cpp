// SPDX-License-Identifier: MIT
#include "sim/io/result/file.hpp"

#include <fmt/format.h>

#include <map>
#include <numeric>
#include <set>

#include "sim/io/replace_file.hpp"
#include "sim/io/result/braking.hpp"
#include "sim/io/result/hdf5_image.hpp"

namespace hatring::io {
namespace {

// Sums over the session that are subtracted from one another; of all other columns nobody knows more than seven digits.
bool adds_up(const answer::Column& c) {
  return c.group == "heat";
}

Label time_label() {
  return {"time", "s", "Time from the start of the session"};
}

// One dataset per column: the rows' values as `value` picks them.
template <class Row, class Value>
void add_column(Hdf5Table& table, const std::vector<Row>& rows, Label label, Value value) {
  std::vector<std::decay_t<decltype(value(rows.front()))>> values;
  values.reserve(rows.size());
  for (const Row& row : rows) values.push_back(value(row));
  table.add(label, values);
}

std::vector<int> row_numbers(std::size_t rows) {
  std::vector<int> numbers(rows);
  std::iota(numbers.begin(), numbers.end(), 1);
  return numbers;
}

void write_axle(const H5::Group& root, const answer::AxleHistory& axle, const std::vector<double>& time,
                const ResultMeta& meta) {
  const H5::Group group = make_group(root, axle.axle);
  set_attribute(
      group, "side",
      meta.hot_side_factor == 1
          ? std::string("hotter wheel of the axle; left and right are taken equal")
          : fmt::format("hotter wheel of the axle; takes {} times the mean of left and right", meta.hot_side_factor));
  std::map<std::string, Hdf5Table> tables;
  for (const answer::Column& c : axle.columns) {
    auto table = tables.find(c.group);
    if (table == tables.end())
      table = tables.emplace(c.group, Hdf5Table(make_group(group, c.group), time_label(), time)).first;
    const Label label{c.name, c.unit, c.long_name, c.not_applicable};
    if (adds_up(c))
      table->second.add(label, c.values);
    else
      table->second.add_single(label, c.values);
  }
}

void write_verdicts(const H5::Group& root, const std::vector<answer::Verdict>& verdicts) {
  using answer::Verdict;
  constexpr auto kMixed = "see the column unit";
  Hdf5Table table(make_group(root, "verdict"), {"number", "1", "Number of the verdict, worst first"},
                  row_numbers(verdicts.size()));
  const auto add = [&](const char* name, const char* unit, const char* long_name, auto value) {
    add_column(table, verdicts, {name, unit, long_name}, value);
  };
  add("axle", "1", "Axle", [](const Verdict& v) { return v.axle; });
  add("key", "1", "Key of the limit in the configuration", [](const Verdict& v) { return v.key; });
  add("part", "1", "Part judged", [](const Verdict& v) { return v.part; });
  add("aspect", "1", "What tells the row from others of the part", [](const Verdict& v) { return v.aspect; });
  add("what", "1", "Quantity judged", [](const Verdict& v) { return v.what; });
  add("level", "1", "Verdict", [](const Verdict& v) { return std::string(answer::to_string(v.level)); });
  add("value", kMixed, "Value reached", [](const Verdict& v) { return v.value; });
  add("value_low", kMixed, "Lowest value over the band of cooling, or 5 % of the full band; NaN without a band",
      [](const Verdict& v) { return v.band ? v.band->low : kMissing; });
  add("value_high", kMixed, "Highest value over the band of cooling, or 95 % of the full band; NaN without a band",
      [](const Verdict& v) { return v.band ? v.band->high : kMissing; });
  add("limit", kMixed, "Limit it is judged against", [](const Verdict& v) { return v.limit; });
  add("margin", kMixed, "Margin to the limit, positive on the good side", [](const Verdict& v) { return v.margin; });
  add("unit", "1", "Unit of value, limit and margin", [](const Verdict& v) { return v.unit; });
  add("time", "s", "Time from the start of the session", [](const Verdict& v) { return v.place.time; });
  add("lap", "1", "Lap number, 0 when not on a lap", [](const Verdict& v) { return v.place.lap; });
  add("distance", "m", "Distance from the start of that lap", [](const Verdict& v) { return v.place.lap_distance; });
  add("span", "1", "Part of the session", [](const Verdict& v) { return v.place.span; });
  add("reason", "1", "Where the limit comes from", [](const Verdict& v) { return v.reason; });
  add("advice", "1", "What to do", [](const Verdict& v) { return v.advice; });
  add("sure", "1", "How sure the verdict is", [](const Verdict& v) { return v.sure; });
}

struct LapOfAxle {
  std::string axle;
  const answer::LapRow* row;
};

void write_laps(const H5::Group& root, const answer::Answers& answers) {
  std::vector<LapOfAxle> laps;
  for (const answer::LapRow& row : answers.front.laps) laps.push_back({"front", &row});
  for (const answer::LapRow& row : answers.rear.laps) laps.push_back({"rear", &row});
  Hdf5Table table(make_group(root, "laps"), {"number", "1", "Number of the row"}, row_numbers(laps.size()));
  const auto add = [&](const std::string& name, const char* unit, const std::string& long_name, auto value) {
    add_column(table, laps, {name, unit, long_name}, value);
  };
  add("axle", "1", "Axle", [](const LapOfAxle& l) { return l.axle; });
  add("lap", "1", "Lap number, 0 when not on a lap", [](const LapOfAxle& l) { return l.row->span.lap; });
  add("label", "1", "Lap or part of the session", [](const LapOfAxle& l) { return l.row->span.label; });
  add("begin", "s", "Begin, from the start of the session", [](const LapOfAxle& l) { return l.row->span.begin; });
  add("end", "s", "End, from the start of the session", [](const LapOfAxle& l) { return l.row->span.end; });
  add("heat", "J", "Friction heat of one wheel", [](const LapOfAxle& l) { return l.row->heat; });
  const auto add_extremes = [&](const char* word, const char* long_name, auto extremes) {
    std::set<std::string> names;
    for (const LapOfAxle& l : laps)
      for (const auto& [name, value] : l.row->*extremes) names.insert(name);
    for (const std::string& name : names)
      add(fmt::format("{}_{}", word, name), "K", fmt::format("{} {}", long_name, name), [&](const LapOfAxle& l) {
        const auto found = (l.row->*extremes).find(name);
        return found == (l.row->*extremes).end() ? kMissing : found->second;
      });
  };
  add_extremes("lowest", "Lowest temperature of", &answer::LapRow::lowest);
  add_extremes("highest", "Highest temperature of", &answer::LapRow::highest);
}

void write_all(const H5::Group& root, const answer::Run& run, const ResultMeta& meta) {
  set_attribute(root, "Conventions", std::string("CF-1.8"));
  set_attribute(root, "format_version", kResultFormat);
  set_attribute(root, "program_version", meta.program_version);
  set_attribute(root, "created", meta.created);
  set_attribute(root, "mesh", meta.mesh);
  write_text(root, {"config", "1", "Resolved configuration, YAML"}, meta.config);

  const answer::History& h = run.history;
  Hdf5Table session(root, time_label(), h.time);
  session.add({"distance", "m", "Distance from the start of the session"}, h.distance);
  session.add({"speed", "m s-1", "Speed of the car"}, h.speed);
  session.add({"lap", "1", "Lap number, 0 when not on a lap"}, h.lap);
  write_axle(root, h.front, h.time, meta);
  write_axle(root, h.rear, h.time, meta);
  write_verdicts(root, run.answers.verdicts);
  write_laps(root, run.answers);
  write_brakings(root, run.answers.pedal.corners);
}

// No less than comes of it: an image that grows beyond takes twice the memory.
std::size_t expected_size(const answer::History& h) {
  // Doubles of a row besides the columns: time, distance, speed and lap, and time once more in each group of both
  // axles.
  constexpr std::size_t kCourse = 4 + 2 * 6, kLabels = 1 << 12, kRest = 1 << 19;
  std::size_t bytes = kCourse * h.time.size() * sizeof(double) + kRest;
  for (const answer::AxleHistory* axle : {&h.front, &h.rear})
    for (const answer::Column& c : axle->columns)
      bytes += h.time.size() * (adds_up(c) ? sizeof(double) : sizeof(float)) + kLabels;
  return bytes;
}

}  // namespace

// Built in memory, so that the disk sees one plain write and its errors come with the system's own reason: the library
// itself may crash when it cannot close a file on a full disk.
void write_result(const std::filesystem::path& file, const answer::Run& run, const ResultMeta& meta) {
  const auto fail = [&](const std::string& why) {
    throw ResultError(fmt::format("{}: result not written: {}", file.string(), why));
  };
  Hdf5Session library;
  try {
    const Hdf5Image image(expected_size(run.history));
    write_all(image.root(), run, meta);
    replace_file(file, image.bytes());
  } catch (const H5::Exception& e) {
    fail(library.reason_of(e));
  } catch (const std::exception& e) {
    fail(e.what());
  }
}

}  // namespace hatring::io
