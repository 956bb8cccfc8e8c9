// SPDX-License-Identifier: MIT
#include "sim/io/channel.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "models/material.hpp"
#include "sim/io/nearest.hpp"

namespace hatring::io {
namespace {

//! Keys of a channel or table other than these are reported.
bool only_keys(Reader& reader, const Node& map, const std::vector<std::string>& keys) {
  bool good = true;
  for (const Entry& entry : map.entries) {
    if (std::find(keys.begin(), keys.end(), entry.key) != keys.end()) continue;
    const Reader::Scope scope(reader, entry.key);
    const std::string meant = nearest(entry.key, keys);
    reader.error(entry.mark, fmt::format("unknown key `{}`", entry.key),
                 meant.empty() ? "known here: " + joined(keys) : fmt::format("did you mean `{}`?", meant));
    good = false;
  }
  return good;
}

std::optional<Channel> bare_numbers(Reader& reader, const Node& list) {
  std::optional<std::vector<double>> numbers = reader.numbers(list);
  if (!numbers) return std::nullopt;
  if (numbers->empty()) {
    reader.error(list.mark, "found an empty list, expected numbers");
    return std::nullopt;
  }
  return Channel{std::move(*numbers), &list};
}

//! The list under the key `values`, converted by the text under `unit` (none: plain numbers).
std::optional<Channel> values_with_unit(Reader& reader, const Node& list, const Node* unit, Quantity kind) {
  std::optional<Channel> out;
  {
    const Reader::Scope scope(reader, "values");
    out = bare_numbers(reader, list);
  }
  if (!out) return std::nullopt;
  out->key = "values";
  if (unit == nullptr) return out;
  try {
    convert_to_si(out->values, unit->text, kind);
  } catch (const UnitError& e) {
    const Reader::Scope scope(reader, "unit");
    reader.error(unit->mark, e.what(), e.hint());
    return std::nullopt;
  }
  return out;
}

//! The node of a key if it is there and is text.
const Node* unit_of(const Node& map) {
  const Entry* unit = map.find("unit");
  return unit != nullptr && unit->value->kind == Node::Kind::scalar ? unit->value.get() : nullptr;
}

std::optional<Channel> temperatures(Reader& reader, const Node& node) {
  if (node.kind == Node::Kind::list) return read_list_of_quantities(reader, node, Quantity::temperature);
  return read_channel(reader, node, Quantity::temperature);
}

std::optional<Channel> table_values(Reader& reader, const Node& map, const Node& values, Quantity kind) {
  if (values.kind == Node::Kind::list && unit_of(map) == nullptr && kind != Quantity::number) {
    const Reader::Scope scope(reader, "values");
    return read_list_of_quantities(reader, values, kind);
  }
  if (values.kind == Node::Kind::map) {
    const Reader::Scope scope(reader, "values");
    return read_channel(reader, values, kind);
  }
  return values_with_unit(reader, values, unit_of(map), kind);
}

bool in_range(Reader& reader, const Channel& channel, const Range& range) {
  for (std::size_t i = 0; i < channel.values.size(); ++i) {
    if (range.contains(channel.values[i])) continue;
    const Reader::Scope scope(reader, std::to_string(i));
    const Node& item = *channel.list->items[i];
    reader.error(item.mark, fmt::format("found {}, expected a value {}", found(item), range.text));
    return false;
  }
  return true;
}

}  // namespace

std::optional<Channel> read_channel(Reader& reader, const Node& node, Quantity kind, bool any_unit) {
  const std::string example = fmt::format("{{unit: {}, values: [...]}}", usual_units(kind).front());
  if (node.kind == Node::Kind::list) {
    if (kind == Quantity::number) return bare_numbers(reader, node);
    reader.error(node.mark, fmt::format("found a list without a unit, expected {} as `{}`", name_of(kind), example));
    return std::nullopt;
  }
  if (!reader.is_map(node, fmt::format("{} as `{}`", name_of(kind), example))) return std::nullopt;
  if (!only_keys(reader, node, {"unit", "values"})) return std::nullopt;
  const Entry* values = node.find("values");
  if (values == nullptr) {
    reader.error(node.mark, fmt::format("found no `values`, expected {} as `{}`", name_of(kind), example));
    return std::nullopt;
  }
  const Node* unit = unit_of(node);
  if (unit == nullptr && kind != Quantity::number && !any_unit) {
    reader.error(node.mark, fmt::format("found no `unit`, expected {} as `{}`", name_of(kind), example));
    return std::nullopt;
  }
  return values_with_unit(reader, *values->value, any_unit ? nullptr : unit, kind);
}

std::optional<Channel> read_list_of_quantities(Reader& reader, const Node& node, Quantity kind) {
  if (node.kind != Node::Kind::list || node.items.empty()) {
    reader.error(node.mark,
                 fmt::format("found {}, expected a list such as `[1 {}, ...]`",
                             node.items.empty() && node.kind == Node::Kind::list ? "an empty list" : found(node),
                             usual_units(kind).front()));
    return std::nullopt;
  }
  Channel out{{}, &node};
  for (const NodePtr& item : node.items) {
    const Reader::Scope scope(reader, std::to_string(out.values.size()));
    const std::optional<double> value = reader.quantity(*item, kind);
    if (!value) return std::nullopt;
    out.values.push_back(*value);
  }
  return out;
}

bool check_rising(Reader& reader, const Channel& channel, const std::string& complaint) {
  for (std::size_t i = 1; i < channel.values.size(); ++i) {
    if (channel.values[i] > channel.values[i - 1]) continue;
    const Node& item = *channel.list->items[i];
    const std::string index = channel.key.empty() ? std::to_string(i) : channel.key + "." + std::to_string(i);
    const Reader::Scope scope(reader, index);
    reader.error(item.mark, fmt::format("found {} after {}, expected {}", found(item),
                                        found(*channel.list->items[i - 1]), complaint));
    return false;
  }
  return true;
}

std::optional<Table> read_table(Reader& reader, const Node& node, Quantity kind, const Range& range) {
  if (node.kind == Node::Kind::scalar) {
    const std::optional<double> value = reader.quantity(node, kind, range);
    if (!value) return std::nullopt;
    return Table{{models::kReferenceTemperature}, {*value}};
  }
  const std::string expected = fmt::format("{} or a table {{temperature: ..., values: ...}}", name_of(kind));
  if (!reader.is_map(node, expected) || !only_keys(reader, node, {"temperature", "unit", "values"}))
    return std::nullopt;
  const Entry* temperature = node.find("temperature");
  const Entry* values = node.find("values");
  if (temperature == nullptr || values == nullptr) {
    reader.error(node.mark,
                 fmt::format("found no `{}`, expected {}", values == nullptr ? "values" : "temperature", expected));
    return std::nullopt;
  }
  std::optional<Channel> t;
  bool rising = false;
  {
    const Reader::Scope scope(reader, "temperature");
    t = temperatures(reader, *temperature->value);
    rising = t && check_rising(reader, *t, "temperatures that rise");
  }
  const std::optional<Channel> v = table_values(reader, node, *values->value, kind);
  if (!rising || !v) return std::nullopt;
  if (t->values.size() != v->values.size()) {
    reader.error(values->value->mark, fmt::format("found {} values for {} temperatures, expected as many",
                                                  v->values.size(), t->values.size()));
    return std::nullopt;
  }
  const Reader::Scope scope(reader, "values");
  if (!in_range(reader, *v, range)) return std::nullopt;
  return Table{t->values, v->values};
}

}  // namespace hatring::io
