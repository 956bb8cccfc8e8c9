// SPDX-License-Identifier: MIT
#include "sim/io/schema/schema.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "sim/io/nearest.hpp"

namespace hatring::io {
namespace {

//! A fallback as a config would have given it.
NodePtr fallback_node(Reader& reader, const std::string& text) {
  const Source& source = reader.loader().add_source({"default of the schema", {}, text, false});
  const bool structured = text.find_first_of("[{") != std::string::npos;
  return structured ? parse_tree(source, reader.report()) : scalar_node(text, {&source});
}

void unknown_key(Reader& reader, const SectionBase& section, const Entry& entry) {
  const Reader::Scope scope(reader, entry.key);
  const bool digits = !entry.key.empty() && std::isdigit(static_cast<unsigned char>(entry.key.front())) != 0;
  if (digits && entry.value->kind == Node::Kind::null) {
    reader.error(entry.mark, fmt::format("found `{}` after a comma, expected a key", entry.key),
                 "write numbers with a decimal point, not a comma");
    return;
  }
  const std::string meant = nearest(entry.key, section.names());
  reader.error(entry.mark, fmt::format("unknown key `{}`", entry.key),
               meant.empty() ? "known here: " + joined(section.names()) : fmt::format("did you mean `{}`?", meant));
}

}  // namespace

Range make_range(Quantity kind, const std::string& above, const std::string& from, const std::string& to,
                 const std::string& below) {
  Range range;
  const auto extend = [&](const std::string& bound, const char* word, double& value) {
    if (bound.empty()) return;
    value = parse_quantity(bound, kind);
    range.text += fmt::format("{}{} {}", range.text.empty() ? "" : " ", word, bound);
  };
  extend(above, "above", range.low);
  extend(from, to.empty() && below.empty() ? "of at least" : "from", range.low);
  extend(to, range.text.empty() ? "up to" : "to", range.high);
  extend(below, range.text.empty() ? "below" : "and below", range.high);
  range.low_open = !above.empty();
  range.high_open = !below.empty();
  return range;
}

bool SectionBase::demanding() const {
  return std::any_of(keys_.begin(), keys_.end(), [](const Key& key) {
    if (key.optional || key.applies) return false;
    return key.section != nullptr ? key.section->demanding() : key.fallback.text.empty() && !key.computed;
  });
}

std::vector<std::string> SectionBase::names() const {
  std::vector<std::string> out;
  for (const Key& key : keys_) out.push_back(key.name);
  return out;
}

void SectionBase::read_keys(Reader& reader, const NodePtr& node, const Mark& where, void* object) const {
  const bool given = node != nullptr && node->kind != Node::Kind::null;
  if (given && !reader.is_map(*node, "a map with the keys " + joined(names()))) return;
  const Mark& mark = given ? node->mark : where;
  if (given)
    for (const Entry& entry : node->entries)
      if (std::none_of(keys_.begin(), keys_.end(), [&](const Key& key) { return key.name == entry.key; }))
        unknown_key(reader, *this, entry);
  for (const Key& key : keys_) {
    const Entry* entry = given ? node->find(key.name) : nullptr;
    const Reader::Scope scope(reader, key.name);
    if (entry != nullptr && entry->value->kind != Node::Kind::null)
      key.read(reader, entry->value, entry->mark, object);
    else if (!reader.keep_absent && (!key.applies || key.applies(object)))
      read_absent(reader, key, entry != nullptr ? entry->mark : mark, object);
  }
}

void SectionBase::read_absent(Reader& reader, const Key& key, const Mark& where, void* object) const {
  if (key.optional) {
    if (!key.fallback.text.empty()) reader.assume(key.fallback.text, key.fallback.reason);
    return;
  }
  if (key.section != nullptr && !key.section->demanding()) {
    key.read(reader, nullptr, where, object);
    return;
  }
  const Fallback fallback = key.computed ? key.computed(object, reader.target()) : key.fallback;
  if (fallback.text.empty()) {
    reader.error(where, fmt::format("missing, expected {}{}", key.type,
                                    key.section == nullptr ? "" : " with the keys " + joined(key.section->names())));
    return;
  }
  key.read(reader, fallback_node(reader, fallback.text), where, object);
  reader.assume(fallback.text, fallback.reason);
}

}  // namespace hatring::io
