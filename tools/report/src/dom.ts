// SPDX-License-Identifier: MIT
// Building elements. Text of a run reaches the page only through here, as text nodes.

type Child = Node | string | null | undefined | false;
type Attributes = Record<string, string | number | boolean | ((event: Event) => void)>;

function fill<T extends Element>(element: T, attributes: Attributes, children: Child[]): T {
  for (const [name, value] of Object.entries(attributes)) {
    if (typeof value === 'function') element.addEventListener(name, value);
    else if (typeof value === 'boolean') element.toggleAttribute(name, value);
    else element.setAttribute(name, String(value));
  }
  for (const child of children) if (child) element.append(child);
  return element;
}

export function el<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: Child[]
): HTMLElementTagNameMap[K] {
  return fill(document.createElement(tag), attributes, children);
}

export function svg<K extends keyof SVGElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: Child[]
): SVGElementTagNameMap[K] {
  return fill(document.createElementNS('http://www.w3.org/2000/svg', tag), attributes, children);
}

let serial = 0;
export const freshId = (stem: string): string => `${stem}-${++serial}`;

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** A section of the page: a question as heading, and what answers it. */
export function section(question: string, ...children: Child[]): HTMLElement {
  const id = freshId('section');
  return el('section', { 'aria-labelledby': id }, el('h2', { id }, question), ...children);
}

export interface TableSpec {
  caption: string;
  head: string[];
  rows: string[][];
  words?: boolean; // cells of text, which wrap
}

/** Says that a frame scrolls sideways, for as long as it does. */
export function sidewaysHint(frame: HTMLElement): HTMLElement {
  const hint = el('p', { class: 'hint wide', hidden: true }, 'Drag the table sideways \u2192');
  new ResizeObserver(() => {
    hint.hidden = frame.scrollWidth <= frame.clientWidth + 1;
  }).observe(frame);
  return hint;
}

/** A table whose first column heads the row; wide ones scroll sideways in a focusable frame under their caption. */
export function table({ caption, head, rows, words }: TableSpec): HTMLElement {
  const id = freshId('table');
  const frame = el(
    'div',
    { class: 'scroll', role: 'region', tabindex: 0, 'aria-labelledby': id },
    el(
      'table',
      { 'aria-labelledby': id },
      el('thead', {}, el('tr', {}, ...head.map((text) => el('th', { scope: 'col' }, text)))),
      el(
        'tbody',
        {},
        ...rows.map((row) =>
          el('tr', {}, ...row.map((text, i) => (i === 0 ? el('th', { scope: 'row' }, text) : el('td', {}, text)))),
        ),
      ),
    ),
  );
  return el(
    'div',
    words ? { class: 'words' } : {},
    el('p', { class: 'caption', id }, caption),
    sidewaysHint(frame),
    frame,
  );
}

/** A fold whose content is built when it is first opened. */
export function fold(summary: string, content: () => Node, attributes: Attributes = {}): HTMLDetailsElement {
  const details = el('details', attributes, el('summary', {}, summary));
  const open = (): void => {
    if (details.open && details.childElementCount === 1) details.append(content());
  };
  details.addEventListener('toggle', open);
  open();
  return details;
}

export interface Choice<T extends string> {
  value: T;
  text: string;
}

/** A row of radio buttons drawn as one switch. */
export function choose<T extends string>(
  legend: string,
  choices: Choice<T>[],
  chosen: T,
  take: (value: T) => void,
): HTMLFieldSetElement {
  const name = freshId('choice');
  return el(
    'fieldset',
    { class: 'choose' },
    el('legend', {}, legend),
    el(
      'div',
      {},
      ...choices.map(({ value, text }) =>
        el(
          'label',
          {},
          el('input', { type: 'radio', name, value, checked: value === chosen, change: () => take(value) }),
          el('span', {}, text),
        ),
      ),
    ),
  );
}

export function pick(
  label: string,
  choices: Choice<string>[],
  chosen: string,
  take: (value: string) => void,
): HTMLElement {
  const id = freshId('pick');
  const select = el(
    'select',
    { id, change: () => take(select.value) },
    ...choices.map(({ value, text }) => el('option', { value, selected: value === chosen }, text)),
  );
  return el('div', { class: 'pick' }, el('label', { for: id }, label), select);
}
