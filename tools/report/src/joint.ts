// SPDX-License-Identifier: MIT
// How hat and ring grow against each other at the bolt circle.

import { clamping } from './clamp';
import type { Line } from './chart';
import { Chart, ChartFrame } from './chart';
import { Cursor } from './cursor';
import { el, fold, section, table } from './dom';
import { floatTable } from './float';
import type { Pen } from './parts';
import { kGrowth, kInward, kOutward } from './parts';
import { readout } from './readout';
import type { Axle, Joint, Run } from './run';
import { cut, indexOfHighest, slice, thin } from './slice';
import type { Store } from './state';
import { clock, Units } from './units';

const kColumns: { key: string; pen: Pen; name: string }[] = [
  { key: 'differential_expansion', pen: kGrowth, name: 'Ring outgrows hat by' },
  { key: 'clearance_outward', pen: kOutward, name: 'Float left, outwards' },
  { key: 'clearance_inward', pen: kInward, name: 'Float left, inwards' },
];

function sentences(joint: Joint, axle: Axle, units: Units): string[] {
  const words: string[] = [];
  const largest = joint.largest ?? null;
  const smallest = joint.smallest ?? null;
  if (largest !== null && largest > 0) {
    words.push(
      `At the most, the ${axle} ring outgrows its hat by ${units.text('clearance', largest)} ` +
        `(${units.place(joint.largest_place)}).`,
    );
  }
  if (smallest !== null && smallest < 0) {
    words.push(
      `At the other end, the hat outgrows the ring by ${units.text('clearance', -smallest)} ` +
        `(${units.place(joint.smallest_place)}).`,
    );
  }
  const turns = joint.sign_changes ?? [];
  if (turns.length > 0) {
    words.push(
      'Below zero the joint is loaded the other way. The line passes zero ' +
        (turns.length === 1
          ? `once: ${units.place(turns[0])}.`
          : `${turns.length} times, the first: ${units.place(turns[0])}.`),
    );
  }
  words.push(
    joint.float_clearance
      ? `It is built with ${units.text('clearance', joint.float_clearance)} of radial float each way when cold.`
      : 'It is built without radial float: all of this becomes load in fasteners, holes and hat.',
  );
  return words;
}

export function jointMovement(run: Run, store: Store): HTMLElement | null {
  if (!run.series || (!run.joint && !run.series.front?.joint && !run.series.rear?.joint)) return null;
  const words = el('p');
  const frame = new ChartFrame();
  const data = el('div');
  const needed = el('div');
  store.follow(['system'], () => {
    const found = floatTable(run, new Units(store.view.system));
    needed.replaceChildren(...(found ? [found] : []));
  });
  store.follow(['axle', 'system'], () => {
    const { axle, system } = store.view;
    const units = new Units(system);
    const joint = run.joint?.[axle];
    const columns = run.series![axle]?.joint ?? {};
    const stretch = slice(run, { along: 'time', span: -1 }, units);
    const found = kColumns
      .filter(({ key }) => columns[key]?.some((value) => value !== null))
      .map((column) => ({ ...column, metres: cut(columns[column.key], stretch) }));
    if ((joint && !joint.applicable) || found.length === 0) {
      words.textContent = `The ${axle} disc has no joint between hat and ring to look at.`;
      frame.replace();
      data.replaceChildren();
      return;
    }
    words.textContent = joint ? sentences(joint, axle, units).join(' ') : '';
    const lines = found.map(({ pen, name, metres }): Line => ({
      ...pen,
      name,
      values: units.column('clearance', metres),
    }));
    const cursor = new Cursor(stretch.x[Math.max(indexOfHighest(found[0]!.metres), 0)] ?? 0);
    frame.replace(
      el('h3', {}, `Radial movement at the bolt circle, ${units.unit('clearance')}, ${axle} disc`),
      new Chart({
        label: 'Hat and ring movement over the session; the values are in the table below',
        height: 340,
        x: stretch.x,
        xKind: 'time',
        lines,
        zero: true,
        cursor,
      }),
      el('p', { class: 'axis-title under-chart' }, stretch.title),
      ...readout({
        label: 'Moment shown for the joint',
        x: stretch.x,
        cursor,
        moment: (i) => `${clock(run.series!.time[i]!, 1)} of the session`,
        rows: found.map(({ pen, name, metres }) => ({ pen, name, text: (i) => units.text('clearance', metres[i]) })),
      }),
      el(
        'p',
        { class: 'hint' },
        'The bold line is zero. Above it the ring has grown past the hat, below it the hat past ' +
          'the ring. Float left at zero means that the joint has locked on that side.',
      ),
    );
    data.replaceChildren(
      fold(
        'The same as a table',
        () =>
          table({
            caption: 'Samples spread over the session',
            head: ['Time', ...found.map(({ name }) => `${name}, ${units.unit('clearance')}`)],
            rows: thin(stretch.x.length, 60, [indexOfHighest(found[0]!.metres)]).map((i) => [
              clock(stretch.x[i]!, 1),
              ...found.map(({ metres }) => units.number('clearance', metres[i])),
            ]),
          }),
        { class: 'screen-only' },
      ),
    );
  });
  return section('How do hat and ring move against each other?', words, frame.root, data, needed, clamping(run, store));
}
