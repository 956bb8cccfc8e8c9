// SPDX-License-Identifier: MIT
#include "models/joint_load.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <numbers>
#include <stdexcept>

namespace hatring::models {
namespace {

using std::numbers::pi;

void all_positive(std::initializer_list<double> numbers, const char* what) {
  for (const double number : numbers)
    if (!(number > 0)) throw std::invalid_argument(what);
}

void check(const LapJoint& lap) {
  all_positive({lap.diameter, lap.thickness1, lap.thickness2, lap.modulus1, lap.modulus2, lap.modulus},
               "lap joint: every measure and modulus must be positive");
}

}  // namespace

double fastener_compliance(const LapJoint& lap) {
  check(lap);
  const double t1 = lap.thickness1, t2 = lap.thickness2, d2 = lap.diameter * lap.diameter, E = lap.modulus;
  const double shear = 32 * (t1 + t2) * (1 + lap.poisson) / (9 * E * pi * d2);
  const double bending =
      8 * (t2 * t2 * t2 + 5 * t2 * t2 * t1 + 5 * t2 * t1 * t1 + t1 * t1 * t1) / (5 * E * pi * d2 * d2);
  return shear + bending;
}

double hole_compliance(const LapJoint& lap) {
  check(lap);
  return 1 / (lap.modulus1 * lap.thickness1) + 1 / (lap.modulus2 * lap.thickness2) +
         1 / (lap.modulus * lap.thickness1) + 1 / (lap.modulus * lap.thickness2);
}

double lug_compliance(double length, double width, double thickness, double modulus) {
  all_positive({length, width, thickness, modulus}, "lug: every measure and the modulus must be positive");
  return length / (modulus * width * thickness);
}

JointLoad joint_load(const JointSprings& springs, const JointSetting& setting, double expansion, double tangential,
                     double preload) {
  if (setting.fasteners < 1 || setting.faces < 0)
    throw std::invalid_argument("joint: at least one fastener and no negative number of faces needed");
  all_positive({springs.ring, springs.flange}, "joint: stiffness of ring and flange must be positive");
  if (!(setting.clearance >= 0 && setting.friction >= 0 && springs.fastener >= 0 && springs.lug >= 0 && preload >= 0))
    throw std::invalid_argument("joint: clearance, friction, compliances and preload must not be negative");

  const double n = setting.fasteners, give = n / springs.ring + n / springs.flange;  // of ring and flange, per fastener
  const double hold = setting.friction * preload * setting.faces;
  const double radial_hold = std::sqrt(std::max(0.0, hold * hold - tangential * tangential));
  const double size = std::abs(expansion), start = radial_hold * give;  // expansion at which the faces begin to slide
  const double beyond = size - start - setting.clearance;

  JointLoad load;
  const double pressed = beyond > 0 ? beyond / (give + springs.fastener + springs.lug) : 0;
  const double radial = std::min(size / give, radial_hold) + pressed;
  load.total = std::hypot(radial, tangential);
  load.carried = std::hypot(pressed, std::max(0.0, std::abs(tangential) - hold));
  load.radial = std::copysign(radial, expansion);
  load.slip = size > start ? std::copysign(size - radial * give, expansion) : 0;
  if (beyond > 0 || std::abs(tangential) > hold)
    load.regime = JointRegime::bearing;
  else if (size > start)
    load.regime = JointRegime::slipping;
  return load;
}

double tangential_load(double torque, double bolt_radius, int fasteners, double sharing) {
  if (fasteners < 1 || !(bolt_radius > 0) || !(sharing >= 1 && sharing <= fasteners))
    throw std::invalid_argument(
        "tangential load: fasteners, a radius and a sharing factor from 1 to their number needed");
  return torque / (fasteners * bolt_radius) * sharing;
}

FastenerStress fastener_stress(const FastenerSection& section, double carried) {
  all_positive({section.area, section.diameter, section.hat_thickness, section.ring_thickness, section.lug_width,
                section.hole_diameter, section.lug_width - section.hole_diameter},
               "fastener: every measure must be positive and the lug wider than its hole");
  const double force = std::abs(carried), d = section.diameter;
  const double lever = (section.hat_thickness + section.ring_thickness) / 2 + section.gap;
  return {force / section.area, 32 * force * lever / 2 / (pi * d * d * d), force / (d * section.hat_thickness),
          force / (d * section.ring_thickness),
          force / ((section.lug_width - section.hole_diameter) * section.ring_thickness)};
}

}  // namespace hatring::models
