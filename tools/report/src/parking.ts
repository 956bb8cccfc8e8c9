// SPDX-License-Identifier: MIT
// After the car has stopped: discs cool while caliper and fluid still warm up.

import type { Line } from './chart';
import { Chart, ChartFrame } from './chart';
import { el, fold, pick, section, table } from './dom';
import type { Part } from './parts';
import { limitsOf, partsOf } from './parts';
import type { Run } from './run';
import { cut, indexOfHighest, slice, thin } from './slice';
import type { Store } from './state';
import { clock, Units } from './units';

const kShown: readonly string[] = ['ring_mean', 'hat_flange', 'caliper', 'fluid', 'hub'];

interface Peak {
  part: Part;
  i: number;
  kelvin: (number | null)[];
}

/** One sentence a part: when its highest comes, or that it only cools. */
function peakText({ part, i, kelvin }: Peak, x: readonly number[], units: Units): string {
  const value = units.text('temperature', kelvin[i]);
  if (i === 0) return `${part.name}: ${value} when the car stops, then only cooler.`;
  const after = clock(x[i]!);
  if (i === kelvin.length - 1) return `${part.name}: still rising when the run ends, ${value} after ${after} parked.`;
  return `${part.name}: peaks at ${value} after ${after} parked.`;
}

export function parking(run: Run, store: Store): HTMLElement | null {
  if (!run.series || !run.spans) return null;
  const question = 'What happens after parking?';
  const stops = run.spans.map((span, i) => ({ span, i })).filter(({ span }) => span.phase === 'parked');
  const longest = stops.reduce<(typeof stops)[number] | null>(
    (best, stop) => (!best || stop.span.end - stop.span.begin >= best.span.end - best.span.begin ? stop : best),
    null,
  );
  if (!longest) {
    return section(
      question,
      el('p', {}, 'This session has no parked time, so the rise after parking was not looked at.'),
    );
  }
  let stop = longest.i;
  const frame = new ChartFrame();
  const peaks = el('ul', { class: 'plain' });
  const data = el('div');

  const draw = (): void => {
    const { axle, system } = store.view;
    const units = new Units(system);
    const stretch = slice(run, { along: 'time', span: stop }, units);
    const found = partsOf(run, axle)
      .filter(({ key }) => kShown.includes(key))
      .map((part): Peak => {
        const kelvin = cut(run.series![axle]!.temperature![part.key], stretch);
        return { part, kelvin, i: Math.max(indexOfHighest(kelvin), 0) };
      });
    const lines = found.map(({ part, kelvin }): Line => ({ ...part, values: units.column('temperature', kelvin) }));
    const marks = found.flatMap(({ part, i }, k) => {
      const y = lines[k]!.values[i];
      return i > 0 && typeof y === 'number'
        ? [
            {
              x: stretch.x[i]!,
              y,
              pen: part,
              text: `${part.letter} peak ${units.number('temperature', found[k]!.kelvin[i])}`,
            },
          ]
        : [];
    });
    const fluid = found.filter(({ part }) => part.key === 'fluid').map(({ part }) => part);
    frame.replace(
      el('h3', {}, `Temperature, ${units.unit('temperature')}, ${axle} disc`),
      new Chart({
        label: 'Temperatures while parked; the peaks are listed below',
        height: 380,
        x: stretch.x,
        xKind: 'time',
        lines,
        marks,
        levels: limitsOf(run, axle, fluid).map(({ name, value }) => ({ name, value: units.of('temperature', value) })),
      }),
      el('p', { class: 'axis-title under-chart' }, 'Time since parking, minutes and seconds'),
    );
    peaks.replaceChildren(
      ...found.map((peak) => el('li', {}, el('b', {}, peak.part.letter), ' ', peakText(peak, stretch.x, units))),
    );
    const rows = thin(
      stretch.x.length,
      30,
      found.map(({ i }) => i),
    );
    data.replaceChildren(
      fold(
        'The same as a table',
        () =>
          table({
            caption: 'Samples spread over the parked time, with every peak',
            head: ['Parked for', ...found.map(({ part }) => `${part.name}, ${units.unit('temperature')}`)],
            rows: rows.map((i) => [
              clock(stretch.x[i]!),
              ...found.map(({ kelvin }) => units.number('temperature', kelvin[i])),
            ]),
          }),
        { class: 'screen-only' },
      ),
    );
  };
  store.follow(['axle', 'system'], draw);
  const controls =
    stops.length > 1
      ? el(
          'div',
          { class: 'controls' },
          pick(
            'Stop',
            stops.map(({ span, i }) => ({ value: String(i), text: `${span.label}, from ${clock(span.begin)}` })),
            String(stop),
            (value) => {
              stop = Number(value);
              draw();
            },
          ),
        )
      : null;
  return section(question, controls, frame.root, peaks, data);
}
