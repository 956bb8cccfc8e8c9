// SPDX-License-Identifier: MIT
// What joint and ring carry at the most, how fast they change, and the rule for thermal shock.

import { capital, el, section, table } from './dom';
import type { Axle, Place, Run } from './run';
import { axlesOf } from './run';
import type { Store } from './state';
import type { Quantity } from './units';
import { percent, Units } from './units';

export interface Extreme {
  group: string;
  name: string;
  unit: string;
  highest?: number | null;
  lowest?: number | null;
  highest_place?: Place;
  lowest_place?: Place;
}

export interface Rate {
  name: string;
  unit: string;
  rise?: number | null;
  fall?: number | null;
  rise_place?: Place;
  fall_place?: Place;
}

// Rows in the order of the load: across the joint, through its parts, into the ring.
const kCarried: { column: string; name: string; quantity: Quantity; end?: 'lowest' }[] = [
  { column: 'joint/fastener_load', name: 'Load across the joint, hardest-worked fastener', quantity: 'force' },
  { column: 'joint/fastener_carried', name: 'Of it, bearing on fastener, holes and lug', quantity: 'force' },
  { column: 'joint/preload', name: 'Clamping force of one fastener, lowest', quantity: 'force', end: 'lowest' },
  { column: 'joint/preload_cold', name: 'Clamping force left when cold again', quantity: 'force', end: 'lowest' },
  { column: 'stress/fastener', name: 'Fastener: stress', quantity: 'stress' },
  { column: 'stress/fastener_utilisation', name: 'Fastener: stress over proof strength then', quantity: 'share' },
  { column: 'stress/hat_hole', name: 'Hat hole: bearing pressure', quantity: 'stress' },
  { column: 'stress/hat_hole_utilisation', name: 'Hat hole: pressure over what it bears then', quantity: 'share' },
  { column: 'stress/lug', name: 'Ring lug: stress beside the hole', quantity: 'stress' },
  { column: 'stress/lug_utilisation', name: 'Ring lug: stress over tensile strength then', quantity: 'share' },
  { column: 'stress/bore_hoop', name: 'Ring bore: hoop tension', quantity: 'stress' },
  { column: 'stress/lug_root', name: 'Lug root: peak hoop tension', quantity: 'stress' },
  { column: 'stress/face_hoop', name: 'Friction face: tension', quantity: 'stress' },
  { column: 'stress/face_residual', name: 'Friction face: tension left by yielding, once cold', quantity: 'stress' },
  { column: 'stress/utilisation', name: 'Ring: largest tension over tensile strength then', quantity: 'share' },
  { column: 'joint/coning', name: 'Coning, outer edge outboard', quantity: 'clearance' },
  { column: 'joint/coning', name: 'Coning, outer edge inboard', quantity: 'clearance', end: 'lowest' },
];

const kRates: Record<string, { name: string; quantity: Quantity }> = {
  ring_face: { name: 'Ring face, outboard', quantity: 'rate' },
  ring_mean: { name: 'Ring bulk (mean)', quantity: 'rate' },
  hat_flange: { name: 'Hat flange', quantity: 'rate' },
  differential_expansion: { name: 'Ring growth over hat growth', quantity: 'growth' },
};

function carried(list: Extreme[], axle: Axle, units: Units): HTMLElement | null {
  const rows = kCarried.flatMap(({ column, name, quantity, end }) => {
    const found = list.find((e) => `${e.group}/${e.name}` === column);
    const value = found?.[end ?? 'highest'];
    if (!found || value === null || value === undefined) return [];
    // An outboard movement that never comes is none, not a negative one.
    const inboard = column === 'joint/coning' && end === 'lowest';
    const size = inboard ? Math.max(-value, 0) : column === 'joint/coning' ? Math.max(value, 0) : value;
    const none = !/[1-9]/.test(units.number(quantity, size));
    const place = units.place(found[end ? 'lowest_place' : 'highest_place']);
    return [[name, units.text(quantity, size), none ? '–' : place]];
  });
  return rows.length > 0
    ? table({
        caption: `What the joint carries, ${axle} disc`,
        head: ['Quantity', 'Most, or lowest', 'Where'],
        rows,
        words: true,
      })
    : null;
}

/** Tenths where whole degrees a second would all read alike. */
function speed(value: number | null | undefined, quantity: Quantity, units: Units): string {
  if (value === null || value === undefined) return '–';
  const text = units.text(quantity, value);
  return quantity === 'rate' && Math.abs(value) < 10 ? units.text('slow_rate', value) : text;
}

function changes(list: Rate[], axle: Axle, units: Units): HTMLElement | null {
  const rows = list.flatMap((rate) => {
    const known = kRates[rate.name];
    if (!known) return [];
    return [
      [
        known.name,
        speed(rate.rise, known.quantity, units),
        units.place(rate.rise_place),
        speed(rate.fall && -rate.fall, known.quantity, units),
        units.place(rate.fall_place),
      ],
    ];
  });
  return rows.length > 0
    ? table({
        caption: `Fastest changes, ${axle} disc`,
        head: ['Quantity', 'Rise', 'Where', 'Fall', 'Where'],
        rows,
        words: true,
      })
    : null;
}

function shockRule(run: Run): HTMLElement | null {
  const judged = (run.verdicts ?? []).filter(({ key }) => key === 'shock');
  const limits = [...new Set(judged.map(({ limit }) => percent(limit ?? 0)))];
  if (limits.length === 0) return null;
  const reached = judged
    .map(({ axle, value }) => `${axle} ${value === null || value === undefined ? 'not known' : percent(value)}`)
    .sort();
  return el(
    'p',
    { class: 'shock' },
    `A ring is flagged for thermal shock when its largest tension, at bore, lug root or in a face that yielded while ` +
      `hot, passes ${limits.join(' or ')} of the iron’s tensile strength at that temperature, computed as if elastic. ` +
      `In this session: ${reached.join(', ')}.`,
  );
}

export function loads(run: Run, store: Store): HTMLElement | null {
  if (!axlesOf(run).some((axle) => run.extremes?.[axle]?.length || run.rates?.[axle]?.length)) return null;
  const host = el('div');
  store.follow(['axle', 'system'], () => {
    const { axle, system } = store.view;
    const units = new Units(system);
    const parts = [carried(run.extremes?.[axle] ?? [], axle, units), changes(run.rates?.[axle] ?? [], axle, units)];
    host.replaceChildren(
      ...parts.filter((part) => part !== null),
      ...(parts.every((part) => part === null) ? [el('p', {}, `${capital(axle)}: nothing was computed here.`)] : []),
    );
  });
  return section('What do joint and ring carry?', shockRule(run), host);
}
