/** Rigs for rises: what leaks and what gives off moisture, as it is wanted of them in a hold. */
import { paFromMicron } from '../../../protocol/units.ts';
import { between, logBetween } from '../invented-curves.ts';
import { chance, choose } from './chance.ts';
import { drawHardware, type Hardware } from './draw-hardware.ts';
import { TARGET_PA } from './draw-pull-down.ts';
import { effectiveSpeedM3PerS } from './effective-speed.ts';
import type { Spectrum } from './reservoirs.ts';
import { CLASS_HOLD_S, type RiseClass } from './rise-class.ts';
import type { Rig } from './rig.ts';
import { drawNode, tail } from './stores.ts';

/** What a hold shall show: steady inflow, and the rest of its rise in a quarter of an hour. */
export interface Wanted {
  readonly leakPaPerS: number;
  readonly moisturePa: number;
}

const MICRON_PER_MIN = paFromMicron(1) / 60;

export function drawWanted(random: () => number, kind: RiseClass): Wanted {
  const micron = (leakPerMin: number, moisture: number): Wanted => ({
    leakPaPerS: leakPerMin * MICRON_PER_MIN,
    moisturePa: paFromMicron(moisture),
  });
  const little = chance(random, 0.5) ? 0 : between(random, 0, 2.5);
  switch (kind) {
    case 'tight_dry':
      return micron(little, logBetween(random, 4, 100));
    case 'moisture': {
      const moisture = logBetween(random, 260, 4000);
      // Mostly with no leak to speak of; now and then one that the moisture hides.
      const leak = chance(random, 0.12) ? (moisture / 15) * between(random, 0, 0.22) : little;
      return micron(leak, moisture);
    }
    case 'leak': {
      const leak = logBetween(random, 10, 500);
      return micron(leak, leak * 15 * between(random, 0.01, 0.22));
    }
    case 'leak_and_moisture': {
      const leak = logBetween(random, 10, 150);
      return micron(leak, leak * 15 * logBetween(random, 0.3, 3.5));
    }
    case 'borderline':
      return micron(between(random, 0, 11), logBetween(random, 10, 300));
  }
}

/** Drawn for pull-downs to `depthPa` in about `aboutS`. */
export function drawRiseRig(
  random: () => number,
  aboutS: number,
  depthPa: number,
  { leakPaPerS, moisturePa }: Wanted,
): Rig {
  const drawn = drawHardware(random, 0.7 * aboutS);
  // A pump that doesn't get as deep would never be valved off.
  const pump = {
    ...drawn.pump,
    ultimatePa: Math.min(drawn.pump.ultimatePa, depthPa / 6),
    oilPa: Math.min(drawn.pump.oilPa, depthPa / 6),
    oilTakesPerM3: 0,
  };
  const hardware: Hardware = { ...drawn, pump };
  const volumeM3 = hardware.farM3 + hardware.nearM3;
  return {
    ...hardware,
    stores: drawMoisture(random, hardware, { aboutS, depthPa, moisturePa }),
    pool: null,
    leakPaM3PerS: leakPaPerS * volumeM3,
    leakNode: drawNode(random),
    hoseLeakPaM3PerS: chance(random, 0.2) ? 0.1 * depthPa * pump.speedM3PerS : 0,
    startPa: between(random, 75_000, 102_000),
    startVapourPa: logBetween(random, 300, 1500),
  };
}

interface Moisture {
  readonly aboutS: number;
  readonly depthPa: number;
  readonly moisturePa: number;
}

function drawMoisture(random: () => number, hardware: Hardware, moisture: Moisture): Spectrum[] {
  switch (choose(random, ['one', 'one', 'several', 'several', 'broad', 'both'] as const)) {
    case 'one':
      return [drawStore(random, hardware, moisture)];
    case 'several':
      return shares(random, choose(random, [2, 3])).map((share) =>
        drawStore(random, hardware, { ...moisture, moisturePa: moisture.moisturePa * share }),
      );
    case 'broad':
      return [drawBroad(random, hardware, moisture)];
    case 'both': {
      const part = between(random, 0.2, 0.8);
      return [
        drawStore(random, hardware, { ...moisture, moisturePa: moisture.moisturePa * part }),
        drawBroad(random, hardware, { ...moisture, moisturePa: moisture.moisturePa * (1 - part) }),
      ];
    }
  }
}

function shares(random: () => number, count: number): number[] {
  const parts = Array.from({ length: count }, () => between(random, 0.1, 1));
  const sum = parts.reduce((total, part) => total + part, 0);
  return parts.map((part) => part / sum);
}

/** One store that a hold shows as an exponential, 30 s to three hours. */
function drawStore(
  random: () => number,
  { farM3, nearM3, hose, pump }: Hardware,
  { aboutS, depthPa, moisturePa }: Moisture,
): Spectrum {
  const volumeM3 = farM3 + nearM3;
  const riseS = logBetween(random, 30, 10_800);
  const seen = 1 - Math.exp(-CLASS_HOLD_S / riseS);
  // What it gives off at first must not be more than the pump took away at that depth.
  const speed = effectiveSpeedM3PerS(hose, pump, depthPa);
  const shortestS = (moisturePa / seen / (0.6 * depthPa)) * (volumeM3 / speed);
  const tauInHoldS = Math.max(riseS, Math.min(shortestS, 10_800));
  // A store shut in with the gas settles sooner than it empties into a vacuum.
  const ratio = Math.max(logBetween(random, 0.3, 30), aboutS / tauInHoldS);
  const settledPa = moisturePa / (1 - Math.exp(-CLASS_HOLD_S / tauInHoldS));
  const equilibriumPa = (settledPa * (1 + ratio)) / ratio + depthPa / 4;
  return {
    // Air that leaks in must not go into it: it stands for water (or refrigerant) alone.
    gas: 'vapour',
    node: drawNode(random),
    tausS: [tauInHoldS * (1 + ratio)],
    holdsPaM3: [ratio * volumeM3 * equilibriumPa],
    equilibriumPa,
    perK: 0.06,
  };
}

/** A spectrum as of walls or oil: like 1/t or 1/√t. */
function drawBroad(
  random: () => number,
  { farM3, nearM3 }: Hardware,
  { aboutS, moisturePa }: Moisture,
): Spectrum {
  const inflow = (moisturePa * (farM3 + nearM3)) / CLASS_HOLD_S;
  const dry = chance(random, 0.3);
  const shape = dry
    ? { power: between(random, 0.35, 0.6), equilibriumPa: 1e5, perK: 0.02 }
    : {
        power: between(random, -0.3, 0.35),
        equilibriumPa: TARGET_PA * logBetween(random, 2, 30) + moisturePa,
        perK: 0.06,
      };
  const place = { gas: dry ? 'air' : 'vapour', node: drawNode(random) } as const;
  return tail(shape, inflow, aboutS + CLASS_HOLD_S / 2, place);
}

/** The same rig with so many times the moisture. */
export function moister(rig: Rig, factor: number): Rig {
  return {
    ...rig,
    stores: rig.stores.map((store) => ({
      ...store,
      holdsPaM3: store.holdsPaM3.map((holds) => holds * factor),
      equilibriumPa: store.equilibriumPa * factor,
    })),
  };
}
