// SPDX-License-Identifier: MIT
// What the reader has chosen. It lives as long as the page is open and is stored nowhere.

import type { Axle } from './run';
import type { System } from './units';

export interface View {
  system: System;
  axle: Axle;
  along: 'time' | 'distance';
  span: number; // index of the span shown, -1 for the whole session
  parts: readonly string[];
}

export class Store {
  private readonly listeners: { keys: readonly (keyof View)[]; run: () => void }[] = [];

  constructor(public view: View) {}

  set(change: Partial<View>): void {
    const changed = (Object.keys(change) as (keyof View)[]).filter((key) => change[key] !== this.view[key]);
    this.view = { ...this.view, ...change };
    for (const { keys, run } of this.listeners) if (keys.some((key) => changed.includes(key))) run();
  }

  /** Runs `run` now and after every change of one of the keys. */
  follow(keys: readonly (keyof View)[], run: () => void): void {
    this.listeners.push({ keys, run });
    run();
  }
}
