// SPDX-License-Identifier: MIT
// From SI to what is shown. Temperature differences are a quantity of their own: they scale, without the offset.

import type { Place } from './run';

export type System = 'si' | 'us';
export type Quantity =
  | 'temperature'
  | 'difference'
  | 'rate'
  | 'slow_rate'
  | 'exposure'
  | 'speed'
  | 'clearance'
  | 'wear'
  | 'growth'
  | 'road'
  | 'route'
  | 'energy'
  | 'power'
  | 'mass'
  | 'force'
  | 'effort'
  | 'stress'
  | 'pressure'
  | 'inertia'
  | 'share'
  | 'count'
  | 'sessions'
  | 'specific_energy'
  | 'specific_power'
  | 'slowing'
  | 'seconds'
  | 'plain';

interface Shown {
  unit: string;
  scale: number;
  offset?: number;
  digits: number;
}

const kShown: Record<Quantity, Record<System, Shown>> = {
  temperature: {
    si: { unit: '°C', scale: 1, offset: -273.15, digits: 0 },
    us: { unit: '°F', scale: 1.8, offset: -459.67, digits: 0 },
  },
  difference: { si: { unit: '°C', scale: 1, digits: 0 }, us: { unit: '°F', scale: 1.8, digits: 0 } },
  rate: { si: { unit: '°C/s', scale: 1, digits: 0 }, us: { unit: '°F/s', scale: 1.8, digits: 0 } },
  slow_rate: { si: { unit: '°C/s', scale: 1, digits: 2 }, us: { unit: '°F/s', scale: 1.8, digits: 2 } },
  exposure: { si: { unit: '°C·s', scale: 1, digits: 0 }, us: { unit: '°F·s', scale: 1.8, digits: 0 } },
  speed: { si: { unit: 'km/h', scale: 3.6, digits: 0 }, us: { unit: 'mph', scale: 1 / 0.44704, digits: 0 } },
  clearance: { si: { unit: 'mm', scale: 1e3, digits: 2 }, us: { unit: 'thou', scale: 1 / 25.4e-6, digits: 1 } },
  wear: { si: { unit: 'mm', scale: 1e3, digits: 3 }, us: { unit: 'thou', scale: 1 / 25.4e-6, digits: 2 } },
  growth: { si: { unit: 'µm/s', scale: 1e6, digits: 0 }, us: { unit: 'thou/s', scale: 1 / 25.4e-6, digits: 1 } },
  road: { si: { unit: 'm', scale: 1, digits: 0 }, us: { unit: 'ft', scale: 1 / 0.3048, digits: 0 } },
  route: { si: { unit: 'km', scale: 1e-3, digits: 2 }, us: { unit: 'mi', scale: 1 / 1609.344, digits: 2 } },
  energy: { si: { unit: 'kJ', scale: 1e-3, digits: 0 }, us: { unit: 'BTU', scale: 1 / 1055.05585262, digits: 0 } },
  power: { si: { unit: 'kW', scale: 1e-3, digits: 0 }, us: { unit: 'hp', scale: 1 / 745.69987158, digits: 0 } },
  mass: { si: { unit: 'kg', scale: 1, digits: 2 }, us: { unit: 'lb', scale: 1 / 0.45359237, digits: 2 } },
  force: { si: { unit: 'kN', scale: 1e-3, digits: 1 }, us: { unit: 'lbf', scale: 1 / 4.4482216153, digits: 0 } },
  effort: { si: { unit: 'N', scale: 1, digits: 0 }, us: { unit: 'lbf', scale: 1 / 4.4482216153, digits: 0 } },
  pressure: { si: { unit: 'bar', scale: 1e-5, digits: 0 }, us: { unit: 'psi', scale: 1 / 6894.757293, digits: 0 } },
  stress: { si: { unit: 'MPa', scale: 1e-6, digits: 0 }, us: { unit: 'psi', scale: 1 / 6894.757293, digits: 0 } },
  inertia: {
    si: { unit: 'kg cm²', scale: 1e4, digits: 0 },
    us: { unit: 'lb in²', scale: 1 / (0.45359237 * 0.0254 ** 2), digits: 0 },
  },
  share: { si: { unit: '%', scale: 100, digits: 0 }, us: { unit: '%', scale: 100, digits: 0 } },
  count: { si: { unit: '', scale: 1, digits: 0 }, us: { unit: '', scale: 1, digits: 0 } },
  sessions: { si: { unit: 'sessions', scale: 1, digits: 0 }, us: { unit: 'sessions', scale: 1, digits: 0 } },
  specific_energy: { si: { unit: 'kJ/kg', scale: 1e-3, digits: 2 }, us: { unit: 'BTU/lb', scale: 1 / 2326, digits: 2 } },
  specific_power: {
    si: { unit: 'W/kg', scale: 1, digits: 0 },
    us: { unit: 'hp/lb', scale: 0.45359237 / 745.69987158, digits: 2 },
  },
  slowing: { si: { unit: 'g', scale: 1 / 9.80665, digits: 2 }, us: { unit: 'g', scale: 1 / 9.80665, digits: 2 } },
  seconds: { si: { unit: 's', scale: 1, digits: 2 }, us: { unit: 's', scale: 1, digits: 2 } },
  plain: { si: { unit: '', scale: 1, digits: 2 }, us: { unit: '', scale: 1, digits: 2 } },
};

// The unit text of a verdict names its quantity; margins of temperatures are differences.
const kByUnit: Record<string, { value: Quantity; margin: Quantity }> = {
  K: { value: 'temperature', margin: 'difference' },
  delta_K: { value: 'difference', margin: 'difference' },
  'K s-1': { value: 'rate', margin: 'rate' },
  'K s': { value: 'exposure', margin: 'exposure' },
  m: { value: 'clearance', margin: 'clearance' },
  'm s-1': { value: 'speed', margin: 'speed' },
  J: { value: 'energy', margin: 'energy' },
  W: { value: 'power', margin: 'power' },
  N: { value: 'effort', margin: 'effort' },
  Pa: { value: 'stress', margin: 'stress' },
  kg: { value: 'mass', margin: 'mass' },
  'kg m2': { value: 'inertia', margin: 'inertia' },
  share: { value: 'share', margin: 'share' },
  count: { value: 'count', margin: 'count' },
  sessions: { value: 'sessions', margin: 'sessions' },
  1: { value: 'plain', margin: 'plain' },
};

// '550 to 650 degC', '20 K'
const kInProse = /(\d+(?:\.\d+)?)(?: (to|and|or) (\d+(?:\.\d+)?))? (degC|K)\b/g;

// Units of config values that have a counterpart.
const kTyped: Record<string, { quantity: Quantity; scale: number; offset?: number }> = {
  degC: { quantity: 'temperature', scale: 1, offset: 273.15 },
  K: { quantity: 'difference', scale: 1 },
  mm: { quantity: 'clearance', scale: 1e-3 },
  kg: { quantity: 'mass', scale: 1 },
  N: { quantity: 'effort', scale: 1 },
  bar: { quantity: 'pressure', scale: 1e5 },
  MPa: { quantity: 'stress', scale: 1e6 },
  'm/s': { quantity: 'speed', scale: 1 },
  'km/h': { quantity: 'speed', scale: 1 / 3.6 },
};

// More sessions than that are endless to a driver, and not told apart.
const kManySessions = 10000;

const kWholeSession = 'whole session'; // the span of what is counted over all of it
const kNothing = 'no value';
const kGap = '\u00a0';
const formats = new Map<string, Intl.NumberFormat>();

/** By the reader's own rules, with so many digits after the mark and at least so many before it. */
export function decimal(value: number, digits: number, whole = 1): string {
  const key = `${digits} ${whole}`;
  let format = formats.get(key);
  if (!format) {
    format = new Intl.NumberFormat(undefined, {
      minimumFractionDigits: digits,
      maximumFractionDigits: digits,
      minimumIntegerDigits: whole,
    });
    formats.set(key, format);
  }
  return format.format(value);
}

const kRound = new Intl.NumberFormat(undefined, { maximumSignificantDigits: 6 });
/** A number of the page's own making (an axis, a pace) with no more digits than it has. */
export const plainNumber = (value: number): string => kRound.format(value);

/** A share as per cent. */
export const percent = (share: number, digits = 0): string => `${decimal(100 * share, digits)}${kGap}%`;

const present = (value: number | null | undefined): value is number => value !== null && value !== undefined;

/** The text of a size with the sign of a value; none where nothing is left of it by rounding. */
export function signed(text: string, value: number): string {
  return /[1-9]/.test(text) ? `${value < 0 ? '\u2212' : '+'}${text}` : `±${text}`;
}

/** 754 s as 12:34; tenths on request. */
export function clock(seconds: number, digits = 0): string {
  const unit = 10 ** digits;
  const whole = Math.round(Math.abs(seconds) * unit) / unit;
  const minutes = Math.floor(whole / 60);
  const rest = decimal(whole - 60 * minutes, digits, 2);
  const sign = seconds < 0 && whole > 0 ? '\u2212' : '';
  if (minutes < 60) return `${sign}${minutes}:${rest}`;
  return `${sign}${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}:${rest}`;
}

/** Two digits; more would say more than is known of a life. */
function twoDigits(value: number): number {
  if (!(value > 0)) return 0;
  const unit = 10 ** (Math.floor(Math.log10(value)) - 1);
  return Math.round(value / unit) * unit;
}

/** A life with its band, if it has one, written out: '2,400, could be 240 or 24,000'. */
export function sessions(value: number | null | undefined, band = 1): string {
  if (!present(value)) return kNothing;
  const one = (n: number): string =>
    n > kManySessions * 1.0001 ? `more than ${decimal(kManySessions, 0)}` : decimal(twoDigits(n), 0);
  if (band === 1 || value / band > kManySessions) return one(value);
  return `${one(value)}, could be ${one(value / band)} or ${one(value * band)}`;
}

/** A small share that is not nothing keeps from being written as nothing. */
export function smallPercent(share: number | null | undefined): string {
  if (!present(share)) return kNothing;
  if (share > 0 && share < 1e-4) return `under ${percent(1e-4, 2)}`;
  return percent(share, share > 0 && share < 0.1 ? 2 : 0);
}

export class Units {
  constructor(readonly system: System) {}

  unit(quantity: Quantity): string {
    return kShown[quantity][this.system].unit;
  }

  of(quantity: Quantity, value: number): number {
    const shown = kShown[quantity][this.system];
    return value * shown.scale + (shown.offset ?? 0);
  }

  column(quantity: Quantity, values: readonly (number | null)[]): (number | null)[] {
    return values.map((value) => (present(value) ? this.of(quantity, value) : null));
  }

  /** The number alone, for table cells under a heading that names the unit. */
  number(quantity: Quantity, value: number | null | undefined): string {
    return present(value) ? decimal(this.of(quantity, value), kShown[quantity][this.system].digits) : '–';
  }

  text(quantity: Quantity, value: number | null | undefined): string {
    if (!present(value)) return kNothing;
    if (quantity === 'sessions' && value > kManySessions) return `more than ${decimal(kManySessions, 0)}${kGap}sessions`;
    const unit = this.unit(quantity);
    return this.number(quantity, value) + (unit ? kGap + unit : '');
  }

  /** Temperatures and their differences inside a sentence of the program, which writes them in degC and K. */
  prose(text: string): string {
    return text.replace(kInProse, (_, from: string, word: string | undefined, to: string | undefined, unit: string) => {
      const quantity = unit === 'K' ? 'difference' : 'temperature';
      const shown = (value: string): string =>
        this.number(quantity, Number(value) + (quantity === 'temperature' ? 273.15 : 0));
      return `${shown(from)}${to ? ` ${word} ${shown(to)}` : ''}${kGap}${this.unit(quantity)}`;
    });
  }

  /** A value as the config takes it, with what that is in the units shown. */
  typed(value: string): string {
    const [, number, unit] = /^(-?\d+(?:\.\d+)?) (\S+)$/.exec(value) ?? [];
    const known = unit === undefined ? undefined : kTyped[unit];
    if (this.system === 'si' || number === undefined || !known) return value;
    return `${value} (${this.text(known.quantity, Number(number) * known.scale + (known.offset ?? 0))})`;
  }

  /** A value of a verdict, by the verdict's own unit. */
  judged(unit: string, value: number | null | undefined): string {
    if (unit === 's') return present(value) ? clock(value) + kGap + 'min' : kNothing;
    const known = kByUnit[unit];
    if (known) return this.text(known.value, value);
    return present(value) ? `${decimal(value, 2)}${kGap}${unit}` : kNothing;
  }

  /** The same with the band it may lie in: '612 °C, between 560 and 680'. */
  judgedBand(
    unit: string,
    value: number | null | undefined,
    low: number | null | undefined,
    high: number | null | undefined,
  ): string {
    const text = this.judged(unit, value);
    const quantity = kByUnit[unit]?.value;
    if (!quantity || !present(low) || !present(high)) return text;
    const [from, to] = [this.number(quantity, low), this.number(quantity, high)];
    return from === to ? text : `${text}, between ${from} and ${to}`;
  }

  /** How much is left before the limit, or how far over it. */
  margin(unit: string, margin: number | null | undefined): string {
    if (!present(margin)) return kNothing;
    const size = Math.abs(margin);
    const known = kByUnit[unit];
    const text = known ? this.text(known.margin, size) : this.judged(unit, size);
    return `${text} ${margin < 0 ? 'over' : 'left'}`;
  }

  /** Unit, number and signed difference of a table cell, by the row's own unit. */
  cellUnit(unit: string): string {
    return this.unit(kByUnit[unit]?.value ?? 'plain');
  }

  cell(unit: string, value: number | null | undefined): string {
    return this.number(kByUnit[unit]?.value ?? 'plain', value);
  }

  cellDifference(unit: string, value: number): string {
    return signed(this.number(kByUnit[unit]?.margin ?? 'plain', Math.abs(value)), value);
  }

  place(place: Place | undefined): string {
    if (!place) return kNothing;
    if (place.span === kWholeSession) return `over the ${kWholeSession}`;
    const parts: string[] = [];
    if (place.span) parts.push(place.span);
    else if (place.lap) parts.push(`lap ${place.lap}`);
    if (place.lap && present(place.lap_distance)) parts.push(`${this.text('road', place.lap_distance)} in`);
    if (present(place.time)) parts.push(`at ${clock(place.time)}`);
    return parts.length > 0 ? parts.join(', ') : kNothing;
  }
}
