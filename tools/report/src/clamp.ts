// SPDX-License-Identifier: MIT
// Bolted joints: slip of the clamped faces and clamping force over the session.

import type { Line } from './chart';
import { Chart, ChartFrame } from './chart';
import { Cursor } from './cursor';
import { el } from './dom';
import { kCold, kGrowth, kOutward } from './parts';
import { readout } from './readout';
import type { Axle, Run } from './run';
import { cut, indexOfHighest, slice } from './slice';
import type { Store } from './state';
import { clock, Units } from './units';

function sentence(run: Run, axle: Axle, units: Units): string {
  const of = (name: string) => run.extremes?.[axle]?.find((e) => e.group === 'joint' && e.name === name);
  const [slip, clamp, cold] = [of('slip'), of('preload'), of('preload_cold')];
  const words: string[] = [];
  if (slip) {
    const most = Math.abs(slip.highest ?? 0) >= Math.abs(slip.lowest ?? 0);
    words.push(
      `The clamped faces slip up to ${units.text('clearance', Math.abs((most ? slip.highest : slip.lowest) ?? 0))} ` +
        `from where they were assembled (${units.place(most ? slip.highest_place : slip.lowest_place)}).`,
    );
  }
  if (clamp) {
    words.push(
      `The clamping force of one fastener is lowest at ${units.text('force', clamp.lowest)} ` +
        `(${units.place(clamp.lowest_place)})` +
        (cold ? `; cold again, ${units.text('force', cold.lowest)} would be left.` : '.'),
    );
    words.push('This is an estimate and no torque to set: follow the maker of the parts.');
  }
  return words.join(' ');
}

export function clamping(run: Run, store: Store): HTMLElement {
  const words = el('p');
  const frame = new ChartFrame();
  const root = el('div', {}, words, frame.root);
  store.follow(['axle', 'system'], () => {
    const { axle, system } = store.view;
    const units = new Units(system);
    const columns = run.series?.[axle]?.joint ?? {};
    root.hidden = !columns['slip'] || !columns['preload'];
    if (root.hidden) {
      frame.replace();
      return;
    }
    words.textContent = sentence(run, axle, units);
    const stretch = slice(run, { along: 'time', span: -1 }, units);
    const [slip, clamp, cold] = ['slip', 'preload', 'preload_cold'].map((name) => cut(columns[name], stretch));
    const cursor = new Cursor(stretch.x[Math.max(indexOfHighest(slip!), 0)] ?? 0);
    const common = { x: stretch.x, xKind: 'time' as const, cursor };
    const line = (pen: typeof kGrowth, name: string, values: (number | null)[]): Line => ({ ...pen, name, values });
    frame.replace(
      el('h3', {}, `Slip of the clamped faces, ${units.unit('clearance')}, ${axle} disc`),
      new Chart({
        ...common,
        label: 'Slip over the session; the values are in the table below',
        height: 200,
        lines: [line(kGrowth, 'Slip', units.column('clearance', slip!))],
        zero: true,
      }),
      el('h3', {}, `Clamping force of one fastener, ${units.unit('force')}, ${axle} disc`),
      new Chart({
        ...common,
        label: 'Clamping force over the session; the values are in the table below',
        height: 240,
        lines: [
          line(kOutward, 'Clamping force', units.column('force', clamp!)),
          line(kCold, 'Left when cold again', units.column('force', cold!)),
        ],
      }),
      el('p', { class: 'axis-title under-chart' }, stretch.title),
      ...readout({
        label: 'Moment shown for the clamping force',
        table: `Slip and clamping force, ${axle} disc, sampled over the session`,
        x: stretch.x,
        cursor,
        moment: (i) => `${clock(run.series!.time[i]!, 1)} of the session`,
        rows: [
          { pen: kGrowth, name: 'Slip', text: (i) => units.text('clearance', slip![i]) },
          { pen: kOutward, name: 'Clamping force', text: (i) => units.text('force', clamp![i]) },
          { pen: kCold, name: 'Left when cold again', text: (i) => units.text('force', cold![i]) },
        ],
      }),
    );
  });
  return root;
}
