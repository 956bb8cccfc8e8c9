// SPDX-License-Identifier: MIT
// Set-ups side by side: the table, the curves over each other, each one's verdicts.

import type { Line } from './chart';
import { Chart, ChartFrame } from './chart';
import { Cursor } from './cursor';
import { capital, choose, el, fold, pick, section, sidewaysHint, svg } from './dom';
import type { Pen } from './parts';
import { kParts, sample } from './parts';
import { readout } from './readout';
import type { Cell, Comparison, ComparisonRow, Run, Variant } from './run';
import { cut, indexOfHighest, slice } from './slice';
import type { Store } from './state';
import { momentText, stretchChoice } from './temperatures';
import type { Quantity } from './units';
import { percent, Units } from './units';
import { glyph, known, styleOf, verdictRow } from './verdicts';

// Dashes tell the set-ups apart where colour does not.
const kInks = ['ink', 'ring', 'hat', 'pad', 'caliper', 'fluid', 'hub', 'steel'];
const kDashes = [[], [12, 4], [3, 3], [10, 3, 2, 3], [6, 6], [16, 3, 3, 3, 3, 3], [2, 6], [20, 6]];

function pen(i: number): Pen {
  const letter = String.fromCharCode(65 + (i % 26)) + (i < 26 ? '' : String(Math.floor(i / 26) + 1));
  const dash = kDashes[i % kDashes.length]!;
  return { letter, ink: kInks[i % kInks.length]!, dash, width: dash.length === 0 ? 2 : 2.5 };
}

// The session's own name heads the page.
const fullName = (variant: Variant, i: number): string => (i === 0 ? 'as it is' : variant.name);

const rowName = (row: ComparisonRow): string => capital(row.axle ? `${row.axle} ${row.title}` : row.title);

/** A filled flag for the best of a row, two level bars for no clear difference. */
function mark(kind: 'best' | 'unclear', words: string): SVGElement {
  const told = words ? { role: 'img', 'aria-label': words } : { 'aria-hidden': 'true' };
  return svg(
    'svg',
    { class: `mark ${kind}`, viewBox: '0 0 16 16', width: 16, height: 16, ...told },
    svg('path', { d: kind === 'best' ? 'M3 15V1l10 4.5L3 10' : 'M2 5h12M2 11h12' }),
  );
}

function valueText(row: ComparisonRow, cell: Cell, units: Units): string {
  if (row.unit === 'level') return known(cell.text);
  if (row.unit === 'cost') return cell.text ?? '–';
  return units.cell(row.unit, cell.value);
}

// 100 % is kept for every single run.
const howOften = (share: number): string =>
  share < 1 ? `same way in ${percent(Math.min(0.99, share))}` : 'same way in all';

function cellOf(row: ComparisonRow, cell: Cell, units: Units, bands: boolean): HTMLElement {
  const worded = row.unit === 'level';
  const unit = row.unit === 'cost' ? 'count' : row.unit;
  const low = cell.value_low;
  const high = cell.value_high;
  return el(
    'td',
    { class: [cell.best ? 'best' : '', worded ? 'words' : ''].filter(Boolean).join(' ') },
    el(
      'span',
      { class: 'number' },
      cell.best ? mark('best', 'best') : null,
      el('span', {}, valueText(row, cell, units)),
    ),
    cell.difference !== null && !worded
      ? el(
          'span',
          { class: 'difference' },
          cell.change === 'no clear difference' ? mark('unclear', 'no clear difference') : null,
          units.cellDifference(unit, cell.difference),
        )
      : null,
    bands && typeof low === 'number' && typeof high === 'number'
      ? el('span', { class: 'band' }, `${units.cell(unit, low)} to ${units.cell(unit, high)}`)
      : null,
    bands && !worded && cell.same_sign !== undefined ? el('span', { class: 'band' }, howOften(cell.same_sign)) : null,
  );
}

/** Best first by one row, those without a value last; the first set-up stays in front, it is what differences are from. */
function sortedBy(row: ComparisonRow, count: number): number[] {
  const sign = row.better === 'lower' ? 1 : -1;
  const key = (i: number): number => {
    const value = row.cells[i]?.value;
    return typeof value === 'number' ? sign * value : Infinity;
  };
  const others = Array.from({ length: count - 1 }, (_, k) => k + 1);
  others.sort((a, b) => (key(a) === key(b) ? a - b : key(a) - key(b)));
  return [0, ...others];
}

const noneHolds = ({ variants }: Comparison): boolean => variants.every(({ level }) => level === 'over the limit');

function columnHead(comparison: Comparison, i: number): HTMLElement {
  const variant = comparison.variants[i]!;
  const level = known(variant.level);
  return el(
    'th',
    { scope: 'col', class: styleOf(level) },
    el('span', { class: 'letter' }, pen(i).letter, sample(pen(i))),
    el('span', { class: 'variant' }, fullName(variant, i)),
    el('span', { class: 'level' }, glyph(level)),
    i === comparison.recommended
      ? el('span', { class: 'pick-me' }, noneHolds(comparison) ? 'least bad' : 'recommended')
      : null,
  );
}

export function comparisonTable(run: Run, store: Store): HTMLElement | null {
  const comparison = run.comparison!;
  let order = comparison.order;
  let sorted = comparison.sorted_by ?? '';
  let bands = false;
  const table = el('table', { class: 'comparison', 'aria-label': 'Set-ups side by side' });
  const frame = el('div', { class: 'scroll', role: 'region', tabindex: 0, 'aria-label': 'Comparison table' }, table);
  const words = el('p', { class: 'hint', 'aria-live': 'polite' });
  const alike = el('p', { class: 'hint' });
  const often = el(
    'p',
    { class: 'hint' },
    'Same way in 90 %: with every input varied, alike in both, the difference from A keeps its sign in nine of ten runs.',
  );
  const varied = comparison.rows.some(({ cells }) => cells.some(({ same_sign }) => same_sign !== undefined));

  const sort = (row: ComparisonRow): void => {
    const again = sorted === rowName(row);
    sorted = again ? '' : rowName(row);
    order = again ? comparison.variants.map((_, i) => i) : sortedBy(row, comparison.variants.length);
    draw();
    [...table.querySelectorAll('button')].find((button) => button.dataset['row'] === rowName(row))?.focus();
  };

  const draw = (): void => {
    const units = new Units(store.view.system);
    const mine = comparison.rows.filter(({ axle }) => axle === '' || axle === store.view.axle);
    const some = (row: ComparisonRow): boolean => row.cells.some(({ value }) => value !== null);
    const shown = mine.filter((row) => some(row) && (!row.same || row.key === 'verdict'));
    const currency = comparison.variants.map(({ cost }) => cost?.currency).find(Boolean) ?? '';
    const unitOf = (row: ComparisonRow): string => (row.unit === 'cost' ? currency : units.cellUnit(row.unit));
    table.replaceChildren(
      el(
        'thead',
        {},
        el('tr', {}, el('th', { scope: 'col' }, 'Tap a name to sort'), ...order.map((i) => columnHead(comparison, i))),
      ),
      el(
        'tbody',
        {},
        ...shown.map((row) => {
          const unit = row.unit === 'level' ? '' : unitOf(row);
          return el(
            'tr',
            {},
            el(
              'th',
              { scope: 'row' },
              el(
                'button',
                {
                  type: 'button',
                  'data-row': rowName(row),
                  'aria-pressed': String(sorted === rowName(row)),
                  click: () => sort(row),
                },
                unit ? `${rowName(row)}, ${unit}` : rowName(row),
              ),
            ),
            ...order.map((i) => cellOf(row, row.cells[i]!, units, bands)),
          );
        }),
      ),
    );
    often.hidden = !bands || !varied;
    words.textContent = sorted
      ? `Sorted by ${sorted.toLowerCase()}, best first; A stays in front. Tap it again for the order as named.`
      : 'In the order as named.';
    const same = mine.filter((row) => row.same && some(row) && row.key !== 'verdict').map((row) => rowName(row));
    alike.textContent = same.length ? `Alike in all: ${same.join(', ').toLowerCase()}.` : '';
  };
  const showBands = choose(
    'Cells',
    [
      { value: 'plain', text: 'Values' },
      { value: 'bands', text: 'With bands' },
    ],
    'plain',
    (value) => {
      bands = value === 'bands';
      draw();
    },
  );
  store.follow(['axle', 'system'], draw);
  return section(
    'How do they differ?',
    el('div', { class: 'controls' }, showBands),
    words,
    sidewaysHint(frame),
    frame,
    alike,
    el(
      'p',
      { class: 'hint legend' },
      mark('best', ''),
      'best of its row, or level with the best. Below each value its difference from A. ',
      mark('unclear', ''),
      'no clear difference from A: it changes sign, or is too small to matter, with little, likely or much cooling. ' +
        'The bands themselves may overlap: the same air cools all set-ups.',
    ),
    often,
  );
}

interface Curve {
  key: string;
  name: string;
  quantity: Quantity;
  group: 'temperature' | 'joint';
}

const kCurves: Curve[] = [
  ...kParts.map(({ key, name }): Curve => ({ key, name, quantity: 'temperature', group: 'temperature' })),
  { key: 'differential_expansion', name: 'Ring outgrows hat by', quantity: 'clearance', group: 'joint' },
  { key: 'clearance_outward', name: 'Float left, outwards', quantity: 'clearance', group: 'joint' },
  { key: 'clearance_inward', name: 'Float left, inwards', quantity: 'clearance', group: 'joint' },
];

export function overlays(run: Run, store: Store): HTMLElement | null {
  const { variants } = run.comparison!;
  if (!run.series || run.series.time.length < 2) return null;
  let chosen = 'hat_flange';
  const frame = new ChartFrame();
  const words = el('p');
  const draw = (): void => {
    const { view } = store;
    const units = new Units(view.system);
    const curve = kCurves.find(({ key }) => key === chosen)!;
    const stretch = slice(run, view, units);
    const found = variants
      .map((variant, i) => ({
        i,
        name: fullName(variant, i),
        values: cut(variant.series?.[view.axle]?.[curve.group]?.[curve.key], stretch),
      }))
      .filter(({ values }) => values.some((value) => value !== null));
    const without = variants.filter((_, i) => !found.some((item) => item.i === i)).map(({ name }) => name);
    words.textContent = without.length ? `Not in: ${without.join(', ')}.` : '';
    if (found.length === 0) {
      frame.replace();
      return;
    }
    const cursor = new Cursor(stretch.x[Math.max(indexOfHighest(found[0]!.values), 0)] ?? 0);
    frame.replace(
      el('h3', {}, `${curve.name}, ${units.unit(curve.quantity)}, ${view.axle} disc`),
      new Chart({
        label: `${curve.name} of every set-up over the stretch shown; the values are in the table below`,
        height: 400,
        x: stretch.x,
        xKind: stretch.kind,
        cursor,
        zero: curve.group === 'joint',
        lines: found.map(({ i, name, values }): Line => ({
          ...pen(i),
          name,
          values: units.column(curve.quantity, values),
        })),
      }),
      el('p', { class: 'axis-title under-chart' }, stretch.title),
      ...readout({
        label: 'Moment shown',
        table: `${curve.name}, ${view.axle} disc, sampled over the stretch shown`,
        x: stretch.x,
        cursor,
        moment: (i) => momentText(run, stretch, i, units),
        rows: found.map(({ i, name, values }) => ({
          pen: pen(i),
          name,
          text: (at) => units.text(curve.quantity, values[at]),
        })),
      }),
    );
  };
  const picker = pick(
    'Curve',
    kCurves
      .filter(({ group, key }) =>
        variants.some(({ series }) => series?.front?.[group]?.[key] || series?.rear?.[group]?.[key]),
      )
      .map(({ key, name }) => ({ value: key, text: name })),
    chosen,
    (value) => {
      chosen = value;
      draw();
    },
  );
  store.follow(['axle', 'system', 'span', 'along'], draw);
  return section(
    'Their curves over each other',
    el('div', { class: 'controls' }, picker, stretchChoice(run, store)),
    words,
    frame.root,
  );
}

export function variantVerdicts(run: Run, store: Store): HTMLElement | null {
  const { variants } = run.comparison!;
  return section(
    'What each one comes to',
    ...variants.map((variant, i) => {
      const level = known(variant.level);
      const details = fold(`${pen(i).letter} ${fullName(variant, i)}: ${level}`, () => {
        const list = el('ol', { class: 'verdicts' });
        store.follow(['system'], () => {
          const units = new Units(store.view.system);
          list.replaceChildren(...(variant.verdicts ?? []).map((verdict) => verdictRow(verdict, units)));
        });
        const warnings = variant.warnings ?? [];
        return el(
          'div',
          {},
          el('p', { class: 'advice' }, variant.sentence),
          warnings.length ? el('ul', { class: 'warnings' }, ...warnings.map((text) => el('li', {}, text))) : null,
          list,
        );
      }, { class: `each ${styleOf(level)}` });
      details.querySelector('summary')!.prepend(glyph(level));
      return details;
    }),
  );
}
