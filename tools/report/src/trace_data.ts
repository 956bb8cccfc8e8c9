// SPDX-License-Identifier: MIT
// A logged lap as `hatring trace` writes it: SI units, NaN as null.

import type { Column } from './run';

export interface LogGuess {
  what: string;
  choice: string;
  reason: string;
  option: string;
  doubtful: boolean;
}

export interface LogLap {
  number: number;
  time: number;
  length: number;
  fastest: number;
  slowest: number;
  complete: boolean;
  why_incomplete: string;
}

export interface LogBraking {
  distance: number;
  entry_speed: number;
  exit_speed: number;
  energy: number;
  peak_power: number;
  duration: number;
  slowest: number;
  slowest_at: number;
  hardest: number; // slowing
  rounding: number;
}

export type BrakingThere = Pick<LogBraking, 'distance' | 'entry_speed' | 'slowest' | 'rounding'>;

export interface Against {
  name: string;
  length: number;
  time: number;
  lost: number;
  shift: number;
  brakings: { this: BrakingThere | null; other: BrakingThere | null; lost: number }[];
  speed?: Column;
  lost_at?: Column;
}

export interface Trace {
  source: string;
  rows: number;
  columns: number;
  guesses: LogGuess[];
  faults: { line: number; what: string }[];
  laps: LogLap[];
  lap: number | null;
  trace: { duration: number; length: number };
  energy_of: 'car' | 'mass' | 'kilogram';
  energy: number;
  failure: string;
  brakings: LogBraking[];
  against?: Against;
}
