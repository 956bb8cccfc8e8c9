// SPDX-License-Identifier: MIT
// How each part is drawn: a letter and a dash pattern of its own; the colour only tells the family.

import { svg } from './dom';
import type { Axle, Run } from './run';
import { limitOf } from './run';

export interface Pen {
  letter: string;
  ink: string; // custom property of the style sheet that holds the colour
  dash: number[];
  width: number;
}

export interface Part extends Pen {
  key: string;
  name: string;
  limit: string; // key in the run's limits, empty for none
}

const part = (key: string, letter: string, name: string, ink: string, dash: number[], limit = ''): Part => ({
  key,
  letter,
  name,
  ink,
  dash,
  limit,
  width: dash.length === 0 ? 2 : 2.5,
});

export const kParts: readonly Part[] = [
  part('ring_face_outboard', 'A', 'Ring face, outboard', 'ring', [], 'ring_face'),
  part('ring_face_inboard', 'B', 'Ring face, inboard', 'ring', [2, 3], 'ring_face'),
  part('ring_mean', 'C', 'Ring bulk (mean)', 'ring', [12, 5], 'ring_mean'),
  part('ring_lug', 'D', 'Ring lug', 'ring', [12, 4, 2, 4]),
  part('hat_flange', 'E', 'Hat flange', 'hat', [7, 4], 'hat'),
  part('hat_bell', 'F', 'Hat bell', 'hat', [2, 4], 'hat'),
  part('hat_face', 'G', 'Hat face', 'hat', [14, 4, 3, 4, 3, 4], 'hat'),
  part('fastener', 'H', 'Fastener', 'steel', [4, 4], 'fastener'),
  part('pad_outboard', 'I', 'Pad, outboard', 'pad', [], 'pad'),
  part('pad_inboard', 'J', 'Pad, inboard', 'pad', [3, 3], 'pad'),
  part('backing_plate', 'K', 'Backing plate', 'pad', [10, 4]),
  part('piston', 'L', 'Piston', 'caliper', [2, 3]),
  part('caliper', 'M', 'Caliper', 'caliper', [10, 3, 2, 3], 'caliper'),
  part('fluid', 'N', 'Brake fluid', 'fluid', [4, 2], 'fluid'),
  part('hub', 'O', 'Hub', 'hub', [16, 5]),
];

export const kUsualParts: readonly string[] = ['ring_face_outboard', 'ring_mean', 'hat_flange', 'caliper', 'fluid'];

export const kGrowth: Pen = { letter: 'A', ink: 'ring', dash: [], width: 2 };
export const kOutward: Pen = { letter: 'B', ink: 'hat', dash: [10, 4], width: 2.5 };
export const kInward: Pen = { letter: 'C', ink: 'fluid', dash: [3, 3], width: 2.5 };
export const kCold: Pen = { letter: 'C', ink: 'steel', dash: [3, 3], width: 2.5 };
export const kFriction: Pen = { letter: 'A', ink: 'pad', dash: [], width: 2 };
export const kPressure: Pen = { letter: 'B', ink: 'fluid', dash: [10, 4], width: 2.5 };
export const kSpeed: Pen = { letter: '', ink: 'ink', dash: [], width: 1.5 };

/** The parts this run has, with the run's own long names. */
export function partsOf(run: Run, axle: Axle): Part[] {
  const columns = run.series?.[axle]?.temperature ?? {};
  return kParts
    .filter(({ key }) => columns[key]?.some((value) => value !== null))
    .map((known) => ({ ...known, name: run.labels?.[known.key] ?? known.name }));
}

// What each limit is held against.
export const kLimitNames: Record<string, string> = {
  ring_face: 'ring face',
  ring_mean: 'ring bulk',
  hat: 'hat flange',
  fastener: 'fastener',
  pad: 'pad surface',
  caliper: 'caliper body',
  fluid: 'brake fluid',
};

/** The limits of these parts, each once; fluid without a limit of its own is held against its wet boiling point. */
export function limitsOf(run: Run, axle: Axle, parts: readonly Part[]): { name: string; value: number }[] {
  const found = new Map<string, { name: string; value: number }>();
  for (const { limit } of parts) {
    const value = limit ? limitOf(run, limit, axle) : null;
    if (value !== null) found.set(limit, { name: `limit, ${kLimitNames[limit] ?? limit}`, value });
  }
  const wet = run.fluid?.[axle]?.boiling_wet;
  if (!found.has('fluid') && wet && parts.some(({ key }) => key === 'fluid')) {
    found.set('fluid', { name: 'wet fluid boils', value: wet });
  }
  return [...found.values()];
}

/** The line of a part as it looks in the charts. */
export function sample(pen: Pen): SVGElement {
  return svg(
    'svg',
    { class: `sample ink-${pen.ink}`, viewBox: '0 0 44 12', width: 44, height: 12, 'aria-hidden': 'true' },
    svg('line', {
      x1: 1,
      x2: 43,
      y1: 6,
      y2: 6,
      stroke: 'currentColor',
      'stroke-width': pen.width + 0.5,
      'stroke-dasharray': pen.dash.join(' ') || 'none',
    }),
  );
}
