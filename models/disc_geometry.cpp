// SPDX-License-Identifier: MIT
#include "models/disc_geometry.hpp"

#include <numbers>
#include <stdexcept>

namespace hatring::models {
namespace {

using std::numbers::pi;

void require(bool condition, const char* message) {
  if (!condition) throw std::invalid_argument(message);
}

double vane_length(const VaneGeometry& vanes) {
  return vanes.outer_radius - vanes.inner_radius;
}

void check(const VaneGeometry& vanes) {
  require(vanes.inner_radius > 0 && vanes.outer_radius > vanes.inner_radius,
          "vanes: 0 < inner radius < outer radius needed");
  require(vanes.height > 0 && vanes.thickness > 0 && vanes.count > 0,
          "vanes: height, thickness and count must be positive");
}

}  // namespace

double annulus_area(double inner_radius, double outer_radius) {
  require(inner_radius >= 0 && outer_radius >= inner_radius, "annulus: 0 <= inner radius <= outer radius needed");
  return pi * (outer_radius * outer_radius - inner_radius * inner_radius);
}

double annulus_volume(double inner_radius, double outer_radius, double thickness) {
  require(thickness >= 0, "annulus: thickness must not be negative");
  return annulus_area(inner_radius, outer_radius) * thickness;
}

double vane_open_area(const VaneGeometry& vanes, double radius) {
  check(vanes);
  const double open_arc = 2 * pi * radius - vanes.count * vanes.thickness;
  require(open_arc > 0, "vanes: no room is left between them");
  return open_arc * vanes.height;
}

double vane_inlet_area(const VaneGeometry& vanes) {
  return vane_open_area(vanes, vanes.inner_radius);
}

double vane_outlet_area(const VaneGeometry& vanes) {
  return vane_open_area(vanes, vanes.outer_radius);
}

double vane_hydraulic_diameter(const VaneGeometry& vanes) {
  const double area = vane_open_area(vanes, (vanes.inner_radius + vanes.outer_radius) / 2) / vanes.count;
  const double width = area / vanes.height;
  return 2 * area / (width + vanes.height);
}

double vane_wetted_area(const VaneGeometry& vanes) {
  const double passage_width = vane_open_area(vanes, (vanes.inner_radius + vanes.outer_radius) / 2) / vanes.height;
  return 2 * vane_length(vanes) * (passage_width + vanes.count * vanes.height);
}

double vane_volume(const VaneGeometry& vanes) {
  check(vanes);
  return vanes.count * vanes.thickness * vanes.height * vane_length(vanes);
}

double vented_ring_volume(double cheek_thickness, const VaneGeometry& vanes) {
  return 2 * annulus_volume(vanes.inner_radius, vanes.outer_radius, cheek_thickness) + vane_volume(vanes);
}

HatVolumes hat_volumes(const HatGeometry& hat) {
  require(hat.wall_thickness >= 0 && hat.wall_thickness <= hat.bell_outer_radius,
          "hat: wall thicker than the bell's radius");
  require(hat.depth >= hat.face_thickness, "hat: depth is less than the face thickness");
  return {
      annulus_volume(hat.bell_outer_radius, hat.flange_outer_radius, hat.flange_thickness),
      annulus_volume(hat.bell_outer_radius - hat.wall_thickness, hat.bell_outer_radius, hat.depth - hat.face_thickness),
      annulus_volume(hat.face_bore_radius, hat.bell_outer_radius, hat.face_thickness)};
}

double annulus_gyration(double inner_radius, double outer_radius) {
  require(inner_radius >= 0 && outer_radius >= inner_radius, "annulus: 0 <= inner radius <= outer radius needed");
  return 0.5 * (inner_radius * inner_radius + outer_radius * outer_radius);
}

double vane_gyration(const VaneGeometry& v) {
  check(v);
  return (v.inner_radius * v.inner_radius + v.inner_radius * v.outer_radius + v.outer_radius * v.outer_radius) / 3;
}

double vented_ring_gyration(double cheek_thickness, const VaneGeometry& v) {
  const double whole = vented_ring_volume(cheek_thickness, v), vanes = vane_volume(v);
  return ((whole - vanes) * annulus_gyration(v.inner_radius, v.outer_radius) + vanes * vane_gyration(v)) / whole;
}

double hat_gyration(const HatGeometry& hat) {
  const HatVolumes volume = hat_volumes(hat);
  const double bell = hat.bell_outer_radius;
  return (volume.flange * annulus_gyration(bell, hat.flange_outer_radius) +
          volume.wall * annulus_gyration(bell - hat.wall_thickness, bell) +
          volume.face * annulus_gyration(hat.face_bore_radius, bell)) /
         (volume.flange + volume.wall + volume.face);
}

}  // namespace hatring::models
