/** A rise that began too gently for a bend to show: told once it has gone on for long, and no earlier. */
import type { TimeBin } from '../../../../web/analysis/readings/bin-level.ts';
import { SlowRise } from '../../../../web/analysis/stages/slow-rise.ts';
import { Trace } from '../../../../web/analysis/stages/trace.ts';
import { normal, seeded } from '../../../support/invented-curves.ts';
import { describe, expect, test } from 'vitest';

/** The first moment at which it is told, s, and where the bend is; null: never. */
function told(pressureAt: (t: number) => number, lengthS: number, { from = 0, stepS = 2 } = {}) {
  const random = seeded(2);
  const bins = Array.from({ length: lengthS / stepS + 1 }, (_, n): TimeBin => {
    const pressurePa = pressureAt(n * stepS) * Math.exp(0.002 * normal(random));
    return { elapsedS: n * stepS, pressurePa, count: 1, overRange: 0, temperatureC: null };
  });
  const trace = new Trace(bins);
  const rise = new SlowRise(trace);
  rise.begin(from);
  for (let index = from; index < trace.length; index += 1) {
    const risen = rise.look(index);
    if (!risen?.fromTheFirst && !risen?.bend) continue;
    const { bend, fromTheFirst } = risen;
    return { atS: trace.timeS(index), bendS: bend?.atS ?? null, fromTheFirst };
  }
  return null;
}

/** Falls to 30 Pa, and from 1200 s on rises ever less gently. */
const gentle = (t: number) =>
  30 + 3000 * Math.exp(-t / 100) + (t > 1200 ? 2e-5 * (t - 1200) ** 2 : 0);

describe('a gentle rise', () => {
  test('is told once it is a third above the lowest, with a bend near where it began', () => {
    const found = told(gentle, 2400);
    // 0.3 in ln P are 35 %, ten pascals: at some 1200 + √(10/2e-5) s.
    expect(found?.atS).toBeGreaterThan(1850);
    expect(found?.atS).toBeLessThan(2250);
    expect(found?.bendS).toBeGreaterThan(1100);
    expect(found?.bendS).toBeLessThan(found?.atS ?? 0);
    expect(found?.fromTheFirst).toBe(false);
  });

  test('without a bend, and without anything before it, has risen from the first on', () => {
    expect(told((t) => 3 + 0.03 * t, 900)).toMatchObject({ fromTheFirst: true });
    expect(told((t) => 30 * Math.exp((0.25 * t) / 900), 900)).toBeNull();
  });

  test('is none while it is small, or a fall', () => {
    expect(told(gentle, 1700)).toBeNull();
    expect(told((t) => 30 + 3000 * Math.exp(-t / 400), 3000)).toBeNull();
    expect(told(() => 30, 3000)).toBeNull();
  });

  test('that came to rest again is none: warmth made it', () => {
    // Up by a third over some minutes, while nobody looked; then level.
    const warmed = (t: number) => 30 * Math.exp(0.36 * Math.min(Math.max((t - 600) / 400, 0), 1));
    const soon = told(warmed, 990);
    expect(soon === null || soon.atS > 900).toBe(true);
    const levelled = (t: number) => warmed(Math.min(t, 930));
    expect(told(levelled, 3000)).toBeNull();
  });

  test('by a jump is none: that is something else', () => {
    expect(told((t) => (t < 1200 ? 30 : 45), 1260)).toBeNull();
  });

  test('counts from where it was told to begin', () => {
    const deepAtFirst = (t: number) => (t < 100 ? 10 : 30);
    expect(told(deepAtFirst, 3000, { from: 100 })).toBeNull();
  });
});

test('goes on from where another one is', () => {
  const random = seeded(2);
  const bins = Array.from({ length: 1201 }, (_, n): TimeBin => {
    const pressurePa = gentle(2 * n) * Math.exp(0.002 * normal(random));
    return { elapsedS: 2 * n, pressurePa, count: 1, overRange: 0, temperatureC: null };
  });
  const trace = new Trace(bins);
  const [one, copy] = [new SlowRise(trace), new SlowRise(trace)];
  one.begin(0);
  let found: number | null = null;
  let foundByCopy: number | null = null;
  for (let index = 0; index < trace.length; index += 1) {
    if (index === 700) copy.become(one);
    if (one.look(index)?.bend) found ??= index;
    if (index >= 700 && copy.look(index)?.bend) foundByCopy ??= index;
  }
  expect(found).not.toBeNull();
  expect(foundByCopy).toBe(found);
});
