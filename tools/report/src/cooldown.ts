// SPDX-License-Identifier: MIT
// The cool-down search: what every plan costs and leaves, the chosen one against parking at once, how many hot laps.

import type { Line } from './chart';
import { Chart, ChartFrame } from './chart';
import { capital, el, fold, section, svg, table } from './dom';
import { limitsOf, partsOf } from './parts';
import type { Axle, Column, PerAxle, Run, Verdict } from './run';
import { thin } from './slice';
import type { Store } from './state';
import { clock, decimal, percent, plainNumber, Units } from './units';

interface Soak {
  at_rest: number;
  fluid: number | null;
  fluid_after: number;
  piston: number | null;
  caliper: number | null;
  hat: number | null;
  cooling: number;
  largest_growth: number | null;
  smallest_growth: number | null;
}

interface PlanRow {
  name: string;
  cost: number;
  left: number;
  holds: boolean;
  unbeaten: boolean;
  tightest: Verdict | null;
  front: Soak;
  rear: Soak;
}

interface Most {
  laps: number;
  limit: Verdict | null;
}

interface Rest extends Most {
  every: number;
  pace: number;
  rest_costs: number;
  lap_costs: number;
  settled: boolean;
}

export interface Cooldown {
  sure: string;
  chosen: number;
  park_now: number;
  surest: number | null;
  holds: boolean;
  plans: PlanRow[];
  harms: { gentle: Verdict; harsh: Verdict; plan: number; chosen: boolean }[];
  park_now_curves: PerAxle<Record<string, Column>>;
  hot_laps: {
    planned: number;
    searched: number;
    lap_time: number;
    driving: Most;
    with_plan: Most;
    with_park_now: Most;
    rests: Rest[];
  };
}

const limitName = (v: Verdict & { aspect?: string }): string => `${v.axle} ${v.part}${v.aspect ? `, ${v.aspect}` : ''}`;
const minutes = (seconds: number): string => decimal(seconds / 60, 1);

const kPictureHeight = 360;
const kRoom = { left: 64, right: 20, top: 16, bottom: 44 };

function stepFor(range: number, parts: number): number {
  const raw = range / parts;
  const ten = 10 ** Math.floor(Math.log10(raw));
  return ([1, 2, 5].find((s) => raw <= s * ten) ?? 10) * ten;
}

/** Cost to the right, what is left of the tightest limit upward. */
function picture(data: Cooldown, width: number): SVGElement {
  const costs = data.plans.map(({ cost }) => cost / 60);
  const lefts = data.plans.map(({ left }) => 100 * left);
  const last = 1.05 * Math.max(...costs, 1);
  const low = Math.min(0, ...lefts) - 6;
  const high = Math.max(0, ...lefts) + 8;
  const x = (value: number): number => kRoom.left + (value / last) * (width - kRoom.left - kRoom.right);
  const y = (value: number): number =>
    kRoom.top + ((high - value) / (high - low)) * (kPictureHeight - kRoom.top - kRoom.bottom);
  const root = svg('svg', {
    class: 'trade-off',
    viewBox: `0 0 ${width} ${kPictureHeight}`,
    width,
    height: kPictureHeight,
    role: 'img',
    'aria-label': 'Cost of every plan against what it leaves of its tightest limit; the table below lists those that count',
  });
  const yStep = stepFor(high - low, 5);
  for (let v = Math.ceil(low / yStep) * yStep; v <= high; v += yStep) {
    const limit = Math.abs(v) < 1e-9;
    root.append(
      svg('line', { class: limit ? 'limit' : 'grid', x1: kRoom.left, x2: width - kRoom.right, y1: y(v), y2: y(v) }),
      svg('text', { x: kRoom.left - 8, y: y(v) + 5, 'text-anchor': 'end' }, limit ? 'limit' : `${decimal(v, 0)} %`),
    );
  }
  const xStep = stepFor(last, Math.max(3, width / 110));
  for (let v = 0; v <= last; v += xStep)
    root.append(svg('text', { x: x(v), y: kPictureHeight - 20, 'text-anchor': 'middle' }, decimal(v, xStep < 1 ? 1 : 0)));
  data.plans.forEach((plan, i) => {
    if (!plan.unbeaten) root.append(svg('circle', { class: 'beaten', cx: x(costs[i]!), cy: y(lefts[i]!), r: 3.5 }));
  });
  const front = data.plans.map((plan, i) => ({ plan, i })).filter(({ plan }) => plan.unbeaten);
  front.sort((a, b) => a.plan.cost - b.plan.cost);
  const path = front.map(({ i }, k) => `${k ? `H${x(costs[i]!)}V` : `M${x(costs[i]!)} `}${y(lefts[i]!)}`).join('');
  root.append(svg('path', { class: 'front', d: path }));
  for (const { i } of front)
    root.append(svg('rect', { class: 'unbeaten', x: x(costs[i]!) - 4.5, y: y(lefts[i]!) - 4.5, width: 9, height: 9 }));
  const name = (i: number, text: string, below: boolean): void => {
    const late = costs[i]! > last / 2;
    root.append(
      svg('circle', { class: 'named', cx: x(costs[i]!), cy: y(lefts[i]!), r: 10 }),
      svg(
        'text',
        { class: 'name', x: x(costs[i]!) + (late ? -14 : 14), y: y(lefts[i]!) + (below ? 20 : -8), 'text-anchor': late ? 'end' : 'start' },
        text,
      ),
    );
  };
  if (data.chosen !== data.park_now) name(data.park_now, 'park at once', true);
  name(data.chosen, praise(data), false);
  return root;
}

// A plan is not to sound good for being the best of those that all pass a limit.
const praise = ({ holds }: Cooldown): string => (holds ? 'chosen' : 'least bad');

function shownRows(data: Cooldown): number[] {
  const wanted = new Set([data.chosen, data.park_now]);
  if (data.surest !== null) wanted.add(data.surest);
  data.plans.forEach(({ unbeaten }, i) => unbeaten && wanted.add(i));
  return [...wanted].sort((a, b) => data.plans[a]!.cost - data.plans[b]!.cost || a - b);
}

export function tradeOff(run: Run, store: Store): HTMLElement | null {
  const data = run.cooldown;
  if (!data) return null;
  const frame = el('div', { class: 'trade-off-frame' });
  let width = 0;
  new ResizeObserver(() => {
    if (frame.clientWidth === width || frame.clientWidth === 0) return;
    width = frame.clientWidth;
    frame.replaceChildren(picture(data, width));
  }).observe(frame);
  const host = el('div', { class: 'plans' });
  store.follow(['system'], () => {
    const units = new Units(store.view.system);
    host.replaceChildren(
      table({
        caption: `Plans that nothing beats, the ${praise(data)} one and parking at once`,
        head: ['Plan', 'Costs, min', 'Left', 'Holds', 'Closest to its limit', 'Reaches', 'Limit'],
        rows: shownRows(data).map((i) => {
          const plan = data.plans[i]!;
          const v = plan.tightest;
          const mark = i === data.chosen ? ` (${praise(data)})` : '';
          return [
            plan.name + mark,
            minutes(plan.cost),
            percent(plan.left),
            plan.holds ? 'yes' : 'no',
            v ? limitName(v) : '–',
            v ? units.judged(v.unit, v.value) : '–',
            v ? units.judged(v.unit, v.limit) : '–',
          ];
        }),
      }),
    );
  });
  return section(
    'Which plan costs what?',
    data.sure ? el('p', {}, data.sure) : null,
    el(
      'p',
      {},
      `${data.plans.length} plans were run. A plan costs the minutes from the end of the last hot lap until the car stands; ` +
        'a fan counts as what fetching it takes. Left is the share that the tightest limit has left; below the line it is passed. ' +
        'Squares: no plan leaves more for less. Circles: the others. Times in the rows above count from the end of the last hot lap.',
    ),
    el('p', { class: 'axis-title left' }, 'Left of the tightest limit'),
    frame,
    el('p', { class: 'axis-title' }, 'Minutes until the car stands'),
    host,
  );
}

function curves(run: Run, data: Cooldown, axle: Axle, units: Units): HTMLElement {
  const { time } = run.series!;
  const same = data.chosen === data.park_now;
  const unit = units.unit('temperature');
  const columns = partsOf(run, axle).flatMap(({ key, name }): { name: string; values: Column }[] => {
    const parked = data.park_now_curves[axle]?.[key];
    return [
      { name: `${name}, ${unit}`, values: run.series![axle]!.temperature![key]! },
      ...(same || !parked ? [] : [{ name: `${name} when parking at once, ${unit}`, values: parked }]),
    ];
  });
  return table({
    caption: `After the last hot lap, ${axle}, sampled`,
    head: ['Time', ...columns.map(({ name }) => name)],
    rows: thin(time.length, 40, []).map((i) => [
      clock(time[i]!),
      ...columns.map(({ values }) => units.number('temperature', values[i])),
    ]),
  });
}

export function chosenAgainstParking(run: Run, store: Store): HTMLElement | null {
  const data = run.cooldown;
  if (!data || !run.series) return null;
  const chosen = data.plans[data.chosen]!;
  const parked = data.plans[data.park_now]!;
  const same = data.chosen === data.park_now;
  const frame = new ChartFrame();
  const host = el('div', { class: 'plans' });
  const draw = (): void => {
    const { axle, system } = store.view;
    const units = new Units(system);
    const content: (Chart | Node)[] = [];
    for (const part of partsOf(run, axle)) {
      const pens: Line[] = [
        { ...part, letter: 'C', dash: [], name: same ? 'park at once' : praise(data), values: units.column('temperature', run.series![axle]!.temperature![part.key]!) },
      ];
      const other = data.park_now_curves[axle]?.[part.key];
      if (!same && other)
        pens.push({ ...part, letter: 'P', dash: [6, 5], width: 2.5, name: 'park at once', values: units.column('temperature', other) });
      content.push(
        el('h3', {}, `${part.name}, ${units.unit('temperature')}, ${axle}`),
        new Chart({
          label: `${part.name} after the last hot lap; the values are in the table below`,
          height: 240,
          x: run.series!.time,
          xKind: 'time',
          lines: pens,
          levels: limitsOf(run, axle, [part]).map(({ name, value }) => ({ name, value: units.of('temperature', value) })),
        }),
      );
    }
    frame.replace(
      ...content,
      el('p', { class: 'axis-title under-chart' }, 'Time since the end of the last hot lap, minutes and seconds'),
      fold('The same as a table', () => curves(run, data, axle, units), { class: 'screen-only' }),
    );
    const rows: [string, (s: Soak) => string][] = [
      ['Ring when the car comes to rest', (s) => units.text('temperature', s.at_rest)],
      ['Fluid, highest', (s) => units.text('temperature', s.fluid)],
      ['Fluid peak, after coming to rest', (s) => (s.fluid_after > 0 ? clock(s.fluid_after) : 'before')],
      ['Pistons, highest', (s) => units.text('temperature', s.piston)],
      ['Caliper, highest', (s) => units.text('temperature', s.caliper)],
      ['Hat flange, highest', (s) => units.text('temperature', s.hat)],
      ['Ring face, fastest cooling', (s) => units.text('rate', s.cooling)],
      ['Joint, ring over hat at most', (s) => units.text('clearance', s.largest_growth)],
      ['Joint, ring over hat at least', (s) => units.text('clearance', s.smallest_growth)],
    ];
    host.replaceChildren(
      table({
        caption: `On the way down, ${axle}`,
        head: same ? ['What', 'Park at once'] : ['What', capital(`${praise(data)} plan`), 'Park at once'],
        rows: rows.map(([name, text]) => [name, text(chosen[axle]), ...(same ? [] : [text(parked[axle])])]),
      }),
    );
  };
  store.follow(['axle', 'system'], draw);
  return section(
    same ? 'What happens on the way down?' : `What does the ${praise(data)} plan save?`,
    el('p', {}, same ? chosen.name : `C, unbroken: ${chosen.name}. P, dashed: park at once.`),
    frame.root,
    host,
  );
}

export function coolingHarm(run: Run, store: Store): HTMLElement | null {
  const data = run.cooldown;
  if (!data) return null;
  const list = el('ul', { class: 'plain' });
  store.follow(['system'], () => {
    const units = new Units(store.view.system);
    list.replaceChildren(
      ...data.harms.map(({ gentle, harsh, plan, chosen }) =>
        el(
          'li',
          {},
          el('b', {}, limitName(gentle)),
          `: ${units.judged(gentle.unit, gentle.value)} when parking at once, ${units.judged(harsh.unit, harsh.value)} with ` +
            `${data.plans[plan]!.name}; limit ${units.judged(harsh.unit, harsh.limit)}.` +
            (chosen ? ` The ${praise(data)} plan pays some of it.` : ''),
        ),
      ),
    );
  });
  return section(
    'Where does cooling harder do harm?',
    data.harms.length
      ? el('p', {}, 'Air cools the ring sooner than the hat, which takes clearance or adds load at the joint, and every braking on the way heats the faces and loads the joint again. Listed is what some plan leaves less than half of.')
      : el('p', {}, 'Nowhere among these plans: ring and joint keep half of what they have, or all that parking at once leaves them.'),
    list,
  );
}

export function hotLaps(run: Run, store: Store): HTMLElement | null {
  const data = run.cooldown?.hot_laps;
  if (!data) return null;
  const host = el('div', { class: 'plans' });
  store.follow(['system'], () => {
    const units = new Units(store.view.system);
    const broken = (v: Verdict | null): string[] =>
      v ? [limitName(v), (v.since ?? v).span ?? '', units.judged(v.unit, v.limit)] : ['none was passed', '', ''];
    const most = ({ laps, limit }: Most): string => (limit ? String(laps) : `${laps} or more`);
    host.replaceChildren(
      table({
        caption: `Most hot laps in a row; ${data.planned} are planned, ${data.searched} were looked at`,
        head: ['Limits held', 'Hot laps', 'The next one passes', 'Where', 'Limit'],
        rows: (
          [
            ['on track alone', data.driving],
            ['with the plan above after them', data.with_plan],
            ['with parking at once after them', data.with_park_now],
          ] as const
        ).map(([name, m]) => [name, most(m), ...broken(m.limit)]),
      }),
      table({
        caption: `A lift-and-coast lap in between, limits on track alone; a hot lap takes ${decimal(data.lap_time, 1)} s`,
        head: ['Lift and coast', 'That lap, s', 'Average lap, s', 'Hot laps', 'Then passes'],
        rows: data.rests.map((r) => [
          `after every ${r.every === 1 ? 'hot lap' : `${r.every} hot laps`}, at ${plainNumber(r.pace)} pace`,
          `+${decimal(r.rest_costs, 1)}`,
          `+${decimal(r.lap_costs, 1)}`,
          r.settled ? 'steady' : most(r),
          r.limit ? limitName(r.limit) : '–',
        ]),
      }),
      el(
        'p',
        { class: 'hint' },
        'Counted with the likely cooling; wear, softening and fatigue go on with every lap.' +
          (data.rests.length ? ' Steady: no hotter from lap to lap.' : ''),
      ),
    );
  });
  return section('How many hot laps?', host);
}
