/** The chance of a hold before it is begun, each bound by itself. */
import { DEFAULT_SHEET, type Sheet } from '../../../../protocol/sheet.ts';
import type { Forecast } from '../../../../web/analysis/conclusions.ts';
import {
  allowedFrom,
  type BeforeHold,
  holdChance,
  isBelow,
} from '../../../../web/analysis/next-hold/hold-chance.ts';
import { describe, expect, test } from 'vitest';

const SHEET: Sheet = {
  ...DEFAULT_SHEET,
  ...{ sensorSees: 'system', targetPa: 60, endLimitPa: 70, allowedRisePa: 30 },
  ...{ holdS: 1000, leakLimitPaPerS: 0.02 },
};
const boiling = (weight: number): Forecast => ({
  ...{ sinceS: 0, outcome: 'reaches', remaining: null, remainingToIsolation: null },
  ...{ floorPa: null, boilingPointC: 5, curve: [] },
  causes: [
    { cause: 'slow_tail', weight: 1 - weight },
    { cause: 'boil_off', weight },
  ],
});
const earlier = (leaksTooMuch: number, risesTooMuch: number) => ({
  ...{ leaks: leaksTooMuch, leaksTooMuch, risesTooMuch },
  leakPaPerS: { estimate: 0.01, low: 0.005, high: 0.015 },
  endPa: { estimate: 50, low: 45, high: 55 },
});
const told = (known: Partial<BeforeHold>, sheet: Partial<Sheet> = {}) =>
  holdChance(
    {
      ...{ pressurePa: 30, forecast: null, mostInflowPaPerS: null },
      ...{ earlier: null, changedSinceHold: false },
      ...known,
    },
    { ...SHEET, ...sheet },
  );
const kinds = (known: Partial<BeforeHold>, sheet: Partial<Sheet> = {}) =>
  told(known, sheet).reasons.map(({ kind }) => kind);

test('where nothing is known it may be anything, and the curve is why', () => {
  expect(told({})).toEqual({ low: 0, high: 1, reasons: [{ kind: 'curve_silent' }] });
  expect(kinds({ changedSinceHold: true })).toEqual(['changed_since_hold', 'curve_silent']);
});

test.each(['system', 'unknown'] as const)('a sensor that sees %s tells of it', (sensorSees) => {
  expect(kinds({}, { sensorSees })).toEqual(['curve_silent']);
});

test.each(['section', 'pump_side'] as const)('one that sees a %s does not', (sensorSees) => {
  expect(told({ pressurePa: 200 }, { sensorSees })).toEqual({
    ...{ low: 0, high: 1 },
    reasons: [{ kind: 'not_the_system' }],
  });
});

test('a pressure that is not known is said, and nothing else', () => {
  expect(told({ pressurePa: null, earlier: earlier(1, 0) })).toEqual({
    ...{ low: 0, high: 1 },
    reasons: [{ kind: 'pressure_unknown' }],
  });
});

describe('the pressure to start from', () => {
  test('is the lower of target and limit, with room for scatter', () => {
    expect(isBelow(62, SHEET)).toBe(true);
    expect(isBelow(65, SHEET)).toBe(false);
    expect(isBelow(65, { ...SHEET, targetPa: 80 })).toBe(true);
    const { high, reasons } = told({ pressurePa: 65 });
    expect(high).toBeLessThan(0.05);
    expect(reasons).toEqual([{ kind: 'stands_too_high', limitPa: 60 }]);
  });

  test('leaves the rise that the rule allows, or what is left up to the limit, or nothing', () => {
    expect(allowedFrom(30, SHEET)).toEqual({ startPa: 30, risePa: 30, inflowPaPerS: 0.02 });
    expect(allowedFrom(55, SHEET)).toEqual({ startPa: 55, risePa: 15, inflowPaPerS: 0.015 });
    expect(allowedFrom(90, SHEET)).toEqual({ startPa: 90, risePa: 0, inflowPaPerS: 0 });
  });
});

describe('water that boils', () => {
  test('leaves the share that it does not', () => {
    const { low, high, reasons } = told({ forecast: boiling(0.7) });
    expect(low).toBe(0);
    expect(high).toBeCloseTo(0.3, 12);
    expect(reasons).toEqual([{ kind: 'water_boils', weight: 0.7 }]);
  });

  test('never leaves nothing at all, and is none without a boiling point', () => {
    expect(told({ forecast: boiling(1) }).high).toBeGreaterThan(0);
    expect(kinds({ forecast: { ...boiling(1), boilingPointC: null } })).toEqual(['curve_silent']);
    expect(kinds({ forecast: { ...boiling(1), causes: [] } })).toEqual(['curve_silent']);
    expect(kinds({ forecast: boiling(0) })).toEqual(['curve_silent']);
  });
});

describe('the most that can flow in', () => {
  test('no more than is allowed, it most likely passes', () => {
    const { low, high, reasons } = told({ mostInflowPaPerS: 0.02 });
    expect([low, high]).toEqual([0.9, 1]);
    expect(reasons).toEqual([{ kind: 'little_inflow', mostRisePa: 20 }]);
  });

  test('more than that says nothing: it need not come', () => {
    expect(kinds({ mostInflowPaPerS: 0.021 })).toEqual(['curve_silent']);
    expect(kinds({ mostInflowPaPerS: 0.016, pressurePa: 55 })).toEqual(['curve_silent']);
  });

  test('beside water that boils, the water has the last word', () => {
    const { low, high } = told({ mostInflowPaPerS: 0.01, forecast: boiling(0.7) });
    expect(high).toBeCloseTo(0.3, 12);
    expect(low).toBeLessThanOrEqual(high);
  });
});

describe('an earlier hold', () => {
  test('bounds it from both sides: a leak fails it again, what else rose only may', () => {
    const { low, high, reasons } = told({ earlier: earlier(0.3, 0.25) });
    expect(low).toBeGreaterThan(0.35);
    expect(low).toBeLessThan(0.45);
    expect(high).toBeLessThan(0.8);
    expect(high).toBeGreaterThan(0.7);
    expect(reasons).toEqual([{ kind: 'earlier_hold', ...earlier(0.3, 0.25) }]);
  });

  test('that surely leaked leaves next to nothing, one that surely did not all but everything', () => {
    const leaked = told({ earlier: earlier(1, 0.4) });
    expect(leaked.low).toBe(0);
    expect(leaked.high).toBeLessThan(0.1);
    const tight = told({ earlier: earlier(0, 0) });
    expect(tight.high).toBe(1);
    expect(tight.low).toBeGreaterThan(0.9);
    expect(tight.low).toBeLessThan(1);
  });

  test('takes nothing back of what boils or of what physics bounds', () => {
    expect(told({ earlier: earlier(0, 0), forecast: boiling(0.7) }).high).toBeCloseTo(0.3, 12);
    expect(told({ earlier: earlier(0, 0.8), mostInflowPaPerS: 0.01 }).low).toBe(0.9);
    expect(kinds({ earlier: earlier(0.98, 1), mostInflowPaPerS: 0.01 })).toEqual([
      'little_inflow',
      'earlier_hold',
    ]);
  });

  test('that leaves everything open is named all the same', () => {
    expect(kinds({ earlier: earlier(0, 1) })).toEqual(['earlier_hold']);
  });
});
