import { CONDITIONS } from '../../../../protocol/reading.ts';
import { History, type HistoryPoint } from '../../../../web/analysis/readings/history.ts';
import { historyOf, seeded } from '../../../support/invented-curves.ts';
import fc from 'fast-check';
import { expect, test } from 'vitest';

const anyPoint: fc.Arbitrary<HistoryPoint> = fc.record({
  elapsedS: fc.double({ min: 0, max: 5000, noNaN: true }),
  pressurePa: fc.option(fc.double({ min: 0, max: 2e5, noNaN: true })),
  condition: fc.constantFrom(...CONDITIONS),
  temperatureC: fc.constant(null),
});

const ok = (elapsedS: number, pressurePa: number): HistoryPoint => ({
  elapsedS,
  pressurePa,
  condition: 'ok',
  temperatureC: null,
});

test('the order in which readings come changes nothing, to the last digit', () => {
  fc.assert(
    fc.property(
      fc.array(anyPoint, { maxLength: 200 }),
      fc.infiniteStream(fc.nat()),
      (points, order) => {
        const shuffled = points
          .map((point) => ({ point, key: order.next().value ?? 0 }))
          .sort((a, b) => a.key - b.key)
          .map(({ point }) => point);
        expect(historyOf(shuffled).bins(-1, 6000)).toEqual(historyOf(points).bins(-1, 6000));
      },
    ),
  );
});

test('readings after the end of a stretch never show in its bins', () => {
  fc.assert(
    fc.property(
      fc.array(anyPoint, { maxLength: 100 }),
      fc.integer({ min: 0, max: 5000 }),
      (points, toS) => {
        const before = historyOf(points.filter(({ elapsedS }) => elapsedS <= toS));
        expect(historyOf(points).bins(-1, toS)).toEqual(before.bins(-1, toS));
      },
    ),
  );
});

test('ten days at 1 Hz come back as a few thousand bins, none lost', () => {
  const history = new History();
  const lengthS = 10 * 86_400;
  for (let elapsedS = 0; elapsedS < lengthS; elapsedS += 1) history.insert(ok(elapsedS, 50));
  const bins = history.bins(-1, lengthS);
  expect(bins.length).toBeLessThan(5000);
  expect(bins.reduce((sum, { count }) => sum + count, 0)).toBe(lengthS);
  expect(bins.every(({ pressurePa }) => Math.abs((pressurePa ?? 0) - 50) < 1e-9)).toBe(true);
});

test('bins are in order, and a long silence costs nothing', () => {
  const history = historyOf([ok(9000, 10), ok(40_000_000, 20), ok(1, 5)]);
  const bins = history.bins(-1, 40_000_000);
  expect(bins.map(({ pressurePa }) => Math.round(pressurePa ?? 0))).toEqual([5, 10, 20]);
  expect(history.firstS).toBe(1);
  expect(history.lastS).toBe(40_000_000);
});

test('one spike among ten readings of a second moves its bin by nothing', () => {
  const random = seeded(1);
  const calm = Array.from({ length: 10 }, (_, i) => ok(0.05 + i / 10, 50 + random() / 100));
  const spiked = calm.map((point, i) => (i === 4 ? ok(point.elapsedS, 5000) : point));
  expect(historyOf(spiked).bins(-1, 2)[0]?.pressurePa).toBeCloseTo(50, 1);
});

test('over range is counted and has no pressure; faults say nothing at all', () => {
  const history = historyOf([
    { elapsedS: 1, pressurePa: null, condition: 'over_range', temperatureC: null },
    { elapsedS: 1.5, pressurePa: 7, condition: 'fault', temperatureC: null },
  ]);
  expect(history.bins(-1, 10)).toEqual([
    { elapsedS: 1, pressurePa: null, count: 0, overRange: 1, temperatureC: null },
  ]);
});
