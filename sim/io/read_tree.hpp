// SPDX-License-Identifier: MIT
//! \file
//! The steps from loaded files to a Case, for those who read one tree many times.
#pragma once

#include "sim/io/read_case.hpp"
#include "sim/io/reader.hpp"

namespace hatring::io {

//! The tree with a name of its own, so that the resolved config keeps it; as it is when it has one.
[[nodiscard]] NodePtr with_name(const NodePtr& root, const std::string& name);
//! A variant merged over the session's tree; `file` gives it a name where it has none. \throws ConfigError
[[nodiscard]] NodePtr varied(Report& report, const NodePtr& root, const NodePtr& variant,
                             const std::filesystem::path& file);
//! The values of --set and --mesh. Reports.
[[nodiscard]] std::vector<Assignment> overrides(Loader& loader, const ReadOptions& options);
//! The tree with the values in it, in their order. Reports; \throws ConfigError for a tree that is no config.
[[nodiscard]] NodePtr with_overrides(Report& report, NodePtr root, const std::vector<Assignment>& values);
//! Fills the reader's Case. \throws ConfigError with all that was reported
void read_tree(Reader& reader, const NodePtr& root);

}  // namespace hatring::io
