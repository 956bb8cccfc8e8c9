// SPDX-License-Identifier: MIT
// Brakings, laps, where the heat went, masses.

import { capital, el, pick, section, svg, table } from './dom';
import { kUsualParts, partsOf } from './parts';
import type { Balance, Braking, Run, Span } from './run';
import { axlesOf } from './run';
import type { Store } from './state';
import { clock, decimal, percent, Units } from './units';

const kOutlets: { key: string; name: string }[] = [
  { key: 'stored', name: 'still in the parts at the end' },
  { key: 'convection', name: 'carried off by air' },
  { key: 'radiation', name: 'radiated' },
  { key: 'to_wheel', name: 'into wheel and upright' },
];

const within = (braking: Braking, span: Span): boolean =>
  braking.begin >= span.begin - 1e-6 && braking.begin < span.end;

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
    const units = new Units(store.view.system);
    const { span, list } = spans[chosen]!;
    const total = energy(list);
    const most = list.reduce((a, b) => ((b.brake ?? 0) > (a.brake ?? 0) ? b : a));
    words.textContent =
      `${capital(span.label)}: ${list.length} ${list.length === 1 ? 'braking' : 'brakings'}, ` +
      `${units.text('energy', total)} into the brakes of the whole car. ` +
      `Number ${list.indexOf(most) + 1} takes the most, ${percent(total > 0 ? (most.brake ?? 0) / total : 0)}.`;
    host.replaceChildren(
      table({
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
      }),
    );
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
  store.follow(['system'], draw);
  return section('Which brakings cost the most?', controls, words, host);
}

export function lapTable(run: Run, store: Store): HTMLElement | null {
  if (!run.laps?.front?.length && !run.laps?.rear?.length) return null;
  const host = el('div');
  store.follow(['axle', 'system'], () => {
    const { axle, system } = store.view;
    const units = new Units(system);
    const parts = partsOf(run, axle).filter(({ key }) => kUsualParts.includes(key));
    host.replaceChildren(
      table({
        caption: `Lap by lap, one ${axle} wheel: heat, and lowest to highest temperature`,
        head: [
          'Lap',
          'Lasts',
          `Heat, ${units.unit('energy')}`,
          ...parts.map(({ name }) => `${name}, ${units.unit('temperature')}`),
        ],
        rows: (run.laps?.[axle] ?? []).map((row) => [
          row.label,
          clock(row.end - row.begin),
          units.number('energy', row.heat),
          ...parts.map(
            ({ key }) =>
              `${units.number('temperature', row.lowest?.[key])} to ${units.number('temperature', row.highest?.[key])}`,
          ),
        ]),
      }),
    );
  });
  return section('Lap by lap', host);
}

/** Share of the friction heat as a bar; its number stands beside it. */
function bar(share: number): SVGElement {
  const width = 100 * Math.min(Math.max(share, 0), 1);
  return svg(
    'svg',
    { class: 'share', viewBox: '0 0 100 10', preserveAspectRatio: 'none', 'aria-hidden': 'true' },
    svg('rect', { class: 'all', width: 100, height: 10 }),
    svg('rect', { class: 'part', width, height: 10 }),
  );
}

function outlets(balance: Balance, axle: string, units: Units): HTMLElement {
  const friction = balance.friction ?? 0;
  const cell = (key: string): string => units.text('energy', balance[key]);
  const row = (name: string, key: string): HTMLElement => {
    const share = friction > 0 ? (balance[key] ?? 0) / friction : 0;
    return el(
      'tr',
      {},
      el('th', { scope: 'row' }, name),
      el('td', {}, cell(key)),
      el('td', {}, percent(share, 1)),
      el('td', { class: 'bar' }, bar(share)),
    );
  };
  return el(
    'table',
    { class: 'balance' },
    el(
      'caption',
      {},
      `One ${axle} wheel: ${cell('friction')} of friction heat over the run, ` +
        `${cell('to_ring')} into the ring, ${cell('to_pads')} into the pads`,
    ),
    el(
      'thead',
      {},
      el(
        'tr',
        {},
        ...['Where it is now', 'Heat', 'Share', 'Share drawn'].map((text) => el('th', { scope: 'col' }, text)),
      ),
    ),
    el('tbody', {}, ...kOutlets.map(({ key, name }) => row(name, key)), row('not accounted for', 'residual')),
  );
}

export function heatBalance(run: Run, store: Store): HTMLElement | null {
  const axles = axlesOf(run).filter((axle) => run.balance?.[axle]);
  if (axles.length === 0) return null;
  const host = el('div');
  store.follow(['system'], () => {
    const units = new Units(store.view.system);
    host.replaceChildren(...axles.map((axle) => outlets(run.balance![axle]!, axle, units)));
  });
  return section('Where did the heat go?', host);
}

export function masses(run: Run, store: Store): HTMLElement | null {
  const axles = axlesOf(run).filter((axle) => run.masses?.[axle]);
  if (axles.length === 0) return null;
  const host = el('div');
  store.follow(['system'], () => {
    const units = new Units(store.view.system);
    host.replaceChildren(
      table({
        caption: `Mass of one disc from its dimensions, ${units.unit('mass')}: weigh yours and compare`,
        head: ['Axle', 'Ring', 'Hat'],
        rows: axles.map((axle) => [
          capital(axle),
          units.number('mass', run.masses![axle]!.ring),
          units.number('mass', run.masses![axle]!.hat),
        ]),
      }),
    );
  });
  return section('What do the parts weigh?', host);
}
