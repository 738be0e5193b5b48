/** Refrigeration systems on roofs and in yards, on hoses, with the technician's gauge. */
import { paFromMicron } from '../../../protocol/units.ts';
import { between, logBetween, normal } from '../invented-curves.ts';
import type { Gauge } from './gauge.ts';
import { silence, wallPlaces, type Wish } from './laboratory.ts';
import type { Outgassing, Pocket, Rig } from './rig.ts';
import { openAir } from './surroundings.ts';

export function fieldRig(random: () => number, wish: Wish, isWet: boolean): Rig {
  const volumeM3 = logBetween(random, 1.5, 40) / 1000;
  const atTube = random() < 0.5;
  const parts = Array.from({ length: random() < 0.4 ? 1 : 0 }, () => dryer(random, volumeM3));
  const tube: Pocket = {
    volumeM3: between(random, 1e-5, 4e-5),
    passage: { diameterM: between(random, 0.003, 0.006), lengthM: between(random, 0.05, 1.5) },
  };
  return {
    volumeM3,
    pump: {
      speedM3PerS: between(random, 1, 5) / 1000,
      ultimatePa: logBetween(random, 1, 12),
      fallingBelowPa: logBetween(random, 2, 20),
      coldFactor: between(random, 1, 4),
      warmsInS: between(random, 120, 900),
    },
    line: { diameterM: between(random, 0.006, 0.013), lengthM: between(random, 0.6, 3) },
    pockets: atTube ? [tube, ...parts] : parts,
    gaugePocket: atTube ? 0 : null,
    places:
      random() < 0.7
        ? wallPlaces(random, volumeM3, logBetween(random, 0.05, 4) * wish.outgassingFactor)
        : [],
    humidPa: between(random, 200, 2000),
    outgassing: oilGas(random, volumeM3 * wish.outgassingFactor),
    pool: isWet ? pool(random, volumeM3) : null,
    inflowPaM3PerS: wish.inflowPaPerS * volumeM3,
    surroundings: openAir(random),
  };
}

/** A part of the system that a narrow way leads to. */
function dryer(random: () => number, volumeM3: number): Pocket {
  return {
    volumeM3: volumeM3 * logBetween(random, 0.01, 0.2),
    passage: {
      diameterM: logBetween(random, 0.0012, 0.004),
      lengthM: logBetween(random, 0.02, 1),
    },
  };
}

/** What dissolved in oil comes out by diffusion, from a layer of its own thickness. */
function oilGas(random: () => number, volumeM3: number): Outgassing {
  const layerS = logBetween(random, 1500, 40_000);
  const lifted = logBetween(random, 3, 1000);
  return (sinceS) => {
    const age = (sinceS + 30) / layerS;
    let rate = 0;
    for (let mode = 1; mode < 40; mode += 2) {
      const decays = (mode * Math.PI) ** 2 / 4;
      const term = Math.exp(-decays * age);
      rate += 2 * term;
      if (term < 1e-6) break;
    }
    return (volumeM3 * lifted * rate) / layerS;
  };
}

function pool(random: () => number, volumeM3: number) {
  return {
    waterKg: logBetween(random, 0.03, 3) * volumeM3 ** 0.5 * 0.05,
    evaporationM3PerS: logBetween(random, 0.2, 4) / 1000,
    heatWPerK: logBetween(random, 0.15, 3),
  };
}

export function fieldGauge(random: () => number, toS: number): Gauge {
  const micronStep = [1, 5, 10][Math.floor(random() * 3)] ?? 1;
  const spread = between(random, 0.01, 0.08);
  return {
    gains: Array.from({ length: 7 }, () => 1 + spread * normal(random)),
    zeroPa: 0.3 * normal(random),
    zeroPaPerK: 0.05 * normal(random),
    zeroPaPerHour: 0.1 * normal(random),
    lagS: logBetween(random, 0.3, 8),
    noisePa: logBetween(random, 0.02, 0.4),
    noiseShare: logBetween(random, 0.0005, 0.008),
    noiseLagS: logBetween(random, 0.1, 4),
    steps: { kind: 'even', stepPa: paFromMicron(micronStep) },
    topPa: random() < 0.6 ? 2666 : 13_330,
    sampling: {
      ratePerS: [0.2, 0.5, 1, 2, 8][Math.floor(random() * 5)] ?? 1,
      jitterShare: between(random, 0, 0.6),
      lostShare: logBetween(random, 0.002, 0.1),
      silencesS: random() < 0.3 ? [silence(random, toS, 400)] : [],
      wholeSeconds: random() < 0.2,
    },
    glitchShare: random() < 0.3 ? between(random, -0.05, 0.4) : 0,
    hasThermometer: random() < 0.7,
  };
}
