// SPDX-License-Identifier: MIT
#include <yaml-cpp/yaml.h>

#include <algorithm>
#include <string_view>

#include "sim/io/tree.hpp"

namespace hatring::io {
namespace {

// Digits, with a sign, point or exponent.
bool is_number(std::string_view text) {
  return text.find_first_of("0123456789") != std::string_view::npos &&
         text.find_first_not_of("0123456789+-.eE") == std::string_view::npos;
}

class Writer {
 public:
  Writer(const std::map<const Node*, NodePtr>& in_place_of, const std::vector<const Node*>& anchors)
      : in_place_of_(in_place_of) {
    for (const Node* node : anchors) anchors_[node] = {"trace_" + std::to_string(anchors_.size() + 1), false};
  }

  void write(const Node& given) {
    const auto other = in_place_of_.find(&given);
    const Node& node = other == in_place_of_.end() ? given : *other->second;
    if (const auto anchor = anchors_.find(&node); anchor != anchors_.end()) {
      if (anchor->second.written) {
        out_ << YAML::Alias(anchor->second.name);
        return;
      }
      out_ << YAML::Anchor(anchor->second.name);
      anchor->second.written = true;
    }
    write_content(node);
  }
  [[nodiscard]] std::string text() const { return std::string(out_.c_str()) + "\n"; }

 private:
  struct Anchor {
    std::string name;
    bool written = false;
  };

  void write_content(const Node& node) {
    switch (node.kind) {
      case Node::Kind::null:
        out_ << YAML::Null;
        break;
      case Node::Kind::scalar:
        if (node.quoted) out_ << YAML::DoubleQuoted;
        // Whether a text needs quotes takes the emitter long to find out; a number never does. What is meant for whole
        // numbers writes any text as it stands.
        if (!node.quoted && is_number(node.text))
          out_.WriteIntegralType(std::string_view(node.text));
        else
          out_ << node.text;
        break;
      case Node::Kind::list:
        if (std::all_of(node.items.begin(), node.items.end(),
                        [](const NodePtr& i) { return i->kind == Node::Kind::scalar; }))
          out_ << YAML::Flow;
        out_ << YAML::BeginSeq;
        for (const NodePtr& item : node.items) write(*item);
        out_ << YAML::EndSeq;
        break;
      case Node::Kind::map:
        if (node.entries.empty()) out_ << YAML::Flow;
        out_ << YAML::BeginMap;
        for (const Entry& entry : node.entries) {
          out_ << YAML::Key << entry.key << YAML::Value;
          write(*entry.value);
        }
        out_ << YAML::EndMap;
        break;
    }
  }

  YAML::Emitter out_;
  const std::map<const Node*, NodePtr>& in_place_of_;
  std::map<const Node*, Anchor> anchors_;
};

}  // namespace

std::string to_yaml(const Node& root, const std::map<const Node*, NodePtr>& in_place_of,
                    const std::vector<const Node*>& anchors) {
  Writer writer(in_place_of, anchors);
  writer.write(root);
  return writer.text();
}

}  // namespace hatring::io
