// SPDX-License-Identifier: MIT
// What the foot feels: friction, line pressure and effort, lap by lap; fade; what is left of the pads; the balance.

import { el, section, table } from './dom';
import { pedalCharts } from './pedal_charts';
import type { Pads, PedalAxle } from './pedal_data';
import type { Place, Run } from './run';
import type { Store } from './state';
import { decimal, percent, sessions, Units } from './units';

type Value = number | null | undefined;

const share = (value: Value, digits = 0): string =>
  value === null || value === undefined ? '–' : percent(value, digits);
const friction = (value: Value): string => (value === null || value === undefined ? '–' : decimal(value, 2));
const more = (value: Value): string =>
  value === null || value === undefined ? '–' : `${value < 0 ? '\u2212' : '+'}${percent(Math.abs(value))}`;

function lapRows(run: Run, units: Units): HTMLElement | null {
  const laps = run.pedal?.laps ?? [];
  if (laps.length === 0) return null;
  return table({
    caption: 'Pedal lap by lap: highest line pressure and effort, mean friction coefficient while braking',
    head: [
      'Lap',
      `Front, ${units.unit('pressure')}`,
      'Front friction',
      `Rear, ${units.unit('pressure')}`,
      'Rear friction',
      `Effort, ${units.unit('effort')}`,
      'Pressure against the first hot lap',
      'Front share of braking',
    ],
    rows: laps.map((lap) => [
      lap.label,
      units.number('pressure', lap.front_pressure),
      friction(lap.front_friction),
      units.number('pressure', lap.rear_pressure),
      friction(lap.rear_friction),
      units.number('effort', lap.effort),
      more(lap.growth),
      share(lap.front_share, 1),
    ]),
  });
}

/** Value and place of a worst moment. */
function at(text: string, place: Place | undefined, units: Units): string {
  return text === '–' || !place ? text : `${text} (${units.place(place)})`;
}

function windowShare(pads: Pads | undefined, which: 'below_window' | 'inside_window' | 'above_window'): string {
  const all = (pads?.below_window ?? 0) + (pads?.inside_window ?? 0) + (pads?.above_window ?? 0);
  return all > 0 ? percent((pads?.[which] ?? 0) / all) : '–';
}

function bothAxles(run: Run, units: Units): HTMLElement | null {
  const axles = (['front', 'rear'] as const).filter((axle) => run.pedal?.[axle]?.applicable || run.pads?.[axle]);
  if (axles.length === 0) return null;
  const row = (name: string, f: (pedal: PedalAxle | undefined, pads: Pads | undefined) => string): string[] => [
    name,
    ...axles.map((axle) => f(run.pedal?.[axle], run.pads?.[axle])),
  ];
  const left = (value: Value, minimum: Value): string =>
    units.text('clearance', value) + (minimum ? `, least allowed ${units.text('clearance', minimum)}` : '');
  return table({
    caption: 'Friction, fade and wear',
    head: ['Quantity', ...axles.map((axle) => (axle === 'front' ? 'Front' : 'Rear'))],
    rows: [
      row('Friction coefficient, lowest to highest', (p) =>
        p?.applicable ? `${friction(p.lowest_friction)} to ${friction(p.highest_friction)}` : '–',
      ),
      row('Fade: most friction lost in one braking against the pad’s reference', (p) =>
        at(share(p?.fade), p?.fade_place, units),
      ),
      row('Most growth of pressure at one corner since the first hot lap', (p) =>
        at(more(p?.growth), p?.growth_place, units),
      ),
      row('Highest line pressure', (p) =>
        p?.applicable ? at(units.text('pressure', p.highest_pressure), p.highest_pressure_place, units) : '–',
      ),
      row('Braking time below the pad’s window', (_, pads) => windowShare(pads, 'below_window')),
      row('Inside it', (_, pads) => windowShare(pads, 'inside_window')),
      row('Above it', (_, pads) => windowShare(pads, 'above_window')),
      row('Friction layer worn by this session', (_, pads) => units.text('clearance', pads?.worn)),
      row('Friction layer left', (_, pads) => left(pads?.left, pads?.minimum)),
      row('Sessions to its minimum, about', (_, pads) =>
        pads?.sessions_left === null || pads?.sessions_left === undefined ? '–' : sessions(pads.sessions_left),
      ),
      row('Ring worn by this session, both faces', (_, pads) => units.text('wear', pads?.ring_worn)),
      row('Ring thickness left', (_, pads) => left(pads?.ring_left, pads?.ring_minimum)),
    ],
    words: true,
  });
}

function sentences(run: Run, units: Units): string[] {
  const car = run.pedal?.car;
  const corners = run.pedal?.corners ?? [];
  const words: string[] = [];
  if (car?.effort_known) {
    const leg = corners.filter(({ limited_by }) => limited_by === 'brakes').length;
    words.push(
      `The hardest braking asks for ${units.text('effort', car.highest_effort)} at the pedal ` +
        `(${units.place(car.highest_effort_place)}); the driver can press ${units.text('effort', car.largest_effort)}. ` +
        (leg === 0
          ? 'The tyres, not the driver’s leg, limit every braking.'
          : `The driver’s leg limits before the tyres in ${leg} of ${corners.length} brakings.`),
    );
  }
  if (car?.unreachable) {
    words.push(
      `${car.unreachable} of ${corners.length} brakings need more than the driver can press: the worst ` +
        `(${units.place(car.longer_place)}) gets about ${units.text('road', car.longer)} longer.`,
    );
  }
  return words;
}

function balance(run: Run, units: Units): string {
  const found = run.brake_balance;
  if (!found) return '';
  const from = share(found.lowest, 1);
  const to = share(found.highest, 1);
  const rear = found.rear_excess ?? 0;
  return (
    `Front and rear, ${found.law} law: the front does ${from === to ? from : `${from} to ${to}`} of the braking. ` +
    (rear > 0
      ? `The rear takes up to ${decimal(100 * rear, 1)} points more than its share of the weight ` +
        `(${units.place(found.rear_excess_place)}).`
      : 'The rear never takes more than its share of the weight.') +
    (found.settled === false ? ' Share and temperatures did not settle: take this with care.' : '')
  );
}

export function pedal(run: Run, store: Store): HTMLElement | null {
  if (!run.pedal?.laps?.length && !run.pads) return null;
  const host = el('div');
  store.follow(['system'], () => {
    const units = new Units(store.view.system);
    host.replaceChildren(
      ...[...sentences(run, units), balance(run, units)].filter(Boolean).map((text) => el('p', {}, text)),
      ...[lapRows(run, units), bothAxles(run, units)].filter((part) => part !== null),
    );
  });
  return section('What does the pedal feel like?', host, pedalCharts(run, store));
}
