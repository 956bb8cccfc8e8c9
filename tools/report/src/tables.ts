// SPDX-License-Identifier: MIT
// Laps, where the heat went, masses.

import { capital, el, section, table } from './dom';
import { kUsualParts, partsOf } from './parts';
import type { Balance, Run } from './run';
import { axlesOf } from './run';
import { shareBar } from './share_bar';
import type { Store } from './state';
import { clock, percent, Units } from './units';

const kOutlets: { key: string; name: string }[] = [
  { key: 'stored', name: 'still in the parts at the end' },
  { key: 'convection', name: 'carried off by air' },
  { key: 'radiation', name: 'radiated' },
  { key: 'to_wheel', name: 'into wheel and upright' },
];

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
      el('td', { class: 'bar' }, shareBar(share)),
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
