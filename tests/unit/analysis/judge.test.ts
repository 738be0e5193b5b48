import { MARK_KINDS, type Mark } from '../../../protocol/mark.ts';
import { CONDITIONS } from '../../../protocol/reading.ts';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { judge } from '../../../web/analysis/judge.ts';
import type { HistoryPoint } from '../../../web/analysis/readings/history.ts';
import { gridTime, JUDGING_GRID_S } from '../../../web/analysis/readings/judging-grid.ts';
import { anySheet } from '../../support/any-sheet.ts';
import { historyOf } from '../../support/invented-curves.ts';
import fc from 'fast-check';
import { expect, test } from 'vitest';

/** Pressures like those of a job, and any others. */
const pressure = fc.oneof(
  fc.double({ min: 0, max: 1e7, noNaN: true }),
  fc.double({ min: 1, max: 800, noNaN: true }),
);
const anyPoint: fc.Arbitrary<HistoryPoint> = fc.record({
  elapsedS: fc.oneof(
    fc.double({ min: 0, max: 2000, noNaN: true }),
    fc.double({ min: 0, max: 1e7, noNaN: true }),
  ),
  pressurePa: fc.option(pressure, { freq: 8 }),
  condition: fc.oneof(
    { weight: 8, arbitrary: fc.constant('ok' as const) },
    fc.constantFrom(...CONDITIONS),
  ),
  temperatureC: fc.constant(null),
});
const anyMark: fc.Arbitrary<Mark> = fc.record({
  id: fc.integer({ min: 1, max: 100 }),
  kind: fc.constantFrom(...MARK_KINDS),
  elapsedS: fc.double({ min: 0, max: 2000, noNaN: true }),
  text: fc.constant(''),
  madeBy: fc.constant('hand' as const),
});
const points = fc.array(anyPoint, { maxLength: 120 });
const marks = fc.array(anyMark, { maxLength: 5 });
const moment = fc.integer({ min: 0, max: 2500 });

/** Every number in a value, however deep. */
function numbersIn(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}

/** Every interval in a value, however deep. */
function intervalsIn(value: unknown): { estimate: number; low: number; high: number }[] {
  if (typeof value !== 'object' || value === null) return [];
  const inner = Object.values(value).flatMap(intervalsIn);
  if (!('estimate' in value) || !('low' in value) || !('high' in value)) return inner;
  const { estimate, low, high } = value;
  return typeof estimate === 'number' && typeof low === 'number' && typeof high === 'number'
    ? [{ estimate, low, high }]
    : inner;
}

test('any readings, marks and sheet give an answer of finite numbers, intervals in order', () => {
  fc.assert(
    fc.property(points, marks, anySheet, moment, (given, events, sheet, nowS) => {
      const conclusions = judge(historyOf(given), events, sheet, nowS);
      expect(numbersIn(conclusions).every(Number.isFinite)).toBe(true);
      for (const { estimate, low, high } of intervalsIn(conclusions)) {
        expect(low).toBeLessThanOrEqual(estimate);
        expect(estimate).toBeLessThanOrEqual(high);
      }
    }),
    { numRuns: 300, seed: 1 },
  );
});

test('what the rig should manage has no say in a conclusion', () => {
  const { pumpDisplacementM3PerS, pumpUltimatePa, hoseBoreM, hoseLengthM, hoseCount, core } =
    DEFAULT_SHEET;
  const noRig = {
    pumpDisplacementM3PerS,
    pumpUltimatePa,
    hoseBoreM,
    hoseLengthM,
    hoseCount,
    core,
  };
  fc.assert(
    fc.property(points, marks, anySheet, moment, (given, events, sheet, nowS) => {
      const history = historyOf(given);
      expect(judge(history, events, sheet, nowS)).toEqual(
        judge(history, events, { ...sheet, ...noRig }, nowS),
      );
    }),
  );
});

test('readings and marks after the moment change nothing', () => {
  fc.assert(
    fc.property(points, marks, moment, (given, events, nowS) => {
      const then = judge(
        historyOf(given.filter(({ elapsedS }) => elapsedS <= nowS)),
        events.filter(({ elapsedS }) => elapsedS <= nowS),
        DEFAULT_SHEET,
        nowS,
      );
      expect(judge(historyOf(given), events, DEFAULT_SHEET, nowS)).toEqual(then);
    }),
    { numRuns: 150, seed: 2 },
  );
});

test('the order of readings and marks changes nothing', () => {
  fc.assert(
    fc.property(points, marks, moment, (given, events, nowS) => {
      const distinct = events.map((mark, i) => ({ ...mark, id: i + 1 }));
      const forward = judge(historyOf(given), distinct, DEFAULT_SHEET, nowS);
      const backward = judge(
        historyOf([...given].reverse()),
        [...distinct].reverse(),
        DEFAULT_SHEET,
        nowS,
      );
      expect(backward).toEqual(forward);
    }),
    { numRuns: 100, seed: 3 },
  );
});

test('the grid is of whole steps, never later than the moment', () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 1e7, noNaN: true }), (elapsedS) => {
      expect(gridTime(elapsedS)).toBeLessThanOrEqual(elapsedS);
      expect(gridTime(elapsedS)).toBeGreaterThan(elapsedS - JUDGING_GRID_S);
      expect(gridTime(gridTime(elapsedS))).toBe(gridTime(elapsedS));
    }),
  );
});

test('nothing at all is waiting, without a forecast or a rise', () => {
  expect(judge(historyOf([]), [], DEFAULT_SHEET, 0)).toMatchObject({
    stage: { name: 'waiting' },
    pressurePa: null,
    forecast: null,
    rise: null,
  });
});
