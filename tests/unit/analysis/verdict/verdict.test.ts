import { DEFAULT_SHEET, type Sheet } from '../../../../protocol/sheet.ts';
import type { Rise } from '../../../../web/analysis/conclusions.ts';
import { assessRise } from '../../../../web/analysis/verdict/rise.ts';
import {
  historyOf,
  holdPressure,
  readingsOf,
  seeded,
  type InventedSensor,
} from '../../../support/invented-curves.ts';
import { expect, test } from 'vitest';

const SENSOR: InventedSensor = {
  ratePerS: 1,
  noisePa: 0.05,
  relativeNoise: 0.001,
  quantumPa: 0.001,
  lagS: 0.5,
  spikeShare: 0,
  gap: null,
  topPa: 1e5,
};
const TIGHT = holdPressure({
  leakPaPerS: 0.0005,
  startPa: 30,
  moisture: [{ amountPa: 4, tauS: 60 }],
});
const STRAIGHT = holdPressure({ leakPaPerS: 0.05, startPa: 30, moisture: [] });

function riseOf(
  curve: (heldS: number) => number,
  heldS: number,
  sheet: Partial<Sheet> = {},
  sensor: Partial<InventedSensor> = {},
): Rise {
  const readings = readingsOf(curve, { ...SENSOR, ...sensor }, seeded(3), 0, heldS);
  const hold = { isolatedS: 0, isMarked: true, isolationSure: true };
  return assessRise(historyOf(readings), hold, { ...DEFAULT_SHEET, ...sheet }, heldS);
}

test('a straight rise through the whole hold is a leak', () => {
  const rise = riseOf(STRAIGHT, 900);
  expect(rise.verdict).toBe('leak');
  expect(rise.leakPaPerS.low).toBeGreaterThan(DEFAULT_SHEET.leakLimitPaPerS);
  expect(rise.changeoverS).toBeNull();
});

test('a rise that levels off above the limit is moisture', () => {
  const rise = riseOf(
    holdPressure({ leakPaPerS: 0, startPa: 30, moisture: [{ amountPa: 120, tauS: 150 }] }),
    900,
  );
  expect(rise).toMatchObject({ verdict: 'moisture', keepsRule: false });
});

test('both at once are named as both, with the moment where one gives way to the other', () => {
  const rise = riseOf(
    holdPressure({ leakPaPerS: 0.2, startPa: 30, moisture: [{ amountPa: 150, tauS: 100 }] }),
    900,
  );
  expect(rise.verdict).toBe('leak_and_moisture');
  // M/τ·e^(−t/τ) = L at t = τ·ln(M/(τ·L)) = 100·ln 7.5 = 201 s.
  expect(Math.abs((rise.changeoverS ?? 0) - 201)).toBeLessThan(40);
});

test('a tight and dry system passes, but not before a quarter of its hold', () => {
  expect(riseOf(TIGHT, 900)).toMatchObject({ verdict: 'tight_dry', keepsRule: true, moreS: null });
  const early = riseOf(TIGHT, 200);
  expect(early.verdict).toBe('undecided');
  expect(early.reservations).toContain('too_early');
  expect(early.moreS).toBeGreaterThan(0);
});

test('dry is refused where ice would hide', () => {
  // −25 °C: 63 Pa over ice, less than three times 500 micron; −5 °C: 402 Pa, more than that.
  expect(riseOf(TIGHT, 900, { coldestTemperatureC: -25 })).toMatchObject({
    verdict: 'undecided',
    reservations: ['ice_possible'],
  });
  expect(riseOf(TIGHT, 900, { coldestTemperatureC: -5 }).verdict).toBe('tight_dry');
});

test('a sensor that sees a stub, a section or the pump says nothing about the system', () => {
  for (const sensorSees of ['stub', 'section', 'pump_side'] as const) {
    for (const curve of [TIGHT, STRAIGHT]) {
      expect(riseOf(curve, 900, { sensorSees })).toMatchObject({
        verdict: 'undecided',
        reservations: ['not_the_system'],
      });
    }
  }
});

test('a falling hold is never a pass', () => {
  const rise = riseOf((heldS) => 40 - heldS / 100, 900);
  expect(rise).toMatchObject({ verdict: 'undecided', reservations: ['falling'] });
});

test('what fell at first is passed only after a quarter of the hold at rest', () => {
  // Evens out downward over minutes, above a leak of half the limit: balanced for a while.
  const sinking = (heldS: number) => 50 + 6 * Math.exp(-heldS / 60) + 0.003 * heldS;
  const early = riseOf(sinking, 300);
  expect(early.verdict).toBe('undecided');
  expect(early.evenedPa).toBeLessThan(-3);
  for (let heldS = 60; heldS < 340; heldS += 20) {
    expect(riseOf(sinking, heldS).verdict, `after ${heldS} s`).not.toBe('tight_dry');
  }
});

test('the fitted curve goes along with the readings, all of it', () => {
  const curve = (heldS: number) => STRAIGHT(heldS) + 8 * Math.exp(-heldS / 40);
  const { curve: drawn } = riseOf(curve, 900);
  expect(drawn.length).toBeGreaterThan(10);
  for (const { elapsedS, midPa } of drawn) {
    expect(Math.abs(midPa / curve(elapsedS) - 1), `after ${elapsedS} s`).toBeLessThan(0.03);
  }
});

test('a level that evened out is passed where it stands', () => {
  const settled = (heldS: number) => 50 + 6 * Math.exp(-heldS / 30);
  const rise = riseOf(settled, 960);
  expect(rise.verdict).toBe('tight_dry');
  // Six, of which a tenth is over before the fit begins.
  expect(rise.evenedPa).toBeGreaterThan(-6.2);
  expect(rise.evenedPa).toBeLessThan(-5);
});

test('a rise under what may be pumping is never passed', () => {
  const readings = readingsOf(TIGHT, SENSOR, seeded(3), 0, 900);
  const unsure = { isolatedS: 0, isMarked: false, isolationSure: false };
  expect(assessRise(historyOf(readings), unsure, DEFAULT_SHEET, 900)).toMatchObject({
    verdict: 'undecided',
    reservations: ['isolation_unsure'],
  });
  // A leak is one all the same.
  const leaking = readingsOf(STRAIGHT, SENSOR, seeded(3), 0, 900);
  expect(assessRise(historyOf(leaking), unsure, DEFAULT_SHEET, 900).verdict).toBe('leak');
});

test('what stands above the vapour pressure at the metal is not called moisture', () => {
  // Over ice at −20 °C: 103 Pa.
  const curve = holdPressure({
    leakPaPerS: 0,
    startPa: 60,
    moisture: [{ amountPa: 260, tauS: 120 }],
  });
  expect(riseOf(curve, 900, { metalTemperatureC: 20 }).verdict).toBe('moisture');
  const cold = riseOf(curve, 900, { metalTemperatureC: -20 });
  expect(cold.verdict).not.toBe('moisture');
  expect(cold.reservations).toContain('not_water_alone');
});

test('a leak beside much moisture is named where it is sure', () => {
  // 0.08 Pa/s, 36 micron a minute, is 72 of 472 Pa: less than a fifth.
  const rise = riseOf(
    holdPressure({ leakPaPerS: 0.08, startPa: 30, moisture: [{ amountPa: 400, tauS: 90 }] }),
    900,
  );
  expect(rise.verdict).toBe('leak_and_moisture');
});

test('the noise is found in the hold itself, straight or bent', () => {
  const bent = (heldS: number) => STRAIGHT(heldS) + 40 * (1 - Math.exp(-heldS / 120));
  for (const [curve, noisePa] of [
    [STRAIGHT, 0.05],
    [STRAIGHT, 0.4],
    [bent, 0.1],
  ] as const) {
    const { noisePa: found } = riseOf(
      curve,
      900,
      {},
      { noisePa, relativeNoise: 0, quantumPa: 0.001 },
    );
    expect((found ?? 0) / noisePa).toBeGreaterThan(0.8);
    expect((found ?? 0) / noisePa).toBeLessThan(1.25);
  }
});

test('a step is named, and what came before it no longer counts', () => {
  const rise = riseOf((heldS) => TIGHT(heldS) + (heldS > 300 ? 15 : 0), 900);
  expect(rise.reservations).toContain('step');
  expect(rise.steps).toHaveLength(1);
  expect(rise.steps[0]?.atS).toBeCloseTo(300, -1);
  expect(rise.steps[0]?.sizePa).toBeCloseTo(15, 0);
  expect(rise.verdict).toBe('tight_dry');
  // The hold begins anew, and where it ends is said of that moment.
  const rising = (heldS: number) => STRAIGHT(heldS) + (heldS > 300 ? 15 : 0);
  const { endOfHold, curve } = riseOf(rising, 900);
  expect(endOfHold.atS).toBeCloseTo(1200, -1);
  expect(endOfHold.low).toBeLessThan(rising(1200));
  expect(endOfHold.high).toBeGreaterThan(rising(1200));
  expect((curve.at(-1)?.midPa ?? 0) / rising(1200)).toBeCloseTo(1, 1);
  const early = riseOf((heldS) => TIGHT(heldS) + (heldS > 300 ? 15 : 0), 360);
  expect(early.verdict).toBe('undecided');
});

test('no step is taken for inflow, whenever it comes', () => {
  for (const stepS of [203, 287, 331, 402]) {
    const { leakPaPerS } = riseOf((heldS) => TIGHT(heldS) + (heldS > stepS ? 15 : 0), 900);
    expect(leakPaPerS.high, `step after ${stepS} s`).toBeLessThan(0.005);
  }
});

test('half the hold without readings is a gap, and no pass', () => {
  const rise = riseOf(TIGHT, 900, {}, { gap: { fromS: 300, toS: 800 } });
  expect(rise.reservations).toContain('gap');
  expect(rise.verdict).not.toBe('tight_dry');
});

test('the inflow is volume times leak, and unknown without a volume', () => {
  const rise = riseOf(STRAIGHT, 900, { volumeM3: 0.01 });
  // 0.05 Pa/s in 10 L: 5e-4 Pa·m³/s.
  expect(rise.leakRatePaM3PerS?.estimate).toBeCloseTo(5e-4, 5);
  expect(riseOf(STRAIGHT, 900).leakRatePaM3PerS).toBeNull();
});

test('the system’s volume makes no inflow of what a part of it shows', () => {
  const rateOf = (sensorSees: Sheet['sensorSees']) =>
    riseOf(STRAIGHT, 900, { volumeM3: 0.01, sensorSees }).leakRatePaM3PerS;
  for (const view of ['stub', 'section', 'pump_side'] as const) expect(rateOf(view)).toBeNull();
  for (const view of ['system', 'unknown'] as const) expect(rateOf(view)).not.toBeNull();
});

test('twice the pressures and limits give twice the leak and the same verdict', () => {
  const plain = riseOf(STRAIGHT, 900);
  const twice = riseOf(
    (heldS) => 2 * STRAIGHT(heldS),
    900,
    {
      endLimitPa: 2 * DEFAULT_SHEET.endLimitPa,
      allowedRisePa: 2 * DEFAULT_SHEET.allowedRisePa,
      leakLimitPaPerS: 2 * DEFAULT_SHEET.leakLimitPaPerS,
    },
    { noisePa: 0.1, quantumPa: 0.002 },
  );
  expect(twice.verdict).toBe(plain.verdict);
  expect(twice.leakPaPerS.estimate / plain.leakPaPerS.estimate).toBeCloseTo(2, 2);
  expect(twice.endOfHold.estimate / plain.endOfHold.estimate).toBeCloseTo(2, 2);
});
