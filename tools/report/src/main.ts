// SPDX-License-Identifier: MIT
// Puts the page together: the answer first, everything that takes drawing after the first picture.

import { lapBands } from './bands';
import { chosenAgainstParking, coolingHarm, hotLaps, tradeOff } from './cooldown';
import { capital, choose, el } from './dom';
import { jointMovement } from './joint';
import { crossSection } from './cross_section';
import { life } from './life';
import { loads } from './loads';
import { comparisonTable, overlays, variantVerdicts } from './comparison';
import { margins } from './margins';
import { assumptions, cautions } from './notes';
import { parking } from './parking';
import { kUsualParts } from './parts';
import { pedal } from './pedal';
import type { Run } from './run';
import { axlesOf, readRun } from './run';
import { sessionCard } from './session_card';
import { Store } from './state';
import { bedding } from './bedding';
import { doubt } from './doubt';
import { faults } from './faults';
import { brakings } from './brakings';
import { heatBalance, lapTable, masses } from './tables';
import { temperatures } from './temperatures';
import { lapBrakings, lapSpeed, logLaps, logReading, traceAnswer } from './trace';
import { watchTheme } from './theme';
import { answer, verdicts } from './verdicts';

const kFormat = 1;

function created(text: string | undefined): string {
  const time = new Date(text ?? '');
  return Number.isNaN(time.getTime())
    ? ''
    : time.toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' });
}

function heading(run: Run): HTMLElement {
  const program = run.program ? `${run.program.name} ${run.program.version}` : '';
  const mesh = run.mesh ? `${run.mesh} mesh` : '';
  return el(
    'header',
    {},
    el('h1', {}, run.title || 'Brake disc report'),
    el('p', {}, [program, run.kind, mesh, created(run.created)].filter(Boolean).join(' · ')),
  );
}

function switches(run: Run, store: Store): HTMLElement {
  const axles = axlesOf(run);
  return el(
    'div',
    { class: 'switches', role: 'region', 'aria-label': 'For the whole page' },
    choose(
      'Units',
      [
        { value: 'si', text: 'Metric' },
        { value: 'us', text: 'US' },
      ],
      store.view.system,
      (system) => store.set({ system }),
    ),
    axles.length > 1
      ? choose(
          'Discs',
          axles.map((axle) => ({ value: axle, text: capital(axle) })),
          store.view.axle,
          (axle) => store.set({ axle }),
        )
      : null,
  );
}

function start(): void {
  const page = document.getElementById('page')!;
  const run = readRun();
  if (!run || run.format !== kFormat) {
    page.replaceChildren(
      el('main', {}, el('h1', {}, 'Brake disc report'), el('p', {}, 'This file holds no run that its page can read.')),
    );
    return;
  }
  document.title = `${run.title || 'Brake discs'}: brake disc report`;
  const store = new Store({
    system: run.units ?? 'si',
    axle: axlesOf(run)[0] ?? 'front',
    along: 'time',
    span: -1,
    parts: kUsualParts,
  });
  const first = run.trace ? traceAnswer(run, store) : run.comparison ? answer(run) : verdicts(run, store);
  const main = el('main', {}, first);
  page.replaceChildren(heading(run), switches(run, store), main);
  watchTheme();

  const compared = [comparisonTable, overlays, variantVerdicts, cautions];
  const cooled = [tradeOff, chosenAgainstParking, coolingHarm, hotLaps, assumptions, cautions];
  const logged = [lapSpeed, lapBrakings, logLaps, logReading, cautions];
  const single = [
    temperatures,
    lapBands,
    parking,
    jointMovement,
    crossSection,
    brakings,
    margins,
    doubt,
    loads,
    life,
    pedal,
    faults,
    bedding,
    lapTable,
    heatBalance,
    masses,
    assumptions,
    cautions,
    sessionCard,
  ];
  const rest = run.trace ? logged : run.comparison ? compared : run.cooldown ? cooled : single;
  const next = (): void => {
    const build = rest.shift();
    if (!build) {
      document.documentElement.dataset['ready'] = 'yes';
      return;
    }
    const part = build(run, store);
    if (part) main.append(part);
    setTimeout(next);
  };
  requestAnimationFrame(() => setTimeout(next));
}

start();
