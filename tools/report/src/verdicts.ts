// SPDX-License-Identifier: MIT
// First screen: the sentence, one row a verdict, a short caution.

import { capital, el, svg } from './dom';
import type { LevelWord, Run, Verdict } from './run';
import type { Store } from './state';
import { Units } from './units';

// Each level has an outline and a sign of its own, so that it is told without colour.
const kGlyphs: Record<LevelWord, { style: string; outline: string; sign: string }> = {
  'within limits': { style: 'within', outline: 'M12 2a10 10 0 1 0 .01 0z', sign: 'M7 12.5l3.5 3.5L17 8.5' },
  'near the limit': { style: 'near', outline: 'M12 2.5L22.5 21.5H1.5z', sign: 'M12 9v6m0 2.4v1.4' },
  'over the limit': { style: 'over', outline: 'M8 2h8l6 6v8l-6 6H8l-6-6V8z', sign: 'M8 8l8 8m0-8l-8 8' },
  'not judged': { style: 'unknown', outline: 'M3 3h18v18H3z', sign: 'M7 12h10' },
};

export const styleOf = (level: LevelWord): string => kGlyphs[level].style;

export function glyph(level: LevelWord): SVGElement {
  const { outline, sign } = kGlyphs[level];
  return svg(
    'svg',
    { class: 'glyph', viewBox: '0 0 24 24', width: 32, height: 32, 'aria-hidden': 'true' },
    svg('path', { d: outline, class: 'outline' }),
    svg('path', { d: sign, class: 'sign' }),
  );
}

export const known = (level: string | undefined): LevelWord =>
  level && level in kGlyphs ? (level as LevelWord) : 'not judged';

function fact(name: string, value: string, style: string): HTMLElement {
  return el('div', { class: style }, el('dt', {}, name), el('dd', {}, value));
}

export function verdictRow(verdict: Verdict, units: Units): HTMLElement {
  const level = known(verdict.level);
  return el(
    'li',
    { class: `verdict ${kGlyphs[level].style}` },
    el('div', { class: 'level' }, glyph(level), el('span', {}, level)),
    el('h3', {}, `${capital(verdict.axle)} ${verdict.part}: `, el('span', {}, verdict.what)),
    el(
      'dl',
      {},
      fact('Reaches', units.judgedBand(verdict.unit, verdict.value, verdict.value_low, verdict.value_high), 'value'),
      fact('Limit', units.judged(verdict.unit, verdict.limit), 'limit'),
      fact('That is', units.margin(verdict.unit, verdict.margin), 'margin'),
      verdict.since ? fact('Over from', units.place(verdict.since), 'since') : null,
      fact(verdict.since ? 'Worst' : 'Where', units.place(verdict), 'where'),
    ),
    verdict.advice || verdict.sure
      ? el(
          'p',
          {},
          verdict.advice ? el('b', {}, `${units.prose(verdict.advice)} `) : null,
          verdict.sure ? el('span', { class: 'sure' }, `Limit ${verdict.sure}.`) : null,
        )
      : null,
  );
}

export const shortCaution = (): HTMLElement =>
  el(
    'p',
    { class: 'short-caution' },
    'This is an estimate and can be wrong. Measure and inspect before you trust it; the cautions stand at the end.',
  );

const kHeadline = 200; // characters that may stand in large letters

/** Whole sentences as far as a headline goes, and what is left. */
function headline(text: string): { head: string; more: string } {
  const sentences = text.split(/(?<=\.) (?=[A-Z])/);
  let take = 1;
  while (take < sentences.length && sentences.slice(0, take + 1).join(' ').length <= kHeadline) ++take;
  return { head: sentences.slice(0, take).join(' '), more: sentences.slice(take).join(' ') };
}

/** The answer in one sentence, with its level as a shape, and a short caution. */
export function answer(run: Run, ...more: (Node | null)[]): HTMLElement {
  const level = known(run.level);
  const { head, more: rest } = headline(run.sentence ?? capital(level));
  return el(
    'section',
    { 'aria-labelledby': 'answer' },
    el(
      'div',
      { class: `answer ${kGlyphs[level].style}` },
      glyph(level),
      el('div', {}, el('h2', { id: 'answer' }, head), rest ? el('p', { class: 'advice' }, rest) : null),
    ),
    shortCaution(),
    ...more,
  );
}

// What stands open: all that is over or not judged, then what is closest to its limit, so that a phone is not scrolled
// through rows of comfort to reach the first picture.
const kRows = 10;
const kNearAtLeast = 4;

function split(all: Verdict[]): { shown: Verdict[]; rest: Verdict[] } {
  const of = (...levels: LevelWord[]): Verdict[] => all.filter((verdict) => levels.includes(known(verdict.level)));
  const urgent = of('over the limit', 'not judged');
  const others = [...of('near the limit'), ...of('within limits')];
  const room = Math.max(kRows - urgent.length, kNearAtLeast);
  return { shown: [...urgent, ...others.slice(0, room)], rest: others.slice(room) };
}

function restText(rest: Verdict[]): string {
  const near = rest.filter((verdict) => known(verdict.level) === 'near the limit').length;
  const fine = rest.length - near;
  const words = [near ? `${near} near their limit` : '', fine ? `${fine} within limits, with more to spare` : ''];
  return `Folded away on the screen: ${words.filter(Boolean).join(', and ')}.`;
}

export function verdicts(run: Run, store: Store): HTMLElement {
  const all = run.verdicts ?? [];
  const { shown, rest } = split(all);
  const list = el('ol', { class: 'verdicts' });
  const restList = el('ol', { class: 'verdicts' });
  const summary = el('summary', { class: 'button' });
  const folded = el('details', { class: 'screen-only' }, summary, restList);
  const name = (): void => {
    summary.textContent = folded.open
      ? `Show ${shown.length} of ${all.length} rows again`
      : `Show all ${all.length} rows`;
  };
  folded.addEventListener('toggle', name);
  name();
  store.follow(['system'], () => {
    const units = new Units(store.view.system);
    list.replaceChildren(...shown.map((verdict) => verdictRow(verdict, units)));
    restList.replaceChildren(...rest.map((verdict) => verdictRow(verdict, units)));
  });
  return answer(
    run,
    shown.length ? list : null,
    rest.length ? el('p', {}, restText(rest)) : null,
    rest.length ? folded : null,
    all.length ? null : el('p', {}, 'Nothing was judged in this run.'),
  );
}
