// SPDX-License-Identifier: MIT
// export_network SESSION.yaml INCLUDES front|rear MESH INTERVAL [SPEED...]: one wheel's network as plain data, what
// drives it, and what our solver makes of it, as JSON on stdout, for checks that solve the same network by other means.
// Load: straight lines between rows of [time, speed, heat, applied]; a jump shows as two rows of the same time.
// Each SPEED [m/s] adds the surfaces' conductances at that speed and 100 K above the air.
#include <cmath>
#include <cstdlib>
#include <iostream>
#include <nlohmann/json.hpp>

#include "sim/answer/run.hpp"
#include "sim/io/read_case.hpp"
#include "sim/network/assemble.hpp"
#include "sim/solve/integrate.hpp"

namespace {

using namespace hatring;
using nlohmann::json;

json network_json(const network::Network& net) {
  json out{{"ambient", net.ambient}, {"ring_share", net.fixed_ring_share}};
  for (const auto& n : net.nodes)
    out["nodes"].push_back({{"name", n.name},
                            {"mass", n.mass},
                            {"material", net.materials.at(static_cast<std::size_t>(n.content))},
                            {"temperature", n.temperature},
                            {"capacity", net.heat_capacity(n, models::kReferenceTemperature)}});
  for (const auto& l : net.links)
    out["links"].push_back({{"a", l.a},
                            {"b", l.b},
                            {"shape_a", l.shape_a},
                            {"shape_b", l.shape_b},
                            {"resistance", l.resistance},
                            {"pressed", l.pressed},
                            {"family", l.family}});
  for (const auto& r : net.rubbings)
    out["rubbings"].push_back({{"ring", r.ring},
                               {"pad", r.pad},
                               {"share", r.share},
                               {"contact", r.contact},
                               {"shape_ring", r.shape_ring},
                               {"shape_pad", r.shape_pad}});
  for (const auto& s : net.surfaces)
    out["surfaces"].push_back({{"node", s.node}, {"air", s.air}, {"scale", s.scale}, {"law", s.law}});
  out["radiations"] = json::array();
  for (const auto& r : net.radiations) out["radiations"].push_back({{"a", r.a}, {"b", r.b}, {"factor", r.factor}});
  return out;
}

// Rows closer than `step`, those on a straight line left out.
json load_json(const std::vector<double>& restarts, const std::function<solve::Load(double)>& load) {
  constexpr double kStep = 0.005;
  json rows = json::array();
  for (std::size_t i = 0; i + 1 < restarts.size(); ++i) {
    const double begin = restarts[i], end = restarts[i + 1];
    const int n = std::max(1, static_cast<int>(std::ceil((end - begin) / kStep)));
    std::vector<std::array<double, 4>> window;
    for (int k = 0; k <= n; ++k) {
      const double t = begin + (end - begin) * k / n;
      const solve::Load l = load(k == 0 ? t : std::min(t, std::nextafter(end, 0)));
      window.push_back({t, l.speed, l.heat, l.applied});
    }
    const auto straight = [&](std::size_t k) {
      for (std::size_t c = 1; c < 4; ++c)
        if (std::abs(window[k + 1][c] - 2 * window[k][c] + window[k - 1][c]) > 1e-9 * (1 + std::abs(window[k][c])))
          return false;
      return true;
    };
    for (std::size_t k = 0; k < window.size(); ++k)
      if (k == 0 || k + 1 == window.size() || !straight(k)) rows.push_back(window[k]);
  }
  return rows;
}

json run(const std::string& file, const std::string& includes, session::Axle axle, const std::string& mesh,
         double interval, const std::vector<double>& speeds) {
  io::ReadOptions options{.set = {}, .allowed_include_dirs = {includes}, .mesh = {}};
  for (const session::Mesh m :
       {session::Mesh::lump, session::Mesh::coarse, session::Mesh::standard, session::Mesh::fine})
    if (mesh == session::mesh_name(m)) options.mesh = m;
  const session::Case c = io::read_case(file, options).c;
  const session::Drive drive(c);
  double fastest = answer::highest_speed(drive);
  for (const double v : speeds) fastest = std::max(fastest, v);
  const network::Network net = network::assemble(c, axle, fastest);
  json out = network_json(net);
  for (const double v : speeds) {
    json values = json::array();
    for (const auto& s : net.surfaces)
      values.push_back(s.scale * net.tables.at(static_cast<std::size_t>(s.table))(net.grid.locate(v), 100));
    out["conductance"].push_back(values);
  }
  std::size_t piece = 0;
  const auto load = [&](double t) {
    const session::Moment m = drive.at(t, piece);
    return solve::Load{m.speed, drive.wheel_heat(axle, t, m), m.applied};
  };
  out["load"] = load_json(drive.restarts(), load);
  out["restarts"] = drive.restarts();

  solve::WheelSystem system(net, load);
  Eigen::VectorXd x = system.initial_state(), t(net.size());
  std::vector<double> times;
  for (int k = 0; k * interval < drive.duration(); ++k) times.push_back(k * interval);
  times.push_back(drive.duration());
  solve::StepOptions step;
  step.tolerance.reference = net.ambient;
  solve::integrate(system, drive.restarts(), times, x, step, solve::ros34pw2(),
                   [&](double time, const Eigen::VectorXd& state) {
                     system.temperatures_of(state, t);
                     out["time"].push_back(time);
                     out["temperature"].push_back(std::vector<double>(t.begin(), t.end()));
                   });
  return out;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 6) {
    std::cerr << "export_network SESSION.yaml INCLUDES front|rear MESH INTERVAL [SPEED...]\n";
    return 2;
  }
  try {
    std::vector<double> speeds;
    for (int i = 6; i < argc; ++i) speeds.push_back(std::atof(argv[i]));
    const auto axle = std::string(argv[3]) == "rear" ? session::Axle::rear : session::Axle::front;
    std::cout << run(argv[1], argv[2], axle, argv[4], std::atof(argv[5]), speeds) << '\n';
  } catch (const std::exception& e) {
    std::cerr << e.what() << '\n';
    return 1;
  }
}
