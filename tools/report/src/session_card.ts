// SPDX-License-Identifier: MIT
// One page to print and take along: limits, plan, what to read where, and boxes for what was read.

import { capital, el } from './dom';
import type { Axle, Run, Span } from './run';
import { axlesOf, indexAt } from './run';
import { kLimitNames } from './parts';
import type { Store } from './state';
import { clock, Units } from './units';
import { known } from './verdicts';

interface Spot {
  where: string;
  with: string;
  key: string; // of the peak that it is expected to read
}

const kSpots: Spot[] = [
  { where: 'Disc, outer edge of ring', with: 'paint', key: 'ring_mean' },
  { where: 'Hat flange, beside the bolts', with: 'label or paint', key: 'hat_flange' },
  { where: 'Caliper body, away from pads', with: 'label', key: 'caliper' },
  { where: 'Upright, at the hub', with: 'label', key: 'hub' },
];

// What a driver can hold against a reading; the rest stands in the report.
const kLimits = ['ring_face', 'ring_mean', 'hat', 'pad', 'caliper', 'fluid'];

function grid(caption: string, head: string[], rows: (string | null)[][]): HTMLElement {
  const cells = el(
    'table',
    {},
    el('caption', {}, caption),
    el('thead', {}, el('tr', {}, ...head.map((text) => el('th', { scope: 'col' }, text)))),
    el(
      'tbody',
      {},
      ...rows.map((row) =>
        el(
          'tr',
          {},
          ...row.map((text, i) =>
            i === 0
              ? el('th', { scope: 'row' }, text ?? '')
              : text === null
                ? el('td', { class: 'box' }, el('span', { class: 'unread' }, 'to fill in'))
                : el('td', {}, text),
          ),
        ),
      ),
    ),
  );
  return el('div', { class: 'sideways', role: 'region', tabindex: 0, 'aria-label': caption }, cells);
}

/** 'out lap 1:57; lap 2 to lap 9, 8 laps 12:36; cool-down lap 2:13; parked 20:00' */
function planText(spans: Span[]): string {
  const groups: { first: Span; last: Span; count: number }[] = [];
  const numbered = (span: Span): boolean => /^lap \d+$/.test(span.label);
  for (const span of spans) {
    const open = groups[groups.length - 1];
    if (open && numbered(open.last) && numbered(span)) {
      open.last = span;
      ++open.count;
    } else if (open && open.last.label === span.label) {
      open.last = span;
      ++open.count;
    } else {
      groups.push({ first: span, last: span, count: 1 });
    }
  }
  return groups
    .map(({ first, last, count }) => {
      const time = clock(last.end - first.begin);
      if (count === 1) return `${first.label} ${time}`;
      return first.label === last.label
        ? `${count} × ${first.label} ${time}`
        : `${first.label} to ${last.label} (${count} laps) ${time}`;
    })
    .join('; ');
}

function expected(run: Run, axle: Axle, key: string, units: Units): string {
  const peak = run.peaks?.[axle]?.[key];
  if (!peak) return '–';
  const text = (kelvin: number): string => units.number('temperature', kelvin);
  const { value, value_low: low, value_high: high } = peak;
  return low !== undefined && high !== undefined ? `${text(low)} to ${text(high)}` : `about ${text(value)}`;
}

function limitText(run: Run, axle: Axle, key: string, units: Units): string {
  const limit = run.limits?.[key];
  const value = typeof limit === 'object' && limit !== null ? limit[axle] : limit;
  return units.number('temperature', value);
}

/** What a gun would read on the ring as the car comes to rest. */
function atRest(run: Run, axle: Axle, units: Units): string {
  const parked = run.spans?.find(({ phase }) => phase === 'parked');
  const column = run.series?.[axle]?.temperature?.['ring_mean'];
  if (!parked || !column) return '–';
  const i = Math.min(indexAt(run.series!.time, parked.begin), column.length - 1);
  return `about ${units.number('temperature', column[i])}`;
}

function worst(run: Run): string {
  const first = run.verdicts?.[0];
  if (!first) return run.sentence ?? '';
  const { axle, part, what } = first;
  return `Closest: ${capital(axle)} ${part}, ${what} (${known(first.level)}). ${first.advice ?? ''}`;
}

function card(run: Run, units: Units): Node[] {
  const axles = axlesOf(run);
  const unit = units.unit('temperature');
  const limits = kLimits.filter((key) => run.limits?.[key] !== undefined);
  return [
    el('h2', {}, `Session card: ${run.title || 'brake discs'}`),
    grid('Day', ['Run', 'Date', 'Air', 'Driver', 'Pads and fluid'], [['This one', null, null, null, null]]),
    el('p', {}, el('b', {}, 'Plan: '), planText(run.spans ?? []) || 'not known', '.'),
    el('p', {}, el('b', {}, 'Mind: '), worst(run)),
    grid(
      `Limits, ${unit}`,
      ['Disc', ...limits.map((key) => kLimitNames[key]!)],
      axles.map((axle) => [capital(axle), ...limits.map((key) => limitText(run, axle, key, units))]),
    ),
    grid(
      `Paint and labels: highest of the session, ${unit}. Use ones that turn below, in and above what is expected.`,
      ['Where', 'With', ...axles.flatMap((axle) => [`${capital(axle)}: expected`, 'Read'])],
      kSpots.map((spot) => [
        spot.where,
        spot.with,
        ...axles.flatMap((axle) => [expected(run, axle, spot.key, units), null]),
      ]),
    ),
    grid(
      `Gun on the ring after the stop, ${unit}. It reads low on bright metal.`,
      ['Disc', 'Expected at rest', 'Read', 'Seconds after stop'],
      axles.map((axle) => [capital(axle), atRest(run, axle, units), null, null]),
    ),
    grid('Pedal feel', ['When', 'Travel', 'Firm or soft', 'Noise, shake, smell'], [
      ['Before', null, null, null],
      ['Last hot lap', null, null, null],
      ['After parking', null, null, null],
    ]),
    el(
      'p',
      { class: 'card-caution' },
      'This is an estimate that can be wrong: inspect discs, joints, pads and fluid before and after every session, ' +
        "and follow the part makers' limits, the event's rules and local law. Hot parts burn: let them cool before " +
        'you touch paint or labels, and have safety-critical work checked by a qualified person.',
    ),
  ];
}

export function sessionCard(run: Run, store: Store): HTMLElement | null {
  if (!run.peaks || axlesOf(run).length === 0) return null;
  const sheet = el('div', { class: 'card' });
  store.follow(['system'], () => sheet.replaceChildren(...card(run, new Units(store.view.system))));
  const printCard = (): void => {
    const root = document.documentElement;
    root.classList.add('card-only');
    addEventListener('afterprint', () => root.classList.remove('card-only'), { once: true });
    print();
  };
  return el(
    'section',
    { class: 'session-card', 'aria-label': 'Session card' },
    el(
      'details',
      {},
      el('summary', {}, 'Session card to print'),
      el('p', { class: 'controls' }, el('button', { type: 'button', click: printCard }, 'Print this card')),
      sheet,
    ),
  );
}
