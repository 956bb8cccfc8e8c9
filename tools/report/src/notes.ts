// SPDX-License-Identifier: MIT
// What was assumed and why, warnings, cautions.

import { capital, el, fold, section, table } from './dom';
import type { Run, Verdict } from './run';
import type { Store } from './state';
import { Units } from './units';

const kOpenUpTo = 12;

const plain = (value: unknown): string => (typeof value === 'string' ? value : (JSON.stringify(value) ?? ''));

function assumed(list: NonNullable<Run['assumptions']>, store: Store): HTMLElement {
  const host = el('ul', { class: 'assumed' });
  store.follow(['system'], () => {
    const units = new Units(store.view.system);
    host.replaceChildren(
      ...list.map(({ key, value, reason }) =>
        el(
          'li',
          {},
          el('b', {}, `${key}: `),
          units.typed(plain(value)),
          reason ? el('span', {}, units.prose(reason)) : null,
        ),
      ),
    );
  });
  return host;
}

/** Why each limit is what it is. */
function origins(all: Verdict[], store: Store): HTMLElement {
  const host = el('div');
  store.follow(['system'], () => {
    const units = new Units(store.view.system);
    host.replaceChildren(
      table({
        caption: 'Where each limit comes from; a limit of your own goes into the session file',
        head: ['What is judged', 'Limit', 'Where it comes from'],
        rows: all.map((verdict) => [
          `${capital(verdict.axle)} ${verdict.part}: ${verdict.what}`,
          units.judged(verdict.unit, verdict.limit),
          units.prose(verdict.reason ?? ''),
        ]),
        words: true,
      }),
    );
  });
  return host;
}

export function assumptions(run: Run, store: Store): HTMLElement | null {
  const limits = (run.verdicts ?? []).filter(({ reason }) => reason);
  const list = run.assumptions ?? [];
  const warnings = run.warnings ?? [];
  if (list.length === 0 && warnings.length === 0 && limits.length === 0) return null;
  return section(
    'What was assumed, and why?',
    ...(warnings.length > 0
      ? [
          el('h3', {}, 'Look at these first'),
          el('ul', { class: 'warnings' }, ...warnings.map((text) => el('li', {}, text))),
        ]
      : []),
    limits.length > 0 ? fold('Where do the limits come from?', () => origins(limits, store)) : null,
    list.length > 0
      ? fold(
          list.length === 1 ? 'One value was not given' : `${list.length} values were not given`,
          () => assumed(list, store),
          { open: list.length <= kOpenUpTo },
        )
      : null,
  );
}

export function cautions(run: Run): HTMLElement | null {
  const list = run.cautions ?? [];
  if (list.length === 0) return null;
  return section('Before you rely on this', el('ul', { class: 'cautions' }, ...list.map((text) => el('li', {}, text))));
}
