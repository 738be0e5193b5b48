/** Whether a curve levels off, on curves by formula. */
import { DEFAULT_SHEET } from '../../../../protocol/sheet.ts';
import { levelOf } from '../../../../web/analysis/pull-down/levelling.ts';
import { agedPoints } from '../../../../web/analysis/pull-down/pull-down-points.ts';
import { expect, test } from 'vitest';

/** Every second, exact. */
const everySecond = (curve: (elapsedS: number) => number, lengthS: number) =>
  Array.from({ length: lengthS }, (_, i) => ({ elapsedS: i + 1, pressurePa: curve(i + 1) }));

test('a flat stretch counts as a floor, one that rises does not, however low', () => {
  const { targetPa } = DEFAULT_SHEET;
  for (const pressurePa of [90, 300]) {
    const flat = everySecond(() => pressurePa, 1200);
    expect(levelOf(flat, 0, targetPa)?.high).toBe(pressurePa);
    const rising = everySecond((t) => pressurePa * (1 + t / 60_000), 1200);
    expect(levelOf(rising, 0, targetPa)).toBeNull();
  }
});

/** Falling with a power of time to a pressure, which it has at the end. */
const levelAt = (pressurePa: number, lengthS: number, power = 0) =>
  levelOf(
    everySecond((t) => pressurePa * (t / lengthS) ** -power, lengthS),
    0,
    DEFAULT_SHEET.targetPa,
  );

test('where ice may stand a floor has to last and be flatter, below that only lead above the target', () => {
  expect(levelAt(95, 300)?.high).toBe(95);
  expect(levelAt(120, 300)).toBeNull();
  expect(levelAt(120, 740)?.high).toBe(120);
  // Needed is ln(95/66.7)/ln(28800/700) = 0.095 below the ice, and ln(200/66.7)/ln(28800/800) = 0.31.
  expect(levelAt(95, 700, 0.06)).not.toBeNull();
  expect(levelAt(95, 700, 0.09)).toBeNull();
  expect(levelAt(200, 800, 0.03)).not.toBeNull();
  expect(levelAt(200, 800, 0.047)).toBeNull();
  expect(levelAt(200, 2400, 0.15)).not.toBeNull();
  expect(levelAt(200, 2400, 0.25)).toBeNull();
});

test('the warmer the ice would be, the longer a floor has to last, and be flatter still', () => {
  expect(levelAt(200, 800, 0.03)).not.toBeNull();
  expect(levelAt(300, 800, 0.03)).toBeNull();
  expect(levelAt(300, 740, 0.01)).not.toBeNull();
  expect(levelAt(500, 1400)).toBeNull();
  expect(levelAt(500, 1800, 0.01)).not.toBeNull();
  expect(levelAt(500, 1800, 0.03)).toBeNull();
  expect(levelAt(500, 3000, 0.03)).toBeNull();
});

test('what has been flat for a moment is no floor yet', () => {
  // Told from a floor after ten minutes at the soonest, it has to stand for a sixth of its age.
  expect(levelAt(120, 700)).toBeNull();
  expect(levelAt(120, 730)).not.toBeNull();
});

test('where ice may stand, what came down much faster a while ago is no floor yet', () => {
  // Down until four tenths of its age, flat from then on; needed is ln 3/ln(28800/1500) = 0.37.
  const curve = (power: number) => everySecond((t) => 200 * Math.max(600 / t, 1) ** power, 1500);
  const { targetPa } = DEFAULT_SHEET;
  expect(levelOf(curve(0.2), 0, targetPa)).not.toBeNull();
  expect(levelOf(curve(2), 0, targetPa)).toBeNull();
});

test('water that cools itself and then is warmed goes through a lowest pressure, and that is no floor', () => {
  const levels = (curve: (elapsedS: number) => number) =>
    Array.from({ length: 30 }, (_, i) => 800 + 50 * i).some(
      (lengthS) => levelOf(everySecond(curve, lengthS), 0, DEFAULT_SHEET.targetPa) !== null,
    );
  for (const bend of [0.2, 0.3, 0.5]) {
    expect(levels((t) => 200 * Math.exp(bend * Math.log(t / 1200) ** 2))).toBe(false);
  }
  // It falls as fast at ten minutes, 2 · 0.2 · ln 2 = 0.28, but goes on ever more slowly.
  expect(levels((t) => 200 * Math.exp(0.28 * (600 / t)))).toBe(true);
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
