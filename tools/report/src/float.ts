// SPDX-License-Identifier: MIT
// The float that the session needs against the float that is fitted.

import { capital, table } from './dom';
import type { Joint, Run } from './run';
import { Units } from './units';

function enough(joint: Joint): string {
  const fitted = joint.float_clearance ?? 0;
  const needed = joint.needed_float ?? 0;
  if (fitted <= 0) return 'none fitted: it becomes load';
  if (needed > fitted) {
    return (joint.needed_float_low ?? needed) > fitted ? 'too little' : 'too little, unless it cools more';
  }
  return (joint.needed_float_high ?? needed) > fitted
    ? 'enough, but not if it cools less'
    : 'enough over the whole band';
}

function turns(joint: Joint, units: Units): string {
  const list = joint.sign_changes ?? [];
  if (list.length === 0) return 'none';
  const last = list.length > 1 ? `; last: ${units.place(list[list.length - 1])}` : '';
  return `${list.length}: ${units.place(list[0])}${last}`;
}

export function floatTable(run: Run, units: Units): HTMLElement | null {
  const rows = (['front', 'rear'] as const).flatMap((axle) => {
    const joint = run.joint?.[axle];
    if (!joint?.applicable || joint.needed_float === undefined) return [];
    const [low, high] = [joint.needed_float_low, joint.needed_float_high];
    const band =
      low === undefined || high === undefined
        ? 'not run'
        : `${units.number('clearance', low)} to ${units.number('clearance', high)}`;
    return [
      [
        capital(axle),
        units.number('clearance', joint.needed_float),
        band,
        units.number('clearance', joint.float_clearance),
        enough(joint),
        turns(joint, units),
      ],
    ];
  });
  if (rows.length === 0) return null;
  const unit = units.unit('clearance');
  return table({
    caption: 'Radial float each way: needed by this session, and fitted',
    head: [
      'Axle',
      `Needed, ${unit}`,
      `With more and less cooling, ${unit}`,
      `Fitted, ${unit}`,
      'Is it enough?',
      'Load changes side',
    ],
    rows,
    words: true,
  });
}
