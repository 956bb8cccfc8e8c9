// SPDX-License-Identifier: MIT
// A logged lap: how it was braked, against another one if there is one, and how the log was read.

import { Chart, ChartFrame } from './chart';
import { zoneBars } from './brakings';
import { Cursor } from './cursor';
import { capital, el, section, table } from './dom';
import type { Pen } from './parts';
import { kSpeed } from './parts';
import { readout } from './readout';
import type { Run } from './run';
import type { Store } from './state';
import type { Against, LogBraking, Trace } from './trace_data';
import type { Quantity } from './units';
import { clock, percent, signed, Units } from './units';
import { glyph, shortCaution } from './verdicts';

const kThis: Pen = { ...kSpeed, letter: 'A' };
const kOther: Pen = { letter: 'B', ink: 'hat', dash: [10, 4], width: 2.5 };
const kLost: Pen = { letter: 'C', ink: 'ring', dash: [], width: 2 };

const energyOf = (trace: Trace): Quantity => (trace.energy_of === 'kilogram' ? 'specific_energy' : 'energy');

function hardest(brakings: readonly LogBraking[]): number {
  return brakings.reduce((best, { energy }, i) => (energy > brakings[best]!.energy ? i : best), 0);
}

/** Where most time is lost, if it is worth a word. */
function mostLost({ brakings }: Against): Against['brakings'][number] | null {
  const worst = brakings.reduce<Against['brakings'][number] | null>(
    (best, braking) => (!best || braking.lost > best.lost ? braking : best),
    null,
  );
  return worst && worst.lost >= 0.05 ? worst : null;
}

function sentence(trace: Trace, units: Units): string {
  const lap = trace.lap === null ? 'This drive' : `Lap ${trace.lap}`;
  const size = `${lap}: ${clock(trace.trace.duration, 2)} over ${units.text('route', trace.trace.length)}.`;
  if (trace.failure) return `${size} It cannot be driven as it is: ${trace.failure}`;
  const first = trace.brakings[hardest(trace.brakings)];
  if (!first) return `${size} No braking was found in it.`;
  const most =
    `${trace.brakings.length} brakings; the one at ${units.text('road', first.distance)} heats the most, ` +
    `${units.number('speed', first.entry_speed)} to ${units.text('speed', first.exit_speed)}.`;
  const { against } = trace;
  if (!against) return `${size} ${most}`;
  const all = `${units.text('seconds', Math.abs(against.lost))} ${against.lost > 0 ? 'slower' : 'faster'} than ${against.name}`;
  const worst = mostLost(against);
  const place = worst ? (worst.this ?? worst.other) : null;
  return worst && place
    ? `${size} ${all}; ${units.text('seconds', worst.lost)} is lost from the braking at ${units.text('road', place.distance)} on.`
    : `${size} ${all}.`;
}

export function traceAnswer(run: Run, store: Store): HTMLElement {
  const trace = run.trace!;
  const doubts = trace.guesses.filter(({ doubtful }) => doubtful).length;
  const level = doubts > 0 || trace.failure || trace.against?.shift ? 'near' : 'unknown';
  const host = el('div');
  store.follow(['system'], () => {
    const units = new Units(store.view.system);
    const shift = trace.against?.shift;
    host.replaceChildren(
      el('h2', { id: 'answer' }, sentence(trace, units)),
      ...(doubts > 0
        ? [el('p', {}, `${doubts} ${doubts === 1 ? 'guess' : 'guesses'} about the log deserve a second look, below.`)]
        : []),
      ...(shift
        ? [
            el(
              'p',
              {},
              `The laps fit far better with the other one moved by ${units.text('road', Math.abs(shift))}: are both cut ` +
                'at the same place? Give both the same --start-line.',
            ),
          ]
        : []),
    );
  });
  return el(
    'section',
    { 'aria-labelledby': 'answer' },
    el('div', { class: `answer ${level}` }, glyph(level === 'near' ? 'near the limit' : 'not judged'), host),
    shortCaution(),
  );
}

export function lapSpeed(run: Run, store: Store): HTMLElement | null {
  const { series } = run;
  const trace = run.trace!;
  if (!series?.distance || !series.speed) return null;
  const { against } = trace;
  const frame = new ChartFrame();
  let at = trace.brakings[hardest(trace.brakings)]?.distance ?? 0;
  store.follow(['system'], () => {
    const units = new Units(store.view.system);
    const x = series.distance!.map((metres) => units.of('route', metres));
    const cursor = new Cursor(units.of('route', at));
    cursor.follow((value) => {
      at = value / units.of('route', 1);
    });
    const common = { x, xKind: 'number' as const, cursor };
    const speeds = [{ ...kThis, name: 'This lap', values: units.column('speed', series.speed!) }];
    if (against?.speed) speeds.push({ ...kOther, name: 'The other', values: units.column('speed', against.speed) });
    const rows = speeds.map(({ values: _, name, ...pen }, k) => ({
      pen,
      name,
      text: (i: number) => units.text('speed', (k === 0 ? series.speed! : against!.speed!)[i]),
    }));
    if (against?.lost_at) {
      rows.push({ pen: kLost, name: 'Time lost so far', text: (i) => units.text('seconds', against.lost_at![i]) });
    }
    frame.replace(
      el('h3', {}, `Speed, ${units.unit('speed')}`),
      new Chart({ ...common, label: 'Speed along the lap; the values are in the table below', height: 320, lines: speeds }),
      ...(against?.lost_at
        ? [
            el('h3', {}, 'Time lost to the other lap so far, s: where the line rises, this lap is the slower'),
            new Chart({
              ...common,
              label: 'Time lost along the lap; the values are in the table below',
              height: 200,
              zero: true,
              lines: [{ ...kLost, name: 'Time lost', values: [...against.lost_at] }],
            }),
          ]
        : []),
      el('p', { class: 'axis-title under-chart' }, `Distance from the start of the lap, ${units.unit('route')}`),
      ...readout({
        label: 'Place shown',
        table: 'Speed along the lap, sampled',
        x,
        cursor,
        moment: (i) => `${units.text('road', series.distance![i])} in, at ${clock(series.time[i]!, 1)}`,
        rows,
      }),
    );
  });
  return section(
    against ? 'Where do the two laps part?' : 'How fast, and where?',
    frame.root,
    el('p', { class: 'hint' }, 'Tap or drag on a chart, or move the slider with the arrow keys.'),
  );
}

const kBasis: Record<Trace['energy_of'], string> = {
  car: 'Heat of the brakes of the whole car; drag, rolling, engine, hills and tyre slip are taken off.',
  mass: 'Kinetic energy of the mass given; drag, engine and hills are still in it. With --car they are taken off.',
  kilogram: 'Kinetic energy of each kilogram; drag, engine and hills are still in it. Give --mass or, better, --car.',
};

function styles(trace: Trace, units: Units): HTMLElement {
  const energy = energyOf(trace);
  const power = trace.energy_of === 'kilogram' ? 'specific_power' : 'power';
  return table({
    caption: 'Every braking of the lap',
    head: [
      'Braking',
      `Begins, ${units.unit('road')} in`,
      `Entry, ${units.unit('speed')}`,
      `Exit, ${units.unit('speed')}`,
      `Slowest after, ${units.unit('speed')}`,
      'Rounded',
      'Hardest slowing, g',
      'Lasts, s',
      `Energy, ${units.unit(energy)}`,
      `Peak, ${units.unit(power)}`,
    ],
    rows: trace.brakings.map((braking, i) => [
      String(i + 1),
      units.number('road', braking.distance),
      units.number('speed', braking.entry_speed),
      units.number('speed', braking.exit_speed),
      units.number('speed', braking.slowest),
      percent(braking.rounding),
      units.number('slowing', braking.hardest),
      units.number('seconds', braking.duration),
      units.number(energy, braking.energy),
      units.number(power, braking.peak_power),
    ]),
  });
}

function differences(against: Against, units: Units): HTMLElement {
  return table({
    caption: `This lap less ${against.name}; time is counted to the next braking`,
    head: ['Braking at', 'Entry', 'Begins', 'Slowest after', 'Rounded', 'Time lost, s'],
    rows: against.brakings.map(({ this: mine, other, lost }) => {
      const at = units.text('road', (mine ?? other)!.distance);
      const time = signed(units.number('seconds', Math.abs(lost)), lost);
      if (!mine || !other) return [at, `only ${mine ? 'this lap' : 'the other'} brakes here`, '–', '–', '–', time];
      const speed = (value: number): string => signed(units.text('speed', Math.abs(value)), value);
      const metres = mine.distance - other.distance;
      const earlier = units.text('road', Math.abs(metres));
      return [
        at,
        speed(mine.entry_speed - other.entry_speed),
        /[1-9]/.test(earlier) ? `${earlier} ${metres < 0 ? 'earlier' : 'later'}` : 'same place',
        speed(mine.slowest - other.slowest),
        signed(percent(Math.abs(mine.rounding - other.rounding)), mine.rounding - other.rounding),
        time,
      ];
    }),
  });
}

export function lapBrakings(run: Run, store: Store): HTMLElement | null {
  const trace = run.trace!;
  if (trace.brakings.length === 0) return null;
  const host = el('div');
  store.follow(['system'], () => {
    const units = new Units(store.view.system);
    const energy = energyOf(trace);
    host.replaceChildren(
      ...(trace.against ? [differences(trace.against, units)] : []),
      zoneBars(
        trace.brakings.map((braking, i) => ({
          name: `${i + 1}, ${units.text('road', braking.distance)} in`,
          about: `${units.number('speed', braking.entry_speed)} to ${units.text('speed', braking.exit_speed)}`,
          values: [braking.energy, braking.hardest, braking.rounding],
        })),
        [
          { name: 'Energy', text: (value) => units.text(energy, value) },
          { name: 'Hardest slowing', text: (value) => units.text('slowing', value) },
          { name: 'Rounded', text: (value) => percent(value) },
        ],
      ),
      styles(trace, units),
    );
  });
  return section(
    'How was it braked?',
    el(
      'p',
      {},
      `${kBasis[trace.energy_of]} Rounded: how far the mean slowing stays below the hardest. 0 % is a pedal hit, held ` +
        'and dropped; 50 % one let out evenly from the first moment. Slowest after: until the next braking.',
    ),
    host,
  );
}

export function logLaps(run: Run, store: Store): HTMLElement | null {
  const trace = run.trace!;
  if (trace.laps.length === 0) return null;
  const host = el('div');
  store.follow(['system'], () => {
    const units = new Units(store.view.system);
    host.replaceChildren(
      table({
        caption: 'Laps of the log',
        head: [
          'Lap',
          'Time',
          `Length, ${units.unit('route')}`,
          `Fastest, ${units.unit('speed')}`,
          `Slowest, ${units.unit('speed')}`,
          'Use',
        ],
        rows: trace.laps.map((lap) => [
          String(lap.number),
          clock(lap.time, 2),
          units.number('route', lap.length),
          units.number('speed', lap.fastest),
          units.number('speed', lap.slowest),
          lap.number === trace.lap ? 'this one' : lap.complete ? 'whole' : lap.why_incomplete,
        ]),
      }),
    );
  });
  return section('Which lap is it?', host);
}

export function logReading(run: Run): HTMLElement {
  const { guesses, faults, rows, columns, source } = run.trace!;
  const lines = new Map<string, number[]>();
  for (const { line, what } of faults) lines.set(what, [...(lines.get(what) ?? []), line]);
  // Doubtful guesses first; the order of the reading within each.
  const ordered = [...guesses].sort((a, b) => Number(b.doubtful) - Number(a.doubtful));
  return section(
    'How was the log read?',
    el('p', {}, `${source}: ${rows} rows of ${columns} columns. Is that your top speed, your lap time? Then it is right.`),
    table({
      caption: 'Every guess, and what changes it on the command line',
      head: ['What', 'Read as', 'Why', 'Changed by'],
      rows: ordered.map(({ what, choice, reason, option, doubtful }) => [
        `${doubtful ? 'Look twice: ' : ''}${capital(what)}`,
        choice,
        reason,
        option || '–',
      ]),
      words: true,
    }),
    faults.length > 0
      ? table({
          caption: 'Left out or mended',
          head: ['What', 'Lines of the file'],
          rows: [...lines].map(([what, list]) => [capital(what), list.join(', ')]),
          words: true,
        })
      : null,
  );
}
