// SPDX-License-Identifier: MIT
#include "sim/io/sweep/axis.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "sim/io/read_tree.hpp"

namespace hatring::io {
namespace {

using Form = SweepSpec::Form;

constexpr int kMostLevels = 10000;

std::string with_unit(double number, const std::string& unit, int digits) {
  return unit == "1" || unit.empty() ? fmt::format("{:.{}g}", number, digits)
                                     : fmt::format("{:.{}g} {}", number, digits, unit);
}

//! The overlay that a value of a variant names or holds; nullptr for `none` and for what was reported.
NodePtr overlay(Report& report, Loader& loader, const NodePtr& value, std::string& label, const std::string& path) {
  if (value->kind == Node::Kind::scalar && value->text == "none") return nullptr;
  NodePtr map = value;
  if (value->kind == Node::Kind::scalar) {
    map = loader.file(*value, path);
    if (map == nullptr) return nullptr;
    if (label == value->text) label = std::filesystem::path(value->text).stem().string();
  }
  if (map->kind != Node::Kind::map) {
    report.error(value->mark, path, fmt::format("found {}, expected a file with a variant, or `none`", found(*map)));
    return nullptr;
  }
  return with_name(map, label);
}

// What the numbers of one parameter are measured in.
class Numbers {
 public:
  Numbers(Report& report, const Axis& axis, Reader::Number number) : report_(report), axis_(axis), number_(number) {}

  std::optional<double> parse(const Node& node) { return parse(node, number_.kind); }
  //! Of a width between two values, which is no point on the thermometer.
  std::optional<double> parse_width(const Node& node) {
    return parse(node, number_.kind == Quantity::temperature ? Quantity::temperature_difference : number_.kind);
  }
  [[nodiscard]] std::string unit() const { return std::string(si_unit(number_.kind)); }

 private:
  std::optional<double> parse(const Node& node, Quantity kind) {
    try {
      if (node.kind == Node::Kind::scalar) return parse_quantity(node.text, kind);
      report_.error(node.mark, axis_.name, fmt::format("found {}, expected {}", found(node), name_of(kind)));
    } catch (const UnitError& e) {
      report_.error(node.mark, axis_.name, e.what(), e.hint());
    }
    return std::nullopt;
  }

  Report& report_;
  const Axis& axis_;
  Reader::Number number_;
};

//! Values of choices when every one is a number; else none: a word, a material, a map.
std::vector<double> numbers_of(const std::vector<NodePtr>& choices, Quantity kind) {
  std::vector<double> out;
  out.reserve(choices.size());
  for (const NodePtr& choice : choices) {
    if (choice->kind != Node::Kind::scalar) return {};
    try {
      out.push_back(parse_quantity(choice->text, kind));
    } catch (const UnitError&) {
      return {};
    }
  }
  return out;
}

//! "30 cm2" as 30 and "cm2".
std::pair<double, std::string> number_and_unit(const std::string& text) {
  std::size_t end = 0;
  const double number = std::stod(text, &end);
  while (end < text.size() && text[end] == ' ') ++end;
  return {number, text.substr(end)};
}

//! Evenly spaced values, in the unit in which the ends are written where it is one and the same.
void spread_out(Report& report, Axis& axis, study::Parameter& parameter, Numbers& numbers) {
  const NodePtr from = axis.spec.values[0], to = axis.spec.values[1], count_node = axis.spec.values[2];
  const auto low = numbers.parse(*from), high = numbers.parse(*to);
  int count = 0;
  try {
    const double value = parse_number(count_node->text);
    if (value >= 2 && value <= kMostLevels && value == std::floor(value)) count = static_cast<int>(value);
  } catch (const UnitError&) {
    // Told below, with what was expected.
  }
  if (count == 0)
    report.error(
        count_node->mark, axis.name,
        fmt::format("found the count {}, expected a whole number from 2 to {}", found(*count_node), kMostLevels));
  if (report.any() || !low || !high) return;
  auto [first, unit] = number_and_unit(from->text);
  auto [last, unit_of_last] = number_and_unit(to->text);
  const bool clock = unit.find(':') != std::string::npos;  // "1:30" is no number with a unit
  if (unit != unit_of_last || clock) std::tie(first, last, unit) = std::tuple(*low, *high, numbers.unit());
  axis.tried.clear();
  for (int i = 0; i < count; ++i) {
    const double share = static_cast<double>(i) / (count - 1);
    parameter.labels.push_back(with_unit(first + share * (last - first), unit, 12));
    axis.tried.push_back(scalar_node(parameter.labels.back(), axis.mark));
    parameter.values.push_back(numbers.parse(*axis.tried.back()).value_or(0));
  }
}

std::optional<study::Spread> spread_of(Report& report, const Axis& axis, Numbers& numbers) {
  std::vector<double> v;
  for (std::size_t i = 0; i < axis.spec.values.size(); ++i) {
    const bool width = axis.spec.form == Form::normal && i == 1;
    const auto value = width ? numbers.parse_width(*axis.spec.values[i]) : numbers.parse(*axis.spec.values[i]);
    if (!value) return std::nullopt;
    v.push_back(*value);
  }
  study::Spread out = study::Uniform{v[0], v[1]};
  if (axis.spec.form == Form::normal) out = study::Normal{v[0], v[1]};
  if (axis.spec.form == Form::triangular) out = study::Triangular{v[0], v[1], v[2]};
  if (axis.spec.form == Form::band) out = study::Band{v[0], v[1], v[2]};
  try {
    study::check(out);
  } catch (const std::invalid_argument& e) {
    report.error(axis.mark, axis.name, e.what());
  }
  return out;
}

}  // namespace

NodePtr Axis::value(const study::Parameter& parameter, const study::Setting& setting) const {
  return parameter.spread ? scalar_node(with_unit(setting.number, parameter.unit, 17), mark) : tried[setting.choice];
}

std::string Axis::description(const study::Parameter& parameter) const {
  std::string out;
  for (std::size_t i = 0; i < tried.size(); ++i) {
    if (!parameter.spread) out += fmt::format("{}: ", parameter.labels[i]);
    out += tried[i] == nullptr ? "none\n" : to_yaml(*tried[i], {}, {});
  }
  // Two spreads may have the same ends.
  if (parameter.spread)
    for (const double share : {0.25, 0.5, 0.75})
      out += fmt::format("{:.17g}\n", study::quantile(*parameter.spread, share));
  return out;
}

std::optional<Axis> make_axis(Report& report, Loader& loader, const Assignment& given) {
  Axis axis{.name = given.path, .mark = given.mark, .targets = split_list(given.path), .spec = {}, .tried = {}};
  axis.variant = axis.name == "variant" || axis.name.starts_with("variant.");
  auto spec = read_sweep_spec(report, *given.value, axis.name);
  if (!spec) return std::nullopt;
  axis.spec = std::move(*spec);
  axis.tried = axis.spec.values;
  switch (axis.spec.form) {
    case Form::choices:
    case Form::range:
    case Form::uniform:
      break;
    case Form::normal:
      axis.tried.resize(1);
      break;
    case Form::triangular:
    case Form::band:
      std::swap(axis.tried[0], axis.tried[1]);
      break;
  }
  if (!axis.variant) return axis;
  if (axis.spec.form != Form::choices) {
    report.error(given.mark, axis.name, "expected a list of files with variants");
    return std::nullopt;
  }
  std::vector<std::string> labels = axis.spec.labels;
  for (std::size_t i = 0; i < axis.tried.size(); ++i)
    axis.tried[i] = overlay(report, loader, axis.tried[i], labels[i], axis.name);
  // Files of the same name in two folders keep their paths.
  if (std::set(labels.begin(), labels.end()).size() == labels.size()) axis.spec.labels = std::move(labels);
  return axis;
}

study::Parameter resolve(Report& report, Axis& axis, const std::map<std::string, Reader::Number>& seen) {
  study::Parameter parameter{.name = axis.name, .unit = {}, .labels = {}, .values = {}, .spread = {}};
  const auto known = seen.find(axis.targets.front());
  const bool choices = axis.spec.form == Form::choices;
  if (choices) parameter.labels = axis.spec.labels;
  if (axis.variant || (known == seen.end() && choices)) return parameter;
  if (known == seen.end()) {
    report.error(axis.mark, axis.name, fmt::format("`{}` is no number here, expected a list of values", axis.name));
    return parameter;
  }
  for (const std::string& target : axis.targets)
    if (const auto other = seen.find(target); other == seen.end() || other->second.kind != known->second.kind)
      report.error(axis.mark, axis.name,
                   fmt::format("`{}` and `{}` take different kinds of value", axis.targets.front(), target));
  Numbers numbers(report, axis, known->second);
  if (choices) {
    parameter.values = numbers_of(axis.tried, known->second.kind);
    if (!parameter.values.empty()) parameter.unit = numbers.unit();
    return parameter;
  }
  parameter.unit = numbers.unit();
  if (axis.spec.form == Form::range) {
    spread_out(report, axis, parameter, numbers);
    return parameter;
  }
  if (known->second.whole)
    report.error(axis.mark, axis.name, "takes whole numbers, expected a list of values or a range");
  parameter.spread = spread_of(report, axis, numbers);
  return parameter;
}

NodePtr substituted(const NodePtr& root, const std::map<const Node*, NodePtr>& in_place_of) {
  if (const auto other = in_place_of.find(root.get()); other != in_place_of.end()) return other->second;
  if (root->kind != Node::Kind::list && root->kind != Node::Kind::map) return root;
  auto out = std::make_shared<Node>(*root);
  out->size = 1;
  bool changed = false;
  const auto put = [&](NodePtr& child) {
    const NodePtr next = substituted(child, in_place_of);
    changed = changed || next != child;
    child = next;
    out->count(*child);
  };
  for (NodePtr& item : out->items) put(item);
  for (Entry& entry : out->entries) put(entry.value);
  return changed ? NodePtr(out) : root;
}

}  // namespace hatring::io
