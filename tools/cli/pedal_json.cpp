// SPDX-License-Identifier: MIT
#include "tools/cli/pedal_json.hpp"

#include "tools/cli/json_list.hpp"
#include "tools/cli/run_json.hpp"

namespace hatring::tools {

using nlohmann::json;

namespace {

json axle_json(const answer::PedalAnswer& p) {
  if (!p.applicable) return {{"applicable", false}};
  return {{"applicable", true},
          {"lowest_friction", p.lowest_friction},
          {"highest_friction", p.highest_friction},
          {"highest_pressure", p.highest_pressure},
          {"highest_pressure_place", place_json(p.highest_pressure_place)},
          {"reference_friction", p.reference_friction},
          {"fade", p.fade},
          {"fade_place", place_json(p.fade_place)},
          {"growth", p.growth},
          {"growth_place", place_json(p.growth_place)}};
}

json corner_axle_json(const answer::CornerAxle& c) {
  return {{"friction", c.friction},   {"lowest_friction", c.lowest_friction},
          {"pressure", c.pressure},   {"mean_pressure", c.mean_pressure},
          {"growth", c.growth},       {"fade", c.fade},
          {"face_peak", c.face_peak}, {"face_mean", c.face_mean},
          {"face_rise", c.face_rise}, {"bulk_rise", c.bulk_rise},
          {"share", c.share}};
}

json corner_json(const answer::Corner& c) {
  return {{"place", place_json(c.place)},
          {"number", c.number},
          {"duration", c.duration},
          {"entry_speed", c.entry_speed},
          {"exit_speed", c.exit_speed},
          {"effort", c.effort},
          {"brakes_used", c.brakes_used},
          {"tyres_used", c.tyres_used},
          {"limited_by", c.limited_by()},
          {"reachable", c.reachable},
          {"longer", c.longer},
          {"ideal_front_share", c.ideal_front_share},
          {"front", corner_axle_json(c.front)},
          {"rear", corner_axle_json(c.rear)}};
}

json pedal_lap_json(const answer::PedalLap& l) {
  return {{"lap", l.lap},
          {"label", l.label},
          {"effort", l.effort},
          {"front_pressure", l.front_pressure},
          {"rear_pressure", l.rear_pressure},
          {"front_friction", l.front_friction},
          {"rear_friction", l.rear_friction},
          {"growth", l.growth},
          {"front_share", l.front_share}};
}

}  // namespace

json pedal_json(const answer::Answers& a) {
  const answer::PedalCar& p = a.pedal;
  json car{{"effort_known", p.effort_known},
           {"largest_effort", p.largest_effort},
           {"unreachable", p.unreachable},
           {"longer", p.longer}};
  if (p.effort_known) {
    car["highest_effort"] = p.highest_effort;
    car["highest_effort_place"] = place_json(p.highest_effort_place);
  }
  if (p.unreachable > 0) car["longer_place"] = place_json(p.longer_place);
  return {{"front", axle_json(a.front.pedal)},
          {"rear", axle_json(a.rear.pedal)},
          {"car", std::move(car)},
          {"corners", json_list(p.corners, corner_json)},
          {"laps", json_list(p.laps, pedal_lap_json)}};
}

json pads_json(const answer::PadAnswer& p) {
  return {{"below_window", p.below},
          {"inside_window", p.inside},
          {"above_window", p.above},
          {"worn", p.worn},
          {"left", p.left},
          {"minimum", p.minimum},
          {"sessions_left", p.sessions_left},
          {"ring_worn", p.ring_worn},
          {"ring_left", p.ring_left},
          {"ring_minimum", p.ring_minimum},
          {"ring_sessions_left", p.ring_sessions_left},
          {"ring_capacity", p.ring_capacity},
          {"ring_capacity_at_minimum", p.ring_capacity_at_minimum}};
}

json bedding_json(const answer::BeddingAnswer& b) {
  if (!b.applicable) return {{"applicable", false}};
  return {{"applicable", true},
          {"band_low", b.band_low},
          {"band_high", b.band_high},
          {"ceiling", b.ceiling},
          {"reached", b.reached},
          {"over", b.over},
          {"stops", json_list(b.stops, [](const answer::BeddingStop& s) {
             return json{{"group", s.group},
                         {"number", s.number},
                         {"place", place_json(s.place)},
                         {"face_before", s.face_before},
                         {"face_peak", s.face_peak},
                         {"under_ceiling", s.under_ceiling},
                         {"reaches_band", s.reaches_band},
                         {"above_band", s.above_band}};
           })}};
}

json brake_balance_json(const answer::BrakeBalance& b) {
  return {{"law", b.law},
          {"runs", b.runs},
          {"change", b.change},
          {"settled", b.settled},
          {"lowest", b.lowest},
          {"highest", b.highest},
          {"rear_excess", b.rear_excess},
          {"rear_excess_place", place_json(b.rear_excess_place)}};
}

json symptoms_json(const std::vector<answer::Symptom>& symptoms) {
  return json_list(symptoms, [](const answer::Symptom& s) {
    return json{{"pedal", s.pedal}, {"cause", s.cause}, {"shows", s.shows}, {"action", s.action}, {"seen", s.seen}};
  });
}

void add_pedal(json& out, const answer::Answers& a) {
  out["pedal"] = pedal_json(a);
  out["pads"] = both_axles(a, [](const answer::AxleAnswers& x) { return pads_json(x.pads); });
  out["bedding"] = both_axles(a, [](const answer::AxleAnswers& x) { return bedding_json(x.bedding); });
  out["brake_balance"] = brake_balance_json(a.brake_balance);
  out["symptoms"] = symptoms_json(a.symptoms);
}

}  // namespace hatring::tools
