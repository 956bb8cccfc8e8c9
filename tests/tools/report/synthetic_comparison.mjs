// SPDX-License-Identifier: MIT
// A made-up comparison of three set-ups for the browser test, from the made-up session.
import { syntheticRun } from './synthetic_run.mjs';

const warmer = (series, kelvin) => ({
  ...series,
  temperature: Object.fromEntries(
    Object.entries(series.temperature).map(([key, values]) => [key, values.map((value) => value + kelvin)]),
  ),
});

export function syntheticComparison(title) {
  const run = syntheticRun(title);
  const { front, rear, ...series } = run.series;
  const variant = (name, level, kelvin, more = {}) => ({
    name,
    level,
    sentence: `${name}: made up.`,
    cost: null,
    verdicts: run.verdicts,
    warnings: [],
    series: { front: warmer(front, kelvin), rear: warmer(rear, kelvin) },
    ...more,
  });
  const variants = [
    variant(title, 'over the limit', 0),
    variant('steel hats', 'near the limit', 60, { cost: { amount: 380, currency: 'EUR', text: '380 EUR' } }),
    variant('cooler hats', 'within limits', -30, { warnings: ['Mind the made-up bolts.'] }),
  ];
  delete variants[1].series.front.joint; // as a one-piece disc
  const cell = (value, difference, change, best = false) => ({ value, difference, change, best });
  const row = (key, axle, title, unit, cells) => ({ key, axle, title, unit, better: 'lower', same: false, cells });
  const rows = [
    row('verdict', '', 'verdict', 'level', [
      { ...cell(2, null, ''), text: 'over the limit' },
      { ...cell(1, -1, 'better'), text: 'near the limit' },
      { ...cell(0, -2, 'better', true), text: 'within limits' },
    ]),
    row('cost', '', 'cost', 'cost', [cell(null, null, ''), { ...cell(380, null, ''), text: '380 EUR' }, cell(null, null, '')]),
    row('hat', 'front', 'hat flange', 'K', [
      { ...cell(480, null, ''), value_low: 450, value_high: 520 },
      { ...cell(540, 60, 'worse'), value_low: 500, value_high: 590, same_sign: 1 },
      { ...cell(450, -30, 'better', true), value_low: 425, value_high: 485, same_sign: 0.998 },
    ]),
    row('fluid', 'front', 'fluid', 'K', [cell(400, null, ''), cell(398, -2, 'no clear difference'), cell(401, 1, 'no clear difference')]),
    { ...row('mass', 'front', 'mass', 'kg', [cell(10, null, ''), cell(10, 0, ''), cell(10, 0, '')]), same: true },
    row('hat', 'rear', 'hat flange', 'K', [cell(470, null, ''), cell(500, 30, 'worse'), cell(465, -5, 'better', true)]),
  ];
  return {
    format: 1,
    kind: 'compare',
    title,
    sentence: 'Take cooler hats: it alone is within limits.',
    level: 'within limits',
    cautions: run.cautions,
    spans: run.spans,
    series,
    comparison: { recommended: 2, order: [0, 1, 2], sorted_by: '', variants, rows },
  };
}
