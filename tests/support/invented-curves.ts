/**
 * Curves by formula, for tests of the judge: a second source beside the simulated rigs, so that
 * nothing is tuned to the one physical model. Same seed, same curve.
 */
import type { HistoryPoint } from '../../web/analysis/readings/history.ts';
import { History } from '../../web/analysis/readings/history.ts';

/** A generator of uniform numbers in [0, 1): mulberry32, in the public domain. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

export function between(random: () => number, low: number, high: number): number {
  return low + (high - low) * random();
}

/** Evenly spread in the logarithm. */
export function logBetween(random: () => number, low: number, high: number): number {
  return Math.exp(between(random, Math.log(low), Math.log(high)));
}

/** A standard normal number (Box and Muller). */
export function normal(random: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

/** How an invented sensor sees a curve. */
export interface InventedSensor {
  readonly ratePerS: number;
  readonly noisePa: number;
  readonly relativeNoise: number;
  readonly quantumPa: number;
  /** Time constant with which its noise is correlated, s. */
  readonly lagS: number;
  readonly spikeShare: number;
  /** A silence, or null. */
  readonly gap: { readonly fromS: number; readonly toS: number } | null;
  readonly topPa: number;
}

/** One that hardly disturbs a curve, of a range without an end that matters. */
export const QUIET_SENSOR: InventedSensor = {
  ratePerS: 1,
  noisePa: 0.02,
  relativeNoise: 0.001,
  quantumPa: 0.001,
  lagS: 0.3,
  spikeShare: 0,
  gap: null,
  topPa: 200_000,
};

export function inventSensor(random: () => number, lengthS: number): InventedSensor {
  const gapAtS = between(random, 0.2, 0.8) * lengthS;
  return {
    ratePerS: logBetween(random, 0.2, 10),
    noisePa: logBetween(random, 0.02, 0.3),
    relativeNoise: logBetween(random, 0.0005, 0.008),
    quantumPa: random() < 0.5 ? 0.001 : 0.1333,
    lagS: between(random, 0.2, 3),
    spikeShare: random() < 0.3 ? 0.005 : 0,
    gap: random() < 0.25 ? { fromS: gapAtS, toS: gapAtS + 0.06 * lengthS } : null,
    topPa: 2700,
  };
}

/** The readings of a curve from `fromS` to `toS`. */
export function readingsOf(
  pressureAt: (elapsedS: number) => number,
  sensor: InventedSensor,
  random: () => number,
  fromS: number,
  toS: number,
): HistoryPoint[] {
  const points: HistoryPoint[] = [];
  const stepS = 1 / sensor.ratePerS;
  const memory = Math.exp(-stepS / sensor.lagS);
  let noise = normal(random);
  for (let i = 0; fromS + i * stepS <= toS; i += 1) {
    const elapsedS = fromS + i * stepS;
    noise = memory * noise + Math.sqrt(1 - memory * memory) * normal(random);
    const spike = random() < sensor.spikeShare ? between(random, 0.5, 2) : 1;
    const truePa = pressureAt(elapsedS);
    const sigmaPa = Math.hypot(sensor.noisePa, sensor.relativeNoise * truePa);
    const seenPa =
      Math.round(((truePa + sigmaPa * noise) * spike) / sensor.quantumPa) * sensor.quantumPa;
    if (sensor.gap && elapsedS > sensor.gap.fromS && elapsedS < sensor.gap.toS) continue;
    points.push(
      seenPa > sensor.topPa
        ? { elapsedS, pressurePa: null, condition: 'over_range', temperatureC: null }
        : { elapsedS, pressurePa: Math.max(seenPa, 0), condition: 'ok', temperatureC: null },
    );
  }
  return points;
}

export function historyOf(points: readonly HistoryPoint[]): History {
  const history = new History();
  for (const point of points) history.insert(point);
  return history;
}

/** A hold that was valved off at 0 s. */
export interface InventedHold {
  readonly leakPaPerS: number;
  readonly startPa: number;
  /** What levels off, and how fast. */
  readonly moisture: readonly { readonly amountPa: number; readonly tauS: number }[];
}

export type HoldClass = 'tight' | 'moist' | 'leaking' | 'mixed';

/** Limits are those of a default sheet: a leak from 0.0111 Pa/s on, 66.7 Pa at the end of 900 s. */
export function inventHold(random: () => number, kind: HoldClass): InventedHold {
  const startPa = between(random, 24, 33);
  const small = [
    { amountPa: between(random, 1, 8), tauS: logBetween(random, 20, 300) },
    { amountPa: between(random, 0, 4), tauS: logBetween(random, 100, 900) },
  ];
  const large = [
    { amountPa: between(random, 45, 400), tauS: logBetween(random, 60, 450) },
    { amountPa: between(random, 3, 30), tauS: logBetween(random, 15, 120) },
  ];
  const leakPaPerS = logBetween(random, 0.02, 0.6);
  switch (kind) {
    case 'tight':
      return { leakPaPerS: between(random, 0, 0.002), startPa, moisture: small };
    case 'moist':
      return { leakPaPerS: between(random, 0, 0.002), startPa, moisture: large };
    case 'leaking':
      return { leakPaPerS, startPa, moisture: small };
    case 'mixed':
      return { leakPaPerS, startPa, moisture: large };
  }
}

export function holdPressure(hold: InventedHold): (heldS: number) => number {
  return (heldS) =>
    hold.startPa +
    hold.leakPaPerS * heldS +
    hold.moisture.reduce(
      (sum, { amountPa, tauS }) => sum + amountPa * (1 - Math.exp(-heldS / tauS)),
      0,
    );
}

/** A pull-down by formula: gas, perhaps boiling water, a tail, a floor; the pump starts at 0 s. */
export interface InventedPullDown {
  readonly gasPerS: number;
  /** How much slower a hose makes it for each pascal less: speed ∝ P/(P + this), Pa. */
  readonly hosePa: number;
  readonly boiling: { readonly pressurePa: number; readonly untilS: number } | null;
  readonly tailPa: number;
  readonly tailS: number;
  /** −1 a tail like 1/t, −0.5 like 1/√t. */
  readonly tailPower: number;
  readonly floorPa: number;
}

export type PullDownClass = 'dry' | 'wet' | 'floor';

export function inventPullDown(random: () => number, kind: PullDownClass): InventedPullDown {
  const gasPerS = logBetween(random, 0.01, 0.12);
  return {
    gasPerS,
    hosePa: random() < 0.5 ? 0 : logBetween(random, 50, 400),
    boiling:
      kind === 'wet'
        ? {
            pressurePa: between(random, 250, 620),
            untilS: 8 / gasPerS + logBetween(random, 120, 2400),
          }
        : null,
    tailPa: logBetween(random, 100, 1200),
    tailS: logBetween(random, 20, 120),
    tailPower: between(random, -1.1, -0.6),
    floorPa: kind === 'floor' ? between(random, 85, 140) : between(random, 1, 22),
  };
}

/** Pressures at whole seconds, Pa; between them it falls in a straight line. */
export function pullDownPressure(curve: InventedPullDown, lengthS: number): (t: number) => number {
  const pressures: number[] = [];
  let gasPa = 100_000;
  for (let second = 0; second <= lengthS + 1; second += 1) {
    pressures.push(gasPa + wetPa(curve, second) + tailPa(curve, second) + curve.floorPa);
    const speed = curve.gasPerS * (gasPa / (gasPa + curve.hosePa));
    gasPa /= 1 + speed;
  }
  return (elapsedS) => {
    const second = Math.min(Math.max(Math.floor(elapsedS), 0), pressures.length - 2);
    const [from, to] = [pressures[second] ?? 0, pressures[second + 1] ?? 0];
    return from + (to - from) * Math.min(Math.max(elapsedS - second, 0), 1);
  };
}

function wetPa({ boiling, gasPerS }: InventedPullDown, elapsedS: number): number {
  if (!boiling) return 0;
  const { pressurePa, untilS } = boiling;
  if (elapsedS < untilS) return pressurePa * (1.05 - (0.1 * elapsedS) / untilS);
  return 0.95 * pressurePa * Math.exp(-(elapsedS - untilS) * gasPerS * 0.5);
}

function tailPa({ tailPa: size, tailS, tailPower }: InventedPullDown, elapsedS: number): number {
  return size * (1 + elapsedS / tailS) ** tailPower;
}
