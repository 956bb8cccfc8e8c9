// SPDX-License-Identifier: MIT
//! \file
//! Pieces of the YAML files that the program writes for people to read, in lines of at most 118 columns.
#pragma once

#include <string>
#include <vector>

namespace hatring::io {

//! One comment paragraph, its further lines begun with `next`. A byte that is no text would end the comment or the
//! file: it becomes a blank.
[[nodiscard]] std::string yaml_comment(std::string text, const std::string& next = "#");

//! A scalar in double quotes.
[[nodiscard]] std::string yaml_quoted(const std::string& text);

//! A channel of a trace, `name: {unit, values}`; no unit line where `unit` is empty.
[[nodiscard]] std::string yaml_channel(const char* name, const std::string& unit, const std::vector<double>& values,
                                       double scale, int digits);

}  // namespace hatring::io
