// SPDX-License-Identifier: MIT
// What is written into a chart: names at the ends of lines, limits, the zero line, named peaks.

import uPlot from 'uplot';
import type { Line } from './chart';
import type { Pen } from './parts';
import { ink } from './theme';

const kFont = 16;

function text(u: uPlot, words: string, x: number, y: number, align: CanvasTextAlign = 'left'): void {
  const { ctx } = u;
  ctx.font = `${kFont * uPlot.pxRatio}px system-ui, sans-serif`;
  ctx.textAlign = align;
  ctx.textBaseline = 'middle';
  // A rim of paper keeps words legible where they cross lines.
  ctx.lineJoin = 'round';
  ctx.setLineDash([]);
  ctx.lineWidth = 5 * uPlot.pxRatio;
  ctx.strokeStyle = ink('paper');
  ctx.strokeText(words, x, y);
  ctx.fillStyle = ink('ink');
  ctx.fillText(words, x, y);
}

function rule(u: uPlot, y: number, width: number, dash: number[]): void {
  const { ctx, bbox } = u;
  ctx.strokeStyle = ink('ink');
  ctx.lineWidth = width * uPlot.pxRatio;
  ctx.setLineDash(dash.map((length) => length * uPlot.pxRatio));
  ctx.beginPath();
  ctx.moveTo(bbox.left, y);
  ctx.lineTo(bbox.left + bbox.width, y);
  ctx.stroke();
}

const inSight = (u: uPlot, y: number): boolean => y >= u.bbox.top && y <= u.bbox.top + u.bbox.height;

/** Moves labels apart so that none overlaps another, keeping their order. */
export function spread(places: number[], gap: number, low: number, high: number): number[] {
  const order = places.map((place, i) => ({ place, i })).sort((a, b) => a.place - b.place);
  order.forEach((item, k) => {
    const before = order[k - 1];
    item.place = Math.max(item.place, before ? before.place + gap : low);
  });
  for (let k = order.length - 1; k >= 0; --k) {
    const item = order[k]!;
    const after = order[k + 1];
    item.place = Math.min(item.place, after ? after.place - gap : high);
  }
  const result = [...places];
  for (const { place, i } of order) result[i] = place;
  return result;
}

export function drawEndLabels(u: uPlot, lines: readonly Line[], narrow: boolean): void {
  const scale = uPlot.pxRatio;
  const { ctx, bbox } = u;
  const ends = lines.map(({ values }) => {
    let last = values.length - 1;
    while (last > 0 && values[last] === null) --last;
    const value = values[last];
    return value === null || value === undefined ? null : u.valToPos(value, 'y', true);
  });
  const shown = lines.map((line, i) => ({ line, y: ends[i] ?? null })).filter((item) => item.y !== null);
  const places = spread(
    shown.map(({ y }) => y!),
    1.15 * kFont * scale,
    bbox.top,
    bbox.top + bbox.height,
  );
  ctx.save();
  shown.forEach(({ line, y }, i) => {
    const right = bbox.left + bbox.width;
    ctx.strokeStyle = ink(line.ink);
    ctx.lineWidth = 1.5 * scale;
    ctx.setLineDash([]);
    ctx.beginPath();
    ctx.moveTo(right, y!);
    ctx.lineTo(right + 10 * scale, places[i]!);
    ctx.stroke();
    text(u, narrow ? line.letter : `${line.letter} ${line.name}`.trim(), right + 14 * scale, places[i]!);
  });
  ctx.restore();
}

/** Whether the last quarter of the lines keeps further away from this value than the first quarter. */
function clearerAtEnd(lines: readonly Line[], value: number): boolean {
  const clearance = (from: number, to: number): number =>
    Math.min(
      ...lines.flatMap(({ values }) =>
        values
          .slice(Math.floor(from * values.length), Math.ceil(to * values.length))
          .map((at) => (at === null ? Infinity : Math.abs(at - value))),
      ),
    );
  return clearance(0.75, 1) > clearance(0, 0.25);
}

export function drawLevels(
  u: uPlot,
  levels: readonly { name: string; value: number }[],
  lines: readonly Line[],
  zero: boolean,
): void {
  const scale = uPlot.pxRatio;
  u.ctx.save();
  if (zero) {
    const y = u.valToPos(0, 'y', true);
    if (inSight(u, y)) rule(u, y, 2.5, []);
  }
  const shown = levels
    .map(({ name, value }) => ({ name, y: u.valToPos(value, 'y', true), right: clearerAtEnd(lines, value) }))
    .filter(({ y }) => inSight(u, y));
  for (const { y } of shown) rule(u, y, 1.5, [1, 5]);
  for (const right of [false, true]) {
    const names = shown.filter((level) => level.right === right);
    const places = spread(
      names.map(({ y }) => y - 11 * scale),
      1.25 * kFont * scale,
      u.bbox.top,
      u.bbox.top + u.bbox.height,
    );
    const x = right ? u.bbox.left + u.bbox.width - 6 * scale : u.bbox.left + 6 * scale;
    names.forEach(({ name }, i) => text(u, name, x, places[i]!, right ? 'right' : 'left'));
  }
  u.ctx.restore();
}

export function drawMarks(u: uPlot, marks: readonly { x: number; y: number; text: string; pen: Pen }[]): void {
  const scale = uPlot.pxRatio;
  const { ctx, bbox } = u;
  ctx.save();
  const points = marks.map((mark) => ({
    mark,
    x: u.valToPos(mark.x, 'x', true),
    y: u.valToPos(mark.y, 'y', true),
  }));
  // All names stand on the side with more room, below the curves (the parts that peak are the coolest); ordered so
  // that no leader crosses another name.
  const middle = points.reduce((sum, { x }) => sum + x, 0) / Math.max(points.length, 1);
  const side = middle < bbox.left + 0.55 * bbox.width ? 1 : -1;
  points.sort((a, b) => side * (b.x - a.x));
  const gap = 1.2 * kFont * scale;
  const places = spread(
    points.map(({ y }, i) => y + 2 * gap + i * gap),
    gap,
    bbox.top,
    bbox.top + bbox.height - 0.7 * kFont * scale,
  );
  points.forEach(({ mark, x, y }, i) => {
    ctx.setLineDash([]);
    ctx.lineWidth = 2 * scale;
    ctx.strokeStyle = ink(mark.pen.ink);
    ctx.fillStyle = ink('paper');
    ctx.beginPath();
    ctx.moveTo(x, y);
    ctx.lineTo(x + side * 12 * scale, places[i]!);
    ctx.stroke();
    ctx.beginPath();
    ctx.arc(x, y, 5 * scale, 0, 2 * Math.PI);
    ctx.fill();
    ctx.stroke();
    text(u, mark.text, x + side * 16 * scale, places[i]!, side > 0 ? 'left' : 'right');
  });
  ctx.restore();
}
