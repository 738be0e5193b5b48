/** Rigs for rises: what leaks and what gives off moisture, as it is wanted of them in a hold. */
import { paFromMicron } from '../../../protocol/units.ts';
import { between, logBetween } from '../invented-curves.ts';
import { chance } from './chance.ts';
import { drawMoisture } from './draw-moisture.ts';
import { drawHardware, type Hardware } from './draw-hardware.ts';
import type { RiseClass } from './rise-class.ts';
import type { Rig } from './rig.ts';
import { drawNode } from './stores.ts';

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
    ...drawMoisture(random, hardware, { aboutS, depthPa, moisturePa }),
    leakPaM3PerS: leakPaPerS * volumeM3,
    leakNode: drawNode(random),
    hoseLeakPaM3PerS: chance(random, 0.2) ? 0.1 * depthPa * pump.speedM3PerS : 0,
    startPa: between(random, 75_000, 102_000),
    startVapourPa: logBetween(random, 300, 1500),
  };
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
    pool: rig.pool && { ...rig.pool, exchangeM3PerS: rig.pool.exchangeM3PerS * factor },
  };
}
