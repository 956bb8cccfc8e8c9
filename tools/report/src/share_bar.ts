// SPDX-License-Identifier: MIT
// A share drawn as a bar; its number always stands beside it.

import { svg } from './dom';

export function shareBar(share: number): SVGElement {
  const width = 100 * Math.min(Math.max(share, 0), 1);
  return svg(
    'svg',
    { class: 'share', viewBox: '0 0 100 10', preserveAspectRatio: 'none', 'aria-hidden': 'true' },
    svg('rect', { class: 'all', width: 100, height: 10 }),
    svg('rect', { class: 'part', width, height: 10 }),
  );
}
