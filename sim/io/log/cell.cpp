// SPDX-License-Identifier: MIT
// What cells hold, and what the file separates them with.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <map>

#include "sim/io/log/text.hpp"

namespace hatring::io {
namespace {

constexpr std::size_t kSniffedRows = 400;
constexpr double kLargestNumber = 1e19;  // nanoseconds since 1970 are less; beyond it a cell is rubbish

std::optional<double> number(std::string_view text, char decimal) {
  std::string plain(text);
  if (decimal != '.') {
    if (plain.find('.') != std::string::npos) return std::nullopt;
    std::replace(plain.begin(), plain.end(), decimal, '.');
  }
  const char* begin = plain.data() + (plain.starts_with('+') ? 1 : 0);
  const char* const end = plain.data() + plain.size();
  double value = 0;
  const auto [stop, error] = std::from_chars(begin, end, value);
  if (error != std::errc() || stop != end || !(std::abs(value) < kLargestNumber)) return std::nullopt;
  return value;
}

bool blank(std::string_view text) {
  if (text.empty()) return true;
  std::string lower(text);
  std::transform(lower.begin(), lower.end(), lower.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  constexpr std::array<std::string_view, 8> kNothing{"-", "--", "nan", "null", "none", "n/a", "na", "#n/a"};
  return std::find(kNothing.begin(), kNothing.end(), lower) != kNothing.end();
}

// Seconds of "12:01:02.5", "1:02.5" or "2026-05-01T12:01:02.5Z".
std::optional<double> clock(std::string_view text, char decimal) {
  const std::size_t first = text.find(':');
  if (first == std::string_view::npos) return std::nullopt;
  const std::size_t date = text.substr(0, first).find_last_of("T ");
  if (date != std::string_view::npos) text.remove_prefix(date + 1);
  const std::size_t zone = text.find_first_of("Z+");
  if (zone != std::string_view::npos) text = text.substr(0, zone);
  double total = 0;
  for (int fields = 1;; ++fields) {
    const std::size_t colon = text.find(':');
    const bool last = colon == std::string_view::npos;
    const std::string_view field = text.substr(0, colon);
    const std::optional<double> value = number(field, last && field.find('.') == field.npos ? decimal : '.');
    if (!value || *value < 0 || (fields > 1 && *value >= 60) || fields > 3) return std::nullopt;
    total = 60 * total + *value;
    if (last) return fields > 1 ? std::optional(total) : std::nullopt;
    text.remove_prefix(colon + 1);
  }
}

struct Fit {
  std::size_t rows = 0, columns = 0;  // rows of the commonest length that hold numbers
  double numbers = 0;                 // share of their cells
};

// A table of the separator's making: how many rows have one length, and how much of them is numbers.
Fit fit_of(const std::vector<LogRow>& rows, char separator) {
  const auto is_number = [separator](const std::string& cell) {
    return read_cell(cell, '.').kind != Cell::Kind::text ||
           (separator != ',' && read_cell(cell, ',').kind != Cell::Kind::text);
  };
  std::map<std::size_t, std::pair<std::size_t, double>> by_length;
  for (const LogRow& row : rows) {
    if (row.cells.size() < 2) continue;
    const auto numbers = std::count_if(row.cells.begin(), row.cells.end(), is_number);
    if (2 * static_cast<std::size_t>(numbers) <= row.cells.size()) continue;
    auto& [count, share] = by_length[row.cells.size()];
    ++count;
    share += static_cast<double>(numbers) / static_cast<double>(row.cells.size());
  }
  Fit best;
  for (const auto& [length, found] : by_length)
    if (found.first > best.rows) best = {found.first, length, found.second / static_cast<double>(found.first)};
  return best;
}

std::optional<char> named_separator(std::string_view text) {  // spreadsheets write "sep=;" on the first line
  if (text.size() > 5 && (text.starts_with("sep=") || text.starts_with("SEP="))) return text[4];
  return std::nullopt;
}

}  // namespace

Cell read_cell(std::string_view text, char decimal) {
  if (blank(text)) return {};
  if (const auto value = number(text, decimal)) return {Cell::Kind::number, *value};
  if (const auto value = clock(text, decimal)) return {Cell::Kind::clock, *value};
  return {Cell::Kind::text, 0};
}

std::string_view name_of_separator(char separator) {
  return separator == ',' ? "comma" : separator == ';' ? "semicolon" : separator == '\t' ? "tab" : "other";
}

DialectGuess guess_dialect(std::string_view text, std::optional<char> separator, std::optional<char> decimal) {
  DialectGuess out;
  if (separator) {
    out.dialect.separator = *separator;
    out.separator_reason = "as told";
  } else if (const auto named = named_separator(text)) {
    out.dialect.separator = *named;
    out.separator_reason = "the first line says so";
  } else {
    Fit best;
    for (const char candidate : {',', ';', '\t'}) {
      const Fit fit = fit_of(split_rows(text, candidate, kSniffedRows), candidate);
      const double merit = static_cast<double>(fit.rows) * fit.numbers;
      const double record = static_cast<double>(best.rows) * best.numbers;
      if (merit < 0.9 * record || (merit < 1.1 * record && fit.columns <= best.columns) || fit.rows == 0) continue;
      best = fit;
      out.dialect.separator = candidate;
    }
    out.separator_reason = best.rows == 0
                               ? "no separator gives rows of numbers; comma taken"
                               : fmt::format("it cuts {} of the first lines into {} cells", best.rows, best.columns);
  }
  if (decimal) {
    out.dialect.decimal = *decimal;
    out.decimal_reason = "as told";
    return out;
  }
  std::size_t points = 0, commas = 0;
  for (const LogRow& row : split_rows(text, out.dialect.separator, kSniffedRows))
    for (const std::string& cell : row.cells) {
      if (cell.find('.') != cell.npos && read_cell(cell, '.').kind == Cell::Kind::number) ++points;
      if (cell.find(',') != cell.npos && read_cell(cell, ',').kind == Cell::Kind::number) ++commas;
    }
  out.dialect.decimal = commas > points ? ',' : '.';
  out.decimal_reason = fmt::format("of the first numbers {} have a point and {} a comma", points, commas);
  return out;
}

}  // namespace hatring::io
