// SPDX-License-Identifier: MIT
#include "tools/cli/run_json.hpp"

#include "tools/cli/pedal_json.hpp"

namespace hatring::tools {

using nlohmann::json;

json place_json(const answer::Place& p) {
  return {{"time", p.time}, {"lap", p.lap}, {"span", p.span}, {"lap_distance", p.lap_distance}};
}

json verdict_json(const answer::Verdict& v) {
  json out{{"axle", v.axle},
           {"key", v.key},
           {"part", v.part},
           {"aspect", v.aspect},
           {"what", v.what},
           {"level", answer::to_string(v.level)},
           {"value", v.value},
           {"limit", v.limit},
           {"margin", v.margin},
           {"unit", v.unit},
           {"time", v.place.time},
           {"lap", v.place.lap},
           {"span", v.place.span},
           {"distance", v.place.lap_distance},
           {"lap_distance", v.place.lap_distance},
           {"reason", v.reason},
           {"advice", v.advice}};
  if (v.band) {
    out["value_low"] = v.band->low;
    out["value_high"] = v.band->high;
    out["sure"] = v.sure;
  }
  if (v.doubt) out["doubt"] = doubt_json(*v.doubt);
  if (v.since) out["since"] = place_json(*v.since);
  return out;
}

json balance_json(const answer::Balance& b) {
  return {{"friction", b.friction},     {"to_ring", b.to_ring},     {"to_pads", b.to_pads},   {"stored", b.stored},
          {"convection", b.convection}, {"radiation", b.radiation}, {"to_wheel", b.to_wheel}, {"residual", b.residual}};
}

json joint_json(const answer::JointAnswer& j) {
  json out{{"applicable", j.applicable}};
  if (!j.applicable) return out;
  out["largest"] = j.largest;
  out["smallest"] = j.smallest;
  out["largest_place"] = place_json(j.largest_place);
  out["smallest_place"] = place_json(j.smallest_place);
  out["sign_changes"] = json::array();
  for (const answer::Place& p : j.sign_changes) out["sign_changes"].push_back(place_json(p));
  out["float_clearance"] = j.float_clearance;
  out["swings"] = j.swings;
  out["largest_swing"] = j.largest_swing;
  out["needed_float"] = j.needed_float;
  if (j.needed_band) {
    out["needed_float_low"] = j.needed_band->low;
    out["needed_float_high"] = j.needed_band->high;
  }
  return out;
}

namespace {

json rates_json(const answer::AxleAnswers& a) {
  json out = json::array();
  for (const answer::RateRow& r : a.rates)
    out.push_back({{"name", r.name},
                   {"what", r.what},
                   {"unit", r.unit},
                   {"rise", r.rise},
                   {"fall", r.fall},
                   {"rise_place", place_json(r.rise_place)},
                   {"fall_place", place_json(r.fall_place)}});
  return out;
}

json extremes_json(const answer::AxleAnswers& a) {
  json out = json::array();
  for (const answer::Extreme& e : a.extremes)
    out.push_back({{"group", e.group},
                   {"name", e.name},
                   {"what", e.what},
                   {"unit", e.unit},
                   {"highest", e.highest},
                   {"lowest", e.lowest},
                   {"highest_place", place_json(e.highest_place)},
                   {"lowest_place", place_json(e.lowest_place)}});
  return out;
}

json damage_json(const answer::AxleAnswers& a) {
  json out = json::array();
  for (const answer::DamageRow& d : a.damage)
    out.push_back({{"part", d.part},
                   {"what", d.what},
                   {"per_session", d.per_session},
                   {"before", d.before},
                   {"sessions_left", d.sessions_left},
                   {"life_band", answer::kLifeBand},
                   {"cycles", d.cycles},
                   {"largest_range", d.largest_range},
                   {"largest_share", d.largest_share}});
  return out;
}

json softening_json(const answer::AxleAnswers& a) {
  const answer::SofteningAnswer& s = a.softening;
  json out{{"applicable", s.applicable}};
  if (!s.applicable) return out;
  out["share"] = s.share;
  out["share_before"] = s.share_before;
  out["strength_left"] = s.strength_left;
  out["strength_left_before"] = s.strength_left_before;
  out["time_above"] = json::array();
  for (const auto& [temperature, time] : s.time_above)
    out["time_above"].push_back({{"temperature", temperature}, {"time", time}});
  return out;
}

json quenches_json(const answer::AxleAnswers& a) {
  json out = json::array();
  for (const answer::QuenchRow& q : a.quenches)
    out.push_back({{"place", place_json(q.place)},
                   {"face", q.face},
                   {"drop", q.drop},
                   {"stress", q.stress},
                   {"utilisation", q.utilisation}});
  return out;
}

}  // namespace

void add_wear_and_tear(json& out, const answer::Answers& a) {
  out["rates"] = both_axles(a, rates_json);
  out["extremes"] = both_axles(a, extremes_json);
  out["damage"] = both_axles(a, damage_json);
  out["softening"] = both_axles(a, softening_json);
  out["wet_patches"] = both_axles(a, quenches_json);
}

json fluid_json(const answer::FluidAnswer& f) {
  return {{"peak", f.peak},   {"boiling_dry", f.boiling_dry},   {"boiling_wet", f.boiling_wet},
          {"water", f.water}, {"boiling_aged", f.boiling_aged}, {"boiling_judged", f.boiling_judged},
          {"basis", f.basis}, {"place", place_json(f.place)},   {"after_parking", f.after_parking}};
}

json masses_json(const answer::AxleAnswers& a) {
  return {{"ring", a.ring_mass},
          {"hat", a.hat_mass},
          {"corner", a.corner_mass},
          {"rotating", a.rotating_mass},
          {"inertia", a.rotating_inertia}};
}

json peaks_json(const answer::AxleAnswers& a) {
  json out = json::object();
  for (const auto& [name, peak] : a.peaks) {
    json& p = out[name] = place_json(peak.place);
    p["value"] = peak.value;
    if (!peak.band) continue;
    p["value_low"] = peak.band->low;
    p["value_high"] = peak.band->high;
    if (peak.median) p["value_likely"] = *peak.median;
  }
  return out;
}

namespace {

json work_json(const answer::SolverWork& w) {
  return {{"seconds", w.seconds},
          {"steps", w.steps},
          {"rejected", w.rejected},
          {"right_hand_sides", w.right_hand_sides},
          {"factorisations", w.factorisations}};
}

}  // namespace

json run_json(const answer::Run& run, double wall_seconds) {
  const answer::Answers& a = run.answers;
  json out{{"sentence", a.sentence}, {"level", answer::to_string(a.level)}, {"warnings", a.warnings}};
  out["verdicts"] = json::array();
  for (const answer::Verdict& v : a.verdicts) out["verdicts"].push_back(verdict_json(v));
  if (a.full_band) out["full_band"] = full_band_json(*a.full_band);
  out["peaks"] = both_axles(a, peaks_json);
  out["joint"] = both_axles(a, [](const answer::AxleAnswers& x) { return joint_json(x.joint); });
  add_wear_and_tear(out, a);
  add_pedal(out, a);
  out["fluid"] = both_axles(a, [](const answer::AxleAnswers& x) { return fluid_json(x.fluid); });
  out["balance"] = both_axles(a, [](const answer::AxleAnswers& x) { return balance_json(x.balance); });
  out["masses"] = both_axles(a, masses_json);
  out["timing"] = {{"wall_seconds", wall_seconds},
                   {"front", work_json(run.history.front_work)},
                   {"rear", work_json(run.history.rear_work)}};
  return out;
}

}  // namespace hatring::tools
