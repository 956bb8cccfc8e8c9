// SPDX-License-Identifier: MIT
#include "sim/session/road.hpp"

#include <fmt/format.h>

#include <cmath>

#include "models/air.hpp"
#include "sim/session/cubic.hpp"
#include "sim/session/error.hpp"

namespace hatring::session {
namespace {

void require(bool good, const char* key, double value, const char* wanted) {
  if (!good || !std::isfinite(value)) throw CaseError(fmt::format("{} = {:g}: it must be {}", key, value, wanted));
}

}  // namespace

Road road_of(const Case& c) {
  const Car& car = c.car;
  require(car.mass > 0, "car.mass", car.mass, "above 0 kg");
  require(car.rotating_factor >= 1, "car.rotating_factor", car.rotating_factor, "1 or more (1.02 to 1.08 is usual)");
  require(car.drag_area >= 0, "car.drag_area", car.drag_area, "0 m2 or more");
  require(car.rolling_resistance >= 0, "car.rolling_resistance", car.rolling_resistance, "0 or more");
  require(car.engine_drag >= 0, "car.engine_drag", car.engine_drag, "0 N or more");
  require(car.tyre_slip_share >= 0 && car.tyre_slip_share < 1, "car.tyre_slip_share", car.tyre_slip_share,
          "from 0 to below 1 (0.03 to 0.08 is usual)");
  require(c.brakes.front_share >= 0 && c.brakes.front_share <= 1, "brakes.front_share", c.brakes.front_share,
          "from 0 to 1");
  require(c.brakes.rise_time >= 0, "brakes.rise_time", c.brakes.rise_time, "0 s or more");
  require(c.brakes.dead_band >= 0, "brakes.dead_band", c.brakes.dead_band, "0 or more");
  require(c.brakes.hot_side_factor > 0, "brakes.hot_side_factor", c.brakes.hot_side_factor, "above 0");
  return {.load = {.mass = car.mass,
                   .rotating_factor = car.rotating_factor,
                   .drag_area = car.drag_area,
                   .rolling_resistance = car.rolling_resistance,
                   .air_density = models::air(c.air.temperature, c.air.pressure).density},
          .engine_drag = car.engine_drag};
}

double engine_force(const Road& road, double speed) {
  return road.engine_drag * smoothstep((speed - kEngineGone) / (kEngineFull - kEngineGone));
}

double brake_demand(const Road& road, double speed, double acceleration, double grade) {
  return models::retarding_demand(road.load, speed, acceleration, grade, engine_force(road, speed));
}

}  // namespace hatring::session
