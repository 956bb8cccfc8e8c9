// SPDX-License-Identifier: MIT
#include "sim/io/log/table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "sim/io/config_error.hpp"

namespace hatring::io {
namespace {

constexpr std::size_t kLookAhead = 3;  // rows behind the first one that tell whether it begins the table

std::string lower(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return text;
}

bool looks_like_unit(const std::string& cell) {
  static const std::array<std::string_view, 40> kUnits{
      "s",   "sec", "ms",  "us",  "min",   "h",   "km/h", "kmh",  "kph",  "kmph",  "mph",  "m/s", "kn",    "knots",
      "bar", "psi", "kpa", "mpa", "%",     "deg", "°",    "g",    "m/s2", "m/s^2", "m/s²", "rpm", "1/min", "m",
      "km",  "mi",  "ft",  "v",   "volts", "c",   "f",    "degc", "°c",   "mm",    "#",    "hz"};
  const NameAndUnit parts = split_name(cell);
  const std::string unit = lower(parts.name.empty() ? parts.unit : parts.name);
  return std::find(kUnits.begin(), kUnits.end(), unit) != kUnits.end();
}

class Builder {
 public:
  Builder(const std::string& text, std::string name, std::optional<char> separator, std::optional<char> decimal) {
    table_.name = std::move(name);
    const DialectGuess guess = guess_dialect(text, separator, decimal);
    dialect_ = guess.dialect;
    table_.decimal_comma = dialect_.decimal == ',';
    rows_ = split_rows(text, dialect_.separator);
    check_size();
    add("separator", std::string(name_of_separator(dialect_.separator)), guess.separator_reason, "--separator NAME");
    add("decimal mark", dialect_.decimal == ',' ? "comma" : "point", guess.decimal_reason, "--decimal NAME");
  }

  LogTable run() {
    find_table();
    name_columns();
    fill();
    return std::move(table_);
  }

 private:
  void check_size() const {
    std::size_t cells = 0;
    for (const LogRow& row : rows_) {
      cells += row.cells.size();
      if (row.cells.size() <= kMostLogColumns && cells <= kMostLogCells) continue;
      refuse_log(table_.name, row.line,
                 row.cells.size() > kMostLogColumns
                     ? fmt::format("found more than {} columns, more than are read", kMostLogColumns)
                     : fmt::format("found more than {} values, more than are read", kMostLogCells),
                 "export fewer columns, or one session; or give its separator with --separator");
    }
  }

  void add(std::string what, std::string choice, std::string reason, std::string option) {
    table_.guesses.push_back({std::move(what), std::move(choice), std::move(reason), std::move(option), false});
  }

  bool has_numbers(const LogRow& row) const {
    std::size_t numbers = 0, filled = 0;
    for (const std::string& cell : row.cells) {
      const Cell::Kind kind = read_cell(cell, dialect_.decimal).kind;
      filled += kind != Cell::Kind::blank ? 1 : 0;
      numbers += kind == Cell::Kind::number || kind == Cell::Kind::clock ? 1 : 0;
    }
    return row.cells.size() >= 2 && numbers >= 1 && 2 * numbers >= filled;
  }

  void find_table() {
    std::map<std::size_t, std::size_t> lengths;
    for (const LogRow& row : rows_)
      if (has_numbers(row)) ++lengths[row.cells.size()];
    std::size_t most = 0;
    for (const auto& [length, count] : lengths)
      if (count >= most) most = count, width_ = length;
    if (most == 1)
      refuse_log(table_.name, 0, "found a single row of numbers, expected a drive of many rows",
                 "is the log cut off, or the wrong file?");
    if (most < 2)
      refuse_log(table_.name, 0, "found no rows of numbers, expected a table with two columns or more",
                 "give its separator with --separator, or export the log as CSV");
    // The first fitting row with mostly fitting rows behind it; in a short or broken table the first fitting one.
    std::size_t first_fit = rows_.size();
    for (first_ = 0; first_ < rows_.size(); ++first_) {
      if (!fits(first_)) continue;
      first_fit = std::min(first_fit, first_);
      std::size_t good = 0;
      for (std::size_t i = first_ + 1; i <= first_ + kLookAhead; ++i) good += i < rows_.size() && fits(i) ? 1 : 0;
      if (2 * good > kLookAhead) return;
    }
    first_ = first_fit;
  }

  bool fits(std::size_t i) const { return rows_[i].cells.size() == width_ && has_numbers(rows_[i]); }

  void name_columns() {
    const auto names_at = [this](std::size_t i) { return rows_[i].cells.size() >= 2 && !has_numbers(rows_[i]); };
    const auto units_at = [](const LogRow& row) {
      std::size_t filled = 0, units = 0;
      for (const std::string& cell : row.cells) {
        filled += cell.empty() ? 0 : 1;
        units += looks_like_unit(cell) ? 1 : 0;
      }
      return filled > 0 && 2 * units > filled;
    };
    std::size_t above = first_;
    const LogRow* units = nullptr;
    if (above >= 2 && units_at(rows_[above - 1]) && names_at(above - 2)) units = &rows_[--above];
    const LogRow* header = above >= 1 && names_at(above - 1) ? &rows_[above - 1] : nullptr;
    if (header == nullptr) {
      table_.columns.resize(width_);
      for (std::size_t c = 0; c < width_; ++c) table_.columns[c].title = fmt::format("column {}", c + 1);
      add("header", "none", fmt::format("no line of names above the first numbers (line {})", rows_[first_].line), "");
      table_.guesses.back().doubtful = true;
      return;
    }
    table_.header_line = header->line;
    std::vector<std::string> names = header->cells;
    while (names.size() > width_ && names.back().empty()) names.pop_back();
    if (names.size() < width_ && !blank_beyond(names.size()))
      refuse_log(table_.name, rows_[first_].line,
                 fmt::format("found rows of {} cells under {} names (line {}), expected as many cells as names", width_,
                             names.size(), header->line),
                 dialect_.separator == ',' ? "if the numbers have decimal commas, export with semicolons as separator"
                                           : "give the separator with --separator");
    for (std::size_t c = 0; c < names.size(); ++c) {
      std::string unit = split_name(names[c]).unit;
      if (units != nullptr && c < units->cells.size() && unit.empty()) unit = bare_unit(units->cells[c]);
      table_.columns.push_back(
          {names[c].empty() ? fmt::format("column {}", c + 1) : names[c], std::move(unit), {}, false});
    }
    add("header", fmt::format("line {}", header->line),
        fmt::format("the {} above the first numbers{}", units ? "names and units" : "names",
                    above > 1 ? fmt::format("; {} passed over before it", count_of(above - 1, "line")) : ""),
        "");
  }

  static std::string bare_unit(const std::string& cell) {
    const NameAndUnit parts = split_name(cell);
    return parts.unit.empty() ? parts.name : parts.unit;
  }

  static std::string count_of(std::size_t n, const char* word) {
    return fmt::format("{} {}{}", n, word, n == 1 ? "" : "s");
  }

  bool blank_beyond(std::size_t width) const {
    return std::all_of(rows_.begin() + static_cast<std::ptrdiff_t>(first_), rows_.end(), [width](const LogRow& row) {
      return std::all_of(row.cells.begin() + static_cast<std::ptrdiff_t>(std::min(width, row.cells.size())),
                         row.cells.end(), [](const std::string& c) { return c.empty(); });
    });
  }

  void fill() {
    const std::size_t width = table_.columns.size();
    std::vector<std::size_t> clocks(width, 0), numbers(width, 0);
    for (std::size_t i = first_; i < rows_.size(); ++i) {
      LogRow& row = rows_[i];
      while (row.cells.size() > width && row.cells.back().empty()) row.cells.pop_back();
      // A table that never writes its last, empty cells is read; a single row that lacks some has lost its place.
      if (row.cells.size() != width && row.cells.size() != width_) {
        table_.faults.push_back(
            {row.line, fmt::format("{} cells instead of {} (a separator inside a value, or cut off); row left out",
                                   row.cells.size(), width)});
        continue;
      }
      if (!has_numbers(row)) {
        table_.faults.push_back({row.line, "no numbers; row left out"});
        continue;
      }
      table_.lines.push_back(row.line);
      for (std::size_t c = 0; c < width; ++c) {
        const Cell cell = c < row.cells.size() ? read_cell(row.cells[c], dialect_.decimal) : Cell{};
        const bool known = cell.kind == Cell::Kind::number || cell.kind == Cell::Kind::clock;
        clocks[c] += cell.kind == Cell::Kind::clock ? 1 : 0;
        numbers[c] += cell.kind == Cell::Kind::number ? 1 : 0;
        table_.columns[c].values.push_back(known ? cell.value : kNothing);
      }
    }
    for (std::size_t c = 0; c < width; ++c) table_.columns[c].clock = clocks[c] > numbers[c];
  }

  LogTable table_;
  Dialect dialect_;
  std::vector<LogRow> rows_;
  std::size_t width_ = 0, first_ = 0;  // cells of a row of numbers; the first such row
};

}  // namespace

NameAndUnit split_name(const std::string& text) {
  const auto trim = [](std::string s) {
    s.erase(0, std::min(s.find_first_not_of(" \t\"'"), s.size()));
    s.erase(s.find_last_not_of(" \t\"'") + 1);
    return s;
  };
  const std::size_t end = text.find_last_of(")]}");
  const std::size_t begin = end == text.npos ? end : text.find_last_of("([{", end);
  if (begin == text.npos) return {trim(text), {}};
  return {trim(text.substr(0, begin)), trim(text.substr(begin + 1, end - begin - 1))};
}

std::string line_ranges(const std::vector<std::size_t>& lines, std::size_t most) {
  std::string out;
  std::size_t shown = 0;
  for (std::size_t i = 0; i < lines.size(); ++shown) {
    if (shown == most) return out + fmt::format(" and {} more", lines.size() - i);
    std::size_t last = i;
    while (last + 1 < lines.size() && lines[last + 1] == lines[last] + 1) ++last;
    out += shown == 0 ? "" : ", ";
    out += last == i ? fmt::format("{}", lines[i]) : fmt::format("{}-{}", lines[i], lines[last]);
    i = last + 1;
  }
  return out;
}

void refuse_log(const std::string& name, std::size_t line, std::string message, std::string hint) {
  throw ConfigError({Diagnostic{.file = name,
                                .line = static_cast<int>(line),
                                .column = line > 0 ? 1 : 0,
                                .key_path = {},
                                .message = std::move(message),
                                .hint = std::move(hint),
                                .excerpt = {},
                                .notes = {}}});
}

LogTable read_log_table(const std::string& text, const std::string& name, std::optional<char> separator,
                        std::optional<char> decimal) {
  return Builder(text, name, separator, decimal).run();
}

}  // namespace hatring::io
