/** Pumps, hoses, volumes and surroundings as they meet on a job; all ranges are settings of ours. */
import { between, logBetween } from '../invented-curves.ts';
import { chance, choose } from './chance.ts';
import { conductanceM3PerS, type Duct } from './duct.ts';
import { gasOnlyS } from './effective-speed.ts';
import type { PumpSetup } from './pump.ts';
import type { Rig, Surroundings } from './rig.ts';

export type Hardware = Pick<
  Rig,
  'farM3' | 'nearM3' | 'hoseM3' | 'line' | 'hose' | 'pump' | 'surroundings' | 'sensorNode'
>;

const INCH_M = 0.0254;
/** Parts that even out more slowly count as two systems: a setting of ours. */
const SLOWEST_EVENING_S = 180;
/** One cubic foot a minute: 0.3048³ m³ / 60 s. */
const CFM_M3_PER_S = 0.3048 ** 3 / 60;

/**
 * Drawn again until gas alone would be gone within this time, and if it can be, not before a share of
 * it that is drawn too: large systems shall take long as well as small ones that give off much.
 */
export function drawHardware(random: () => number, gasGoneWithinS: number): Hardware {
  const notBeforeS = gasGoneWithinS * logBetween(random, 0.01, 0.6);
  let quick: Hardware | null = null;
  for (let i = 0; i < 400; i += 1) {
    const hardware = draw(random);
    const volumeM3 = hardware.farM3 + hardware.nearM3;
    if (evensOutS(hardware) > SLOWEST_EVENING_S) continue;
    const goneS = gasOnlyS(hardware.hose, hardware.pump, volumeM3, 50);
    if (goneS > gasGoneWithinS) continue;
    if (goneS > notBeforeS) return hardware;
    quick = hardware;
  }
  if (quick) return quick;
  throw new Error(`no rig is drawn that loses its gas within ${gasGoneWithinS} s`);
}

/** Time constant with which the two parts even out at some 30 Pa, s. */
function evensOutS({ farM3, nearM3, line }: Hardware): number {
  return (farM3 * nearM3) / (farM3 + nearM3) / conductanceM3PerS(line, 30, 0.5, 20);
}

function draw(random: () => number): Hardware {
  const volumeM3 = logBetween(random, 0.5e-3, 0.1);
  const farShare = between(random, 0.1, 0.9);
  return {
    farM3: volumeM3 * farShare,
    nearM3: volumeM3 * (1 - farShare),
    hoseM3: logBetween(random, 0.1e-3, 1.5e-3),
    line: drawLine(random, volumeM3),
    hose: drawHose(random),
    pump: drawPump(random),
    surroundings: drawSurroundings(random),
    sensorNode: chance(random, 0.3) ? 'far' : 'near',
  };
}

function drawHose(random: () => number): Duct {
  const boreM = choose(random, [0.19, 0.25, 0.31, 0.375, 0.5, 0.75]) * INCH_M;
  // Its core left in, or taken out.
  const openingM2 = chance(random, 0.4)
    ? Math.PI * (logBetween(random, 1.5e-3, 3e-3) / 2) ** 2
    : Infinity;
  return {
    boreM,
    lengthM: logBetween(random, 1, 10),
    count: chance(random, 0.25) ? 2 : 1,
    openingM2,
  };
}

/** The line set between the parts; now and then with a narrow place, so that they even out slowly. */
function drawLine(random: () => number, volumeM3: number): Duct {
  const openingM2 = chance(random, 0.25)
    ? (volumeM3 * logBetween(random, 1e-2, 0.3)) / 150
    : Infinity;
  return {
    boreM: logBetween(random, 0.006, 0.03),
    lengthM: logBetween(random, 1, 20),
    count: 1,
    openingM2,
  };
}

function drawPump(random: () => number): PumpSetup {
  return {
    speedM3PerS: logBetween(random, 0.5, 8) * CFM_M3_PER_S,
    kneePa: chance(random, 0.5) ? 0.5 : logBetween(random, 1, 30),
    ultimatePa: logBetween(random, 0.5, 12),
    coldFactor: between(random, 1, 2.5),
    warmUpS: logBetween(random, 120, 1500),
    warmSpeedLoss: between(random, 0, 0.12),
    oilPa: logBetween(random, 0.3, 12),
    oilPurgeS: logBetween(random, 600, 20_000),
    oilTakesPerM3: chance(random, 0.5) ? logBetween(random, 0.003, 0.1) : 0,
    ballastPa: logBetween(random, 20, 200),
  };
}

function drawSurroundings(random: () => number): Surroundings {
  const drifts = chance(random, 0.5);
  return {
    startC: between(random, 0, 45),
    driftKPerS: drifts ? between(random, -6, 6) / 3600 : 0,
    swingK: chance(random, 0.3) ? between(random, 0.1, 1.5) : 0,
    swingS: logBetween(random, 300, 3600),
  };
}
