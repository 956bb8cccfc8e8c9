// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "sim/io/builtin.hpp"
#include "sim/io/read_case.hpp"
#include "sim/io/schema/schema.hpp"
#include "sim/io/steps.hpp"
#include "sim/io/track/track.hpp"

namespace hatring::io {
namespace {

//! For a table cell.
std::string cell(std::string text) {
  for (std::size_t at = text.find('|'); at != std::string::npos; at = text.find('|', at + 2))
    text.replace(at, 1, "\\|");
  return text;
}

std::string default_of(const Key& key) {
  if (!key.computed_text.empty()) return key.computed_text;
  if (key.fallback.text.empty()) {
    if (key.optional) return "optional";
    if (key.section != nullptr && !key.section->demanding()) return "see below";
    return key.when_text.empty() ? "**required**" : fmt::format("**required** for {}", key.when_text);
  }
  const std::string text = key.optional ? key.fallback.text : "`" + key.fallback.text + "`";
  return fmt::format("{}: {}", text, key.fallback.reason);
}

class Writer {
 public:
  void section(const std::string& path, const SectionBase& section) {
    out_ += fmt::format("\n## {}\n\n{}\n\n| Key | Value | Default and its reason | What it is |\n|---|---|---|---|\n",
                        path.empty() ? "Session file" : "`" + path + "`", section.doc());
    for (const Key& key : section.keys())
      out_ += fmt::format("| `{}` | {}{}{} | {} | {} |\n", key.name, cell(key.type), key.range.text.empty() ? "" : ", ",
                          key.range.text, cell(default_of(key)), cell(key.doc));
    for (const Key& key : section.keys())
      if (key.section != nullptr && child_path(path, key.name) != "brakes.rear")
        this->section(child_path(path, key.name), *key.section);
  }
  [[nodiscard]] const std::string& text() const { return out_; }

 private:
  std::string out_;
};

}  // namespace

std::string schema_markdown() {
  Writer writer;
  writer.section("", case_section());
  writer.section("materials.NAME", material_section());
  for (const StepSection& step : step_sections()) writer.section("session: " + step.mark, *step.section);
  writer.section("trace", trace_section());
  writer.section("track", track_section());
  for (const auto& [mark, section] : segment_sections()) writer.section("track.segments: " + mark, *section);
  writer.section("car, for a computed lap", lap_keys_section());
  std::string materials;
  for (const auto& [name, material] : builtin_materials())
    materials += fmt::format("{}`{}`", materials.empty() ? "" : ", ", name);
  return "# Keys of a session file\n\n"
         "Values with a dimension carry their unit: `310 mm`, `11.75 in`, `2950 lb`, `64 mph`, `25 degC`, `20 min`, "
         "`1:30`. "
         "`include:` (a path or a list, relative to the file it stands in) may stand in any map: maps merge deep, "
         "lists are "
         "replaced, the including file wins. A key set to `null` counts as left out.\n\n"
         "Built-in materials: " +
         materials + ".\n" + writer.text();
}

}  // namespace hatring::io
