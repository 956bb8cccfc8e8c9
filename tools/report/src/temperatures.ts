// SPDX-License-Identifier: MIT
// Temperatures under speed on one axis, with one cursor for both.

import type { Line } from './chart';
import { Chart, ChartFrame } from './chart';
import { Cursor } from './cursor';
import { choose, el, fold, pick, section, table } from './dom';
import type { Part } from './parts';
import { kSpeed, limitsOf, partsOf, sample } from './parts';
import { readout } from './readout';
import type { Axle, Run } from './run';
import type { Slice } from './slice';
import { cut, indexOfHighest, slice, thin } from './slice';
import type { Store } from './state';
import { clock, Units } from './units';

interface Drawn {
  part: Part;
  kelvin: (number | null)[];
}

export function momentText(run: Run, stretch: Slice, i: number, units: Units): string {
  const sample = stretch.from + i;
  const time = run.series!.time[sample]!;
  const span = stretch.span ?? run.spans?.find(({ begin, end }) => time >= begin && time <= end);
  const distance = run.series!.distance?.[sample];
  const words = [`${clock(time, 1)} of the session`];
  if (span) words.push(span.label);
  if (span && span.phase === 'driving' && distance !== undefined) {
    words.push(`${units.text('road', distance - span.begin_distance)} in`);
  }
  const speed = run.series!.speed?.[sample];
  if (speed !== undefined && speed !== null) words.push(units.text('speed', speed));
  return words.join(', ');
}

function samples(run: Run, stretch: Slice, drawn: Drawn[], units: Units): HTMLElement {
  const rows = thin(
    stretch.x.length,
    60,
    drawn.map(({ kelvin }) => indexOfHighest(kelvin)).filter((i) => i >= 0),
  );
  return table({
    caption: 'Samples spread over the stretch shown, with the highest of every part',
    head: [
      'Time',
      `Speed, ${units.unit('speed')}`,
      ...drawn.map(({ part }) => `${part.name}, ${units.unit('temperature')}`),
    ],
    rows: rows.map((i) => [
      clock(run.series!.time[stretch.from + i]!, 1),
      units.number('speed', run.series!.speed?.[stretch.from + i]),
      ...drawn.map(({ kelvin }) => units.number('temperature', kelvin[i])),
    ]),
  });
}

function partChoice(run: Run, axle: Axle, store: Store): HTMLElement {
  return el(
    'fieldset',
    { class: 'parts' },
    el('legend', {}, 'Parts shown'),
    ...partsOf(run, axle).map((part) => {
      const box = el('input', {
        type: 'checkbox',
        checked: store.view.parts.includes(part.key),
        change: () =>
          store.set({
            parts: box.checked ? [...store.view.parts, part.key] : store.view.parts.filter((key) => key !== part.key),
          }),
      });
      return el('label', {}, box, el('b', {}, part.letter), sample(part), el('span', {}, part.name));
    }),
  );
}

export function stretchChoice(run: Run, store: Store, label = 'Show'): HTMLElement {
  const spans = run.spans ?? [];
  const host = el('div', { class: 'stretch' });
  const step = (by: number): void =>
    store.set({ span: Math.min(Math.max(store.view.span + by, -1), spans.length - 1) });
  const picker = pick(
    label,
    [
      { value: '-1', text: 'whole session' },
      ...spans.map(({ label, begin }, i) => ({ value: String(i), text: `${label}, from ${clock(begin)}` })),
    ],
    String(store.view.span),
    (value) => store.set({ span: Number(value) }),
  );
  const select = picker.querySelector('select')!;
  const before = el('button', { type: 'button', click: () => step(-1) }, 'Earlier');
  const after = el('button', { type: 'button', click: () => step(1) }, 'Later');
  store.follow(['span'], () => {
    select.value = String(store.view.span);
    before.setAttribute('aria-disabled', String(store.view.span < 0));
    after.setAttribute('aria-disabled', String(store.view.span >= spans.length - 1));
  });
  host.append(picker, before, after);
  return host;
}

export function temperatures(run: Run, store: Store): HTMLElement | null {
  const series = run.series;
  if (!series || series.time.length < 2) return null;
  const frame = new ChartFrame();
  const data = el('div');
  const parts = el('div');

  store.follow(['axle'], () => {
    const open = parts.querySelector('details')?.open ?? false;
    parts.replaceChildren(
      fold('Choose the parts shown', () => partChoice(run, store.view.axle, store), { open, class: 'screen-only' }),
    );
  });
  store.follow(['system', 'axle', 'along', 'span', 'parts'], () => {
    const { view } = store;
    const units = new Units(view.system);
    const stretch = slice(run, view, units);
    const chosen = partsOf(run, view.axle).filter(({ key }) => view.parts.includes(key));
    const drawn = chosen.map((part): Drawn => ({
      part,
      kelvin: cut(series[view.axle]?.temperature?.[part.key], stretch),
    }));
    const lines = drawn.map(({ part, kelvin }): Line => ({ ...part, values: units.column('temperature', kelvin) }));
    const levels = limitsOf(run, view.axle, chosen).map(({ name, value }) => ({
      name,
      value: units.of('temperature', value),
    }));

    // The cursor starts where the first part shown is hottest: the moment most readers look for.
    const start = Math.max(indexOfHighest(drawn[0]?.kelvin ?? []), 0);
    const cursor = new Cursor(stretch.x[start] ?? 0);
    const speed = cut(series.speed, stretch);
    const common = { x: stretch.x, xKind: stretch.kind, cursor };
    frame.replace(
      ...(speed.length > 0
        ? [
            el('h3', {}, `Speed, ${units.unit('speed')}`),
            new Chart({
              ...common,
              label: 'Speed over the stretch shown',
              height: 170,
              lines: [{ ...kSpeed, name: 'Speed', values: units.column('speed', speed) }],
            }),
          ]
        : []),
      el('h3', {}, `Temperature, ${units.unit('temperature')}, ${view.axle} disc`),
      new Chart({
        ...common,
        label: 'Temperatures over the stretch shown; the values are in the table below',
        height: 400,
        lines,
        levels,
      }),
      el('p', { class: 'axis-title under-chart' }, stretch.title),
      ...readout({
        label: 'Moment shown',
        x: stretch.x,
        cursor,
        moment: (i) => momentText(run, stretch, i, units),
        rows: drawn.map(({ part, kelvin }) => ({
          pen: part,
          name: part.name,
          text: (i) => units.text('temperature', kelvin[i]),
        })),
      }),
    );
    const open = data.querySelector('details')?.open ?? false;
    data.replaceChildren(
      fold('The same as a table', () => samples(run, stretch, drawn, units), { open, class: 'screen-only' }),
    );
  });

  return section(
    'Where and when does it get hot?',
    el(
      'div',
      { class: 'controls' },
      stretchChoice(run, store),
      series.distance
        ? choose(
            'Along',
            [
              { value: 'time', text: 'Time' },
              { value: 'distance', text: 'Distance' },
            ],
            store.view.along,
            (along) => store.set({ along }),
          )
        : null,
    ),
    frame.root,
    el(
      'p',
      { class: 'hint' },
      'Tap or drag on a chart, or move the slider with the arrow keys, to read every line at that moment.',
    ),
    parts,
    data,
  );
}
