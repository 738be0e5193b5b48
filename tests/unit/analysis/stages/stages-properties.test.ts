/** What holds of the stages for any readings and marks whatever. */
import { MARK_KINDS } from '../../../../protocol/mark.ts';
import { CONDITIONS } from '../../../../protocol/reading.ts';
import { DEFAULT_SHEET } from '../../../../protocol/sheet.ts';
import { History, type HistoryPoint } from '../../../../web/analysis/readings/history.ts';
import { stageBins } from '../../../../web/analysis/stages/stage-bins.ts';
import { recogniseStages } from '../../../../web/analysis/stages/stages.ts';
import fc from 'fast-check';
import { expect, test } from 'vitest';

const point: fc.Arbitrary<HistoryPoint> = fc.record({
  elapsedS: fc.double({ min: 0, max: 5000, noNaN: true }),
  pressurePa: fc.oneof(
    fc.double({ min: -10, max: 120_000, noNaN: true }),
    fc.double({ min: 0, max: 100, noNaN: true }),
    fc.constant(null),
    fc.constant(Infinity),
  ),
  condition: fc.constantFrom(...CONDITIONS),
  temperatureC: fc.constant(null),
});
const mark = fc.record({
  id: fc.integer({ min: 1, max: 1000 }),
  kind: fc.constantFrom(...MARK_KINDS),
  elapsedS: fc.double({ min: 0, max: 5000, noNaN: true }),
  text: fc.constant(''),
  madeBy: fc.constant('hand' as const),
});
const recording = fc.record({
  points: fc.array(point, { maxLength: 400 }),
  marks: fc.array(mark, { maxLength: 6 }),
  nowS: fc.integer({ min: 0, max: 5000 }),
});

function told(
  points: readonly HistoryPoint[],
  marks: Parameters<typeof recogniseStages>[1],
  nowS: number,
) {
  const history = new History();
  for (const one of points) history.insert(one);
  return recogniseStages(stageBins(history, nowS), marks, DEFAULT_SHEET.targetPa, nowS);
}

test('every moment is a number and not in the future, holds are in order', () => {
  fc.assert(
    fc.property(recording, ({ points, marks, nowS }) => {
      const { stage, pullDownS, isolatedS, endedS, holds, rigChanged } = told(points, marks, nowS);
      for (const atS of [stage.sinceS, pullDownS, isolatedS, endedS, rigChanged?.atS ?? null]) {
        if (atS === null) continue;
        expect(atS).toBeGreaterThanOrEqual(0);
        expect(atS).toBeLessThanOrEqual(nowS);
      }
      for (const { fromS, toS, pumpedS } of holds) {
        expect(toS).toBeGreaterThanOrEqual(fromS);
        expect(pumpedS).toBeGreaterThanOrEqual(0);
      }
    }),
    { numRuns: 300 },
  );
});

test('what comes after now changes nothing, and nor does the order in which it comes', () => {
  fc.assert(
    fc.property(recording, ({ points, marks, nowS }) => {
      const known = points.filter(({ elapsedS }) => elapsedS <= nowS);
      const then = marks.filter(({ elapsedS }) => elapsedS <= nowS);
      const now = told(points, marks, nowS);
      expect(told([...known].reverse(), then, nowS)).toEqual(now);
    }),
    { numRuns: 200 },
  );
});
