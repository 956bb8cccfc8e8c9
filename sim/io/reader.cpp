// SPDX-License-Identifier: MIT
#include "sim/io/reader.hpp"

#include <fmt/format.h>

#include <cmath>

#include "sim/io/nearest.hpp"

namespace hatring::io {
namespace {

//! The unit that makes a bare number fall into the range, the most usual first.
std::string proposal(const std::string& number, Quantity kind, const Range& range) {
  for (const std::string& unit : usual_units(kind)) {
    const std::string text = number + " " + unit;
    if (range.contains(parse_quantity(text, kind))) return fmt::format("did you mean `{}`?", text);
  }
  return {};
}

bool is_number(const std::string& text) {
  try {
    static_cast<void>(parse_number(text));
    return true;
  } catch (const UnitError&) {
    return false;
  }
}

}  // namespace

std::string found(const Node& node) {
  switch (node.kind) {
    case Node::Kind::null:
      return "nothing";
    case Node::Kind::list:
      return "a list";
    case Node::Kind::map:
      return "a map";
    case Node::Kind::scalar:
      break;
  }
  constexpr std::size_t kShown = 60;  // of a text that may be a whole file
  const bool whole = node.text.size() <= kShown;
  return fmt::format("\"{}{}\"", node.text.substr(0, kShown), whole ? "" : "...");
}

void Reader::range_error(const Node& node, const Range& range) {
  error(node.mark, fmt::format("found {}, expected a value {}", found(node), range.text));
}

std::optional<double> Reader::quantity(const Node& node, Quantity kind, const Range& range) {
  if (numbers_seen != nullptr) numbers_seen->insert_or_assign(path_, Number{kind, false});
  if (node.kind != Node::Kind::scalar) {
    error(node.mark, fmt::format("found {}, expected {} such as `{}`", found(node), name_of(kind),
                                 kind == Quantity::number ? "1" : "1 " + usual_units(kind).front()));
    return std::nullopt;
  }
  try {
    const double value = parse_quantity(node.text, kind);
    if (range.contains(value)) return value;
    range_error(node, range);
  } catch (const UnitError& e) {
    const bool bare = kind != Quantity::number && is_number(node.text);
    const std::string meant = bare ? proposal(node.text, kind, range) : std::string();
    error(node.mark, e.what(), meant.empty() ? e.hint() : meant);
  }
  return std::nullopt;
}

std::optional<int> Reader::integer(const Node& node, const Range& range) {
  if (numbers_seen != nullptr) numbers_seen->insert_or_assign(path_, Number{Quantity::number, true});
  if (node.kind == Node::Kind::scalar && is_number(node.text)) {
    const double value = parse_number(node.text);
    if (value == std::floor(value) && std::abs(value) < 1e9) {
      if (range.contains(value)) return static_cast<int>(value);
      range_error(node, range);
      return std::nullopt;
    }
  }
  error(node.mark, fmt::format("found {}, expected a whole number", found(node)));
  return std::nullopt;
}

std::optional<bool> Reader::flag(const Node& node) {
  if (node.kind == Node::Kind::scalar) {
    for (const char* yes : {"on", "true", "yes"})
      if (node.text == yes) return true;
    for (const char* no : {"off", "false", "no"})
      if (node.text == no) return false;
  }
  error(node.mark, fmt::format("found {}, expected on or off", found(node)));
  return std::nullopt;
}

std::optional<std::string> Reader::text(const Node& node) {
  if (node.kind == Node::Kind::scalar) return node.text;
  error(node.mark, fmt::format("found {}, expected text", found(node)));
  return std::nullopt;
}

std::optional<std::size_t> Reader::choice(const Node& node, const std::vector<std::string>& words) {
  if (node.kind == Node::Kind::scalar) {
    for (std::size_t i = 0; i < words.size(); ++i)
      if (words[i] == node.text) return i;
  }
  const std::string meant = node.kind == Node::Kind::scalar ? nearest(node.text, words) : std::string();
  error(node.mark, fmt::format("found {}, expected one of {}", found(node), joined(words)),
        meant.empty() ? "" : fmt::format("did you mean `{}`?", meant));
  return std::nullopt;
}

std::optional<std::vector<double>> Reader::numbers(const Node& node) {
  if (node.kind != Node::Kind::list) {
    error(node.mark, fmt::format("found {}, expected a list of numbers", found(node)));
    return std::nullopt;
  }
  std::vector<double> out;
  out.reserve(node.items.size());
  for (const NodePtr& item : node.items) {
    try {
      if (item->kind != Node::Kind::scalar)
        throw UnitError(fmt::format("found {}, expected a number", found(*item)), "");
      out.push_back(parse_number(item->text));
    } catch (const UnitError& e) {
      report_.error(item->mark, child_path(path_, std::to_string(out.size())), e.what(), e.hint());
      return std::nullopt;
    }
  }
  return out;
}

std::optional<std::string> Reader::material(const Node& node) {
  std::optional<std::string> name = text(node);
  if (!name || case_.materials.count(*name) > 0) return name;
  std::vector<std::string> names;
  for (const auto& [known, material] : case_.materials) names.push_back(known);
  const std::string meant = nearest(*name, names);
  error(node.mark, fmt::format("there is no material `{}`", *name),
        meant.empty() ? fmt::format("known: {}; others go under `materials:`", joined(names))
                      : fmt::format("did you mean `{}`?", meant));
  return std::nullopt;
}

bool Reader::is_list(const Node& node, const std::string& example) {
  if (node.kind == Node::Kind::list) return true;
  error(node.mark, fmt::format("found {}, expected a list such as `{}`", found(node), example));
  return false;
}

bool Reader::is_map(const Node& node, const std::string& expected) {
  if (node.kind == Node::Kind::map) return true;
  error(node.mark, fmt::format("found {}, expected {}", found(node), expected));
  return false;
}

}  // namespace hatring::io
