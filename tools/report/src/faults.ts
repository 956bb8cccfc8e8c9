// SPDX-License-Identifier: MIT
// The table "which fault is it": what the foot feels against what the run shows.

import { capital, el, section } from './dom';
import type { Symptom } from './pedal_data';
import type { Run } from './run';
import { glyph } from './verdicts';

function row({ pedal, cause, shows, action, seen }: Symptom): HTMLElement {
  const fact = (name: string, text: string): HTMLElement =>
    el('div', {}, el('dt', {}, name), el('dd', {}, capital(text)));
  return el(
    'li',
    { class: `fault ${seen ? 'near' : 'unknown'}` },
    el('h3', {}, `Pedal ${pedal}`),
    el(
      'p',
      { class: 'level' },
      glyph(seen ? 'near the limit' : 'not judged'),
      seen ? 'this run makes it likely' : 'this run does not show it',
    ),
    el('dl', {}, fact('Usually', cause), fact('This run', shows), fact('Do', action)),
  );
}

export function faults(run: Run): HTMLElement | null {
  const list = run.symptoms ?? [];
  if (list.length === 0) return null;
  const sorted = [...list.filter(({ seen }) => seen), ...list.filter(({ seen }) => !seen)];
  return section(
    'Which fault is it?',
    el(
      'p',
      {},
      'If the pedal feels like one of these, this is what it usually means, and what this run says about it.',
    ),
    el('ul', { class: 'faults' }, ...sorted.map(row)),
  );
}
