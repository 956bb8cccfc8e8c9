// SPDX-License-Identifier: MIT
// How much of the way to each of the closest limits is used, as bars.

import { capital, el, section, svg } from './dom';
import type { Run, Verdict } from './run';
import type { Store } from './state';
import { percent, Units } from './units';
import { glyph, known, styleOf } from './verdicts';

const kShown = 10;
const kScale = 1.4; // the right end of a bar's frame, in ways to the limit
const kHeight = 30;

const across = (used: number): string => `${(100 * Math.min(Math.max(used, 0), kScale)) / kScale}%`;

function bar({ used, used_low: low, used_high: high }: Verdict): SVGElement {
  const line = (x1: string, x2: string, y1: number, y2: number, name: string): SVGElement =>
    svg('line', { class: name, x1, x2, y1, y2 });
  const middle = kHeight / 2;
  const drawing = svg(
    'svg',
    { class: 'used', width: '100%', height: kHeight, 'aria-hidden': 'true' },
    svg('rect', { class: 'frame', x: 0, y: 6, width: '100%', height: kHeight - 12 }),
    svg('rect', { class: 'bar', x: 0, y: 6, width: across(used!), height: kHeight - 12 }),
  );
  if (low !== undefined && high !== undefined && across(low) !== across(high)) {
    for (const name of ['halo', 'band']) {
      drawing.append(line(across(low), across(high), middle, middle, name));
      for (const end of [low, high]) drawing.append(line(across(end), across(end), middle - 5, middle + 5, name));
    }
  }
  drawing.append(line(across(1), across(1), 0, kHeight, 'halo limit'), line(across(1), across(1), 0, kHeight, 'limit'));
  return drawing;
}

/** Rounding must not put a value on the limit that is short of it, or past it. */
function share(used: number): string {
  return percent(used, Math.abs(used - 1) < 0.005 && used !== 1 ? 1 : 0);
}

function row(verdict: Verdict, units: Units): HTMLElement {
  const level = known(verdict.level);
  const { used_low: low, used_high: high } = verdict;
  const band =
    low !== undefined && high !== undefined && percent(low) !== percent(high)
      ? ` Band: ${percent(low)} to ${percent(high)}.`
      : '';
  return el(
    'li',
    { class: styleOf(level) },
    el(
      'div',
      { class: 'level' },
      glyph(level),
      el('span', {}, `${capital(verdict.axle)} ${verdict.part}: ${verdict.what}`),
    ),
    bar(verdict),
    el(
      'p',
      {},
      el('b', {}, `${share(verdict.used!)} used`),
      `, ${level}: ${units.judged(verdict.unit, verdict.value)}, ` +
        `limit ${units.judged(verdict.unit, verdict.limit)}.${band}`,
    ),
  );
}

export function margins(run: Run, store: Store): HTMLElement | null {
  const closest = (run.verdicts ?? [])
    .filter(({ used }) => typeof used === 'number')
    .sort((a, b) => b.used! - a.used!)
    .slice(0, kShown);
  if (closest.length === 0) return null;
  const list = el('ol', { class: 'margins' });
  store.follow(['system'], () => {
    const units = new Units(store.view.system);
    list.replaceChildren(...closest.map((verdict) => row(verdict, units)));
  });
  return section(
    'Which limits are closest?',
    el(
      'p',
      {},
      'Each bar starts where the part is cold and new. The upright line is the limit: no bar should pass it. ' +
        'The thin line with end marks is the band from much to little cooling; ' +
        'one that runs past the frame ends there.',
    ),
    list,
  );
}
