// SPDX-License-Identifier: MIT
// Half a cross-section of a disc with its pads and caliper, as shapes in metres: x from outboard (negative, wheel side)
// to inboard with zero at the ring's mid-plane, r from the axle outwards.

export interface Geometry {
  name?: string;
  ring: {
    kind: 'vented' | 'solid';
    outer_diameter: number;
    inner_diameter: number;
    swept_inner_diameter: number;
    thickness: number;
    cheek_thickness: number;
    vanes: number;
  };
  hat: {
    outer_diameter: number;
    wall_thickness: number;
    flange_thickness: number;
    face_thickness: number;
    depth: number;
    flange_outer_radius: number;
    hole_diameter: number;
  };
  joint: {
    kind: 'rigid' | 'floating' | 'one_piece';
    fasteners: number;
    bolt_circle: number;
    fastener_diameter: number;
    head_diameter: number;
    lug_end_radius: number;
    lug_thickness: number;
  };
  pads: { thickness: number; backing_thickness: number };
  caliper: { pistons: number; piston_diameter: number; piston_length: number };
}

export interface Shape {
  key: string; // temperature that shades it, empty for none
  x: [number, number];
  r: [number, number];
  style?: 'sketch' | 'open';
}

export interface Anchor {
  key: string;
  x: number;
  r: number;
  side: 'left' | 'right';
}

export interface Drawing {
  shapes: Shape[]; // back to front
  anchors: Anchor[];
  x: [number, number];
  top: number;
}

// Drawn, not known: nothing in the config says how big these are.
const kCaliperWall = 0.008;
const kBridgeGap = 0.004;
const kBridge = 0.012;
const kFluidBehindPiston = 0.005;
const kSkin = 0.0025; // of faces and pads, so that their temperature can be seen
const kHubLength = 0.03;

const middle = ([a, b]: [number, number]): number => (a + b) / 2;

function ringOf({ ring }: Geometry): Shape[] {
  const half = ring.thickness / 2;
  const r: [number, number] = [ring.inner_diameter / 2, ring.outer_diameter / 2];
  const swept: [number, number] = [ring.swept_inner_diameter / 2, r[1]];
  const skin = Math.min(kSkin, (ring.kind === 'vented' ? ring.cheek_thickness : half) / 2);
  const shapes: Shape[] = [{ key: 'ring_mean', x: [-half, half], r }];
  if (ring.kind === 'vented') {
    const gap = half - ring.cheek_thickness;
    shapes.push({ key: '', x: [-gap, gap], r, style: 'open' });
  }
  shapes.push(
    { key: 'ring_face_outboard', x: [-half, -half + skin], r: swept },
    { key: 'ring_face_inboard', x: [half - skin, half], r: swept },
  );
  return shapes;
}

function hatOf({ ring, hat, joint }: Geometry): Shape[] {
  const seat = -ring.thickness / 2; // plane between flange and lugs
  const end = seat - hat.depth;
  const wall: [number, number] = [hat.outer_diameter / 2 - hat.wall_thickness, hat.outer_diameter / 2];
  const onePiece = joint.kind === 'one_piece';
  const flange: [number, number] = onePiece ? [seat, seat + hat.flange_thickness] : [seat - hat.flange_thickness, seat];
  return [
    { key: 'hat_bell', x: [end, flange[1]], r: wall },
    { key: 'hat_flange', x: flange, r: [wall[1], hat.flange_outer_radius] },
    { key: 'hat_face', x: [end, end + hat.face_thickness], r: [hat.hole_diameter / 2, wall[1]] },
  ];
}

function jointOf({ ring, hat, joint }: Geometry): Shape[] {
  if (joint.kind === 'one_piece') return [];
  const seat = -ring.thickness / 2;
  const bolt = joint.bolt_circle / 2;
  const head = 0.6 * joint.fastener_diameter;
  const ends: [number, number] = [seat - hat.flange_thickness, seat + joint.lug_thickness];
  const across = (diameter: number): [number, number] => [bolt - diameter / 2, bolt + diameter / 2];
  return [
    { key: 'ring_lug', x: [seat, ends[1]], r: [joint.lug_end_radius, ring.inner_diameter / 2] },
    { key: 'fastener', x: ends, r: across(joint.fastener_diameter) },
    { key: 'fastener', x: [ends[0] - head, ends[0]], r: across(joint.head_diameter) },
    { key: 'fastener', x: [ends[1], ends[1] + head], r: across(joint.head_diameter) },
  ];
}

/** Pads, pistons, fluid and caliper of one side; `sign` is -1 outboard. */
function sideOf({ ring, pads, caliper }: Geometry, sign: -1 | 1): { shapes: Shape[]; outer: number } {
  const swept: [number, number] = [ring.swept_inner_diameter / 2, ring.outer_diameter / 2];
  const mid = middle(swept);
  const reach = Math.min(caliper.piston_diameter, 1.1 * (swept[1] - swept[0])) / 2;
  const x = (from: number, to: number): [number, number] => (sign < 0 ? [-to, -from] : [from, to]);
  const face = ring.thickness / 2;
  const pad = face + pads.thickness;
  const backing = pad + pads.backing_thickness;
  const piston = backing + caliper.piston_length;
  const fluid = piston + kFluidBehindPiston;
  const outer = fluid + kCaliperWall;
  const low = Math.min(swept[0], mid - reach - kCaliperWall);
  const shapes: Shape[] = [{ key: 'caliper', x: x(backing, outer), r: [low, swept[1] + kBridgeGap], style: 'sketch' }];
  if (sign > 0 || caliper.pistons > 1) {
    shapes.push(
      { key: 'piston', x: x(backing, piston), r: [mid - reach, mid + reach], style: 'sketch' },
      { key: 'fluid', x: x(piston, fluid), r: [mid - reach, mid + reach], style: 'sketch' },
    );
  }
  shapes.push(
    { key: 'backing_plate', x: x(pad, backing), r: swept },
    { key: '', x: x(face, pad), r: swept },
    {
      key: sign < 0 ? 'pad_outboard' : 'pad_inboard',
      x: x(face, face + Math.min(kSkin, pads.thickness)),
      r: swept,
    },
  );
  return { shapes, outer };
}

function hubOf({ ring, hat }: Geometry): Shape {
  const seat = -ring.thickness / 2 - hat.depth + hat.face_thickness;
  const r = hat.outer_diameter / 2 - hat.wall_thickness;
  return { key: 'hub', x: [seat, seat + kHubLength], r: [0, 0.85 * r], style: 'sketch' };
}

// Where the line from a label ends on its part: at these shares of its first shape's width and height.
const kAnchors: Record<string, { side: Anchor['side']; x: number; r: number }> = {
  caliper: { side: 'left', x: 0.2, r: 0.95 },
  backing_plate: { side: 'left', x: 0.5, r: 0.93 },
  pad_outboard: { side: 'left', x: 0.5, r: 0.72 },
  ring_face_outboard: { side: 'left', x: 0.5, r: 0.4 },
  hat_flange: { side: 'left', x: 0.5, r: 0.12 },
  fastener: { side: 'left', x: 0.25, r: 0.5 },
  hat_bell: { side: 'left', x: 0.35, r: 0.5 },
  hat_face: { side: 'left', x: 0.5, r: 0.4 },
  fluid: { side: 'right', x: 0.5, r: 0.9 },
  piston: { side: 'right', x: 0.7, r: 0.66 },
  pad_inboard: { side: 'right', x: 0.5, r: 0.5 },
  ring_face_inboard: { side: 'right', x: 0.5, r: 0.25 },
  ring_mean: { side: 'right', x: 0.88, r: 0.05 },
  ring_lug: { side: 'right', x: 0.7, r: 0.75 },
  hub: { side: 'right', x: 0.7, r: 0.5 },
};

export function drawingOf(g: Geometry): Drawing {
  const rim = g.ring.outer_diameter / 2 + kBridgeGap;
  const [outboard, inboard] = [sideOf(g, -1), sideOf(g, 1)];
  const bridge: Shape = {
    key: 'caliper',
    x: [-outboard.outer, inboard.outer],
    r: [rim, rim + kBridge],
    style: 'sketch',
  };
  const shapes = [hubOf(g), bridge, ...outboard.shapes, ...inboard.shapes, ...ringOf(g), ...hatOf(g), ...jointOf(g)];
  const anchors: Anchor[] = [];
  for (const [key, at] of Object.entries(kAnchors)) {
    const found = shapes.filter((shape) => shape.key === key);
    const shape = at.side === 'left' ? found[0] : found[found.length - 1];
    if (!shape) continue;
    const inside = ([from, to]: [number, number], share: number): number => from + share * (to - from);
    anchors.push({ key, side: at.side, x: inside(shape.x, at.x), r: inside(shape.r, at.r) });
  }
  return {
    shapes,
    anchors,
    x: [
      Math.min(...shapes.map(({ x }) => x[0])),
      Math.max(...shapes.map(({ x }) => x[1])),
    ],
    top: rim + kBridge,
  };
}
