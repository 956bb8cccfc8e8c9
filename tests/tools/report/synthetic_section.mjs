// SPDX-License-Identifier: MIT
// Adds to a made-up session what the cut through the disc, the margin bars and the session card show.

const kGeometry = {
  name: 'made-up disc',
  ring: {
    kind: 'vented',
    outer_diameter: 0.3,
    inner_diameter: 0.19,
    swept_inner_diameter: 0.2,
    thickness: 0.026,
    cheek_thickness: 0.008,
    vanes: 40,
  },
  hat: {
    outer_diameter: 0.15,
    wall_thickness: 0.006,
    flange_thickness: 0.007,
    face_thickness: 0.006,
    depth: 0.045,
    flange_outer_radius: 0.094,
    hole_diameter: 0.066,
  },
  joint: {
    kind: 'floating',
    fasteners: 10,
    bolt_circle: 0.172,
    fastener_diameter: 0.008,
    head_diameter: 0.014,
    lug_end_radius: 0.077,
    lug_thickness: 0.008,
  },
  pads: { thickness: 0.012, backing_thickness: 0.005 },
  caliper: { pistons: 4, piston_diameter: 0.038, piston_length: 0.025 },
};

const kOnePiece = {
  ...kGeometry,
  ring: { ...kGeometry.ring, kind: 'solid', cheek_thickness: 0, vanes: 0 },
  hat: { ...kGeometry.hat, flange_outer_radius: 0.095 },
  joint: {
    kind: 'one_piece',
    fasteners: 0,
    bolt_circle: 0,
    fastener_diameter: 0,
    head_diameter: 0,
    lug_end_radius: 0,
    lug_thickness: 0,
  },
  caliper: { pistons: 1, piston_diameter: 0.05, piston_length: 0.03 },
};

export function addSection(run) {
  // The rear disc of the made-up session has no joint.
  delete run.series.rear.temperature.ring_lug;
  delete run.series.rear.temperature.fastener;
  run.geometry = { front: kGeometry, rear: kOnePiece };
  run.peaks = {};
  for (const axle of ['front', 'rear']) {
    run.peaks[axle] = {};
    for (const [name, values] of Object.entries(run.series[axle].temperature)) {
      const value = Math.max(...values);
      run.peaks[axle][name] = { value, value_low: value - 40, value_high: value + 60 };
    }
  }
  for (const verdict of run.verdicts) {
    if (verdict.unit !== 'K' || verdict.limit === null) continue;
    const used = (value) => (value - 297) / (verdict.limit - 297);
    verdict.used = used(verdict.value);
    verdict.used_low = used(verdict.value - 40);
    verdict.used_high = used(verdict.value + 60);
  }
  return run;
}
