// SPDX-License-Identifier: MIT
//! \file
//! The report page: one self-contained HTML file, made of a template built from the TypeScript sources beside
//! this header and one JSON object per run.
#pragma once

#include <string>

#include <nlohmann/json.hpp>

namespace hatring::tools {

//! False when this build left the page out (node or npm missing, or the npm packages out of reach).
[[nodiscard]] bool report_available();
//! What is said then; everything else is written.
inline constexpr const char* kNoReportPage =
    "this build has no report page: node and npm were missing, or npm could not fetch its packages (cmake says which); "
    "configure and build again";

//! The whole page for one run.
//! \param page the run in SI units, temperatures in K, NaN as null; its members are listed in run.ts
//! \throws std::runtime_error when report_available() is false
//! Checked by: tests/tools/report/page_test.cpp (insertion), tests/tools/report/page.test.mjs (in a browser)
[[nodiscard]] std::string render_report(const nlohmann::json& page);

}  // namespace hatring::tools
