/** Chambers and tubes of a laboratory, of 1 to 100 L, and the gauges that stand on them. */
import { between, logBetween, normal } from '../invented-curves.ts';
import type { Gauge, Sampling, Steps } from './gauge.ts';
import type { Outgassing, Pocket, Rig, WallPlace } from './rig.ts';
import { room } from './surroundings.ts';

/** How much of each a rig has; 1 is as drawn. */
export interface Wish {
  readonly inflowPaPerS: number;
  readonly outgassingFactor: number;
}

export function laboratoryRig(random: () => number, wish: Wish): Rig {
  const volumeM3 = logBetween(random, 1, 100) / 1000;
  const areaM2 = 6 * volumeM3 ** (2 / 3) * between(random, 1, 3);
  const pump = {
    speedM3PerS: Math.min(logBetween(random, 0.2, 8) / 1000, volumeM3 / 3),
    ultimatePa: logBetween(random, 1, 20),
    fallingBelowPa: logBetween(random, 3, 60),
    coldFactor: between(random, 1, 2),
    warmsInS: between(random, 100, 900),
  };
  const pockets = Array.from({ length: Math.floor(between(random, 0, 2.99)) }, () =>
    virtualLeak(random, volumeM3),
  );
  return {
    volumeM3,
    pump,
    line: { diameterM: between(random, 0.01, 0.04), lengthM: between(random, 0.3, 2) },
    pockets,
    gaugePocket: null,
    places: random() < 0.6 ? wallPlaces(random, volumeM3, logBetween(random, 0.2, 20)) : [],
    humidPa: between(random, 300, 1800),
    outgassing: powerOfTime(random, wish.outgassingFactor * areaM2),
    pool: null,
    inflowPaM3PerS: wish.inflowPaPerS * volumeM3,
    surroundings: room(random),
  };
}

/** So many Pa·m³/s per m² after an hour; before the first minute no more than then. */
function powerOfTime(random: () => number, areaM2: number): Outgassing {
  const exponent = between(random, 0.5, 1.3);
  const atHour = logBetween(random, 1e-6, 3e-4) * areaM2;
  return (sinceS) => atHour * (3600 / (Math.max(sinceS, 0) + 30)) ** exponent;
}

/** A ladder of bindings: each is as much held per factor of time. */
export function wallPlaces(
  random: () => number,
  volumeM3: number,
  capacityFactor: number,
): WallPlace[] {
  const rungs = 9;
  const tilt = between(random, -0.3, 0.3);
  return Array.from({ length: rungs }, (_, i) => {
    const tauS = 3 * 2.5 ** i;
    const capacityM3 = (capacityFactor * volumeM3 * (tauS / 300) ** tilt) / rungs;
    return { tauS, capacityM3 };
  });
}

/** A blind hole under a screw: filled with air, let go through a scratch. */
function virtualLeak(random: () => number, volumeM3: number): Pocket {
  return {
    volumeM3: volumeM3 * logBetween(random, 2e-5, 5e-3),
    passage: {
      diameterM: logBetween(random, 8e-6, 2e-4),
      lengthM: logBetween(random, 2e-3, 2e-2),
    },
  };
}

export function laboratoryGauge(random: () => number, toS: number): Gauge {
  const sampling: Sampling = {
    ratePerS: random() < 0.5 ? 8 : 0.5,
    jitterShare: random() < 0.5 ? 0.02 : 0.4,
    lostShare: random() < 0.5 ? 0 : logBetween(random, 0.001, 0.05),
    silencesS: random() < 0.15 ? [silence(random, toS, 60)] : [],
    wholeSeconds: random() < 0.25,
  };
  const glitchShare = random() < 0.3 ? between(random, -0.1, 0.3) : 0;
  return random() < 0.65
    ? { ...heatLoss(random), sampling, glitchShare }
    : { ...membrane(random), sampling, glitchShare };
}

export function silence(random: () => number, toS: number, longestS: number) {
  const fromS = between(random, 0.1, 0.95) * toS;
  return { fromS, toS: fromS + logBetween(random, 5, longestS) };
}

type Sensing = Omit<Gauge, 'sampling' | 'glitchShare'>;

/** Tells the pressure by the heat that the gas takes away. */
function heatLoss(random: () => number): Sensing {
  const spread = between(random, 0.01, 0.05);
  const steps: Steps =
    random() < 0.5
      ? { kind: 'digits', digits: 3 }
      : { kind: 'logarithmic', perFactorE: 2 ** between(random, 10, 12) / 13 };
  return {
    gains: Array.from({ length: 7 }, () => 1 + spread * normal(random)),
    zeroPa: 0.1 * normal(random),
    zeroPaPerK: 0.1 * normal(random),
    zeroPaPerHour: 0.05 * normal(random),
    lagS: logBetween(random, 0.05, 2),
    noisePa: logBetween(random, 0.01, 0.1),
    noiseShare: logBetween(random, 0.0005, 0.01),
    noiseLagS: logBetween(random, 0.02, 2),
    steps,
    topPa: random() < 0.5 ? 1e6 : 5000,
    hasThermometer: random() < 0.4,
  };
}

/** Tells it by how far a membrane bends. */
function membrane(random: () => number): Sensing {
  const fullPa = random() < 0.5 ? 1333 : 13_330;
  return {
    gains: [1 + 0.005 * normal(random)],
    zeroPa: 0.15 * normal(random),
    zeroPaPerK: 5e-5 * fullPa * normal(random),
    zeroPaPerHour: 0.05 * normal(random),
    lagS: 0.05,
    noisePa: 1e-5 * fullPa * between(random, 0.3, 3),
    noiseShare: 1e-4,
    noiseLagS: 0.1,
    steps: { kind: 'even', stepPa: fullPa / 2 ** 15 },
    topPa: fullPa,
    hasThermometer: random() < 0.3,
  };
}
