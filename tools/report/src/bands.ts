// SPDX-License-Identifier: MIT
// From lowest to highest, lap by lap, with the limit.

import { el, pick, section, svg } from './dom';
import { kUsualParts, limitsOf, partsOf } from './parts';
import type { LapRow, Run } from './run';
import type { Store } from './state';
import { onTheme } from './theme';
import { decimal, Units } from './units';

const kHeight = 340;
const kTop = 34;
const kBottom = 36;
const kLeft = 8;

interface Band {
  name: string;
  low: number;
  high: number;
}

/** 'lap 3' as '3', 'cool-down lap' as 'cool-down', or as 'cool' where the room is short. */
function shortName(label: string, room: number): string {
  const name = label.replace(/\blap\b/i, '').trim() || label;
  return 10 * name.length <= room ? name : (name.split(/[\s-]/)[0] ?? name);
}

/** Bars of one part; numbers are written at the bars as far as they have room. */
function bars(bands: Band[], levels: { name: string; value: number }[], width: number, label: string): SVGElement {
  const lows = bands.map(({ low }) => low);
  const highs = bands.map(({ high }) => high);
  const bottom = Math.min(...lows);
  const reach = 1.7 * Math.max(Math.max(...highs) - bottom, 1);
  const shownLevels = levels.filter(({ value }) => value > bottom && value - bottom < reach);
  const top = Math.max(...highs, ...shownLevels.map(({ value }) => value));
  const scale = (kHeight - kTop - kBottom - 22) / Math.max(top - bottom, 1);
  const y = (value: number): number => kTop + (top - value) * scale;
  const step = (width - 2 * kLeft) / bands.length;
  const bar = Math.min(0.6 * step, 46);
  const every = Math.max(1, Math.ceil(44 / step));
  const drawing = svg('svg', {
    class: 'bands',
    viewBox: `0 0 ${width} ${kHeight}`,
    width,
    height: kHeight,
    role: 'img',
    'aria-label': label,
  });
  for (const { value } of shownLevels) {
    drawing.append(svg('line', { class: 'level', x1: kLeft, x2: width - kLeft, y1: y(value), y2: y(value) }));
  }
  const highest = highs.indexOf(Math.max(...highs));
  bands.forEach(({ name, low, high }, i) => {
    const x = kLeft + (i + 0.5) * step;
    drawing.append(svg('rect', { x: x - bar / 2, width: bar, y: y(high), height: Math.max(y(low) - y(high), 2) }));
    // Neighbours of the highest bar give way to it.
    if (i === highest || (i % every === 0 && Math.abs(i - highest) >= every)) {
      drawing.append(svg('text', { class: 'middle rim', x, y: y(high) - 7 }, decimal(high, 0)));
    }
    if (i % every === 0) {
      drawing.append(
        svg('text', { class: 'middle rim', x, y: y(low) + 19 }, decimal(low, 0)),
        svg('text', { class: 'middle strong', x, y: kHeight - 6 }, shortName(name, step * every)),
      );
    }
  });
  return drawing;
}

function bandsOf(rows: LapRow[], key: string, units: Units): Band[] {
  const bands: Band[] = [];
  for (const row of rows) {
    const low = row.lowest?.[key];
    const high = row.highest?.[key];
    if (row.lap > 0 && low !== undefined && low !== null && high !== undefined && high !== null) {
      bands.push({ name: row.label, low: units.of('temperature', low), high: units.of('temperature', high) });
    }
  }
  return bands;
}

export function lapBands(run: Run, store: Store): HTMLElement | null {
  if (!run.laps?.front?.length && !run.laps?.rear?.length) return null;
  let part = 'ring_mean';
  const controls = el('div', { class: 'controls' });
  const host = el('div', { class: 'chart' });
  const words = el('p');

  const draw = (): void => {
    const { axle, system } = store.view;
    const units = new Units(system);
    const parts = partsOf(run, axle);
    const chosen = parts.find(({ key }) => key === part) ?? parts[0];
    const bands = chosen ? bandsOf(run.laps?.[axle] ?? [], chosen.key, units) : [];
    if (!chosen || bands.length === 0) {
      words.textContent = `No laps were recorded for the ${axle} disc.`;
      host.replaceChildren();
      return;
    }
    const best = bands.reduce((a, b) => (b.high > a.high ? b : a));
    const levels = limitsOf(run, axle, [chosen]).map(({ name, value }) => ({
      name,
      value: units.of('temperature', value),
    }));
    const unit = units.unit('temperature');
    words.textContent =
      `${chosen.name}, ${axle}: highest ${decimal(best.high, 0)} ${unit}, on ${best.name}. ` +
      `Each bar runs from the lowest to the highest of its lap, in ${unit}. ` +
      levels
        .map(({ name, value }) => `The dotted line, where in reach: ${name}, ${decimal(value, 0)} ${unit}.`)
        .join(' ');
    if (host.clientWidth > 0) {
      host.replaceChildren(
        bars(
          bands,
          levels,
          Math.max(host.clientWidth, 280),
          `${chosen.name}, lowest to highest of every lap; the numbers are in the lap table`,
        ),
      );
    }
  };
  store.follow(['axle'], () => {
    const parts = partsOf(run, store.view.axle);
    controls.replaceChildren(
      pick(
        'Part',
        [...parts]
          .sort((a, b) => Number(kUsualParts.includes(b.key)) - Number(kUsualParts.includes(a.key)))
          .map(({ key, name }) => ({ value: key, text: name })),
        part,
        (value) => {
          part = value;
          draw();
        },
      ),
    );
  });
  store.follow(['axle', 'system'], draw);
  onTheme(draw);
  new ResizeObserver(draw).observe(host);
  return section('Does each lap end hotter than the one before?', controls, words, host);
}
