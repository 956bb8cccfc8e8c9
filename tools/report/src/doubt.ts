// SPDX-License-Identifier: MIT
// The full band: how surely limits are kept, on which input that hangs, and what to measure.

import { capital, el, section, table } from './dom';
import type { Run, Verdict } from './run';
import type { Store } from './state';
import { percent, Units } from './units';
import { known } from './verdicts';

const kRows = 10;
const kInputs = 3;
const kWorthNaming = 0.05; // least total index

export interface Doubt {
  low: number | null;
  likely: number | null;
  high: number | null;
  kept: number;
  inputs: { input: number; total: number | null }[];
}

export interface FullBand {
  runs: number;
  sentence: string;
  order: number[];
  inputs: { key: string; name: string; reading: string; weight: number }[];
}

const share = (value: number | null): string => percent(Math.min(1, value ?? 0));

function hangsOn({ inputs }: Doubt, full: FullBand): string {
  return (
    inputs
      .filter(({ total }) => (total ?? 0) >= kWorthNaming)
      .slice(0, kInputs)
      .map(({ input, total }) => `${full.inputs[input]?.name ?? ''} ${share(total)}`)
      .join('; ') || 'nothing by itself'
  );
}

export function doubt(run: Run, store: Store): HTMLElement | null {
  const full = run.full_band;
  if (!full) return null;
  const spread = (run.verdicts ?? []).filter((verdict) => verdict.doubt?.inputs.length);
  const open = spread.filter(({ level }) => known(level) !== 'within limits');
  const shown = (open.length > 0 ? open : spread).slice(0, kRows);
  const host = el('div');
  store.follow(['system'], () => {
    const units = new Units(store.view.system);
    const row = ({ axle, part, what, unit, doubt: d }: Verdict): string[] => [
      `${capital(axle)} ${part}: ${what}`,
      units.judged(unit, d!.low),
      units.judged(unit, d!.likely),
      units.judged(unit, d!.high),
      percent(d!.kept),
      hangsOn(d!, full),
    ];
    host.replaceChildren(
      table({
        caption: `Low, likely and high: 5 %, half and 95 % of ${full.runs} runs with every input varied`,
        head: ['Limit', 'Low', 'Likely', 'High', 'Kept in', 'Hangs on'],
        rows: shown.map(row),
        words: true,
      }),
      table({
        caption: 'What would narrow these bands, the most telling reading first',
        head: ['Input', 'Share of the doubt', 'Reading'],
        rows: full.order.map((i) => {
          const { name, weight, reading } = full.inputs[i]!;
          return [capital(name), share(weight), reading];
        }),
        words: true,
      }),
    );
  });
  return section('How sure is this, and what would make it surer?', el('p', {}, full.sentence), host);
}
