// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace hatring::tools {

//! Writes a text file under a temporary name and renames it when whole: a reader sees the old file or the new one.
//! \throws std::runtime_error with the file and what failed; the temporary file is removed
void write_file(const std::filesystem::path& file, std::string_view text);

//! Time of the run as ISO 8601 UTC; SOURCE_DATE_EPOCH replaces it when set, so that builds can be compared.
[[nodiscard]] std::string timestamp();

}  // namespace hatring::tools
