// SPDX-License-Identifier: MIT
// The stretch of the run that is shown, and the axis it is shown along.

import { capital } from './dom';
import type { Column, Run, Span } from './run';
import { indexAt } from './run';
import type { View } from './state';
import type { Units } from './units';

export interface Slice {
  from: number; // samples [from, to)
  to: number;
  span: Span | null;
  kind: 'time' | 'number';
  title: string;
  x: number[];
}

const kStill = 1; // below this many metres a stretch has no distance axis

export function slice(run: Run, view: Pick<View, 'along' | 'span'>, units: Units): Slice {
  const series = run.series!;
  const span = run.spans?.[view.span] ?? null;
  const from = span ? Math.min(indexAt(series.time, span.begin), series.time.length - 1) : 0;
  const to = span ? Math.max(indexAt(series.time, span.end + 1e-9), from + 1) : series.time.length;
  const whole = span ? capital(span.label) : 'Whole session';
  const distance = series.distance?.slice(from, to);
  if (view.along === 'distance' && distance && distance[distance.length - 1]! - distance[0]! > kStill) {
    const begin = span?.begin_distance ?? 0;
    return {
      from,
      to,
      span,
      kind: 'number',
      x: distance.map((value) => units.of('route', value - begin)),
      title: `${whole}: distance, ${units.unit('route')}`,
    };
  }
  const begin = span?.begin ?? 0;
  return {
    from,
    to,
    span,
    kind: 'time',
    x: series.time.slice(from, to).map((value) => value - begin),
    title: `${whole}: time, minutes and seconds`,
  };
}

export function cut(values: Column | undefined, { from, to }: Slice): (number | null)[] {
  return values ? values.slice(from, to) : [];
}

/** Sample nearest to x. */
export function nearest(x: readonly number[], value: number): number {
  const after = Math.min(indexAt(x, value), x.length - 1);
  const before = Math.max(after - 1, 0);
  return value - x[before]! < x[after]! - value ? before : after;
}

/** About `count` samples spread over the stretch, and every one in `also`, in order. */
export function thin(length: number, count: number, also: readonly number[]): number[] {
  const chosen = new Set(also);
  const steps = Math.min(count, length);
  for (let i = 0; i < steps; ++i) chosen.add(Math.round((i * (length - 1)) / Math.max(steps - 1, 1)));
  return [...chosen].sort((a, b) => a - b);
}

export function indexOfHighest(values: readonly (number | null)[]): number {
  let best = -1;
  values.forEach((value, i) => {
    if (value !== null && (best < 0 || value > values[best]!)) best = i;
  });
  return best;
}
