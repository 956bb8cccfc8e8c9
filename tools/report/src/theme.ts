// SPDX-License-Identifier: MIT
// Colours for canvases, read from the style sheet; on paper everything is black on white.

let printing = false;
const kRedraw = new Set<() => void>();

export const isPrinting = (): boolean => printing;

export function ink(name: string): string {
  if (printing) return name === 'rule' ? '#bbb' : name === 'paper' ? '#fff' : '#000';
  return getComputedStyle(document.documentElement).getPropertyValue(`--${name}`).trim() || '#000';
}

/** Calls `redraw` whenever the colours change; the function returned ends that. */
export function onTheme(redraw: () => void): () => void {
  kRedraw.add(redraw);
  return () => kRedraw.delete(redraw);
}

function redrawAll(): void {
  for (const redraw of [...kRedraw]) redraw();
}

function setPrinting(on: boolean): void {
  if (printing === on) return;
  printing = on;
  redrawAll();
}

export function watchTheme(): void {
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', redrawAll);
  // Folds are opened for paper, long tables of samples excepted, and closed again afterwards.
  let opened: HTMLDetailsElement[] = [];
  addEventListener('beforeprint', () => {
    setPrinting(true);
    opened = [...document.querySelectorAll<HTMLDetailsElement>('details:not([open]):not(.screen-only)')];
    for (const details of opened) {
      details.open = true;
      details.dispatchEvent(new Event('toggle')); // its own comes too late for the paper
    }
  });
  addEventListener('afterprint', () => {
    setPrinting(false);
    for (const details of opened) details.open = false;
    opened = [];
  });
}
