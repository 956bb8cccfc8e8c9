// SPDX-License-Identifier: MIT
// Each stop of a bedding plan against the pad maker's band and ceiling.

import { capital, el, section, table } from './dom';
import type { Bedding, BeddingStop } from './pedal_data';
import type { Axle, Run } from './run';
import type { Store } from './state';
import { Units } from './units';

function told(stop: BeddingStop): string {
  if (!stop.under_ceiling) return 'over the ceiling';
  if (!stop.reaches_band) return 'short of the band';
  return stop.above_band ? 'above the band' : 'in the band';
}

function plan(bedding: Bedding, axle: Axle, units: Units): Node[] {
  const stops = bedding.stops ?? [];
  const text = (kelvin: number | null | undefined): string => units.text('temperature', kelvin);
  return [
    el(
      'p',
      {},
      `${capital(axle)}: ${bedding.reached ?? 0} of ${stops.length} stops reach the band of ` +
        `${text(bedding.band_low)} to ${text(bedding.band_high)}; ` +
        `${bedding.over ?? 0} pass the ceiling of ${text(bedding.ceiling)}.`,
    ),
    table({
      caption: `Bedding stops, ${axle} face`,
      head: ['Group, stop', `Before, ${units.unit('temperature')}`, `Peak, ${units.unit('temperature')}`, 'So it is'],
      rows: stops.map((stop) => [
        `${stop.group}, ${stop.number}`,
        units.number('temperature', stop.face_before),
        units.number('temperature', stop.face_peak),
        told(stop),
      ]),
    }),
  ];
}

export function bedding(run: Run, store: Store): HTMLElement | null {
  const axles = (['front', 'rear'] as const).filter((axle) => run.bedding?.[axle]?.applicable);
  if (axles.length === 0) return null;
  const host = el('div');
  store.follow(['system'], () => {
    const units = new Units(store.view.system);
    host.replaceChildren(...axles.flatMap((axle) => plan(run.bedding![axle]!, axle, units)));
  });
  return section('Does the bedding reach its band?', host);
}
