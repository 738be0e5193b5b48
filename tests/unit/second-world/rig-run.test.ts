/** The second world's rigs against closed forms: what it is worth depends on its physics. */
import { describe, expect, test } from 'vitest';
import { conductanceM3PerS, type Duct } from '../../support/second-world/duct.ts';
import type { Rig } from '../../support/second-world/rig.ts';
import { RigRun } from '../../support/second-world/rig-run.ts';
import { tail } from '../../support/second-world/stores.ts';
import { saturationPa, WATER_GAS_J_PER_KG_K } from '../../support/second-world/vapour.ts';
import { waterVapourPressurePa } from '../../../protocol/water.ts';

const WIDE: Duct = { boreM: 0.1, lengthM: 0.1, count: 4, openingM2: Infinity };
const SPEED_M3_PER_S = 2e-3;
const VOLUME_M3 = 0.02;

/** Tight, dry, at 20 °C, with a pump that has no floor behind a hose that is no hindrance. */
function rig(draft: Partial<Rig> = {}): Rig {
  return {
    farM3: 0.4 * VOLUME_M3,
    nearM3: 0.6 * VOLUME_M3,
    hoseM3: 1e-5,
    line: WIDE,
    hose: WIDE,
    pump: {
      speedM3PerS: SPEED_M3_PER_S,
      kneePa: 0,
      ultimatePa: 0,
      coldFactor: 1,
      warmUpS: 600,
      warmSpeedLoss: 0,
      oilPa: 0,
      oilPurgeS: 1000,
      oilTakesPerM3: 0,
      ballastPa: 0,
    },
    stores: [],
    pool: null,
    leakPaM3PerS: 0,
    leakNode: 'far',
    hoseLeakPaM3PerS: 0,
    surroundings: { startC: 20, driftKPerS: 0, swingK: 0, swingS: 1000 },
    startPa: 100_000,
    startVapourPa: 0,
    sensorNode: 'near',
    ...draft,
  };
}

function pumping(draft: Partial<Rig> = {}): RigRun {
  const run = new RigRun(rig(draft));
  run.pumpOn = true;
  return run;
}

const pressurePa = (run: RigRun) => run.airPa + run.vapourPa;

function goOn(run: RigRun, untilS: number): void {
  while (run.elapsedS < untilS) run.step(untilS);
}

/** When it comes down to `toPa`, s. */
function reachS(run: RigRun, toPa: number): number {
  let before = { elapsedS: 0, logPa: Infinity };
  while (pressurePa(run) > toPa) {
    before = { elapsedS: run.elapsedS, logPa: Math.log(pressurePa(run)) };
    run.step(Infinity);
  }
  const share = (before.logPa - Math.log(toPa)) / (before.logPa - Math.log(pressurePa(run)));
  return before.elapsedS + share * (run.elapsedS - before.elapsedS);
}

describe('a pull-down of gas', () => {
  test('takes V/S · ln(p₀/p₁)', () => {
    const run = pumping();
    const tookS = -reachS(run, 10_000) + reachS(run, 100);
    const expectedS = (VOLUME_M3 / SPEED_M3_PER_S) * Math.log(100);
    // Implicit steps of 0.8 % each are too slow by half of that.
    expect(Math.abs(tookS / expectedS - 1)).toBeLessThan(0.008);
  });

  test('goes as one over time where a thin hose limits it', () => {
    // V·dP/dt = −k·P²/2 with the pump's end near vacuum, so 1/P₂ − 1/P₁ = k·t/(2V).
    const hose: Duct = { boreM: 0.005, lengthM: 60, count: 1, openingM2: Infinity };
    const fast = { ...rig().pump, speedM3PerS: 0.5 };
    const run = pumping({ hose, pump: fast });
    const fromS = reachS(run, 20_000);
    const toS = reachS(run, 4000);
    // Poiseuille: k = π·d⁴/(128·η·l), η of air at 20 °C.
    const k = (Math.PI * 0.005 ** 4) / (128 * 1.82e-5 * 60);
    const expectedS = (1 / 4000 - 1 / 20_000) / (k / (2 * VOLUME_M3));
    expect((toS - fromS) / expectedS).toBeCloseTo(1, 1);
  });

  test('ends at a leak over the speed', () => {
    const run = pumping({ leakPaM3PerS: 0.3 });
    goOn(run, 2000);
    expect(pressurePa(run)).toBeCloseTo(0.3 / SPEED_M3_PER_S, 0);
  });

  test('ends at what the pump reaches by itself', () => {
    const run = pumping({ pump: { ...rig().pump, ultimatePa: 40 } });
    goOn(run, 2000);
    expect(pressurePa(run)).toBeCloseTo(40, 1);
  });
});

describe('a tail of walls', () => {
  test.each([
    { power: 0, expected: -1 },
    { power: 0.5, expected: -0.5 },
  ])('with amounts as τ^$power falls as t^$expected', ({ power, expected }) => {
    const shape = { power, equilibriumPa: 1e9, perK: 0 };
    const stores = [tail(shape, 0.05, 1000, { gas: 'vapour', node: 'near' })];
    const run = pumping({ stores });
    goOn(run, 300);
    const early = Math.log(pressurePa(run));
    goOn(run, 9000);
    const late = Math.log(pressurePa(run));
    // Two stores a decade make the power waver, and the slowest of all is not the last of an endless row.
    expect(Math.abs((late - early) / Math.log(9000 / 300) - expected)).toBeLessThan(0.1);
  });
});

describe('water', () => {
  const pool = {
    node: 'near',
    waterKg: 4e-3,
    exchangeM3PerS: 0.05,
    surfacePower: 0.3,
    warmthWPerK: 0.2,
    metalJPerK: 20,
  } as const;

  test('has the vapour pressure that the international formulation gives, within half a per cent', () => {
    for (let temperatureC = -30; temperatureC <= 45; temperatureC += 5) {
      expect(saturationPa(temperatureC) / waterVapourPressurePa(temperatureC)).toBeCloseTo(1, 2);
    }
  });

  test('boils itself cold: below the triple point once a third of it is gone, until it ends', () => {
    const run = pumping({ pool });
    while (run.waterKg > 0.7 * pool.waterKg) run.step(Infinity);
    expect(pressurePa(run)).toBeLessThan(612);
    while (run.waterKg > 0.3 * pool.waterKg) {
      run.step(Infinity);
      expect(pressurePa(run)).toBeGreaterThan(100);
      expect(pressurePa(run)).toBeLessThan(612);
    }
    goOn(run, 20_000);
    expect(run.waterKg).toBeLessThan(1e-8);
    expect(pressurePa(run)).toBeLessThan(1);
  });

  test('is lost from the pool exactly as vapour is pumped and held', () => {
    const run = pumping({ pool });
    let pumpedPaM3 = 0;
    while (run.waterKg > 0.5 * pool.waterKg) {
      const beforeS = run.elapsedS;
      run.step(Infinity);
      pumpedPaM3 += run.vapourPa * SPEED_M3_PER_S * (run.elapsedS - beforeS);
    }
    const goneKg = pool.waterKg - run.waterKg;
    const inGasPaM3 = run.vapourPa * VOLUME_M3;
    // At the temperature at which it boils, near −5 °C.
    const gonePaM3 = goneKg * WATER_GAS_J_PER_KG_K * 268;
    expect((pumpedPaM3 + inGasPaM3) / gonePaM3).toBeCloseTo(1, 1);
  });

  test('shut in, fills the system to its vapour pressure at the temperature of the metal', () => {
    const run = new RigRun(rig({ pool: { ...pool, warmthWPerK: 2 }, startPa: 1 }));
    run.valveOpening = 0;
    goOn(run, 6 * 3600);
    expect(run.vapourPa / saturationPa(20)).toBeCloseTo(1, 2);
  });
});

describe('a hold', () => {
  test('rises by Q/V with a leak, wherever it is', () => {
    for (const leakNode of ['near', 'far'] as const) {
      const run = new RigRun(rig({ leakPaM3PerS: 1e-3, leakNode, startPa: 30 }));
      run.valveOpening = 0;
      goOn(run, 60);
      const before = pressurePa(run);
      goOn(run, 660);
      expect((pressurePa(run) - before) / 600 / (1e-3 / VOLUME_M3)).toBeCloseTo(1, 3);
    }
  });

  test('settles where a store and the gas have shared what there was', () => {
    const store = {
      gas: 'vapour',
      node: 'near',
      tausS: [500],
      holdsPaM3: [0.8],
      equilibriumPa: 20,
      perK: 0,
    } as const;
    const run = new RigRun(rig({ stores: [store], startPa: 1 }));
    run.valveOpening = 0;
    goOn(run, 6000);
    // The store takes 0.8 / 20 = 0.04 m³ as if it were volume; the air of 1 Pa stays.
    expect(pressurePa(run)).toBeCloseTo(1 + 0.8 / (0.04 + VOLUME_M3), 2);
  });

  test('follows the temperature as a shut-in gas does', () => {
    const run = new RigRun(
      rig({
        startPa: 1000,
        surroundings: { startC: 20, driftKPerS: 0.01, swingK: 0, swingS: 1000 },
      }),
    );
    run.valveOpening = 0;
    goOn(run, 1000);
    expect(pressurePa(run)).toBeCloseTo((1000 * (293.15 + 10)) / 293.15, 1);
  });

  test('lets trapped air raise the whole by what it is', () => {
    const run = new RigRun(rig({ startPa: 30 }));
    run.valveOpening = 0;
    run.letGo(5);
    goOn(run, 300);
    expect(pressurePa(run)).toBeCloseTo(35, 3);
  });
});

describe('a tube', () => {
  // Handbook of Vacuum Technology (K. Jousten, ed.): for air at 20 °C 135·d⁴/l·p̄ and 12.1·d³/l, in
  // L/s with cm and mbar.
  test('conducts as the handbook says in viscous flow', () => {
    const tube: Duct = { boreM: 0.01, lengthM: 5, count: 1, openingM2: Infinity };
    const litresPerS = 1e3 * conductanceM3PerS(tube, 10_000, 0, 20);
    // In series with its own bore, which lets through 20 L/(s·cm²).
    const bore = 20 * (Math.PI / 4);
    const alone = 1 / (1 / litresPerS - 1 / bore);
    expect(alone / ((135 * 1 ** 4 * 100) / 500)).toBeCloseTo(1, 1);
  });

  test('conducts as the handbook says in molecular flow', () => {
    const tube: Duct = { boreM: 0.01, lengthM: 1, count: 1, openingM2: Infinity };
    const litresPerS = 1e3 * conductanceM3PerS(tube, 1e-3, 0, 20);
    const bore = 11.6 * (Math.PI / 4);
    const alone = 1 / (1 / litresPerS - 1 / bore);
    expect(alone / ((12.1 * 1 ** 3) / 100)).toBeCloseTo(1, 1);
  });
});
