/** Water that several evacuations took away, together, and from how much on it is a puddle. */
import type { Mark, MarkKind } from '../../../../protocol/mark.ts';
import { tripleTold } from '../../../../web/analysis/cycles/triple-told.ts';
import { History } from '../../../../web/analysis/readings/history.ts';
import { once } from '../../../support/once.ts';
import { expect, test } from 'vitest';

/** Twice: air pumped off, half an hour at which water boils, and dry; nitrogen between. */
const CYCLE_S = 3000;
const seen = once(() => {
  const history = new History();
  for (let elapsedS = 0; elapsedS < 2 * CYCLE_S; elapsedS += 2) {
    const s = elapsedS % CYCLE_S;
    const airPa = 99_000 * Math.exp(-s / 20);
    const vapourPa = s < 1800 ? 700 : 670 * Math.exp((1800 - s) / 60) + 30;
    const pressurePa = s >= 2800 ? 100_000 : airPa + vapourPa;
    history.insert({ elapsedS, pressurePa, condition: 'ok', temperatureC: null });
  }
  return history;
});
const MARKS = (
  [
    ['pump_on', 0],
    ['nitrogen_break', 2800],
    ['pump_on', CYCLE_S],
  ] as const satisfies readonly (readonly [MarkKind, number])[]
).map(([kind, elapsedS], at): Mark => ({
  ...{ id: at + 1, kind, elapsedS, text: '', madeBy: 'hand' },
}));
const told = (volumeM3: number | null) =>
  tripleTold(seen(), MARKS, [{ elapsedS: 0, fields: { volumeM3 } }], 2 * CYCLE_S - 210);

test('is the sum of each, and goes by the volume that was pumped', () => {
  const { cycles, waterG } = told(0.005);
  expect(cycles).toHaveLength(2);
  for (const end of ['estimate', 'low', 'high'] as const) {
    const each = cycles.map((cycle) => cycle.waterG?.[end] ?? NaN);
    expect(each[1]).toBeCloseTo(each[0] ?? NaN, 1);
    expect(waterG?.[end]).toBeCloseTo((each[0] ?? NaN) + (each[1] ?? NaN), 9);
  }
  // By hand: S = V/20 s, and S·P·t·M/(R·T) of 700 Pa in 1800 s or a little less: some 2.3 g in each.
  expect(waterG?.low).toBeLessThan(4.6);
  expect(waterG?.high).toBeGreaterThan(4);
  expect((told(0.05).waterG?.estimate ?? 0) / (waterG?.estimate ?? 1)).toBeCloseTo(10, 6);
});

test('of more than fifty grams is a puddle, and of an unknown volume nothing is said', () => {
  const perM3 = (told(0.005).waterG?.estimate ?? NaN) / 0.005;
  expect(told(49 / perM3).isFlooded).toBe(false);
  expect(told(51 / perM3).isFlooded).toBe(true);
  expect(told(null)).toMatchObject({ waterG: null, isFlooded: false });
});
