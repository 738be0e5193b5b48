import { WATER_KG_PER_MOL } from '../../../../protocol/gas-constants.ts';
import { DEFAULT_SHEET, type Sheet } from '../../../../protocol/sheet.ts';
import { advance } from '../../../../simulators/physics/advance.ts';
import {
  contentMol,
  createRig,
  totalPressurePa,
} from '../../../../simulators/physics/rig-state.ts';
import { boilOff, type BoilOff } from '../../../../web/analysis/flows/boil-off.ts';
import { fallRatePerS } from '../../../../web/analysis/flows/fall-rate.ts';
import { speedOnPlateauM3PerS } from '../../../../web/analysis/flows/pumping-speed.ts';
import { waterFound } from '../../../../web/analysis/flows/water-found.ts';
import { waterRemovedG } from '../../../../web/analysis/flows/water-removed.ts';
import { History } from '../../../../web/analysis/readings/history.ts';
import { historyOf, normal, seeded } from '../../../support/invented-curves.ts';
import { PUMPING, smallRig } from '../../../support/small-rig.ts';
import { describe, expect, test } from 'vitest';

const exactly = (estimate: number) => ({ estimate, low: estimate, high: estimate });
const SPEED_M3_PER_S = 4e-4;
const VOLUME_M3 = 5e-3;

/** A litre-sized rig with a spoonful of water under a pump of known speed, second by second. */
function wetPullDown(lengthS: number): { history: History; waterG: number[] } {
  const puddle = {
    waterKg: 1.5e-3,
    areaM2: 6e-3,
    evaporationShare: 0.02,
    metalConductanceWPerK: 0.3,
  };
  const setup = smallRig({ puddle }, { displacementM3PerS: SPEED_M3_PER_S });
  let rig = createRig(setup);
  const history = new History();
  const waterG: number[] = [];
  for (let elapsedS = 0; elapsedS <= lengthS; elapsedS += 1) {
    if (elapsedS > 0) rig = advance(rig, 1, PUMPING);
    waterG.push(contentMol(rig).water * WATER_KG_PER_MOL * 1000);
    const pressurePa = totalPressurePa(rig, 0);
    history.insert({ elapsedS, pressurePa, condition: 'ok', temperatureC: null });
  }
  return { history, waterG };
}

function plateauOf(history: History, toS: number): BoilOff {
  const plateau = boilOff(history, { fromS: -1, toS });
  if (plateau === null) throw new Error('no plateau');
  return plateau;
}

describe('water that the pump took away', () => {
  const LENGTH_S = 3600;
  const { history, waterG } = wetPullDown(LENGTH_S);

  test('is what is missing after the plateau, where the speed is known', () => {
    const plateau = plateauOf(history, LENGTH_S);
    const at = (elapsedS: number) => waterG[Math.round(elapsedS)] ?? Number.NaN;
    const goneG = at(plateau.fromS) - at(plateau.toS);
    expect(goneG).toBeGreaterThan(0.5);
    // The pump's speed is the same for vapour, and the pressure is the true one: at the low end of
    // what is allowed for hoses, at the high end of what is allowed for gauges.
    const grams = waterRemovedG(plateau, exactly(SPEED_M3_PER_S), 20);
    expect(grams?.low).toBeLessThan(goneG);
    expect(grams?.high).toBeGreaterThan(goneG);
    expect((grams?.high ?? 0) / (grams?.low ?? 1)).toBeLessThan(3);
  });

  test('has a speed that the fall before shows', () => {
    const plateau = plateauOf(history, LENGTH_S);
    const speed = speedOnPlateauM3PerS(history, 0, plateau, VOLUME_M3, 20);
    expect(speed?.low).toBeLessThan(SPEED_M3_PER_S);
    // Some vapour comes with the air already: the fall is slower than the pump by a little.
    expect(speed?.high).toBeGreaterThan(0.9 * SPEED_M3_PER_S);
    expect(speed?.high).toBeLessThan(1.3 * SPEED_M3_PER_S);
  });

  test('goes by the curve where the volume is known, else by pump and hose, else nowhere', () => {
    const found = (sheet: Partial<Sheet>) =>
      waterFound(history, { fromS: 0, toS: LENGTH_S }, { ...DEFAULT_SHEET, ...sheet });
    const plateau = plateauOf(history, LENGTH_S);
    const goneG = (waterG[plateau.fromS] ?? NaN) - (waterG[plateau.toS] ?? NaN);
    const rig = { pumpDisplacementM3PerS: SPEED_M3_PER_S, hoseBoreM: 0.016, hoseLengthM: 0.5 };
    for (const [sheet, speedFrom] of [
      [{ volumeM3: VOLUME_M3 }, 'curve'],
      [{ volumeM3: VOLUME_M3, ...rig }, 'curve'],
      [rig, 'rig'],
    ] as const) {
      const water = found(sheet);
      if (water.kind !== 'grams') throw new Error(water.kind);
      expect(water.speedFrom).toBe(speedFrom);
      expect(water.grams.low).toBeLessThan(goneG);
      expect(water.grams.high).toBeGreaterThan(goneG);
    }
    expect(found({})).toMatchObject({ kind: 'no_speed', volumeKnown: false });
    expect(waterFound(history, { fromS: 0, toS: 20 }, DEFAULT_SHEET).kind).toBe('no_plateau');
  });

  test('is not said where neither curve nor rig tells the speed', () => {
    const from20Torr = new History();
    for (const { elapsedS, pressurePa } of history.bins(-1, LENGTH_S)) {
      const isOver = pressurePa === null || pressurePa > 2666;
      from20Torr.insert({
        elapsedS,
        pressurePa: isOver ? null : pressurePa,
        condition: isOver ? 'over_range' : 'ok',
        temperatureC: null,
      });
    }
    const plateau = plateauOf(from20Torr, LENGTH_S);
    expect(speedOnPlateauM3PerS(from20Torr, 0, plateau, VOLUME_M3, 20)).toBeNull();
    expect(waterRemovedG(plateau, null, 20)).toBeNull();
  });

  test('is not said while it may still boil: a floor looks the same', () => {
    const { toS } = plateauOf(history, LENGTH_S);
    expect(boilOff(history, { fromS: -1, toS: Math.floor(toS) - 30 })).toBeNull();
  });
});

test('a curve that never rests has no plateau', () => {
  const points = Array.from({ length: 900 }, (_, elapsedS) => ({
    elapsedS,
    pressurePa: 20 + 50_000 * Math.exp(-elapsedS / 60),
    condition: 'ok' as const,
    temperatureC: null,
  }));
  expect(boilOff(historyOf(points), { fromS: -1, toS: 900 })).toBeNull();
});

describe('the rate of a fall', () => {
  const fall = (rate: number, floorPa: number, noise: () => number) =>
    Array.from({ length: 60 }, (_, i) => {
      const truePa = floorPa + 5000 * Math.exp(-rate * i);
      return { elapsedS: i, pressurePa: truePa * (1 + 0.01 * noise()), count: 1 };
    });

  test('is that of the curve, with a floor or without', () => {
    for (const floorPa of [0, 400]) {
      expect(fallRatePerS(fall(0.08, floorPa, () => 0))?.estimate).toBeCloseTo(0.08, 4);
    }
  });

  test('lies in its interval nine times of ten', () => {
    const random = seeded(77);
    let held = 0;
    for (let turn = 0; turn < 200; turn += 1) {
      const rate = fallRatePerS(fall(0.08, 300, () => normal(random)));
      if (rate !== null && rate.low <= 0.08 && rate.high >= 0.08) held += 1;
    }
    expect(held).toBeGreaterThan(165);
    expect(held).toBeLessThan(195);
  });

  test('is none of a curve that stands or rises, or of a handful of samples', () => {
    const level = Array.from({ length: 60 }, (_, elapsedS) => ({ elapsedS, count: 1 }));
    expect(fallRatePerS(level.map((one) => ({ ...one, pressurePa: 300 })))).toBeNull();
    expect(
      fallRatePerS(level.map((one) => ({ ...one, pressurePa: 300 + one.elapsedS ** 2 }))),
    ).toBeNull();
    expect(fallRatePerS(fall(0.08, 0, () => 0).slice(0, 5))).toBeNull();
    expect(fallRatePerS([])).toBeNull();
  });
});
