// SPDX-License-Identifier: MIT
// Half a cross-section of the disc, shaded by temperature at one moment, with the value of each part beside it.

import { capital, el, fold, freshId, pick, section, svg, table } from './dom';
import type { Drawing } from './geometry';
import { drawingOf } from './geometry';
import type { HeatScale } from './heat_scale';
import { heatScale } from './heat_scale';
import type { Part } from './parts';
import { partsOf } from './parts';
import type { Axle, Run } from './run';
import { axlesOf } from './run';
import { indexOfHighest } from './slice';
import type { Store } from './state';
import { isPrinting, onTheme } from './theme';
import { clock, Units } from './units';

const kNarrow = 660; // below this many pixels labels have no room for names
const kLine = 24;
const kMargin = 14;
const kLargest = 3400; // pixels a metre
const kPaper = 680; // pixels of a sheet's width

interface Moment {
  i: number;
  run: Run;
  axle: Axle;
  units: Units;
}

const kelvinOf = ({ run, axle, i }: Moment, key: string): number | null =>
  run.series?.[axle]?.temperature?.[key]?.[i] ?? null;

/** 'lap 9, 417 m in, at 15:20' for a drawn moment. */
function placeText({ run, units, i }: Moment): string {
  const series = run.series!;
  const time = series.time[i]!;
  const span = run.spans?.find(({ begin, end }) => time >= begin && time <= end);
  const distance = series.distance?.[i];
  return units.place({
    time,
    span: span?.label ?? '',
    lap: span?.lap ?? null,
    lap_distance: span && distance !== undefined ? Math.max(distance - span.begin_distance, 0) : null,
  });
}

/** Heights of labels that want to stand at `wanted`, in order, without overlap and inside the drawing. */
function spread(wanted: number[], top: number, bottom: number): number[] {
  const y = [...wanted];
  for (let k = 0; k < y.length; ++k) y[k] = Math.max(y[k]!, k ? y[k - 1]! + kLine : top);
  for (let k = y.length - 1; k >= 0; --k) y[k] = Math.min(y[k]!, k < y.length - 1 ? y[k + 1]! - kLine : bottom);
  return y;
}

function draw(drawing: Drawing, parts: Part[], at: Moment, scale: HeatScale, width: number): SVGElement {
  const narrow = width < kNarrow;
  const column = narrow ? 72 : 230;
  const span = drawing.x[1] - drawing.x[0];
  const zoom = Math.min((width - 2 * column - 2 * kMargin) / span, kLargest);
  const height = Math.max(drawing.top * zoom, 9 * kLine) + 2 * kMargin;
  const left = (width - span * zoom) / 2;
  const px = (x: number): number => left + (x - drawing.x[0]) * zoom;
  const py = (r: number): number => kMargin + (drawing.top - r) * zoom;
  const named = new Map(parts.map((part) => [part.key, part]));
  const root = svg('svg', {
    class: 'cross-section',
    viewBox: `0 0 ${width} ${height}`,
    width,
    height,
    'aria-hidden': 'true',
  });
  for (const { key, x, r, style } of drawing.shapes) {
    const kelvin = key ? kelvinOf(at, key) : null;
    root.append(
      svg('rect', {
        class: style ?? 'solid',
        x: px(x[0]),
        y: py(r[1]),
        width: Math.max((x[1] - x[0]) * zoom, 0),
        height: Math.max((r[1] - r[0]) * zoom, 0),
        ...(kelvin === null ? {} : { fill: scale.colour(kelvin) }),
      }),
    );
    if (style !== 'open') continue;
    // A vane seen edge on: strokes across the passage.
    for (let y = py(r[1]) + 9; y < py(r[0]) - 4; y += 12) {
      root.append(svg('line', { class: 'vane', x1: px(x[0]), x2: px(x[1]), y1: y + 4, y2: y - 4 }));
    }
  }
  root.append(svg('line', { class: 'axis', x1: px(drawing.x[0]), x2: px(drawing.x[1]), y1: py(0), y2: py(0) }));
  for (const side of ['left', 'right'] as const) {
    const anchors = drawing.anchors
      .filter(({ key, side: where }) => where === side && named.has(key))
      .sort((a, b) => b.r - a.r);
    const ys = spread(
      anchors.map(({ r }) => py(r)),
      kMargin,
      height - kMargin,
    );
    const beside = Math.max(left - kMargin - column, 0);
    const text = side === 'left' ? beside : Math.min(width - column, left + span * zoom + kMargin);
    anchors.forEach(({ key, x, r }, k) => {
      const { letter, name } = named.get(key)!;
      const edge = side === 'left' ? text + column - 4 : text - 4;
      const line = { x1: edge, y1: ys[k]!, x2: px(x), y2: py(r) };
      const value = at.units.number('temperature', kelvinOf(at, key));
      root.append(
        svg('line', { class: 'halo', ...line }),
        svg('line', { class: 'leader', ...line }),
        svg('circle', { class: 'dot', cx: px(x), cy: py(r), r: 3.5 }),
        svg(
          'text',
          { x: side === 'left' ? edge - 5 : text, y: ys[k]! + 6, class: side === 'left' ? 'to-line' : 'from-line' },
          svg('tspan', { class: 'strong' }, letter),
          narrow ? ' ' : ` ${name} `,
          svg('tspan', { class: 'value' }, value),
        ),
      );
    });
  }
  return root;
}

const kHottest: { text: string; keys: string[] }[] = [
  { text: 'ring face', keys: ['ring_face_outboard', 'ring_face_inboard'] },
  { text: 'hat', keys: ['hat_flange', 'hat_bell', 'hat_face'] },
  { text: 'brake fluid', keys: ['fluid'] },
];

/** Drawn moment at which the hottest of some parts peaks, -1 for none. */
function hottest(run: Run, axle: Axle, keys: string[]): number {
  const columns = run.series?.[axle]?.temperature ?? {};
  let best = -1;
  let value = -Infinity;
  for (const key of keys) {
    const i = indexOfHighest(columns[key] ?? []);
    const here = columns[key]?.[i] ?? -Infinity;
    if (i >= 0 && here > value) [best, value] = [i, here];
  }
  return best;
}

function describe(run: Run, axle: Axle): string {
  const { ring, joint } = run.geometry![axle]!;
  const kind =
    ring.kind === 'vented' ? `vented ring with ${ring.vanes} vanes (strokes across the passage)` : 'solid ring';
  const held =
    joint.kind === 'one_piece'
      ? 'cast in one piece with its hat'
      : `${joint.kind === 'floating' ? 'floating' : 'bolted hard'} on ${joint.fasteners} fasteners`;
  return (
    `A ${kind}, ${held}, cut from axle line to rim, wheel side on the left. Disc and pads are to scale; ` +
    'hub and caliper (dashed) are only sketched, and faces and pad surfaces are drawn thicker than their hot skin.'
  );
}

export function crossSection(run: Run, store: Store): HTMLElement | null {
  const axles = axlesOf(run).filter((axle) => run.geometry?.[axle]);
  const count = run.series?.time.length ?? 0;
  if (axles.length === 0 || count === 0) return null;
  const start = hottest(run, axles[0]!, kHottest[0]!.keys);
  let i = Math.max(start, 0);
  const words = el('p');
  const title = el('h3');
  const host = el('div', { class: 'chart' });
  const legend = el('div');
  const moment = el('p', { class: 'moment' });
  const key = el('ul', { class: 'key' });
  const data = el('div');
  const id = freshId('moment');
  const slider = el('input', {
    id,
    type: 'range',
    min: 0,
    max: count - 1,
    step: 1,
    value: i,
    input: () => go(Number(slider.value)),
  });

  const show = (): void => {
    const { axle, system } = store.view;
    const geometry = run.geometry?.[axle];
    if (!geometry) return;
    const units = new Units(system);
    const at: Moment = { i, run, axle, units };
    const parts = partsOf(run, axle);
    const scale = heatScale(run, axle, units);
    const unit = units.unit('temperature');
    if (host.clientWidth > 0) {
      const width = isPrinting() ? kPaper : Math.max(host.clientWidth, 300);
      host.replaceChildren(draw(drawingOf(geometry), parts, at, scale, width));
      legend.replaceChildren(scale.legend(Math.min(host.clientWidth, 480)));
    }
    title.textContent = `Temperature, ${unit}, ${axle} disc`;
    moment.textContent = capital(placeText(at));
    slider.value = String(i);
    const spoken = parts.map(({ key, name }) => `${name} ${units.text('temperature', kelvinOf(at, key))}`);
    slider.setAttribute('aria-valuetext', [moment.textContent, ...spoken].join('; '));
    key.replaceChildren(
      ...parts.map(({ key, letter, name }) =>
        el(
          'li',
          {},
          el('b', {}, letter),
          el('span', {}, name),
          el('strong', {}, units.text('temperature', kelvinOf(at, key))),
        ),
      ),
    );
  };
  const go = (to: number): void => {
    i = to;
    show();
  };
  const peaks = (): void => {
    const { axle, system } = store.view;
    const units = new Units(system);
    words.textContent = run.geometry?.[axle] ? describe(run, axle) : `The shape of the ${axle} disc is not known.`;
    data.replaceChildren(
      fold(
        'Hottest moment of each part, as a table',
        () =>
          table({
            caption: `Highest of the session, ${axle} disc`,
            head: ['Part', `Highest, ${units.unit('temperature')}`, 'Where'],
            rows: partsOf(run, axle).map(({ key, name }) => {
              const best = hottest(run, axle, [key]);
              const at: Moment = { i: best, run, axle, units };
              return [name, units.number('temperature', kelvinOf(at, key)), placeText(at)];
            }),
          }),
        { class: 'screen-only' },
      ),
    );
  };
  const chooser = el('div');
  store.follow(['axle'], () => {
    if (axles.length < 2) return;
    chooser.replaceChildren(
      pick(
        'Disc drawn',
        axles.map((axle) => ({ value: axle, text: capital(axle) })),
        store.view.axle,
        (axle) => store.set({ axle: axle as Axle }),
      ),
    );
  });
  store.follow(['axle', 'system'], peaks);
  store.follow(['axle', 'system'], show);
  onTheme(show);
  new ResizeObserver(show).observe(host);
  return section(
    'Where is the heat at one moment?',
    words,
    el('div', { class: 'controls' }, chooser),
    title,
    moment,
    el(
      'div',
      { class: 'controls moments' },
      el('label', { for: id }, `Moment drawn (of ${clock(run.series!.time[count - 1]!)} in all)`),
      slider,
      ...kHottest.map(({ text, keys }) =>
        el(
          'button',
          {
            type: 'button',
            click: () => {
              const best = hottest(run, store.view.axle, keys);
              if (best >= 0) go(best);
            },
          },
          `Hottest moment: ${text}`,
        ),
      ),
    ),
    host,
    legend,
    key,
    data,
  );
}
