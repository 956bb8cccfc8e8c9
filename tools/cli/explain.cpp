// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <memory>

#include "sim/answer/run.hpp"
#include "sim/answer/share.hpp"
#include "sim/io/read_case.hpp"
#include "sim/network/assemble.hpp"
#include "sim/network/origin.hpp"
#include "sim/session/cubic.hpp"
#include "tools/cli/commands.hpp"
#include "tools/cli/explanation.hpp"
#include "tools/cli/network_svg.hpp"
#include "tools/cli/output_files.hpp"
#include "tools/cli/terminal.hpp"

namespace hatring::tools {
namespace {

constexpr double kShownSpeed = 100 / 3.6;  // [m/s]

// Between two cuts the heat is smooth, but for a kink where the demand fades: good to 1e-5 of the energy ledger.
std::vector<double> wheel_heat_by_span(const session::Drive& drive, session::Axle axle) {
  std::vector<double> cuts = drive.restarts();
  for (const session::Piece& p : drive.pieces()) cuts.push_back(p.begin);
  for (const session::Span& s : drive.spans()) cuts.push_back(s.begin);
  std::sort(cuts.begin(), cuts.end());
  std::size_t hint = 0;
  const auto heat = [&](double t) { return drive.wheel_heat(axle, t, drive.at(t, hint)); };
  std::vector<double> out;
  auto cut = cuts.begin();
  for (const session::Span& span : drive.spans()) {
    double sum = 0, from = span.begin;
    while (cut != cuts.end() && *cut <= span.begin) ++cut;
    for (; cut != cuts.end() && *cut < span.end; ++cut) {
      sum += session::integrate(from, *cut, heat);
      from = *cut;
    }
    out.push_back(sum + session::integrate(from, span.end, heat));
  }
  return out;
}

}  // namespace

Explanation make_explanation(session::Case c) {
  session::Drive drive(c);
  // Nothing is solved: the share is that of pads in the middle of their windows.
  (void)answer::guess_share(c, drive);
  const double highest = answer::highest_speed(drive);
  network::Network front = network::assemble(c, session::Axle::front, highest);
  network::Network rear = network::assemble(c, session::Axle::rear, highest);
  std::vector<double> heat = wheel_heat_by_span(drive, session::Axle::front);
  return {.c = std::move(c),
          .drive = std::move(drive),
          .front = std::move(front),
          .rear = std::move(rear),
          .front_heat = std::move(heat),
          .speed = std::min(kShownSpeed, highest)};
}

double conductance_of(const network::Network& network, const network::Surface& surface, double speed) {
  const network::ConductanceTable& table = network.tables[static_cast<std::size_t>(surface.table)];
  return surface.scale * table(network.grid.locate(speed), kShownDifference);
}

std::string origin_of_links(const session::Case& c, session::Axle axle, const std::string& family) {
  if (c.physics.links.contains(family)) return "pinned by physics.links";
  return std::string(network::origin(family, c.brake(axle).rotor.joint.kind));
}

std::string origin_of_surfaces(const session::Case& c, const std::string& law) {
  if (c.physics.convection) return "pinned by physics.convection";
  return std::string(network::origin_of_law(law).phrase);
}

std::string node_name(const network::Network& network, network::NodeId node) {
  return node == network::kAmbient ? "outside air" : network.nodes[static_cast<std::size_t>(node)].name;
}

std::string partition_text(const network::Network& network) {
  if (network.fixed_ring_share < 0) return "shared by contact: what enters ring and pad follows from both temperatures";
  return fmt::format("a fixed share of {:.3f} enters the ring", network.fixed_ring_share);
}

namespace {

// Prints the network and every assumption, and draws network-front.svg and network-rear.svg; solves nothing.
int explain(const SessionOptions& options) {
  io::ReadResult read = io::read_case(options.session, options.reading());
  const Explanation e = make_explanation(std::move(read.c));
  const std::filesystem::path directory = options.directory();
  make_folder(directory);
  const std::filesystem::path front = directory / "network-front.svg", rear = directory / "network-rear.svg";
  write_file(front, network_svg(e, session::Axle::front));
  write_file(rear, network_svg(e, session::Axle::rear));
  if (options.json)
    print_json(explanation_json(e));
  else if (!options.quiet)
    print_text(fmt::format("{}\nwritten: {}\n         {}\n", explanation_text(e, DisplayUnits(options.units)),
                           front.string(), rear.string()));
  return kWithinLimits;
}

}  // namespace

void add_explain(CLI::App& program, Action& action) {
  CLI::App& command = *program.add_subcommand(
      "explain", "Show the network that would be built and every default, with reasons; solve nothing");
  const auto options = std::make_shared<SessionOptions>();
  options->add_to(command);
  command.callback([options, &action] { action = {[options] { return explain(*options); }}; });
}

}  // namespace hatring::tools
