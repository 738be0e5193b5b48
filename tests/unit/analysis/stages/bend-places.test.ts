/** Where a bend may lie in a stretch, what is told of it, and how the watch comes to it as the curve goes on. */
import { BendWatch } from '../../../../web/analysis/stages/bend-watch.ts';
import { bendIn, type Bend } from '../../../../web/analysis/stages/bend.ts';
import { Trace } from '../../../../web/analysis/stages/trace.ts';
import { normal, seeded } from '../../../support/invented-curves.ts';
import { describe, expect, test } from 'vitest';

function traceOf(logAt: (second: number) => number, lengthS: number, sigma = 0) {
  const random = seeded(5);
  return new Trace(
    Array.from({ length: lengthS }, (_, second) => ({
      elapsedS: second,
      pressurePa: Math.exp(logAt(second) + sigma * normal(random)),
      ...{ count: 1, overRange: 0, temperatureC: null },
    })),
  );
}
/** Falling by a per cent a second, and rising by as much from then on. */
const turning = (atS: number) => (second: number) => 6 + 0.01 * Math.abs(second - atS);

describe('a bend', () => {
  /** Two per cent a second each way: out of any doubt. */
  const placeIn = (atS: number, lengthS: number) =>
    bendIn(
      traceOf((s) => 9 + 0.02 * Math.abs(s - atS), lengthS),
      0,
      lengthS,
      1,
    )?.atS;

  test('lies between three readings and three, and no nearer to an end', () => {
    for (const atS of [2, 3, 10, 15, 16]) {
      expect(placeIn(atS, 20), String(atS)).toBeCloseTo(atS, 6);
    }
    expect(placeIn(1, 40)).toBeCloseTo(2, 6);
    expect(placeIn(37, 40)).toBeCloseTo(36, 6);
  });

  test('is none of a handful of readings', () => {
    for (const lengthS of [3, 5, 7]) expect(placeIn(3, lengthS)).toBeUndefined();
    expect(placeIn(3, 10)).toBeCloseTo(3, 6);
  });

  test('is told with its slopes, its pressure, and how far the curve has gone since', () => {
    const bend = bendIn(traceOf(turning(30), 48), 0, 48, 1);
    expect(bend?.beforePerS).toBeCloseTo(-0.01, 4);
    expect(bend?.afterPerS).toBeCloseTo(0.01, 4);
    expect(bend?.since).toBeCloseTo(0.17, 2);
    // Half a pascal is added before the logarithm is taken.
    expect(bend?.log).toBeCloseTo(Math.log(Math.exp(6) + 0.5), 3);
    expect(bend?.lengthS).toBe(47);
    expect(bend?.dip).toBeCloseTo(0, 4);
    // Shorter than three minutes, a gentle bend is a parabola.
    expect(bend?.sharpness).toBe(Infinity);
  });

  test('is told by its place in the curve, wherever the stretch begins', () => {
    const trace = traceOf(turning(130), 200);
    const bend = bendIn(trace, 100, 148, 1);
    expect(bend?.atS).toBeCloseTo(130, 6);
    expect(bend?.lengthS).toBe(47);
  });
});

describe('the watch', () => {
  /** The first bend that it shows, and when. */
  function first(trace: Trace, length: number, sign: 1 | -1, watch = new BendWatch(trace, sign)) {
    for (let index = 0; index < length; index += 1) {
      const bend = watch.find<Bend>(index, (one) => one);
      if (bend !== null) return { index, bend };
    }
    return null;
  }

  test('comes to a bend within a minute, where it was', () => {
    for (const sign of [1, -1] as const) {
      const curve = (second: number) => 6 + sign * 0.005 * Math.abs(second - 200);
      const found = first(traceOf(curve, 300, 0.002), 300, sign);
      expect(found?.index).toBeGreaterThan(200);
      expect(found?.index).toBeLessThan(260);
      expect(Math.abs((found?.bend.atS ?? 0) - 200)).toBeLessThan(10);
      // The other way there is none.
      expect(first(traceOf(curve, 300, 0.002), 300, sign === 1 ? -1 : 1)).toBeNull();
    }
  });

  test('has none of a straight line, nor of one that has only moved by half a per cent', () => {
    expect(
      first(
        traceOf((s) => 6 - 0.005 * s, 400, 0.002),
        400,
        1,
      ),
    ).toBeNull();
    const faint = (second: number) => 6 + 1e-5 * Math.max(second - 100, 0);
    expect(first(traceOf(faint, 300), 300, 1)).toBeNull();
  });

  test('comes to the end of a fall too, and not to a fall that only slows down', () => {
    const after = (perS: number) => (s: number) =>
      7 - 0.005 * Math.min(s, 200) + perS * Math.max(s - 200, 0);
    const found = first(traceOf(after(0.0002), 300, 0.002), 300, 1);
    expect(found?.index).toBeGreaterThan(200);
    expect(found?.index).toBeLessThan(240);
    expect(first(traceOf(after(-0.0015), 300, 0.002), 300, 1)).toBeNull();
  });

  test('looks at nothing before where it began', () => {
    const trace = traceOf(turning(100), 160, 0.002);
    const watch = new BendWatch(trace, 1);
    watch.begin(105);
    expect(first(trace, 160, 1, watch)).toBeNull();
  });

  test('goes on from another one as that would', () => {
    const trace = traceOf(turning(200), 300, 0.004);
    const [one, other] = [new BendWatch(trace, 1), new BendWatch(trace, 1)];
    for (let index = 0; index < 195; index += 1) one.find(index, () => null);
    other.become(one);
    const [found, same] = [one, other].map((watch) => {
      for (let index = 195; index < 300; index += 1) {
        const bend = watch.find<Bend>(index, (it) => it);
        if (bend !== null) return { index, bend };
      }
      return null;
    });
    expect(found).not.toBeNull();
    expect(same).toEqual(found);
  });

  test('goes on where the caller is not pleased', () => {
    const trace = traceOf(turning(200), 400, 0.002);
    const watch = new BendWatch(trace, 1);
    let shown = 0;
    for (let index = 0; index < 400; index += 1) {
      watch.find(index, () => {
        shown += 1;
        return null;
      });
    }
    expect(shown).toBeGreaterThan(2);
  });
});
