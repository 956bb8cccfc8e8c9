// SPDX-License-Identifier: MIT
//! \file
//! The one way of text to the terminal. Names, titles and messages come out of files that somebody else may have made;
//! what a terminal would obey instead of showing it (control characters, escape sequences, turned reading direction,
//! bytes that are no UTF-8) is shown as `?`. Checked by tests/tools/test_terminal.cpp and tests/tools/test_cli.py.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

namespace hatring::tools {

//! The text without what a terminal would obey; line ends and tabs are text.
//! \param colour lets the colours of our own tables through
[[nodiscard]] std::string printable(std::string_view text, bool colour = false);

//! To stdout. \throws std::system_error when it cannot be written, as do the next ones
void print_text(std::string_view text);
//! To stderr, with a line end.
void print_error(std::string_view text);
//! To stdout, as one JSON object; nothing is lost, such characters are escaped.
void print_json(const nlohmann::json& object);

}  // namespace hatring::tools
