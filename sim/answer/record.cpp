// SPDX-License-Identifier: MIT
// Solves one wheel and turns the solver's states into named columns.
#include <chrono>
#include <cmath>
#include <limits>

#include "models/joint.hpp"
#include "sim/answer/run.hpp"
#include "sim/network/assumed.hpp"
#include "sim/solve/integrate.hpp"

namespace hatring::answer {
namespace {

using network::NodeId;
using solve::WheelSystem;

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

// Collects columns; keeps the order in which they are first named.
class Columns {
 public:
  explicit Columns(std::size_t length) : length_(length) {}
  // Index of a new column, filled with NaN when the part does not exist.
  std::size_t add(std::string group, std::string name, std::string unit, std::string long_name,
                  bool not_applicable = false) {
    std::vector<double> values;
    if (not_applicable)
      values.assign(length_, std::numeric_limits<double>::quiet_NaN());
    else
      values.reserve(length_);
    list.push_back(
        {std::move(group), std::move(name), std::move(unit), std::move(long_name), std::move(values), not_applicable});
    return list.size() - 1;
  }
  void push(std::size_t column, double value) { list[column].values.push_back(value); }
  std::vector<Column> list;

 private:
  std::size_t length_;
};

// Mean slope over a window: the instantaneous rate of a thin cell depends on the mesh and means nothing.
std::vector<double> windowed_rate(const std::vector<double>& time, const std::vector<double>& value, double window) {
  std::vector<double> out(time.size(), 0);
  std::size_t lo = 0, hi = 0;
  const auto sample = [&](double t, std::size_t& hint) {
    while (hint + 2 < time.size() && time[hint + 1] < t) ++hint;
    const double w = (t - time[hint]) / (time[hint + 1] - time[hint]);
    return value[hint] + w * (value[hint + 1] - value[hint]);
  };
  if (time.size() < 2) return out;
  for (std::size_t i = 0; i < time.size(); ++i) {
    const double a = std::max(time[i] - window / 2, time.front()), b = std::min(time[i] + window / 2, time.back());
    if (b > a) out[i] = (sample(b, hi) - sample(a, lo)) / (b - a);
  }
  return out;
}

// Thermal strain from 20 degC, linear between points 1 K apart: each recorded moment asks for every ring node.
class StrainTable {
 public:
  StrainTable() = default;
  StrainTable(const models::Material& m, bool constant) {
    const double alpha = m.mean_expansion(models::kReferenceTemperature);
    for (double t = kLowest; t <= kHighest; t += 1)
      values_.push_back(constant ? alpha * (t - models::kReferenceTemperature) : m.thermal_strain(t));
  }
  [[nodiscard]] double operator()(double t) const {
    const double u = std::clamp(t - kLowest, 0.0, static_cast<double>(values_.size() - 2));
    const auto i = static_cast<std::size_t>(u);
    return values_[i] + (t - kLowest - static_cast<double>(i)) * (values_[i + 1] - values_[i]);
  }

 private:
  static constexpr double kLowest = 173.15, kHighest = 1773.15;
  std::vector<double> values_;
};

// Hat and ring at the bolt circle.
class JointMovement {
 public:
  JointMovement(const session::Case& c, session::Axle axle, const network::Network& net) : rotor_(c.brake(axle).rotor) {
    for (const network::Node& n : net.nodes)
      if (n.part == network::Part::ring) ring_mass_ += n.mass;
    applicable_ = rotor_.joint.kind != session::JointKind::one_piece;
    if (!applicable_) return;
    const models::Material& iron = c.materials.at(rotor_.ring.material);
    const models::Material& hat = c.materials.at(rotor_.hat.material);
    iron_ = StrainTable(iron, c.physics.constant_properties);
    hat_ = StrainTable(hat, c.physics.constant_properties);
    const double bell = 0.5 * (rotor_.hat.outer_diameter - rotor_.hat.wall_thickness);
    const double width = rotor_.joint.bolt_circle / 2 +
                         network::assumed::kFlangeOverhang * rotor_.joint.fastener_diameter -
                         0.5 * rotor_.hat.outer_diameter;
    restraint_ =
        models::bell_restraint(bell, rotor_.hat.wall_thickness, width, rotor_.hat.flange_thickness, hat.poisson);
  }
  [[nodiscard]] bool applicable() const { return applicable_; }

  // Ring minus hat [m].
  [[nodiscard]] double differential(const network::Network& net, const Eigen::VectorXd& t, double lug, double flange,
                                    double bell) const {
    double mean = 0;
    for (std::size_t i = 0; i < net.nodes.size(); ++i)
      if (net.nodes[i].part == network::Part::ring)
        mean += net.nodes[i].mass / ring_mass_ * iron_(t[static_cast<Eigen::Index>(i)]);
    const double bolt = rotor_.joint.bolt_circle / 2;
    return models::differential_expansion(models::ring_growth(rotor_.ring.inner_diameter / 2, bolt, mean, iron_(lug)),
                                          models::hat_growth(bolt, hat_(flange), hat_(bell), restraint_));
  }

 private:
  const session::Rotor& rotor_;
  bool applicable_ = false;
  double ring_mass_ = 0, restraint_ = 0;
  StrainTable iron_, hat_;
};

// Friction at the pads and the line pressure that the trace's deceleration needs.
class Pedal {
 public:
  Pedal(const session::Case& c, session::Axle axle) : c_(c), brake_(c.brake(axle)) {
    const session::FrictionTable& table = brake_.pads.friction;
    if (!table.values.empty()) friction_ = models::Curve(table.temperature, table.values);
    const session::Ring& ring = brake_.rotor.ring;
    // Uniform wear puts the resultant at the mean of the two radii.
    radius_ = 0.25 * (ring.outer_diameter + ring.swept_inner_diameter);
    one_side_ =
        brake_.caliper.pistons / 2.0 * M_PI / 4 * brake_.caliper.piston_diameter * brake_.caliper.piston_diameter;
  }
  [[nodiscard]] bool applicable() const { return !friction_.empty() && one_side_ > 0; }
  [[nodiscard]] double friction(double pad) const { return friction_(pad); }
  // Torque = 2 mu p A r; the brake turns with the wheel, a little slower than the road by the tyre's slip.
  [[nodiscard]] double pressure(const solve::Load& load, double pad) const {
    if (load.heat <= 0 || load.speed < 1) return 0;
    const double torque = load.heat * c_.car.tyre_radius / (load.speed * (1 - c_.car.tyre_slip_share));
    return torque / (2 * friction_(pad) * one_side_ * radius_);
  }

 private:
  const session::Case& c_;
  const session::Brake& brake_;
  models::Curve friction_;
  double radius_ = 0, one_side_ = 0;
};

double probe_value(const network::Probe& p, const Eigen::VectorXd& t) {
  double sum = 0;
  for (const auto& [node, weight] : p.weights) sum += weight * t[node];
  return sum;
}

}  // namespace

AxleHistory record_axle(const session::Case& c, const session::Drive& drive, session::Axle axle,
                        const network::Network& net, const std::vector<double>& times, const RunOptions& options,
                        SolverWork& work) {
  const auto started = std::chrono::steady_clock::now();
  std::size_t piece = 0;
  const auto load = [&](double t) {
    const session::Moment m = drive.at(t, piece);
    return solve::Load{m.speed, drive.wheel_heat(axle, t, m), m.applied};
  };
  WheelSystem system(net, load);
  Columns columns(times.size());

  // Temperatures
  const std::size_t face_out =
      columns.add("temperature", "ring_face_outboard", "K", "Ring friction face, outboard, mean of the rubbed track");
  columns.add("temperature", "ring_face_inboard", "K", "Ring friction face, inboard, mean of the rubbed track");
  std::vector<std::size_t> probes;
  for (const network::Probe& p : net.probes)
    probes.push_back(columns.add("temperature", p.name, "K", p.long_name, p.weights.empty()));
  const std::size_t pad_out = columns.add("temperature", "pad_outboard", "K", "Pad friction surface, outboard");
  columns.add("temperature", "pad_inboard", "K", "Pad friction surface, inboard");
  const NodeId pads[] = {net.find("pad.outboard.layer1"), net.find("pad.inboard.layer1")};

  // Joint
  const JointMovement movement(c, axle, net);
  const session::Joint& joint = c.brake(axle).rotor.joint;
  const bool floats = movement.applicable() && joint.kind == session::JointKind::floating;
  const std::size_t growth =
      columns.add("joint", "differential_expansion", "m",
                  "Ring minus hat growth in radius at the bolt circle, free of the joint", !movement.applicable());
  const std::size_t outward = columns.add("joint", "clearance_outward", "m",
                                          "Radial clearance left for the ring moving outward on the hat", !floats);
  columns.add("joint", "clearance_inward", "m", "Radial clearance left for the hat moving outward in the ring",
              !floats);
  const auto index_of = [&](const char* name) {
    for (std::size_t i = 0; i < net.probes.size(); ++i)
      if (net.probes[i].name == name) return i;
    return std::size_t{0};
  };
  const std::size_t lug = index_of("ring_lug"), flange = index_of("hat_flange"), bell = index_of("hat_bell");

  // Pedal
  const Pedal pedal(c, axle);
  const std::size_t friction_coefficient =
      columns.add("pedal", "friction_coefficient", "1",
                  "Friction coefficient at the mean temperature of both pads' surfaces", !pedal.applicable());
  columns.add("pedal", "pressure", "Pa", "Line pressure that the trace's deceleration needs; 0 off the brakes",
              !pedal.applicable());

  // Heat
  const std::size_t heat = columns.add("heat", "friction", "J", "Friction heat of this wheel");
  columns.add("heat", "to_ring", "J",
              "Friction heat that entered the ring, net of what the pads gave back while applied");
  columns.add("heat", "to_pads", "J", "Friction heat that entered the pads, likewise");
  columns.add("heat", "stored", "J",
              "Heat stored in ring, hat, joint, hub, pads, caliper, fluid and the air in the wheel");
  columns.add("heat", "convection", "J", "Heat lost by convection");
  columns.add("heat", "radiation", "J", "Heat lost by radiation");
  columns.add("heat", "to_wheel", "J", "Heat passed on beyond the hub, to wheel and upright");
  columns.add("heat", "residual", "J", "Friction less all the others: what the balance does not explain");

  Eigen::VectorXd x = system.initial_state();
  const Eigen::VectorXd start = x;
  Eigen::VectorXd t(net.size());
  const auto observe = [&](double time, const Eigen::VectorXd& state) {
    system.temperatures_of(state, t);
    const solve::Load now = system.load_at(time);
    double sum[2] = {0, 0}, area[2] = {0, 0};
    for (std::size_t f = 0; f < net.faces.size(); ++f) {
      const std::size_t side = net.faces[f].inboard ? 1 : 0;
      sum[side] += net.faces[f].area * system.face_temperature(f, t, now);
      area[side] += net.faces[f].area;
    }
    double both_pads = 0;
    for (const std::size_t side : {0U, 1U}) {
      const double pad = system.pad_surface_temperature(pads[side], t, now);
      columns.push(face_out + side, sum[side] / area[side]);
      columns.push(pad_out + side, pad);
      both_pads += 0.5 * pad;
    }
    if (pedal.applicable()) {
      columns.push(friction_coefficient, pedal.friction(both_pads));
      columns.push(friction_coefficient + 1, pedal.pressure(now, both_pads));
    }
    for (std::size_t i = 0; i < net.probes.size(); ++i)
      if (!net.probes[i].weights.empty()) columns.push(probes[i], probe_value(net.probes[i], t));
    if (movement.applicable()) {
      const double d = movement.differential(net, t, probe_value(net.probes[lug], t),
                                             probe_value(net.probes[flange], t), probe_value(net.probes[bell], t));
      columns.push(growth, d);
      if (floats) {
        columns.push(outward, models::clearance_outward(joint.float_clearance, d));
        columns.push(outward + 1, models::clearance_inward(joint.float_clearance, d));
      }
    }
    double stored = 0, beyond = 0;
    for (int i = 0; i < net.size(); ++i)
      (net.nodes[at(i)].part == network::Part::wheel ? beyond : stored) += state[i] - start[i];
    const auto integral = [&](WheelSystem::Integral which) { return state[net.size() + which]; };
    const double friction = integral(WheelSystem::kFriction), to_ring = integral(WheelSystem::kToRing),
                 convection = integral(WheelSystem::kConvection), radiation = integral(WheelSystem::kRadiation),
                 to_wheel = beyond + integral(WheelSystem::kWheelLoss);
    std::size_t k = heat;
    for (const double v : {friction, to_ring, friction - to_ring, stored, convection, radiation, to_wheel,
                           friction - stored - convection - radiation - to_wheel})
      columns.push(k++, v);
  };

  solve::StepOptions step = options.step;
  step.reference = net.ambient;
  const solve::StepCounts counts =
      solve::integrate(system, drive.restarts(), times, x, step, *options.tableau, observe);

  // Rates
  const auto rate = [&](std::string name, std::string long_name, std::size_t source) {
    const std::size_t i = columns.add("rate", std::move(name), "K s-1", std::move(long_name));
    columns.list[i].values = windowed_rate(times, columns.list[source].values, c.limits.rate_window);
  };
  rate("ring_face", "Heating rate of the outboard friction face over the rate window", face_out);
  rate("ring_mean", "Heating rate of the ring's mean over the rate window", probes[index_of("ring_mean")]);
  rate("hat_flange", "Heating rate of the hat flange over the rate window", probes[flange]);

  work = {counts.steps, counts.rejected, counts.rates, counts.factorisations,
          std::chrono::duration<double>(std::chrono::steady_clock::now() - started).count()};
  return {axle == session::Axle::front ? "front" : "rear", std::move(columns.list)};
}

}  // namespace hatring::answer
