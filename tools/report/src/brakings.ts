// SPDX-License-Identifier: MIT
// Which corner costs the most: heat and spike of every braking as bars, then all of it as a table.

import { capital, el, pick, section, table } from './dom';
import type { Corner } from './pedal_data';
import type { Axle, Braking, Run, Span } from './run';
import { shareBar } from './share_bar';
import type { Store } from './state';
import { clock, decimal, percent, Units } from './units';

const within = (braking: Braking, span: Span): boolean =>
  braking.begin >= span.begin - 1e-6 && braking.begin < span.end;

export interface Zone {
  name: string; // of the braking: where it begins
  about: string;
  values: (number | null | undefined)[]; // one for each measure
}

export interface Measure {
  name: string;
  text: (value: number) => string;
}

/** One row a braking, one bar a measure; the longest bar of a measure is its highest value. */
export function zoneBars(zones: readonly Zone[], measures: readonly Measure[]): HTMLElement {
  const highest = measures.map((_, k) => Math.max(...zones.map(({ values }) => values[k] ?? 0)));
  return el(
    'ol',
    { class: 'zones' },
    ...zones.map(({ name, about, values }) =>
      el(
        'li',
        {},
        el('h3', {}, `${name}: `, el('span', {}, about)),
        ...measures.flatMap(({ name: measure, text }, k) => {
          const value = values[k];
          if (value === null || value === undefined) return [];
          const most = value === highest[k] && zones.length > 1;
          return [
            el(
              'div',
              { class: most ? 'most' : '' },
              el('span', {}, measure),
              shareBar(highest[k]! > 0 ? value / highest[k]! : 0),
              el('span', { class: 'number' }, text(value), most ? ' (most)' : ''),
            ),
          ];
        }),
      ),
    ),
  );
}

/** What the pads and faces met in this braking; corners and brakings are the same moments told twice. */
function cornerOf(run: Run, { begin }: Braking): Corner | undefined {
  return run.pedal?.corners?.find(({ place }) => Math.abs((place?.time ?? Infinity) - begin) < 1e-3);
}

function bars(run: Run, list: Braking[], axle: Axle, units: Units): HTMLElement {
  return zoneBars(
    list.map((braking, i) => {
      const corner = cornerOf(run, braking)?.[axle];
      return {
        name: `${i + 1}, ${units.text('road', braking.lap_distance)} in`,
        about: `${units.number('speed', braking.entry_speed)} to ${units.text('speed', braking.exit_speed)}`,
        values: [axle === 'front' ? braking.front_wheel : braking.rear_wheel, corner?.face_rise, corner?.bulk_rise],
      };
    }),
    [
      { name: 'Heat of the wheel', text: (value) => units.text('energy', value) },
      { name: 'Face spike', text: (value) => `+${units.text('difference', value)}` },
      { name: 'Ring bulk rise', text: (value) => `+${units.text('difference', value)}` },
    ],
  );
}

function brakingTable(span: Span, list: Braking[], most: Braking, units: Units): HTMLElement {
  return table({
    caption: `Brakings, ${span.label}`,
    head: [
      'No.',
      `Begins, ${units.unit('road')} in`,
      `Speed, ${units.unit('speed')}`,
      'Lasts, s',
      `Whole car, ${units.unit('energy')}`,
      `Peak, ${units.unit('power')}`,
      `A front wheel, ${units.unit('energy')}`,
      `A rear wheel, ${units.unit('energy')}`,
    ],
    rows: list.map((braking, i) => [
      `${i + 1}${braking === most && list.length > 1 ? ' (most)' : ''}`,
      units.number('road', braking.lap_distance),
      `${units.number('speed', braking.entry_speed)} to ${units.number('speed', braking.exit_speed)}`,
      decimal(braking.end - braking.begin, 1),
      units.number('energy', braking.brake),
      units.number('power', braking.peak_power),
      units.number('energy', braking.front_wheel),
      units.number('energy', braking.rear_wheel),
    ]),
  });
}

export function brakings(run: Run, store: Store): HTMLElement | null {
  const all = run.brakings ?? [];
  const spans = (run.spans ?? [])
    .map((span) => ({ span, list: all.filter((braking) => within(braking, span)) }))
    .filter(({ list }) => list.length > 0);
  if (spans.length === 0) return null;
  const energy = (list: Braking[]): number => list.reduce((sum, { brake }) => sum + (brake ?? 0), 0);
  let chosen = spans.reduce((best, item, i) => (energy(item.list) > energy(spans[best]!.list) ? i : best), 0);
  const words = el('p');
  const host = el('div');
  const draw = (): void => {
    const { axle, system } = store.view;
    const units = new Units(system);
    const { span, list } = spans[chosen]!;
    const total = energy(list);
    const most = list.reduce((a, b) => ((b.brake ?? 0) > (a.brake ?? 0) ? b : a));
    words.textContent =
      `${capital(span.label)}: ${list.length} ${list.length === 1 ? 'braking' : 'brakings'}, ` +
      `${units.text('energy', total)} into the brakes of the whole car. ` +
      `Number ${list.indexOf(most) + 1} takes the most, ${percent(total > 0 ? (most.brake ?? 0) / total : 0)}. ` +
      `Drawn for one ${axle} wheel: heat stacks up in the bulk of the ring, the spike of the face is what cracks it.`;
    host.replaceChildren(bars(run, list, axle, units), brakingTable(span, list, most, units));
  };
  const controls =
    spans.length > 1
      ? el(
          'div',
          { class: 'controls' },
          pick(
            'Lap',
            spans.map(({ span }, i) => ({ value: String(i), text: `${span.label}, from ${clock(span.begin)}` })),
            String(chosen),
            (value) => {
              chosen = Number(value);
              draw();
            },
          ),
        )
      : null;
  store.follow(['axle', 'system'], draw);
  return section('Which corner costs the most?', controls, words, host);
}
