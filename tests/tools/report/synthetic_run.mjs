// SPDX-License-Identifier: MIT
// A made-up session for the browser test: out lap, eight laps, cool-down lap, parking. The curves come from a few
// lumps stepped by hand; they look like brakes and claim nothing more.

const kLap = 1700; // m
const kAir = 297;
const kStep = 0.25;

// Where each braking begins on the lap [m], and from and to what speed [m/s].
const kBrakings = [
  [260, 48, 20],
  [620, 41, 24],
  [980, 52, 18],
  [1330, 36, 22],
  [1560, 33, 17],
];
const kDeceleration = 8;
const kLumps = ['face', 'ring', 'hat', 'caliper', 'fluid', 'hub'];
const kCapacity = { face: 900, ring: 3300, hat: 700, caliper: 2600, fluid: 260, hub: 5200 };
const kLinks = [
  ['face', 'ring', 420],
  ['ring', 'hat', 5.5],
  ['hat', 'hub', 9],
  ['ring', 'caliper', 0.9],
  ['caliper', 'fluid', 3],
];

function brakingAt(metres) {
  return kBrakings.find(
    ([at, from, to]) => metres >= at && metres < at + (from * from - to * to) / (2 * kDeceleration),
  );
}

function speedAt(metres) {
  const braking = brakingAt(metres);
  if (braking) return Math.sqrt(Math.max(braking[1] ** 2 - 2 * kDeceleration * (metres - braking[0]), 1));
  const ends = kBrakings.map(([at, from, to]) => ({
    end: at + (from * from - to * to) / (2 * kDeceleration),
    to,
    at,
    from,
  }));
  const last = [...ends].reverse().find(({ end }) => end <= metres) ?? {
    ...ends[ends.length - 1],
    end: ends[4].end - kLap,
  };
  const next = ends.find(({ at }) => at > metres) ?? { ...ends[0], at: ends[0].at + kLap };
  return last.to + ((next.from - last.to) * (metres - last.end)) / (next.at - last.end);
}

function plan() {
  const spans = [['out lap', 0.8], ...Array.from({ length: 8 }, (_, i) => [`lap ${i + 1}`, 1]), ['cool-down lap', 0.6]];
  return spans.map(([label, pace], i) => ({ label, pace, lap: i + 1 }));
}

export function syntheticRun(title = 'made-up session', { parkedMinutes = 20 } = {}) {
  const time = [],
    distance = [],
    speed = [],
    lap = [];
  const kelvin = Object.fromEntries(kLumps.map((name) => [name, []]));
  const state = Object.fromEntries(kLumps.map((name) => [name, kAir]));
  const spans = [],
    brakings = [];
  const joule = { friction: 0, convection: 0 };
  let t = 0,
    s = 0,
    n = 0;

  const step = (power, v, every) => {
    const flow = Object.fromEntries(kLumps.map((name) => [name, 0]));
    flow.face += 0.97 * power;
    flow.caliper += 0.03 * power;
    for (const [a, b, g] of kLinks) {
      const q = g * (state[a] - state[b]);
      flow[a] -= q;
      flow[b] += q;
    }
    for (const [name, still, moving] of [
      ['face', 0.5, 0.12],
      ['ring', 2, 1.25],
      ['hat', 0.4, 0.05],
      ['caliper', 0.35, 0.2],
      ['hub', 0.8, 0.2],
    ]) {
      const q = (still + moving * v) * (state[name] - kAir);
      flow[name] -= q;
      joule.convection += q * kStep;
    }
    joule.friction += power * kStep;
    for (const name of kLumps) state[name] += (flow[name] * kStep) / kCapacity[name];
    if (n++ % every === 0) {
      time.push(Number(t.toFixed(2)));
      distance.push(Number(s.toFixed(1)));
      speed.push(Number(v.toFixed(2)));
      for (const name of kLumps) kelvin[name].push(Number(state[name].toFixed(2)));
    }
    t += kStep;
    s += v * kStep;
  };

  for (const { label, pace, lap: number } of plan()) {
    const span = { lap: number, label, phase: 'driving', begin: t, begin_distance: s };
    while (s - span.begin_distance < kLap) {
      const metres = s - span.begin_distance;
      const v = speedAt(metres) * pace;
      const on = brakingAt(metres);
      const open = brakings[brakings.length - 1];
      if (on && (!open || open.end !== null)) {
        brakings.push({
          lap: number,
          begin: t,
          end: null,
          lap_distance: on[0],
          entry_speed: on[1] * pace,
          exit_speed: on[2] * pace,
          brake: 0,
          peak_power: 0,
        });
      } else if (!on && open && open.end === null) {
        open.end = t;
      }
      const power = on ? 0.33 * 1140 * kDeceleration * pace * pace * v : 0;
      if (on) {
        const current = brakings[brakings.length - 1];
        current.brake += (power / 0.33) * kStep;
        current.peak_power = Math.max(current.peak_power, power / 0.33);
      }
      step(power, v, 2);
      lap.length = time.length;
      lap.fill(
        number,
        lap.findIndex((value) => value === undefined),
      );
    }
    spans.push({ ...span, end: t, end_distance: s });
  }
  const parked = { lap: 0, label: 'parked', phase: 'parked', begin: t, begin_distance: s };
  while (t < parked.begin + 60 * parkedMinutes) step(0, 0, 16);
  spans.push({ ...parked, end: t, end_distance: s });
  while (lap.length < time.length) lap.push(0);
  for (const braking of brakings) {
    braking.end ??= t;
    braking.front_wheel = 0.33 * braking.brake;
    braking.rear_wheel = 0.17 * braking.brake;
  }

  const scaled = (values, by) => values.map((value) => Number((kAir + by * (value - kAir)).toFixed(2)));
  const temperatures = (by) => ({
    ring_face_outboard: scaled(kelvin.face, by),
    ring_face_inboard: scaled(kelvin.face, 1.03 * by),
    ring_mean: scaled(kelvin.ring, by),
    ring_lug: scaled(kelvin.ring, 0.9 * by),
    hat_flange: scaled(kelvin.hat, by),
    hat_bell: scaled(kelvin.hat, 0.8 * by),
    hat_face: scaled(kelvin.hat, 0.7 * by),
    fastener: scaled(kelvin.hat, 1.1 * by),
    pad_outboard: scaled(kelvin.face, 0.9 * by),
    pad_inboard: scaled(kelvin.face, 0.92 * by),
    backing_plate: scaled(kelvin.caliper, 1.2 * by),
    piston: scaled(kelvin.caliper, 1.1 * by),
    caliper: scaled(kelvin.caliper, by),
    fluid: scaled(kelvin.fluid, by),
    hub: scaled(kelvin.hub, by),
  });
  const joint = ({ ring_lug, hat_flange }) => {
    const growth = ring_lug.map((ring, i) => 0.085 * (12.5e-6 * (ring - 293.15) - 23.6e-6 * (hat_flange[i] - 293.15)));
    return {
      differential_expansion: growth,
      clearance_outward: growth.map((value) => 0.3e-3 - value),
      clearance_inward: growth.map((value) => 0.3e-3 + value),
    };
  };
  const front = temperatures(1),
    rear = temperatures(0.6);
  const axle = (temperature) => ({ temperature, joint: joint(temperature) });
  const within = ({ begin, end }) => time.map((at, i) => i).filter((i) => time[i] >= begin && time[i] <= end);
  const laps = (temperature, share) =>
    spans.map((span) => {
      const rows = within(span);
      const over = (f) =>
        Object.fromEntries(
          Object.entries(temperature).map(([name, values]) => [name, f(...rows.map((i) => values[i]))]),
        );
      return {
        lap: span.lap,
        label: span.label,
        begin: span.begin,
        end: span.end,
        lowest: over(Math.min),
        highest: over(Math.max),
        heat:
          share *
          brakings.filter(({ begin }) => begin >= span.begin && begin < span.end).reduce((sum, b) => sum + b.brake, 0),
      };
    });
  const place = (i) => {
    const span = spans.find(({ begin, end }) => time[i] >= begin && time[i] <= end);
    return {
      time: time[i],
      lap: span.lap,
      span: span.label,
      lap_distance: span.lap ? distance[i] - span.begin_distance : null,
    };
  };
  const highest = (values) => values.indexOf(Math.max(...values));
  const lowest = (values) => values.indexOf(Math.min(...values));
  const jointAnswer = (values) => ({
    applicable: true,
    largest: Math.max(...values),
    smallest: Math.min(...values),
    largest_place: place(highest(values)),
    smallest_place: place(lowest(values)),
    float_clearance: 0.3e-3,
    sign_changes: values.flatMap((value, i) => (i > 0 && value < 0 && values[i - 1] >= 0 ? [place(i)] : [])),
  });
  const judge = (axleName, part, what, values, limit, level, reason, advice = '') => ({
    axle: axleName,
    part,
    what,
    level,
    value: Math.max(...values),
    limit,
    margin: limit - Math.max(...values),
    unit: 'K',
    reason,
    advice,
    ...place(highest(values)),
  });
  const balance = (by) => ({
    friction: by * joule.friction,
    to_ring: 0.9 * by * joule.friction,
    to_pads: 0.1 * by * joule.friction,
    stored: by * (joule.friction - joule.convection),
    convection: 0.8 * by * joule.convection,
    radiation: 0.15 * by * joule.convection,
    to_wheel: 0.05 * by * joule.convection,
    residual: 0,
  });
  const growth = axle(front).joint.differential_expansion;
  const hatLimit = Math.round(Math.max(...front.hat_flange) - 11);

  return {
    format: 1,
    program: { name: 'hatring', version: '0.1.0' },
    kind: 'simulate',
    title,
    created: '2026-01-01T00:00:00Z',
    mesh: 'standard',
    level: 'over the limit',
    sentence:
      'The front hat gets hotter than its alloy bears, from lap 7 on. ' +
      'Ring and joint stay within their limits; the fluid comes close.',
    verdicts: [
      judge(
        'front',
        'hat',
        'peak temperature',
        front.hat_flange,
        hatLimit,
        'over the limit',
        'heat-treated aluminium softens for good; hours above this add up (common practice, no source)',
        'Shorten the stint by two laps, or bring cooling air to the eye of the disc.',
      ),
      judge(
        'front',
        'brake fluid',
        'peak temperature',
        front.fluid,
        Math.max(...front.fluid) + 9,
        'near the limit',
        'wet boiling point less 30 K',
        'Change the fluid before the event and bleed it after.',
      ),
      judge('front', 'ring face', 'peak temperature', front.ring_face_outboard, 973.15, 'within limits', 'grey iron'),
      {
        axle: 'front',
        part: 'joint',
        what: 'float left, ring outwards',
        level: 'within limits',
        value: 0.3e-3 - Math.max(...growth),
        limit: 0,
        margin: 0.3e-3 - Math.max(...growth),
        unit: 'm',
        reason: 'at zero the joint locks',
        advice: '',
        ...place(highest(growth)),
      },
      {
        axle: 'front',
        part: 'ring face',
        what: 'heating rate',
        level: 'not judged',
        value: 182,
        limit: null,
        margin: null,
        unit: 'K s-1',
        reason: 'no limit is known for this material',
        advice: '',
        time: 300,
        lap: 5,
        span: 'lap 5',
        lap_distance: 990,
      },
      judge('rear', 'hat', 'peak temperature', rear.hat_flange, hatLimit, 'within limits', 'aluminium'),
      ...['hub', 'caliper', 'piston', 'pad', 'bell', 'plate', 'lug', 'bolt', 'fluid'].map((part) =>
        judge('rear', part, 'peak temperature', rear.hub, 600, 'within limits', 'made up'),
      ),
    ],
    spans,
    series: { time, distance, speed, lap, front: axle(front), rear: axle(rear) },
    labels: {
      ring_face_outboard: 'Ring face, outboard',
      ring_mean: 'Ring, mean',
      hat_flange: 'Hat flange',
      caliper: 'Caliper',
      fluid: 'Brake fluid',
    },
    laps: { front: laps(front, 0.33), rear: laps(rear, 0.17) },
    brakings,
    balance: { front: balance(1), rear: balance(0.52) },
    joint: { front: jointAnswer(growth), rear: { applicable: false } },
    fluid: {
      front: {
        peak: Math.max(...front.fluid),
        boiling_dry: 543.15,
        boiling_wet: 453.15,
        place: place(highest(front.fluid)),
        after_parking: true,
      },
    },
    masses: { front: { ring: 7.42, hat: 0.98 }, rear: { ring: 5.1, hat: 0.8 } },
    limits: {
      ring_face: 973.15,
      ring_mean: 873.15,
      hat: { front: hatLimit, rear: hatLimit },
      fluid: { front: Math.max(...front.fluid) + 9 },
    },
    assumptions: [
      { key: 'brakes.front.rotor.ring.emissivity', value: '0.6', reason: 'oxidised cast iron, from memory' },
      {
        key: 'car.rotating_factor',
        value: '1.05',
        reason: 'wheels and driveline turn with the car; common practice, no source',
      },
      { key: 'air.wind', value: '1 m/s', reason: 'a light breeze while parked' },
    ],
    warnings: ['The weighed hat is 8 % lighter than its dimensions say.'],
    cautions: [
      'This is an estimate that can be wrong. It does not replace inspection, event rules or local law.',
      'Before and after every session look at discs, joints, pads and fluid.',
      'Have work that safety depends on checked by a qualified person.',
      'Hot parts burn without glowing. No water and no solvent on hot brakes.',
    ],
  };
}
