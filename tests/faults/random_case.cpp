// SPDX-License-Identifier: MIT
#include "tests/faults/random_case.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sim/io/builtin.hpp"

namespace hatring::tests {
namespace {

// The section of a key below `section`: "caliper".
const io::SectionBase& below(const io::SectionBase& section, const char* name) {
  for (const io::Key& key : section.keys())
    if (key.name == name) return *key.section;
  throw std::invalid_argument(name);
}

class Drawing {
 public:
  explicit Drawing(std::uint64_t seed) : chance_(seed) {
    for (const auto& [name, material] : io::builtin_materials())
      if (!material.mean_expansion.empty()) materials_.push_back(name);
    materials_.emplace_back("odd");
  }

  std::string session_file() {
    Map top;
    top.add("name", "drawn at random");
    top.add("materials", Map().add("odd", odd_material()).text());
    Map car;
    add_keys(car, io::car_section(), chance_);
    top.add("car", car.text());
    Map brakes;
    brakes.add("front", brake()).add("rear", brake());
    add_keys(brakes, io::brakes_section(), chance_);
    if (chance_.one_in(3)) {
      Map hydraulic;
      add_keys(hydraulic, below(io::brakes_section(), "hydraulic"), chance_);
      brakes.add("hydraulic", hydraulic.text());
    }
    top.add("brakes", brakes.text());
    Map air;
    add_keys(air, io::air_section(), chance_);
    top.add("air", air.text());
    if (chance_.one_in(3)) top.add("initial", initial());
    top.add("session", session());
    Map limits;
    add_keys(limits, io::limits_section(), chance_);
    top.add("limits", limits.text());
    top.add("physics", physics());
    top.add("output", Map().add("interval", chance_.spread(0.05, 10), "s").add("parked_interval", 10, "s").text());
    return top.lines();
  }

 private:
  std::string length(double value) { return fmt::format("{:.5f} mm", value * 1000); }

  std::string odd_material() {
    return Map()
        .add("density", chance_.spread(300, 25000), "kg/m3")
        .add("conductivity", chance_.spread(0.05, 2000), "W/m/K")
        .add("specific_heat", chance_.spread(80, 5000), "J/kg/K")
        .add("mean_expansion", chance_.spread(5e-7, 1e-4), "1/K")
        .add("youngs_modulus", chance_.spread(1, 500), "GPa")
        .add("proof_strength", chance_.spread(10, 2000), "MPa")
        .add("ultimate_strength", chance_.spread(10, 2000), "MPa")
        .add("emissivity", chance_.uniform(0, 1), "")
        .text();
  }

  std::string brake() {
    // Most discs are of a usual size, some as small or large as the schema allows.
    outer_ = chance_.one_in(5) ? chance_.spread(0.06, 1) : chance_.uniform(0.2, 0.42);
    inner_ = outer_ * chance_.uniform(0.35, 0.8);
    swept_ = inner_ + (outer_ - inner_) * chance_.uniform(0.05, 0.6);
    Map pads, caliper, fluid, cooling;
    const double track = std::numbers::pi / 4 * (outer_ * outer_ - swept_ * swept_);
    pads.add("area", std::clamp(track * chance_.spread(0.02, 0.6), 1e-4, 0.05), "m2");
    add_keys(pads, io::pads_section(), chance_);
    const double bore = chance_.spread(0.01, 0.1);
    caliper.add("piston_diameter", bore, "m")
        .add("piston_wall", std::max(0.0005, bore * chance_.uniform(0.02, 0.49)), "m");
    const io::SectionBase& wheel = below(io::brakes_section(), "front");
    add_keys(caliper, below(wheel, "caliper"), chance_);
    const double wet = chance_.uniform(360, 600);
    fluid.add("wet_boiling", wet, "K").add("dry_boiling", std::min(670.0, wet + chance_.uniform(0, 100)), "K");
    add_keys(fluid, below(wheel, "fluid"), chance_);
    add_keys(cooling, below(wheel, "cooling"), chance_);
    return Map()
        .add("rotor", rotor())
        .add("pads", pads.text())
        .add("caliper", caliper.text())
        .add("fluid", fluid.text())
        .add("cooling", cooling.text())
        .text();
  }

  std::string rotor() { return Map().add("ring", ring()).add("joint", joint()).add("hat", hat()).text(); }

  std::string ring() {
    const double thickness = std::clamp(outer_ * chance_.spread(0.01, 0.2), 0.0021, 0.1);
    Map ring;
    ring.add("outer_diameter", length(outer_))
        .add("inner_diameter", length(inner_))
        .add("swept_inner_diameter", length(swept_))
        .add("thickness", length(thickness))
        .add("material", chance_.of(materials_));
    const double cheek = thickness * chance_.uniform(0.1, 0.48);
    if (cheek > 0.001 && chance_.one_in(2)) {
      const int count = chance_.whole(1, 120);
      const double vane = std::numbers::pi * inner_ / count * chance_.uniform(0.05, 0.95);
      ring.add("kind", "vented")
          .add("cheek_thickness", length(std::min(cheek, 0.05)))
          .add("vanes", Map()
                            .add("count", std::to_string(count))
                            .add("thickness", length(std::clamp(vane, 0.0005, 0.05)))
                            .text());
    } else {
      ring.add("kind", "solid");
    }
    add_keys(ring, below(io::rotor_section(), "ring"), chance_);
    return ring.text();
  }

  std::string joint() {
    bolt_ = chance_.uniform(0.003, std::min(0.02, std::max(0.0031, 0.08 * inner_)));
    circle_ = std::min(swept_ - 1.1 * bolt_, inner_ + chance_.uniform(-0.05, 0.05));
    const double pitch = std::numbers::pi * circle_ / bolt_;
    Map joint;
    joint.add("kind", chance_.of<std::string>({"rigid", "floating", "one_piece"}))
        .add("fasteners", std::to_string(chance_.whole(3, std::clamp(static_cast<int>(pitch / 1.5), 3, 60))))
        .add("bolt_circle", length(circle_))
        .add("fastener_diameter", length(bolt_))
        .add("float", length(chance_.spread(
                          0.00001, std::max(0.00002, std::min(0.3 * bolt_, 0.5 * (swept_ - circle_ - bolt_))))))
        .add("material", chance_.of(materials_));
    add_keys(joint, below(io::rotor_section(), "joint"), chance_);
    return joint.text();
  }

  std::string hat() {
    const double outer = std::max(0.02, (circle_ - bolt_) * chance_.uniform(0.5, 0.99));
    const double depth = chance_.spread(0.003, 0.3);
    Map hat;
    hat.add("outer_diameter", length(outer))
        .add("wall_thickness", length(std::clamp(outer * chance_.uniform(0.005, 0.4), 0.001, 0.05)))
        .add("depth", length(depth))
        .add("face_thickness", length(std::clamp(depth * chance_.uniform(0.02, 0.98), 0.001, 0.05)))
        .add("material", chance_.of(materials_));
    add_keys(hat, below(io::rotor_section(), "hat"), chance_);
    return hat.text();
  }

  std::string initial() {
    Map initial;
    initial.add("default", chance_.uniform(220, 700), "K");
    for (const char* node : {"ring_mean", "hat_bell", "caliper", "fluid", "pad_outboard"})
      if (chance_.one_in(4)) initial.add(node, chance_.uniform(220, 1200), "K");
    return initial.text();
  }

  std::string physics() {
    Map physics;
    physics.add("mesh", chance_.one_in(10) ? "standard" : chance_.one_in(3) ? "coarse" : "lump");
    if (chance_.one_in(6)) physics.add("convection", Map().add("constant", chance_.spread(0.01, 1e5), "W/m2/K").text());
    if (chance_.one_in(6)) physics.add("partition", fmt::format("{:.3f}", chance_.uniform(0, 1)));
    if (chance_.one_in(6)) physics.add("links", Map().add("hat_hub", chance_.spread(1e-6, 1e6), "W/K").text());
    add_keys(physics, io::physics_section(), chance_);
    return physics.text();
  }

  // A lap whose speed rises and falls as hard as a car's can, and harder.
  std::string trace() {
    std::vector<double> time{0}, speed{chance_.uniform(0, 60)};
    const int pieces = chance_.whole(1, 12);
    for (int i = 0; i < pieces; ++i) {
      const double change = chance_.uniform(-14, 9), lasts = chance_.spread(0.3, 8);
      const double next = std::clamp(speed.back() + change * lasts, 0.0, 110.0);
      constexpr int kParts = 8;
      const double from_time = time.back(), from_speed = speed.back();
      for (int k = 1; k <= kParts; ++k) {
        time.push_back(from_time + lasts * k / kParts);
        speed.push_back(from_speed + (next - from_speed) * k / kParts);
      }
    }
    Map trace;
    trace.add("time", channel("s", time)).add("speed", channel("m/s", speed));
    if (chance_.one_in(4)) {
      std::vector<double> grade;
      for (std::size_t i = 0; i < time.size(); ++i) grade.push_back(chance_.uniform(-0.12, 0.12));
      trace.add("grade", channel("1", grade));
    }
    return trace.text();
  }

  std::string channel(const char* unit, const std::vector<double>& values) {
    return fmt::format("{{unit: \"{}\", values: [{:.5f}]}}", unit, fmt::join(values, ", "));
  }

  std::string session() {
    std::string out;
    const int steps = chance_.whole(1, 4);
    for (int i = 0; i < steps; ++i) out += (i == 0 ? "" : ", ") + step();
    return fmt::format("[{}]", out);
  }

  std::string step() {
    switch (chance_.whole(0, 5)) {
      case 0:
        return Map().add("park", chance_.spread(0.5, 7200), "s").text();
      case 1:
        return Map().add("roll", chance_.spread(0.5, 300), "s").add("speed", chance_.uniform(0.1, 16), "m/s").text();
      case 2: {
        const double from = chance_.spread(2, 100), to = from * chance_.uniform(0, 0.95);
        const double deceleration = chance_.spread(0.5, 20);
        return Map()
            .add("snubs", Map()
                              .add("count", std::to_string(chance_.whole(1, 8)))
                              .add("from", from, "m/s")
                              .add("to", to, "m/s")
                              .add("deceleration", deceleration, "m/s2")
                              .add("every", (from - to) / deceleration + chance_.spread(2, 120), "s")
                              .text())
            .text();
      }
      case 3:
        return Map()
            .add("hold", chance_.spread(0.5, 300), "s")
            .add("speed", chance_.uniform(0, 100), "m/s")
            .add("heat", Map().add("from", chance_.spread(1, 2e5), "W").add("to", chance_.spread(1, 2e5), "W").text())
            .text();
      default:
        return Map()
            .add("laps", std::to_string(chance_.whole(1, 3)))
            .add("trace", trace())
            .add("pace", chance_.uniform(0.3, 1.2), "")
            .text();
    }
  }

  Chance chance_;
  std::vector<std::string> materials_;                                // that a disc can be of
  double outer_ = 0, inner_ = 0, swept_ = 0, bolt_ = 0, circle_ = 0;  // of the disc at hand [m]
};

}  // namespace

std::string random_case(std::uint64_t seed) {
  return Drawing(seed).session_file();
}

}  // namespace hatring::tests
