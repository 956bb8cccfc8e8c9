// SPDX-License-Identifier: MIT
#include "sim/io/sweep/sweep.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sim/io/read_tree.hpp"
#include "sim/io/sweep/axis.hpp"
#include "sim/io/sweep/input.hpp"

namespace hatring::io {
namespace {

using study::DesignKind;

NodePtr without_sweep(const NodePtr& root) {
  auto out = std::make_shared<Node>(*root);
  out->entries.clear();
  out->size = 1;
  for (const Entry& entry : root->entries) {
    if (entry.key == "sweep") continue;
    out->entries.push_back(entry);
    out->count(*entry.value);
  }
  return out;
}

//! The `sweep` of a tree, or nullptr.
NodePtr sweep_of(const NodePtr& root) {
  const Entry* entry = root->kind == Node::Kind::map ? root->find("sweep") : nullptr;
  return entry == nullptr ? nullptr : entry->value;
}

const char* word(DesignKind kind) {
  return kind == DesignKind::factorial ? "factorial" : kind == DesignKind::latin ? "latin" : "sobol";
}

}  // namespace

class Sweep::Impl {
 public:
  Impl(const std::filesystem::path& session, const SweepOptions& options)
      : loader_(report_, options.reading.allowed_include_dirs), file_(session) {
    const NodePtr plan = options.plan ? loader_.top_file(*options.plan) : nullptr;
    const NodePtr root = loader_.top_file(session);
    base_ = root->kind == Node::Kind::map ? without_sweep(root) : root;
    sets_ = overrides(loader_, options.reading);
    read_input(root, plan, options);
    report_.throw_if_any();
    try_everything();
    make_design();
    describe();
  }

  [[nodiscard]] session::Case at(std::uint64_t run) const {
    const std::vector<study::Setting> all = settings(run);
    std::vector<NodePtr> values;
    values.reserve(axes_.size());
    for (std::size_t i = 0; i < axes_.size(); ++i) values.push_back(axes_[i].value(parameters_[i], all[i]));
    Report report;
    Loader loader(report, {});
    session::Case c;
    Reader reader(report, loader, c);
    reader.known_traces = &traces_;
    read_tree(reader, tree(report, values));
    return c;
  }

  [[nodiscard]] std::vector<study::Setting> settings(std::uint64_t run) const {
    return study::settings(*design_, parameters_, run);
  }

  std::string name_, resolved_yaml_, description_;
  std::vector<study::Parameter> parameters_;
  std::optional<study::Design> design_;
  DesignKind kind_ = DesignKind::factorial;

 private:
  void read_input(const NodePtr& root, const NodePtr& plan, const SweepOptions& options) {
    NodePtr node = sweep_of(root);
    if (plan != nullptr) {
      const NodePtr more = sweep_of(plan);
      if (more == nullptr || plan->entries.size() != 1)
        report_.fatal(plan->mark, "", "expected one top key `sweep:` in the plan of a sweep, with `vary:` below it");
      node = node == nullptr ? more : merged(node, more);
    }
    session::Case scratch;
    Reader reader(report_, loader_, scratch);
    const Reader::Scope scope(reader, "sweep");
    if (node != nullptr) sweep_section().read(reader, node, node->mark, input_);
    if (options.design) input_.design = options.design;
    if (options.runs) input_.runs = options.runs;
    if (options.seed) input_.seed = *options.seed;
    if (input_.vary != nullptr && reader.is_map(*input_.vary, "a map of keys to what they are set to"))
      for (const Entry& entry : input_.vary->entries) add_axis({entry.key, entry.mark, entry.value});
    for (const std::string& text : options.vary)
      if (const auto given = loader_.assignment(text, "--vary ")) add_axis(*given);
    if (axes_.empty() && !report_.any())
      report_.error(root->mark, "sweep.vary", "nothing is varied, expected at least one key",
                    "a `sweep:` section with `vary:` in the session file, or --vary 'car.mass=900 kg, 1000 kg'");
  }

  void add_axis(const Assignment& given) {
    auto axis = make_axis(report_, loader_, given);
    if (!axis) return;
    const auto same = std::find_if(axes_.begin(), axes_.end(), [&](const Axis& a) { return a.name == axis->name; });
    if (same != axes_.end()) {
      *same = std::move(*axis);  // the command line goes before the file
      return;
    }
    for (const Axis& other : axes_)
      for (const std::string& target : axis->targets)
        if (std::find(other.targets.begin(), other.targets.end(), target) != other.targets.end())
          report_.error(given.mark, axis->name, fmt::format("`{}` is varied by `{}` already", target, other.name));
    axes_.push_back(std::move(*axis));
  }

  //! The config with one value of each axis in it.
  [[nodiscard]] NodePtr tree(Report& report, const std::vector<NodePtr>& values) const {
    NodePtr root = base_;
    for (std::size_t i = 0; i < axes_.size(); ++i)
      if (axes_[i].variant && values[i] != nullptr && root->kind == Node::Kind::map)
        root = varied(report, root, values[i], {});
    root = with_overrides(report, root, sets_);
    std::vector<Assignment> given;
    for (std::size_t i = 0; i < axes_.size(); ++i)
      if (!axes_[i].variant)
        for (const std::string& path : axes_[i].targets) given.push_back({path, axes_[i].mark, values[i]});
    return with_name(with_overrides(report, root, given), file_.stem().string());
  }

  //! Reads one tree with everything that has to be found out but once. Files that it named stand in the tree from then
  //! on.
  void try_one(std::vector<NodePtr>& values) {
    session::Case c;
    Reader reader(report_, loader_, c);
    reader.numbers_seen = &numbers_;
    reader.known_traces = &traces_;
    const NodePtr root = tree(report_, values);
    read_tree(reader, root);
    for (std::size_t i = 0; i < c.traces.size(); ++i) traces_.emplace(reader.trace_maps[i], c.traces[i]);
    const auto settle = [&](NodePtr& node) {
      if (node != nullptr) node = substituted(node, reader.in_place_of);
    };
    if (resolved_yaml_.empty()) {
      name_ = c.name;
      resolved_yaml_ = to_yaml(*root, reader.in_place_of, reader.trace_maps);
      settle(base_);
      for (Assignment& set : sets_) settle(set.value);
    }
    for (NodePtr& value : values) settle(value);
  }

  void try_everything() {
    std::vector<NodePtr> first;
    first.reserve(axes_.size());
    for (const Axis& axis : axes_) first.push_back(axis.tried.front());
    try_one(first);
    for (std::size_t i = 0; i < axes_.size(); ++i) {
      Axis& axis = axes_[i];
      axis.tried.front() = first[i];
      parameters_.push_back(resolve(report_, axis, numbers_));
      report_.throw_if_any();
      first[i] = axis.tried.front();
      for (std::size_t k = 1; k < axis.tried.size(); ++k) {
        std::vector<NodePtr> values = first;
        values[i] = axis.tried[k];
        try_one(values);
        axis.tried[k] = values[i];
      }
    }
  }

  void make_design() {
    const bool levels = std::none_of(parameters_.begin(), parameters_.end(),
                                     [](const study::Parameter& p) { return p.spread.has_value(); });
    kind_ = input_.design.value_or(levels && !input_.runs ? DesignKind::factorial : DesignKind::latin);
    const Source& place = loader_.add_source({file_.string(), {}, "", false});
    if (kind_ == DesignKind::factorial && input_.runs)
      report_.fatal({&place}, "sweep.runs", "a factorial design runs every combination: leave the number of runs out");
    try {
      design_ = study::make_design(kind_, parameters_, static_cast<std::uint64_t>(input_.runs.value_or(kDefaultRuns)),
                                   static_cast<std::uint64_t>(input_.seed));
    } catch (const std::invalid_argument& e) {
      report_.fatal({&place}, "sweep.design", e.what());
    }
    if (static_cast<double>(design_->runs()) > runs_range().high)
      report_.fatal(
          {&place}, "sweep.design",
          fmt::format("{} runs are asked for, expected no more than {:.0f}", design_->runs(), runs_range().high));
  }

  void describe() {
    description_ = fmt::format("design: {}\nruns: {}\nseed: {}\n", word(kind_), design_->runs(), input_.seed);
    for (std::size_t i = 0; i < axes_.size(); ++i) {
      description_ += fmt::format("vary: {} [{}]\n", axes_[i].name, parameters_[i].unit);
      description_ += axes_[i].description(parameters_[i]);
    }
  }

  Report report_;
  Loader loader_;
  std::filesystem::path file_;
  NodePtr base_;
  std::vector<Assignment> sets_;
  SweepInput input_;
  std::vector<Axis> axes_;
  std::map<std::string, Reader::Number> numbers_;
  std::map<const Node*, session::Trace> traces_;
};

Sweep::Sweep(const std::filesystem::path& session, const SweepOptions& options)
    : impl_(std::make_unique<Impl>(session, options)) {}
Sweep::~Sweep() = default;

const std::string& Sweep::name() const {
  return impl_->name_;
}
const std::vector<study::Parameter>& Sweep::parameters() const {
  return impl_->parameters_;
}
const study::Design& Sweep::design() const {
  return *impl_->design_;
}
DesignKind Sweep::kind() const {
  return impl_->kind_;
}
const std::string& Sweep::resolved_yaml() const {
  return impl_->resolved_yaml_;
}
const std::string& Sweep::description() const {
  return impl_->description_;
}
std::vector<study::Setting> Sweep::settings(std::uint64_t run) const {
  return impl_->settings(run);
}
session::Case Sweep::at(std::uint64_t run) const {
  return impl_->at(run);
}

}  // namespace hatring::io
