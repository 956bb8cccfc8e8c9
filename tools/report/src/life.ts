// SPDX-License-Identifier: MIT
// How long the parts last: fatigue, softening of the hat, wet patches.

import { capital, el, section, table } from './dom';
import type { Axle, Place, Run } from './run';
import { axlesOf } from './run';
import type { Store } from './state';
import { clock, percent, sessions, smallPercent, Units } from './units';

export interface Damage {
  part: string;
  what: string;
  per_session?: number | null;
  before?: number | null;
  sessions_left?: number | null;
  life_band: number;
  cycles?: number | null;
  largest_range?: number | null;
  largest_share?: number | null;
}

export interface Softening {
  applicable: boolean;
  share?: number | null;
  strength_left?: number | null;
  strength_left_before?: number | null;
  time_above?: { temperature: number; time: number }[];
}

type Triple = [number | null, number | null, number | null]; // least, likely, most

export interface WetPatch {
  place: Place;
  face: number | null;
  drop: Triple;
  stress: Triple;
  utilisation: Triple;
}

function lives(list: Damage[], axle: Axle): HTMLElement | null {
  if (list.length === 0) return null;
  return table({
    caption: `Life, ${axle} disc: further sessions like this one before cracks are likely`,
    head: [
      'Part',
      'Sessions left',
      'Of the damage, the one cycle from cold to hot',
      'Used by this session',
      'Used before',
    ],
    rows: list.map((row) => [
      capital(row.part),
      sessions(row.sessions_left, row.life_band),
      row.per_session ? percent(row.largest_share ?? 0) : '–',
      smallPercent(row.per_session),
      smallPercent(row.before),
    ]),
    words: true,
  });
}

function softened(answer: Softening | undefined, axle: Axle, units: Units): Node[] {
  if (!answer?.applicable) return [];
  return [
    el(
      'p',
      {},
      `The ${axle} hat keeps ${percent(answer.strength_left ?? 0)} of the proof strength of new metal after this ` +
        `session, ${percent(answer.strength_left_before ?? 0)} before it. Hours when hot add up for good.`,
    ),
    table({
      caption: `Hot time of the ${axle} hat in this session, at its flange`,
      head: ['Above', 'Time, min:s'],
      rows: (answer.time_above ?? []).map(({ temperature, time }) => [
        units.text('temperature', temperature),
        clock(time),
      ]),
    }),
  ];
}

function wet(patch: WetPatch, axle: Axle, units: Units): HTMLElement {
  const [least, likely, most] = patch.drop.map((drop) => units.text('difference', drop));
  const tension = patch.stress.map((stress) => units.text('stress', stress));
  const used = patch.utilisation.map((share) => percent(share ?? 0));
  return el(
    'li',
    {},
    `Caution, ${axle} faces at a wet patch (${units.place(patch.place)}), ${units.text('temperature', patch.face)} hot ` +
      `before it: their skin may fall by ${likely}, between ${least} and ${most}. That adds ${tension[1]} of tension, ` +
      `between ${tension[0]} and ${tension[2]}: ${used[1]} of the iron’s tensile strength there, between ` +
      `${used[0]} and ${used[2]}. It is uneven around the disc.`,
  );
}

export function life(run: Run, store: Store): HTMLElement | null {
  const any = axlesOf(run).some(
    (axle) => run.damage?.[axle]?.length || run.softening?.[axle]?.applicable || run.wet_patches?.[axle]?.length,
  );
  if (!any) return null;
  const host = el('div');
  store.follow(['axle', 'system'], () => {
    const { axle, system } = store.view;
    const units = new Units(system);
    const table = lives(run.damage?.[axle] ?? [], axle);
    const patches = run.wet_patches?.[axle] ?? [];
    host.replaceChildren(
      table ?? el('p', {}, `No life was counted for the ${axle} disc: its materials have no fatigue data.`),
      ...softened(run.softening?.[axle], axle, units),
      ...(patches.length
        ? [
            el('h3', {}, 'Wet patches'),
            el('ul', { class: 'warnings' }, ...patches.map((patch) => wet(patch, axle, units))),
          ]
        : []),
    );
  });
  return section(
    'How long do the parts last?',
    el('p', {}, 'Lives can be wrong ten-fold either way. Look for cracks after every session whatever stands here.'),
    host,
  );
}
