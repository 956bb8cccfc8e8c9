// SPDX-License-Identifier: MIT
#include "sim/io/tree.hpp"

#include <yaml-cpp/depthguard.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/yaml.h>

#include <algorithm>
#include <limits>
#include <map>
#include <sstream>
#include <unordered_set>

namespace hatring::io {
namespace {

//! Turns the events of yaml-cpp into nodes. (YAML::Node keeps duplicate keys without a word and has no place for keys.)
class Builder : public YAML::EventHandler {
 public:
  Builder(const Source& source, Report& report) : source_(source), report_(report) {}

  [[nodiscard]] NodePtr root() const { return root_; }

  void OnDocumentStart(const YAML::Mark&) override {}
  void OnDocumentEnd() override {}
  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    leaf(start(Node::Kind::null, mark, "?", anchor));
  }
  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override {
    const std::shared_ptr<Node> node = start(Node::Kind::scalar, mark, tag, anchor);
    // A terminal would obey some of them; names and keys are printed as they stand.
    if (std::any_of(value.begin(), value.end(), is_control))
      report_.fatal(mark_, "", "found a control character, expected text that can be printed");
    node->text = value;
    node->quoted = tag == "!";
    leaf(node);
  }
  void OnAlias(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    const std::shared_ptr<Node> node = anchors_[anchor];
    if (std::find(open_.begin(), open_.end(), node) != open_.end())
      report_.fatal(place(mark), "", "this alias stands inside the very map or list that it repeats");
    mark_ = place(mark);
    leaf(node);
  }
  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value) override {
    open(start(Node::Kind::list, mark, tag, anchor));
  }
  void OnSequenceEnd() override { close(); }
  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value) override {
    open(start(Node::Kind::map, mark, tag, anchor));
  }
  void OnMapEnd() override { close(); }

 private:
  [[nodiscard]] Mark place(const YAML::Mark& mark) const { return {&source_, mark.line + 1, mark.column + 1}; }

  std::shared_ptr<Node> start(Node::Kind kind, const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor) {
    auto node = std::make_shared<Node>();
    node->kind = kind;
    node->mark = mark_ = place(mark);
    if (!tag.empty() && tag != "?" && tag != "!")
      report_.error(mark_, "", "tags such as `" + tag + "` are not used here");
    if (anchor != YAML::NullAnchor) anchors_[anchor] = node;
    return node;
  }
  void open(std::shared_ptr<Node> node) {
    open_.push_back(std::move(node));
    keys_.emplace_back();
    waiting_.emplace_back();
  }
  void close() {
    const std::shared_ptr<Node> node = std::move(open_.back());
    open_.pop_back();
    keys_.pop_back();
    waiting_.pop_back();
    leaf(node);
  }
  //! Puts a finished node into the map or list that is open.
  void leaf(const std::shared_ptr<Node>& node) {
    if (open_.empty()) {
      root_ = node;
      return;
    }
    Node& parent = *open_.back();
    if (parent.kind == Node::Kind::list) {
      parent.items.push_back(node);
      parent.count(*node);
    } else if (!waiting_.back()) {
      if (node->kind != Node::Kind::scalar) report_.fatal(node->mark, "", "found a key that is not plain text");
      waiting_.back() = node;
      key_mark_.push_back(mark_);
    } else {
      add(parent, waiting_.back()->text, key_mark_.back(), node);
      waiting_.back().reset();
      key_mark_.pop_back();
    }
    if (parent.size > kMostNodes)
      report_.fatal(mark_, "", "the file is too large once its aliases are written out (more than a million values)");
  }
  //! Key path of the innermost open map.
  [[nodiscard]] std::string open_path() const {
    std::string path;
    for (std::size_t i = 0; i + 1 < open_.size(); ++i)
      path = child_path(path, waiting_[i] ? waiting_[i]->text : std::to_string(open_[i]->items.size()));
    return path;
  }
  void add(Node& map, const std::string& key, const Mark& mark, const NodePtr& value) {
    if (!keys_.back().insert(key).second) {
      report_.conflict(mark, map.find(key)->mark, child_path(open_path(), key),
                       "found the key `" + key + "` twice in one map", "first given here");
      return;
    }
    map.entries.push_back({key, mark, value});
    map.count(*value);
    if (key == "include") map.has_include = true;
  }

  const Source& source_;
  Report& report_;
  Mark mark_;  // of the latest event
  NodePtr root_;
  std::map<YAML::anchor_t, std::shared_ptr<Node>> anchors_;
  std::vector<std::shared_ptr<Node>> open_;
  std::vector<std::unordered_set<std::string>> keys_;  // of each open map
  std::vector<NodePtr> waiting_;                       // key read, value to come
  std::vector<Mark> key_mark_;
};

}  // namespace

const Entry* Node::find(std::string_view key) const {
  for (const Entry& entry : entries)
    if (entry.key == key) return &entry;
  return nullptr;
}

void Node::count(const Node& child) {
  size = child.size > std::numeric_limits<std::size_t>::max() - size ? std::numeric_limits<std::size_t>::max()
                                                                     : size + child.size;
  has_include = has_include || child.has_include;
}

NodePtr parse_tree(const Source& source, Report& report) {
  std::istringstream in(source.text);
  Builder builder(source, report);
  try {
    YAML::Parser parser(in);
    Builder rest(source, report);
    const bool any = parser.HandleNextDocument(builder);
    if (any && parser.HandleNextDocument(rest))
      report.fatal(rest.root() ? rest.root()->mark : Mark{&source}, "",
                   "found a second document (`---`), expected one");
  } catch (const YAML::DeepRecursion& e) {
    report.fatal({&source, e.mark.line + 1, e.mark.column + 1}, "", "maps and lists are nested too deep");
  } catch (const YAML::Exception& e) {
    report.fatal({&source, e.mark.line + 1, e.mark.column + 1}, "", "not valid YAML: " + e.msg);
  }
  if (builder.root() != nullptr) return builder.root();
  auto nothing = std::make_shared<Node>();
  nothing->mark = {&source, 1, 1};
  return nothing;
}

NodePtr scalar_node(std::string text, const Mark& mark) {
  auto node = std::make_shared<Node>();
  node->kind = Node::Kind::scalar;
  node->mark = mark;
  node->text = std::move(text);
  return node;
}

std::string child_path(std::string_view path, std::string_view key) {
  std::string out(path);
  if (!out.empty()) out += '.';
  out += key;
  return out;
}

}  // namespace hatring::io
