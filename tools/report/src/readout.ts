// SPDX-License-Identifier: MIT
// The slider under linked charts and the list of values at its place: also the key to the lines.

import type { Cursor } from './cursor';
import { el, fold, table } from './dom';
import type { Pen } from './parts';
import { sample } from './parts';
import { nearest, thin } from './slice';

export interface ReadoutSpec {
  label: string;
  x: readonly number[];
  cursor: Cursor;
  moment: (i: number) => string;
  rows: { pen: Pen; name: string; text: (i: number) => string }[];
  table?: string; // caption of the same values as a table, where nothing else tells them
}

const kSamples = 60;

function samples(caption: string, { x, moment, rows }: ReadoutSpec): HTMLElement {
  return fold(
    'The same as a table',
    () =>
      table({
        caption,
        head: ['Where', ...rows.map(({ name }) => name)],
        rows: thin(x.length, kSamples, []).map((i) => [moment(i), ...rows.map(({ text }) => text(i))]),
      }),
    { class: 'screen-only' },
  );
}

export function readout(spec: ReadoutSpec): Node[] {
  const { label, x, cursor, moment, rows } = spec;
  const first = x[0] ?? 0;
  const last = x[x.length - 1] ?? first;
  const words = el('p', { class: 'moment' });
  const values = rows.map(() => el('strong'));
  const slider = el('input', {
    type: 'range',
    min: first,
    max: last,
    step: (last - first) / 1000 || 1,
    value: cursor.x,
    'aria-label': label,
    input: () => cursor.moveTo(Number(slider.value)),
  });
  const show = (at: number): void => {
    const i = nearest(x, at);
    words.textContent = moment(i);
    rows.forEach(({ text }, k) => {
      values[k]!.textContent = text(i);
    });
    slider.value = String(at);
    const spoken = rows.map(({ name, text }) => `${name} ${text(i)}`);
    slider.setAttribute('aria-valuetext', [words.textContent, ...spoken].join('; '));
  };
  cursor.follow(show);
  show(cursor.x);
  const key = rows.map(({ pen, name }, k) =>
    el('li', {}, el('b', {}, pen.letter), sample(pen), el('span', {}, name), values[k]!),
  );
  return [
    el('div', { class: 'under-chart' }, slider),
    words,
    el('ul', { class: 'key' }, ...key),
    ...(spec.table ? [samples(spec.table, spec)] : []),
  ];
}
