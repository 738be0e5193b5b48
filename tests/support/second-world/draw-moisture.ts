/** What gives off moisture (or gas from oil) in a hold, so that it amounts to what is wanted. */
import { between, logBetween } from '../invented-curves.ts';
import { chance, choose } from './chance.ts';
import type { Hardware } from './draw-hardware.ts';
import { TARGET_PA } from './draw-pull-down.ts';
import { effectiveSpeedM3PerS } from './effective-speed.ts';
import type { PoolSetup } from './pool.ts';
import type { Spectrum } from './reservoirs.ts';
import { CLASS_HOLD_S } from './rise-class.ts';
import type { Rig } from './rig.ts';
import { drawNode, tail } from './stores.ts';
import { saturationPa, WATER_GAS_J_PER_KG_K } from './vapour.ts';

interface Moisture {
  /** How long it has been pumped by then, about. */
  readonly aboutS: number;
  readonly depthPa: number;
  /** What it shall add to the first quarter of an hour of a hold, Pa. */
  readonly moisturePa: number;
}

const KINDS = ['one', 'one', 'several', 'several', 'broad', 'both', 'pocket'] as const;

export function drawMoisture(
  random: () => number,
  hardware: Hardware,
  moisture: Moisture,
): Pick<Rig, 'stores' | 'pool'> {
  const part = (share: number) => ({ ...moisture, moisturePa: moisture.moisturePa * share });
  switch (choose(random, KINDS)) {
    case 'one':
      return { stores: [drawStore(random, hardware, moisture)], pool: null };
    case 'several': {
      const parts = shares(random, choose(random, [2, 3]));
      return { stores: parts.map((share) => drawStore(random, hardware, part(share))), pool: null };
    }
    case 'broad':
      return { stores: [drawBroad(random, hardware, moisture)], pool: null };
    case 'both': {
      const share = between(random, 0.2, 0.8);
      const stores = [
        drawStore(random, hardware, part(share)),
        drawBroad(random, hardware, part(1 - share)),
      ];
      return { stores, pool: null };
    }
    case 'pocket':
      return drawPocket(random, hardware, moisture);
  }
}

/** Below this share of its vapour pressure a pocket's rise is too straight to be told from a leak. */
const BENDS_FROM = 0.25;
const NEARLY_FULL = 0.9;

/** Water that lies where vapour hardly gets out, under oil or behind a valve: it ends at its vapour pressure. */
function drawPocket(
  random: () => number,
  hardware: Hardware,
  moisture: Moisture,
): Pick<Rig, 'stores' | 'pool'> {
  const { startC } = hardware.surroundings;
  const filled = moisture.moisturePa / saturationPa(startC);
  if (filled < BENDS_FROM || filled > NEARLY_FULL) {
    return { stores: [drawStore(random, hardware, moisture)], pool: null };
  }
  const volumeM3 = hardware.farM3 + hardware.nearM3;
  const exchangeM3PerS = (-Math.log(1 - filled) * volumeM3) / CLASS_HOLD_S;
  // Enough for the pumping and for the hold, and as much again or more.
  const givenPaM3 =
    exchangeM3PerS * saturationPa(startC) * moisture.aboutS + volumeM3 * moisture.moisturePa;
  const pool: PoolSetup = {
    node: drawNode(random),
    waterKg: (givenPaM3 / (WATER_GAS_J_PER_KG_K * (startC + 273.15))) * logBetween(random, 2, 30),
    exchangeM3PerS,
    surfacePower: between(random, 0, 0.5),
    // It boils so slowly that the metal keeps it warm.
    warmthWPerK: logBetween(random, 0.3, 3),
    metalJPerK: logBetween(random, 30, 1000),
  };
  return { stores: [], pool };
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
