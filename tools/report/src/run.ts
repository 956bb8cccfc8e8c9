// SPDX-License-Identifier: MIT
// The JSON that the program puts into the page: SI units, temperatures in K, NaN as null. Any part may be missing.

import type { Cooldown } from './cooldown';
import type { Doubt, FullBand } from './doubt';
import type { Geometry } from './geometry';
import type { Damage, Softening, WetPatch } from './life';
import type { Extreme, Rate } from './loads';
import type { Bedding, BrakeBalance, Pads, Pedal, Symptom } from './pedal_data';
import type { Trace } from './trace_data';

export type Axle = 'front' | 'rear';
export type Column = readonly (number | null)[];
export type LevelWord = 'within limits' | 'near the limit' | 'over the limit' | 'not judged';

export interface Place {
  time?: number | null;
  lap?: number | null;
  span?: string;
  lap_distance?: number | null;
}

export interface Verdict extends Place {
  key?: string;
  axle: string;
  part: string;
  what: string;
  level: LevelWord;
  value?: number | null;
  value_low?: number | null;
  value_high?: number | null;
  sure?: string;
  doubt?: Doubt; // with --band
  limit?: number | null;
  margin?: number | null;
  unit: string;
  reason?: string;
  since?: Place;
  advice?: string;
  used?: number; // share of the way to the limit
  used_low?: number;
  used_high?: number;
}

export interface Span {
  lap: number;
  label: string;
  phase: 'driving' | 'parked' | 'bench';
  begin: number;
  end: number;
  begin_distance: number;
  end_distance: number;
}

export interface AxleSeries {
  temperature?: Record<string, Column>;
  joint?: Record<string, Column>;
  pedal?: Record<string, Column>;
}

export interface Series {
  time: number[];
  distance?: number[];
  speed?: Column;
  lap?: Column;
  front?: AxleSeries;
  rear?: AxleSeries;
}

export interface LapRow {
  lap: number;
  label: string;
  begin: number;
  end: number;
  heat?: number | null;
  lowest?: Record<string, number | null>;
  highest?: Record<string, number | null>;
}

export interface Braking {
  lap: number;
  begin: number;
  end: number;
  lap_distance?: number | null;
  entry_speed?: number | null;
  exit_speed?: number | null;
  brake?: number | null;
  peak_power?: number | null;
  front_wheel?: number | null;
  rear_wheel?: number | null;
}

export interface Joint {
  applicable: boolean;
  largest?: number | null;
  smallest?: number | null;
  largest_place?: Place;
  smallest_place?: Place;
  sign_changes?: Place[];
  float_clearance?: number | null;
  needed_float?: number | null;
  needed_float_low?: number | null;
  needed_float_high?: number | null;
}

export interface Fluid {
  peak?: number | null;
  boiling_dry?: number | null;
  boiling_wet?: number | null;
  place?: Place;
  after_parking?: boolean;
}

export type Limit = number | null | { front?: number | null; rear?: number | null };
export type Balance = Record<string, number | null>;
export type PerAxle<T> = Partial<Record<Axle, T>>;

export interface Cell {
  value: number | null;
  value_low?: number | null;
  value_high?: number | null;
  difference: number | null; // from the first set-up
  change: '' | 'no clear difference' | 'better' | 'worse';
  same_sign?: number; // share of the runs with every input varied in which the difference has this sign
  best: boolean;
  text?: string;
}

export interface ComparisonRow {
  key: string;
  axle: '' | Axle;
  title: string;
  unit: string;
  better: 'lower' | 'higher';
  same: boolean;
  cells: Cell[];
}

export interface Variant {
  name: string;
  level: LevelWord;
  sentence: string;
  cost?: { amount: number; currency: string; text: string } | null;
  verdicts?: Verdict[];
  warnings?: string[];
  series?: PerAxle<AxleSeries>;
}

export interface Comparison {
  recommended: number;
  order: number[];
  sorted_by?: string;
  variants: Variant[];
  rows: ComparisonRow[];
}

export interface Peak extends Place {
  value: number;
  value_low?: number;
  value_high?: number;
}

export interface Run {
  format: number;
  geometry?: PerAxle<Geometry>;
  peaks?: PerAxle<Record<string, Peak>>;
  comparison?: Comparison;
  cooldown?: Cooldown;
  trace?: Trace;
  program?: { name: string; version: string };
  kind?: string;
  title?: string;
  created?: string;
  mesh?: string;
  units?: 'si' | 'us';
  sentence?: string;
  level?: LevelWord;
  verdicts?: Verdict[];
  full_band?: FullBand;
  spans?: Span[];
  series?: Series;
  labels?: Record<string, string>;
  laps?: PerAxle<LapRow[]>;
  brakings?: Braking[];
  balance?: PerAxle<Balance>;
  joint?: PerAxle<Joint>;
  rates?: PerAxle<Rate[]>;
  extremes?: PerAxle<Extreme[]>;
  damage?: PerAxle<Damage[]>;
  softening?: PerAxle<Softening>;
  wet_patches?: PerAxle<WetPatch[]>;
  pedal?: Pedal;
  pads?: PerAxle<Pads>;
  bedding?: PerAxle<Bedding>;
  brake_balance?: BrakeBalance;
  symptoms?: Symptom[];
  fluid?: PerAxle<Fluid>;
  masses?: PerAxle<{ ring?: number | null; hat?: number | null }>;
  limits?: Record<string, Limit>;
  assumptions?: { key: string; value: unknown; reason?: string }[];
  warnings?: string[];
  cautions?: string[];
}

export function readRun(): Run | null {
  const text = document.getElementById('run')?.textContent ?? 'null';
  return JSON.parse(text) as Run | null;
}

/** The axles that have anything to show. */
export function axlesOf(run: Run): Axle[] {
  if (run.comparison) return ['front', 'rear'];
  return (['front', 'rear'] as const).filter(
    (axle) =>
      run.series?.[axle]?.temperature !== undefined ||
      run.laps?.[axle] !== undefined ||
      run.balance?.[axle] !== undefined,
  );
}

/** First index whose time is not before `time`. */
export function indexAt(times: readonly number[], time: number): number {
  let low = 0;
  let high = times.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((times[middle] ?? Infinity) < time) low = middle + 1;
    else high = middle;
  }
  return low;
}

export function limitOf(run: Run, key: string, axle: Axle): number | null {
  const limit = run.limits?.[key];
  if (limit === undefined || limit === null) return null;
  return typeof limit === 'number' ? limit : (limit[axle] ?? null);
}
