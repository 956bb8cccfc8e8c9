// SPDX-License-Identifier: MIT
//! \file
//! Text of a logger file to rows of cells. libcsv does the tokenising. Checked by tests/sim/io/test_log_table.cpp.
#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace hatring::io {

//! Largest logger file that is read: two hours of 40 columns at 100 Hz [byte].
inline constexpr std::uintmax_t kLargestLog = 256U * 1024U * 1024U;

//! Columns of a row and cells of a file that are read at most; the largest log has fewer.
inline constexpr std::size_t kMostLogColumns = 2000, kMostLogCells = 40'000'000;

struct LogRow {
  std::size_t line = 0;  //!< from 1, as an editor counts
  std::vector<std::string> cells;
};

//! The file as UTF-8 with lines that end in '\n': a byte order mark is taken off, UTF-16 with a mark is converted, CRLF
//! and CR become LF.
//! \throws ConfigError when it cannot be read, is empty, too large or no text
[[nodiscard]] std::string read_log_text(const std::filesystem::path& file);
//! The same for text at hand. \param name for messages
[[nodiscard]] std::string as_log_text(std::string bytes, const std::string& name);

//! Rows of a text; every line is one row (a stray quote must not swallow the rest), empty lines are left out. Blanks
//! around a cell are taken off. \param most_rows stop after as many. Stops, too, behind kMostLogCells cells; a row
//! keeps one cell more than kMostLogColumns.
[[nodiscard]] std::vector<LogRow> split_rows(std::string_view text, char separator,
                                             std::size_t most_rows = static_cast<std::size_t>(-1));

//! What a cell holds, once the decimal mark is known.
struct Cell {
  enum class Kind { blank, number, clock, text } kind = Kind::blank;
  double value = 0;  //!< of a number, or seconds of a clock time
};
//! Blank: nothing, "-", "nan", "null", "n/a". Clock: m:ss, h:mm:ss with decimals, a date before it is passed over.
[[nodiscard]] Cell read_cell(std::string_view text, char decimal);

struct Dialect {
  char separator = ',', decimal = '.';
};
struct DialectGuess {
  Dialect dialect;
  std::string separator_reason, decimal_reason;
};
//! Separator: the one of comma, semicolon and tab that turns most lines into rows of one length full of numbers.
//! Decimal mark: what stands in the numbers. What is given is kept.
[[nodiscard]] DialectGuess guess_dialect(std::string_view text, std::optional<char> separator,
                                         std::optional<char> decimal);
//! "comma", "semicolon", "tab"
[[nodiscard]] std::string_view name_of_separator(char separator);

}  // namespace hatring::io
