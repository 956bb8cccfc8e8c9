// SPDX-License-Identifier: MIT
#include "sim/io/sweep/spec.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sim/io/reader.hpp"

namespace hatring::io {
namespace {

using Form = SweepSpec::Form;

constexpr const char* kExpected =
    "expected a list of values, range(from, to, count), uniform(low, high), normal(mean, deviation), triangular(low, "
    "likely, high) or band(low, likely, high)";
constexpr std::size_t kMostChoices = 10000;

struct Word {
  const char* word;
  Form form;
  std::size_t arguments;
};
constexpr Word kWords[] = {{"range", Form::range, 3},
                           {"uniform", Form::uniform, 2},
                           {"normal", Form::normal, 2},
                           {"triangular", Form::triangular, 3},
                           {"band", Form::band, 3}};

std::string trimmed(std::string_view text) {
  constexpr std::string_view kBlank = " \t\r\n";
  const std::size_t begin = text.find_first_not_of(kBlank);
  if (begin == std::string_view::npos) return {};
  return std::string(text.substr(begin, text.find_last_not_of(kBlank) - begin + 1));
}

// What to call a value that is a map: the file that it was included from, or its number.
std::string label_of(const Node& value, const Node& list, std::size_t index) {
  if (value.kind == Node::Kind::scalar) return value.text;
  if (value.mark.source != nullptr && value.mark.source != list.mark.source && value.mark.source->has_lines)
    return std::filesystem::path(value.mark.source->name).stem().string();
  return fmt::format("{}", index + 1);
}

void add_scalars(SweepSpec& spec, const std::string& text, const Mark& mark) {
  spec.labels = split_list(text);
  for (const std::string& part : spec.labels) spec.values.push_back(scalar_node(part, mark));
}

// Text: word(a, b), or values with commas between them.
bool read_text(Report& report, SweepSpec& spec, const Node& node, const std::string& name) {
  const std::size_t open = node.text.find('(');
  if (node.quoted && open == std::string::npos) {
    spec.labels = {node.text};
    spec.values = {scalar_node(node.text, node.mark)};
    return true;
  }
  if (open == std::string::npos) {
    add_scalars(spec, node.text, node.mark);
    return true;
  }
  const std::string word = trimmed(std::string_view(node.text).substr(0, open));
  const std::string whole = trimmed(node.text);
  const auto* known = std::find_if(std::begin(kWords), std::end(kWords), [&](const Word& w) { return word == w.word; });
  if (known == std::end(kWords)) {
    report.error(node.mark, name, fmt::format("found {}, {}", found(node), kExpected));
    return false;
  }
  if (whole.back() != ')') {
    report.error(node.mark, name, fmt::format("found {} without a closing bracket", found(node)),
                 "inside { } a comma ends the value: put quotes around it, or give the key a line of its own");
    return false;
  }
  const std::size_t close = node.text.rfind(')');
  add_scalars(spec, node.text.substr(open + 1, close - open - 1), node.mark);
  spec.labels.clear();
  spec.form = known->form;
  if (spec.values.size() == known->arguments) return true;
  report.error(node.mark, name,
               fmt::format("found {} values in {}, expected {}", spec.values.size(), found(node), known->arguments));
  return false;
}

}  // namespace

std::vector<std::string> split_list(std::string_view text) {
  std::vector<std::string> out;
  while (true) {
    const std::size_t comma = text.find(',');
    out.push_back(trimmed(text.substr(0, comma)));
    if (comma == std::string_view::npos) return out;
    text.remove_prefix(comma + 1);
  }
}

std::optional<SweepSpec> read_sweep_spec(Report& report, const Node& node, const std::string& name) {
  SweepSpec spec;
  switch (node.kind) {
    case Node::Kind::scalar:
      if (!read_text(report, spec, node, name)) return std::nullopt;
      break;
    case Node::Kind::list:
      spec.values = node.items;
      for (std::size_t i = 0; i < node.items.size(); ++i) spec.labels.push_back(label_of(*node.items[i], node, i));
      break;
    case Node::Kind::map:
      for (const Entry& entry : node.entries) {
        spec.labels.push_back(entry.key);
        spec.values.push_back(entry.value);
      }
      break;
    case Node::Kind::null:
      break;
  }
  if (spec.values.empty() || spec.values.size() > kMostChoices) {
    report.error(node.mark, name,
                 spec.values.empty() ? fmt::format("found nothing, {}", kExpected)
                                     : fmt::format("found more than {} values", kMostChoices));
    return std::nullopt;
  }
  if (spec.form != Form::choices) return spec;
  for (std::size_t i = 0; i < spec.labels.size(); ++i)
    if (std::find(spec.labels.begin(), spec.labels.begin() + static_cast<std::ptrdiff_t>(i), spec.labels[i]) !=
        spec.labels.begin() + static_cast<std::ptrdiff_t>(i)) {
      report.error(node.mark, name, fmt::format("found the value `{}` twice", spec.labels[i]));
      return std::nullopt;
    }
  return spec;
}

}  // namespace hatring::io
