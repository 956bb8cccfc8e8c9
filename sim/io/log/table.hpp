// SPDX-License-Identifier: MIT
//! \file
//! A logger file as columns of numbers, with every guess that was made and every row that was left out.
//! Checked by tests/sim/io/test_log_table.cpp.
#pragma once

#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "sim/io/log/text.hpp"

namespace hatring::io {

inline constexpr double kNothing = std::numeric_limits<double>::quiet_NaN();

//! Something that the file does not say for certain.
struct LogGuess {
  std::string what;    //!< "speed", "laps"
  std::string choice;  //!< "column `Speed` in km/h"
  std::string reason;
  std::string option;     //!< what overrides it: "--unit speed=UNIT"; may be empty
  bool doubtful = false;  //!< worth a second look: contradicts the header, or another reading is nearly as good
};

//! A row, or a value of it, that could not be used.
struct LogFault {
  std::size_t line = 0;
  std::string what;  //!< "2 cells too many; row left out"; alike for alike faults
};

struct LogColumn {
  std::string title;           //!< as written, blanks around it taken off
  std::string unit;            //!< from brackets in the title or the row of units; may be empty
  std::vector<double> values;  //!< one for each row, NaN where there is none
  bool clock = false;          //!< holds clock times [s]
};

struct LogTable {
  std::string name;                //!< of the file, for messages
  std::vector<std::size_t> lines;  //!< line in the file of each row
  std::vector<LogColumn> columns;
  std::size_t header_line = 0;  //!< 0 when there is none
  bool decimal_comma = false;
  std::vector<LogGuess> guesses;
  std::vector<LogFault> faults;
};

//! Finds the table under whatever stands above it: the header is the line (with the row of units, if any) above the
//! first rows of numbers of the commonest length.
//! \param text as read_log_text gives it  \throws ConfigError when there is no table in it
[[nodiscard]] LogTable read_log_table(const std::string& text, const std::string& name,
                                      std::optional<char> separator = {}, std::optional<char> decimal = {});

//! Name and unit apart: "Speed (km/h)", "Speed [km/h]"; a name without brackets keeps all of it.
struct NameAndUnit {
  std::string name, unit;
};
[[nodiscard]] NameAndUnit split_name(const std::string& text);

//! "12, 15-18 and 3 more"
[[nodiscard]] std::string line_ranges(const std::vector<std::size_t>& lines, std::size_t most = 8);

//! \throws ConfigError about a place of a log
[[noreturn]] void refuse_log(const std::string& name, std::size_t line, std::string message, std::string hint = {});

}  // namespace hatring::io
