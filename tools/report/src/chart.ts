// SPDX-License-Identifier: MIT
// One line chart. Charts that share a Cursor show the same moment.

import uPlot from 'uplot';
import type { Cursor } from './cursor';
import { drawEndLabels, drawLevels, drawMarks } from './chart_marks';
import { el } from './dom';
import type { Pen } from './parts';
import { ink, isPrinting, onTheme } from './theme';
import { clock, plainNumber } from './units';

export interface Line extends Pen {
  name: string;
  values: (number | null)[];
}

export interface ChartSpec {
  label: string;
  height: number;
  x: number[];
  xKind: 'time' | 'number';
  lines: Line[];
  levels?: { name: string; value: number }[];
  marks?: { x: number; y: number; text: string; pen: Pen }[];
  zero?: boolean; // keep zero in sight and draw it boldly
  cursor?: Cursor;
}

const kPaperWidth = 660;
const kNarrow = 640;
const kAxisWidth = 62;
// Room to the right of the lines for their names, or for their letters alone on a narrow page.
const kNameRoom = 210;
const kLetterRoom = 30;
const kClockSteps = [1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1200, 1800, 3600];

function bounds(spec: ChartSpec): [number, number] {
  let low = Infinity;
  let high = -Infinity;
  for (const { values } of spec.lines) {
    for (const value of values) {
      if (value === null) continue;
      if (value < low) low = value;
      if (value > high) high = value;
    }
  }
  if (low > high) return [0, 1];
  if (spec.zero) [low, high] = [Math.min(low, 0), Math.max(high, 0)];
  // A limit is kept in sight unless the curves would be pressed flat by it.
  const reach = 1.7 * Math.max(high - low, 1e-9);
  for (const { value } of spec.levels ?? []) if (value - low < reach && value > low) high = Math.max(high, value);
  const margin = 0.06 * Math.max(high - low, 1e-6);
  if (spec.marks?.length) low -= 4 * margin; // the names of the peaks stand below the curves
  return [low - margin, high + 1.6 * margin];
}

export class Chart {
  readonly root: HTMLElement;
  private plot: uPlot | null = null;
  private width = 0;
  private readonly ends: (() => void)[] = [];

  constructor(private readonly spec: ChartSpec) {
    this.root = el('div', { class: 'chart', role: 'img', 'aria-label': spec.label });
    this.root.style.minHeight = `${spec.height}px`;
    const sizes = new ResizeObserver(() => {
      if (!isPrinting() && this.root.clientWidth !== this.width) this.draw();
    });
    sizes.observe(this.root);
    this.ends.push(
      () => sizes.disconnect(),
      onTheme(() => this.draw()),
    );
    if (spec.cursor) this.ends.push(spec.cursor.follow((x) => this.moveTo(x)));
  }

  destroy(): void {
    for (const end of this.ends) end();
    this.plot?.destroy();
  }

  private moveTo(x: number): void {
    this.plot?.setCursor({ left: this.plot.valToPos(x, 'x'), top: 0 }, false);
  }

  private draw(): void {
    const { spec } = this;
    this.width = isPrinting() ? kPaperWidth : this.root.clientWidth;
    if (this.width === 0) return;
    this.plot?.destroy();
    const narrow = this.width < kNarrow;
    const [low, high] = bounds(spec);
    const none = (): null => null;
    const x = spec.x;
    const axis: uPlot.Axis = {
      stroke: ink('ink'),
      font: '16px system-ui, sans-serif',
      grid: { stroke: ink('rule'), width: 1 },
      ticks: { stroke: ink('rule'), width: 1, size: 6 },
    };
    const options: uPlot.Options = {
      width: this.width,
      height: spec.height,
      padding: [14, narrow ? kLetterRoom : kNameRoom, 0, 0],
      legend: { show: false },
      scales: { x: { time: false, range: [x[0] ?? 0, x[x.length - 1] ?? 1] }, y: { range: [low, high] } },
      axes: [
        {
          ...axis,
          size: 36,
          space: 76,
          ...(spec.xKind === 'time'
            ? { incrs: kClockSteps, values: (_, splits) => splits.map((value) => clock(value)) }
            : { values: (_, splits) => splits.map(plainNumber) }),
        },
        { ...axis, size: kAxisWidth, space: 44, values: (_, splits) => splits.map(plainNumber) },
      ],
      series: [
        {},
        ...spec.lines.map((line): uPlot.Series => ({
          stroke: ink(line.ink),
          width: line.width,
          dash: line.dash,
          points: { show: false },
          spanGaps: false,
        })),
      ],
      cursor: {
        show: spec.cursor !== undefined && !isPrinting(),
        y: false,
        drag: { x: false, y: false, setScale: false },
        points: { size: 10, fill: ink('paper'), width: 2 },
        bind: {
          mousemove: none,
          mousedown: none,
          mouseup: none,
          mouseenter: none,
          mouseleave: none,
          click: none,
          dblclick: none,
        },
      },
      hooks: {
        draw: [
          (u) => {
            drawLevels(u, spec.levels ?? [], spec.lines, spec.zero ?? false);
            drawMarks(u, spec.marks ?? []);
            drawEndLabels(u, spec.lines, narrow);
          },
        ],
        ready: [(u) => this.listen(u)],
      },
    };
    this.plot = new uPlot(options, [x, ...spec.lines.map(({ values }) => values)] as uPlot.AlignedData, this.root);
  }

  // A tap, a drag along the chart and a hovering pointer all move the one cursor, which then stays.
  private listen(u: uPlot): void {
    const { cursor } = this.spec;
    if (!cursor) return;
    u.setCursor({ left: u.valToPos(cursor.x, 'x'), top: 0 }, false);
    const take = (event: PointerEvent): void => {
      const box = u.over.getBoundingClientRect();
      cursor.moveTo(u.posToVal(Math.min(Math.max(event.clientX - box.left, 0), box.width), 'x'));
    };
    u.over.addEventListener('pointerdown', take);
    u.over.addEventListener('pointermove', take);
  }
}

/** Holds the charts of one place on the page and lets go of them when they are replaced. */
export class ChartFrame {
  readonly root = el('div', { class: 'charts' });
  private charts: Chart[] = [];

  replace(...content: (Chart | Node)[]): void {
    for (const chart of this.charts) chart.destroy();
    this.charts = content.filter((item): item is Chart => item instanceof Chart);
    this.root.replaceChildren(...content.map((item) => (item instanceof Chart ? item.root : item)));
  }
}
