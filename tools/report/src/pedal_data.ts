// SPDX-License-Identifier: MIT
// Pads, pedal, bedding and balance as the program writes them.

import type { Axle, PerAxle, Place } from './run';

type Value = number | null | undefined;

export interface PedalAxle {
  applicable: boolean;
  lowest_friction?: Value;
  highest_friction?: Value;
  reference_friction?: Value;
  highest_pressure?: Value;
  highest_pressure_place?: Place;
  fade?: Value;
  fade_place?: Place;
  growth?: Value;
  growth_place?: Place;
}

export interface PedalLap {
  lap: number;
  label: string;
  effort?: Value;
  front_pressure?: Value;
  rear_pressure?: Value;
  front_friction?: Value;
  rear_friction?: Value;
  growth?: Value;
  front_share?: Value;
}

export interface PedalCar {
  effort_known: boolean;
  largest_effort?: Value;
  highest_effort?: Value;
  highest_effort_place?: Place;
  unreachable?: number;
  longer?: Value;
  longer_place?: Place;
}

type CornerAxle = { fade?: Value; face_rise?: Value; bulk_rise?: Value };

export interface Corner extends Partial<Record<Axle, CornerAxle>> {
  place?: Place;
  limited_by?: string;
  ideal_front_share?: Value;
}

export interface Pedal extends PerAxle<PedalAxle> {
  car?: PedalCar;
  laps?: PedalLap[];
  corners?: Corner[];
}

export interface Pads {
  below_window?: Value;
  inside_window?: Value;
  above_window?: Value;
  worn?: Value;
  left?: Value;
  minimum?: Value;
  sessions_left?: Value;
  ring_worn?: Value;
  ring_left?: Value;
  ring_minimum?: Value;
  ring_sessions_left?: Value;
}

export interface BeddingStop {
  group: number;
  number: number;
  face_before?: Value;
  face_peak?: Value;
  under_ceiling: boolean;
  reaches_band: boolean;
  above_band: boolean;
}

export interface Bedding {
  applicable: boolean;
  band_low?: Value;
  band_high?: Value;
  ceiling?: Value;
  reached?: number;
  over?: number;
  stops?: BeddingStop[];
}

export interface BrakeBalance {
  law: string;
  settled?: boolean;
  lowest?: Value;
  highest?: Value;
  rear_excess?: Value;
  rear_excess_place?: Place;
}

export interface Symptom {
  pedal: string;
  cause: string;
  shows: string;
  action: string;
  seen: boolean;
}
