/** Rigs for pull-downs: what is in them beside gas, so that they take about as long as wanted. */
import { between, logBetween } from '../invented-curves.ts';
import { chance, choose } from './chance.ts';
import { drawHardware, type Hardware } from './draw-hardware.ts';
import { effectiveSpeedM3PerS } from './effective-speed.ts';
import type { PoolSetup } from './pool.ts';
import type { Rig } from './rig.ts';
import { drawNode, drawOilTail, drawWallTail } from './stores.ts';
import { VAPORISATION_J_PER_KG, WATER_GAS_J_PER_KG_K } from './vapour.ts';

export const TARGET_PA = 66.66;
/** Pressure over water that boils itself cold, about that of ice at −5 °C. */
const BOILING_PA = 400;

/** What keeps a pull-down from its target, or `none`. */
export type Obstacle = 'none' | 'pump_floor' | 'wet_oil' | 'leak' | 'ballast';

/** @param aboutS how long it shall take to the target (or to its floor) */
export function drawPullDownRig(
  random: () => number,
  aboutS: number,
  wet: boolean,
  obstacle: Obstacle,
): Rig {
  const hardware = nearFloor(random, drawHardware(random, 0.8 * aboutS));
  const speed = effectiveSpeedM3PerS(hardware.hose, hardware.pump, TARGET_PA);
  const floorPa = hardware.pump.ultimatePa + hardware.pump.oilPa;
  const wanted = Math.max(TARGET_PA - floorPa, 5) * speed * drawShare(random);
  const wallShare = chance(random, 0.3) ? 1 : random();
  const rig: Rig = {
    ...hardware,
    stores: [
      drawWallTail(random, wanted * wallShare, aboutS),
      drawOilTail(random, wanted * (1 - wallShare), aboutS),
    ],
    pool: wet ? drawPool(random, hardware, aboutS) : null,
    leakPaM3PerS: chance(random, 0.3) ? logBetween(random, 0.3, 10) * speed : 0,
    leakNode: drawNode(random),
    hoseLeakPaM3PerS: chance(random, 0.2) ? logBetween(random, 0.3, 10) * speed : 0,
    startPa: chance(random, 0.1)
      ? logBetween(random, 3000, 50_000)
      : between(random, 75_000, 102_000),
    startVapourPa: logBetween(random, 300, 1500),
  };
  return hinder(random, rig, obstacle);
}

/** Some pumps only just get there: the curve bends towards its floor before the target. */
function nearFloor(random: () => number, hardware: Hardware): Hardware {
  if (!chance(random, 0.12)) return hardware;
  return { ...hardware, pump: { ...hardware.pump, ultimatePa: logBetween(random, 20, 55) } };
}

/** How much of what may come in at the target comes from walls and oil; some rigs are clean. */
function drawShare(random: () => number): number {
  return chance(random, 0.3) ? logBetween(random, 0.02, 0.4) : between(random, 0.4, 1);
}

function drawPool(
  random: () => number,
  { hose, pump, surroundings }: Hardware,
  aboutS: number,
): PoolSetup {
  const speed = effectiveSpeedM3PerS(hose, pump, BOILING_PA);
  const kelvin = surroundings.startC + 273.15;
  const kgPerS = (speed * BOILING_PA) / (WATER_GAS_J_PER_KG_K * kelvin);
  // The water settles where the heat that comes in balances what boiling takes.
  const boilsAtC = between(random, -9, Math.max(Math.min(surroundings.startC - 2, 8), -8.5));
  const warmthWPerK =
    (kgPerS * VAPORISATION_J_PER_KG) / Math.max(surroundings.startC - boilsAtC, 2);
  return {
    node: drawNode(random),
    waterKg: kgPerS * aboutS * between(random, 0.1, 0.85),
    exchangeM3PerS: speed * logBetween(random, 0.7, 30),
    surfacePower: between(random, 0.1, 0.7),
    warmthWPerK,
    metalJPerK: logBetween(random, 3, 1000),
  };
}

function hinder(random: () => number, rig: Rig, obstacle: Obstacle): Rig {
  const speedAt = (pressurePa: number) => effectiveSpeedM3PerS(rig.hose, rig.pump, pressurePa);
  switch (obstacle) {
    case 'none':
      return rig;
    case 'pump_floor':
      return {
        ...rig,
        pump: {
          ...rig.pump,
          ultimatePa: logBetween(random, 78, 300),
          coldFactor: between(random, 1, 1.5),
        },
      };
    case 'wet_oil':
      return {
        ...rig,
        pump: {
          ...rig.pump,
          oilPa: logBetween(random, 120, 600),
          oilPurgeS: between(random, 5, 20) * 3600,
          oilTakesPerM3: 0,
        },
      };
    case 'leak': {
      const floorPa = chance(random, 0.6)
        ? logBetween(random, 150, 765)
        : logBetween(random, 80, 150);
      const inflow = floorPa * speedAt(floorPa);
      // Through a joint of the system, or one of the hose.
      return choose(random, [true, true, false])
        ? { ...rig, leakPaM3PerS: inflow }
        : { ...rig, hoseLeakPaM3PerS: floorPa * rig.pump.speedM3PerS };
    }
    case 'ballast':
      return { ...rig, pump: { ...rig.pump, ballastPa: logBetween(random, 80, 400) } };
  }
}
