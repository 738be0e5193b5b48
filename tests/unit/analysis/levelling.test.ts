/** Whether a curve levels off, on curves by formula. */
import { expect, test } from 'vitest';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { levelOf } from '../../../web/analysis/levelling.ts';
import { agedPoints } from '../../../web/analysis/pull-down-points.ts';

/** Every second, exact. */
const everySecond = (curve: (elapsedS: number) => number, lengthS: number) =>
  Array.from({ length: lengthS }, (_, i) => ({ elapsedS: i + 1, pressurePa: curve(i + 1) }));

test('a flat stretch counts as a floor, one that rises does not', () => {
  const { targetPa } = DEFAULT_SHEET;
  expect(
    levelOf(
      everySecond(() => 300, 1200),
      0,
      targetPa,
    )?.high,
  ).toBe(300);
  const rising = everySecond((t) => 300 * (1 + t / 60_000), 1200);
  expect(levelOf(rising, 0, targetPa)).toBeNull();
});

test('where ice may stand a floor has to last, below that it need not', () => {
  const levelAt = (pressurePa: number, lengthS: number) =>
    levelOf(
      everySecond(() => pressurePa, lengthS),
      0,
      DEFAULT_SHEET.targetPa,
    );
  expect(levelAt(95, 300)?.high).toBe(95);
  expect(levelAt(120, 300)).toBeNull();
  expect(levelAt(120, 700)?.high).toBe(120);
});

test('where water boils on most jobs a floor has to last longer, and be flatter', () => {
  const levelAt = (pressurePa: number, lengthS: number, power: number) =>
    levelOf(
      everySecond((t) => pressurePa * (t / lengthS) ** -power, lengthS),
      0,
      DEFAULT_SHEET.targetPa,
    );
  expect(levelAt(300, 700, 0.01)).not.toBeNull();
  expect(levelAt(500, 1400, 0)).toBeNull();
  expect(levelAt(300, 1600, 0.03)).not.toBeNull();
  expect(levelAt(500, 1600, 0)).not.toBeNull();
  expect(levelAt(500, 1600, 0.03)).toBeNull();
});

test('where ice may stand, what came down much faster a while ago is no floor yet', () => {
  // Down until four tenths of its age, flat from then on; needed is ln 3/ln(28800/1500) = 0.37.
  const curve = (power: number) => everySecond((t) => 200 * Math.max(600 / t, 1) ** power, 1500);
  const { targetPa } = DEFAULT_SHEET;
  expect(levelOf(curve(0.2), 0, targetPa)).not.toBeNull();
  expect(levelOf(curve(2), 0, targetPa)).toBeNull();
});

test('a pull-down by parts of its age is the same at every later moment', () => {
  const samples = everySecond((t) => 5000 / t, 3000).map((point) => ({ ...point, count: 1 }));
  const at = (nowS: number) =>
    agedPoints(
      samples.filter(({ elapsedS }) => elapsedS <= nowS),
      0,
      nowS,
    );
  const late = at(3000);
  for (const nowS of [40, 333, 1999]) {
    const early = at(nowS);
    expect(late.slice(0, early.length)).toEqual(early);
    expect(early.at(-1)?.elapsedS).toBeGreaterThan(0.95 * nowS);
  }
  expect(late.length).toBeLessThan(300);
});

test('once called, a level is called off by a fall that leads to the target, and by no other', () => {
  // Twenty minutes at 300 Pa, then t^−power: 1.5/ln(28800/1500) = 0.51 would be there in eight hours.
  const curve = (power: number, lengthS: number) =>
    everySecond((t) => (t < 1200 ? 300 : 300 * (t / 1200) ** -power), lengthS);
  const { targetPa } = DEFAULT_SHEET;
  expect(levelOf(curve(0.3, 1500), 0, targetPa)).not.toBeNull();
  expect(levelOf(curve(0.3, 4000), 0, targetPa)).not.toBeNull();
  expect(levelOf(curve(0.9, 1500), 0, targetPa)).toBeNull();
  // The same without what went before.
  const falling = everySecond((t) => 300 * (t / 1200) ** -0.3, 4000);
  expect(levelOf(falling, 0, targetPa)).toBeNull();
});
