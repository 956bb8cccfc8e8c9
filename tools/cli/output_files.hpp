// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <stdexcept>
#include <string>
#include <string_view>
#include <system_error>

#include "sim/answer/run.hpp"
#include "sim/io/read_case.hpp"

namespace hatring::tools {

//! Something cannot be written; says where, what happened and what to do instead.
class OutputError : public std::runtime_error {
 public:
  OutputError(const std::filesystem::path& where, const std::error_code& why);
};

//! \throws OutputError when the folder neither exists with leave to write nor could be made
void check_writable(const std::filesystem::path& folder);
//! Makes it and those above it where they are missing. \throws OutputError
void make_folder(const std::filesystem::path& folder);

//! Writes a text file under a temporary name and renames it when whole: a reader sees the old file or the new one.
//! \throws OutputError; the temporary file is removed
void write_file(const std::filesystem::path& file, std::string_view text);

//! result.h5 of a run, in the same way. \throws OutputError
void write_result_file(const std::filesystem::path& file, const answer::Run& run, const io::ReadResult& read,
                       const std::string& created);

//! Time of the run as ISO 8601 UTC; SOURCE_DATE_EPOCH replaces it when set, so that builds can be compared.
[[nodiscard]] std::string timestamp();

}  // namespace hatring::tools
