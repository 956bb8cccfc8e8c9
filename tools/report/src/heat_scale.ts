// SPDX-License-Identifier: MIT
// Temperature as a shade. Lightness runs one way from cold to hot, so that it reads without telling hues apart.

import { svg } from './dom';
import type { Axle, Run } from './run';
import { ink, isPrinting } from './theme';
import type { Units } from './units';

const kStops = 5;
const kPaperStops = ['#ffffff', '#d8d8d8', '#a8a8a8', '#787878', '#484848'];
const kBlocks = 24;
const kHeight = 54;

export interface HeatScale {
  colour(kelvin: number): string;
  legend(width: number): SVGElement;
}

const channels = (hex: string): number[] => [1, 3, 5].map((at) => parseInt(hex.slice(at, at + 2), 16));

/** The scale of a whole run, so that a shade means the same at every moment. */
export function heatScale(run: Run, axle: Axle, units: Units): HeatScale {
  const values = Object.values(run.series?.[axle]?.temperature ?? {})
    .flat()
    .filter((value): value is number => value !== null);
  const low = values.reduce((a, b) => Math.min(a, b), Infinity);
  const high = Math.max(
    values.reduce((a, b) => Math.max(a, b), -Infinity),
    low + 1,
  );
  const stops = Array.from({ length: kStops }, (_, i) => channels(isPrinting() ? kPaperStops[i]! : ink(`heat-${i}`)));
  const shade = (share: number): string => {
    const at = Math.min(Math.max(share, 0), 1) * (kStops - 1);
    const below = Math.min(Math.floor(at), kStops - 2);
    const mixed = stops[below]!.map((c, k) => Math.round(c + (at - below) * (stops[below + 1]![k]! - c)));
    return `rgb(${mixed.join(',')})`;
  };
  const share = (kelvin: number): number => (kelvin - low) / (high - low);
  return {
    colour: (kelvin) => shade(share(kelvin)),
    legend: (width) => {
      const margin = 26;
      const block = (width - 2 * margin) / kBlocks;
      const root = svg('svg', {
        class: 'heat-legend',
        viewBox: `0 0 ${width} ${kHeight}`,
        width,
        height: kHeight,
        role: 'img',
        'aria-label':
          `Shades from ${units.text('temperature', low)}, coldest of the session, ` +
          `to ${units.text('temperature', high)}, hottest`,
      });
      for (let i = 0; i < kBlocks; ++i) {
        const fill = shade((i + 0.5) / kBlocks);
        root.append(svg('rect', { x: margin + i * block, y: 4, width: block + 0.5, height: 20, fill }));
      }
      root.append(svg('rect', { class: 'frame', x: margin, y: 4, width: width - 2 * margin, height: 20 }));
      for (let i = 0; i < kStops; ++i) {
        const kelvin = low + (i / (kStops - 1)) * (high - low);
        const x = margin + (i / (kStops - 1)) * (width - 2 * margin);
        root.append(
          svg('line', { x1: x, x2: x, y1: 24, y2: 30 }),
          svg('text', { x, y: 46 }, units.number('temperature', kelvin)),
        );
      }
      return root;
    },
  };
}
