// SPDX-License-Identifier: MIT
// Prints the JSON Schema of session files, parts, traces and tracks, from the schema in the code: for editors, which
// then complete keys and mark what is wrong. It asks for no key, because an include may bring it; hatring itself is
// stricter.
#include <fmt/format.h>

#include <cmath>
#include <cstdio>
#include <map>
#include <nlohmann/json.hpp>
#include <string>

#include "sim/io/steps.hpp"
#include "sim/io/track/track.hpp"

namespace hatring::tools {
namespace {

using io::Key;
using io::SectionBase;
using Json = nlohmann::ordered_json;

Json reference(const std::string& name) {
  return {{"$ref", fmt::format("#/definitions/{}", name)}};
}

bool starts_with(const std::string& text, const std::string& start) {
  return text.rfind(start, 0) == 0;
}

class Writer {
 public:
  //! The definition of a section; written on its first use.
  Json use(const std::string& name, const SectionBase& section) {
    const auto [place, is_new] = names_.emplace(&section, name);
    if (is_new) {
      for (int i = 2; definitions_.contains(place->second); ++i) place->second = fmt::format("{}_{}", name, i);
      definitions_[place->second] = nullptr;  // taken, while the sections below it are written
      definitions_[place->second] = object(section);
    }
    return reference(place->second);
  }

  Json object(const SectionBase& section) {
    Json out{{"description", section.doc()},
             {"type", {"object", "null"}},
             {"additionalProperties", false},
             {"properties", {{"include", reference("include")}}}};
    for (const Key& key : section.keys()) {
      Json value = value_of(key);
      // Some readers ignore what stands beside a reference.
      if (value.contains("$ref")) value = {{"allOf", Json::array({value})}};
      value["description"] = description(key);
      out["properties"][key.name] = std::move(value);
    }
    return out;
  }

  Json& definitions() { return definitions_; }

 private:
  static std::string description(const Key& key) {
    std::string out = key.doc;
    out += fmt::format("{}Takes {}", out.empty() ? "" : " ", key.type);
    if (!key.range.text.empty()) out += ", " + key.range.text;
    out += ".";
    if (!key.computed_text.empty())
      out += fmt::format(" Default: {}.", key.computed_text);
    else if (!key.fallback.text.empty())
      out += fmt::format(" Default: {} ({}).", key.fallback.text, key.fallback.reason);
    return out;
  }

  Json value_of(const Key& key) {
    if (key.section != nullptr) {
      Json map = use(key.name, *key.section);
      return starts_with(key.type, "a list") ? list_of(map) : map;
    }
    if (key.type == "a list of steps") return list_of(reference("step"));
    if (key.type == "a list of straights and corners") return list_of(reference("segment"));
    if (key.type == "a map of materials")
      return {{"type", {"object", "null"}}, {"additionalProperties", reference("material")}};
    if (starts_with(key.type, "a trace")) return {{"anyOf", {{{"type", "string"}}, reference("trace")}}};
    return simple_value(key);
  }

  static Json list_of(const Json& entry) { return {{"type", {"array", "null"}}, {"items", entry}}; }

  static Json simple_value(const Key& key) {
    if (key.type == "on or off") return {{"enum", {true, false, "on", "off", "yes", "no", "true", "false", nullptr}}};
    if (starts_with(key.type, "one of ")) return {{"enum", words(key.type.substr(7))}};
    if (key.type == "text" || key.type == "a material" || key.type == "an amount, with or without a currency")
      return {{"type", {"string", "number", "null"}}};
    if (key.type == "a whole number") return bounded({{"type", {"integer", "null"}}}, key.range);
    if (starts_with(key.type, "a plain number"))
      return bounded({{"type", {"number", "string", "array", "null"}}}, key.range);
    for (std::size_t i = 0; i < io::kQuantityKinds; ++i) {
      const auto kind = static_cast<io::Quantity>(i);
      if (kind == io::Quantity::number || !starts_with(key.type, std::string(name_of(kind)))) continue;
      // Alone it is text with a unit; otherwise also a table, a list or a ramp.
      if (key.type == name_of(kind))
        return {{"type", {"string", "null"}},
                {"pattern", "[0-9]"},
                {"examples", Json::array({fmt::format("1 {}", usual_units(kind).front())})}};
      return {{"type", {"string", "array", "object", "null"}}};
    }
    return {{"type", {"string", "number", "array", "object", "null"}}};
  }

  static Json bounded(Json value, const io::Range& range) {
    if (std::isfinite(range.low)) value[range.low_open ? "exclusiveMinimum" : "minimum"] = range.low;
    if (std::isfinite(range.high)) value[range.high_open ? "exclusiveMaximum" : "maximum"] = range.high;
    return value;
  }

  static Json words(const std::string& listed) {
    Json out = Json::array();
    for (std::size_t at = 0; at < listed.size();) {
      const std::size_t end = std::min(listed.find(", ", at), listed.size());
      out.push_back(listed.substr(at, end - at));
      at = end + 2;
    }
    out.push_back(nullptr);
    return out;
  }

  std::map<const SectionBase*, std::string> names_;
  Json definitions_ = {
      {"include",
       {{"description", "A path or a list of paths, relative to this file. Maps merge deep, lists are replaced."},
        {"type", {"string", "array"}},
        {"items", {{"type", "string"}}}}}};
};

//! A map that is told from its like by one key.
void add_choice(Writer& writer, Json& choices, const std::string& mark, const SectionBase& section) {
  Json one = writer.object(section);
  one["type"] = "object";
  one["required"] = Json::array({mark});
  choices["anyOf"].push_back(std::move(one));
}

Json session_schema() {
  Writer writer;
  Json out = writer.object(io::case_section());
  out["type"] = "object";
  out["properties"]["trace"] = writer.use("trace", io::trace_section());
  out["properties"]["track"] = writer.use("track", io::track_section());
  writer.use("material", io::material_section());
  Json steps, segments;
  for (const io::StepSection& step : io::step_sections()) add_choice(writer, steps, step.mark, *step.section);
  for (const auto& [mark, section] : io::segment_sections()) add_choice(writer, segments, mark, *section);
  writer.definitions()["step"] = std::move(steps);
  writer.definitions()["segment"] = std::move(segments);
  Json whole{{"$schema", "http://json-schema.org/draft-07/schema#"}, {"title", "Session files of hatring"}};
  whole.update(out);
  whole["definitions"] = writer.definitions();
  return whole;
}

}  // namespace
}  // namespace hatring::tools

int main() {
  std::puts(hatring::tools::session_schema().dump(1).c_str());
}
