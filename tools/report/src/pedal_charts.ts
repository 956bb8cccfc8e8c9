// SPDX-License-Identifier: MIT
// Friction coefficient over line pressure, along the lap that is picked.

import { Chart, ChartFrame } from './chart';
import { Cursor } from './cursor';
import { el } from './dom';
import { kFriction, kPressure } from './parts';
import { readout } from './readout';
import type { Run } from './run';
import { cut, indexOfHighest, slice } from './slice';
import type { Store } from './state';
import { momentText, stretchChoice } from './temperatures';
import { decimal, Units } from './units';

export function pedalCharts(run: Run, store: Store): HTMLElement | null {
  const has = (axle: 'front' | 'rear'): boolean => run.series?.[axle]?.pedal?.['pressure'] !== undefined;
  if (!has('front') && !has('rear')) return null;
  const frame = new ChartFrame();
  store.follow(['system', 'axle', 'along', 'span'], () => {
    const { view } = store;
    const columns = run.series![view.axle]?.pedal;
    if (!columns) {
      frame.replace(el('p', {}, `The ${view.axle} brakes have no pads and pistons to draw a pedal for.`));
      return;
    }
    const units = new Units(view.system);
    const stretch = slice(run, view, units);
    const friction = cut(columns['friction_coefficient'], stretch);
    const pressure = cut(columns['pressure'], stretch);
    const cursor = new Cursor(stretch.x[Math.max(indexOfHighest(pressure), 0)] ?? 0);
    const common = { x: stretch.x, xKind: stretch.kind, cursor };
    frame.replace(
      el('h3', {}, `Friction coefficient at the pads’ temperature, ${view.axle} disc`),
      new Chart({
        ...common,
        label: 'Friction coefficient over the stretch shown; the values are in the table below',
        height: 200,
        lines: [{ ...kFriction, name: 'Friction coefficient', values: friction }],
      }),
      el('h3', {}, `Line pressure, ${units.unit('pressure')}, ${view.axle} axle`),
      new Chart({
        ...common,
        label: 'Line pressure over the stretch shown; the values are in the table below',
        height: 240,
        lines: [{ ...kPressure, name: 'Line pressure', values: units.column('pressure', pressure) }],
        zero: true,
      }),
      el('p', { class: 'axis-title under-chart' }, stretch.title),
      ...readout({
        label: 'Moment shown for the pedal',
        table: `Pedal, ${view.axle} axle, sampled over the stretch shown`,
        x: stretch.x,
        cursor,
        moment: (i) => momentText(run, stretch, i, units),
        rows: [
          {
            pen: kFriction,
            name: 'Friction coefficient',
            text: (i) => (typeof friction[i] === 'number' ? decimal(friction[i], 2) : 'no value'),
          },
          { pen: kPressure, name: 'Line pressure', text: (i) => units.text('pressure', pressure[i]) },
        ],
      }),
    );
  });
  return el(
    'div',
    {},
    el('div', { class: 'controls' }, stretchChoice(run, store, 'Pedal over')),
    frame.root,
  );
}
