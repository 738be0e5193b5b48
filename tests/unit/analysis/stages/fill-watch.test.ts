/** Watching for a system being filled: out of range, a blank in the readings, or a rush within it. */
import type { TimeBin } from '../../../../web/analysis/readings/bin-level.ts';
import { FillWatch } from '../../../../web/analysis/stages/fill-watch.ts';
import { Trace } from '../../../../web/analysis/stages/trace.ts';
import { describe, expect, test } from 'vitest';

const PUMPED = { heldSinceS: null, fallPerS: 0.02 };
const TOP_PA = 100_000;
const traceOf = (pressureAt: (t: number) => number | null, lengthS: number) =>
  new Trace(
    Array.from({ length: lengthS + 1 }, (_, elapsedS): TimeBin => {
      return {
        elapsedS,
        pressurePa: pressureAt(elapsedS),
        count: 1,
        overRange: 0,
        temperatureC: null,
      };
    }),
  );
/** At 30 Pa for so long: the last reading is at that moment. */
const low = (lengthS: number) => traceOf(() => 30, lengthS);

describe('out of range', () => {
  test('for twenty seconds is filled, since the last reading below', () => {
    const watch = new FillWatch(low(200));
    watch.begin(0);
    expect(watch.isOpen).toBe(false);
    for (let t = 201; t < 221; t += 1)
      expect(watch.above(t, 200, TOP_PA, PUMPED), String(t)).toBeNull();
    expect(watch.isOpen).toBe(true);
    const fill = watch.above(221, 200, TOP_PA, PUMPED);
    expect(fill).toMatchObject({ sinceS: 200, footPa: 30, fast: true, stillRising: false });
  });

  test('is no spike after eight seconds and four readings', () => {
    const watch = new FillWatch(low(200));
    watch.begin(0);
    for (const t of [201, 203, 206]) watch.above(t, 200, TOP_PA, PUMPED);
    expect(watch.isOutOfRange(212)).toBe(false);
    watch.above(208, 200, TOP_PA, PUMPED);
    expect(watch.isOutOfRange(208)).toBe(false);
    expect(watch.isOutOfRange(209)).toBe(true);
    expect(new FillWatch(low(9)).isOutOfRange(500)).toBe(false);
  });

  test('from a stage’s first moment tells no filling: it was not seen to come', () => {
    const watch = new FillWatch(low(200));
    watch.begin(201);
    for (let t = 201; t < 260; t += 1) expect(watch.above(t, 200, TOP_PA, PUMPED)).toBeNull();
  });

  test('after a rise that the pump could have let come is none, below half an atmosphere', () => {
    const slow = traceOf((t) => (t < 100 ? 1500 : 1500 + 5 * (t - 100)), 200);
    const filled = (topPa: number) => {
      const watch = new FillWatch(slow);
      watch.begin(0);
      let last = null;
      for (let t = 201; t <= 240; t += 1) last = watch.above(t, 200, topPa, PUMPED);
      return last;
    };
    expect(filled(2005)).toBeNull();
    expect(filled(60_000)).not.toBeNull();
  });
});

describe('a blank', () => {
  const blank = (lengthS: number) => {
    // 30 Pa up to 200 s, then out of range, and back at 400 Pa.
    const backS = 200 + lengthS;
    const trace = traceOf((t) => (t <= 200 ? 30 : t < backS ? null : 400), backS + 20);
    const watch = new FillWatch(trace);
    watch.begin(0);
    for (let t = 201; t < backS; t += 1) watch.above(t, 200, TOP_PA, PUMPED);
    return { watch, index: 201 };
  };

  test('is over once two readings in four seconds are back', () => {
    const { watch, index } = blank(30);
    expect([0, 1, 2, 3, 4].map((more) => watch.isBlank(index + more))).toEqual([
      true,
      true,
      true,
      true,
      false,
    ]);
    expect(new FillWatch(low(9)).isBlank(3)).toBe(false);
  });

  test('that hid a filling tells it, where it stands eight times as high as before', () => {
    const ended = (lengthS: number, pressurePa: number) => {
      const { watch, index } = blank(lengthS);
      for (const more of [0, 1, 2, 3, 4]) watch.isBlank(index + more);
      const fill = watch.endBlank(pressurePa);
      expect(watch.isOpen).toBe(false);
      expect(watch.endBlank(pressurePa)).toBeNull();
      return fill;
    };
    expect(ended(30, 400)).toMatchObject({ sinceS: 200, footPa: 30, stillRising: false });
    expect(ended(30, 241)).not.toBeNull();
    expect(ended(30, 239)).toBeNull();
    expect(ended(21, 400)).not.toBeNull();
    expect(ended(20, 400)).toBeNull();
  });
});

describe('a rush within the range', () => {
  /** Rises from 30 Pa to a height within some seconds, at 200 s, and goes on as told. */
  const rushed = (heightPa: number, after: (sinceS: number) => number = () => 1, lengthS = 300) => {
    const trace = traceOf(
      (t) =>
        t <= 200
          ? 30
          : t <= 205
            ? 30 + (heightPa - 30) * ((t - 200) / 5)
            : heightPa * after(t - 205),
      lengthS,
    );
    const watch = new FillWatch(trace);
    watch.begin(0);
    for (let index = 0; index < trace.length; index += 1) {
      const fill = watch.within(index, PUMPED);
      if (fill !== null) return { fill, atS: trace.timeS(index), watch };
    }
    return { fill: null, atS: null, watch };
  };

  test('that stays is a filling, twenty seconds later', () => {
    const { fill, atS } = rushed(5000);
    expect(fill).toMatchObject({ fast: true });
    expect(fill?.sinceS).toBeGreaterThanOrEqual(198);
    expect(fill?.sinceS).toBeLessThanOrEqual(202);
    expect(atS).toBeGreaterThan(218);
    expect(atS).toBeLessThan(230);
  });

  test('of less than eight times, or to less than 2000 Pa at rest, is none', () => {
    expect(rushed(200).fill).toBeNull();
    const atOnce = (heightPa: number) => {
      const trace = traceOf((t) => (t <= 200 ? 30 : heightPa), 260);
      const watch = new FillWatch(trace);
      watch.begin(0);
      return Array.from({ length: 261 }, (_, index) => watch.within(index, PUMPED)).some(
        (fill) => fill !== null,
      );
    };
    expect([1900, 2100].map(atOnce)).toEqual([false, true]);
  });

  test('that goes on rising is one at any height, and said to rise still', () => {
    const { fill } = rushed(600, (sinceS) => 1 + sinceS / 30);
    expect(fill).toMatchObject({ stillRising: true });
  });

  test('that falls back is none, and its beginning is told once', () => {
    const { fill, watch } = rushed(5000, (sinceS) => Math.exp(-sinceS / 20));
    expect(fill).toBeNull();
    const atS = watch.takeFellBack();
    expect(atS).toBeGreaterThan(197);
    expect(atS).toBeLessThan(203);
    expect(watch.takeFellBack()).toBeNull();
  });

  test('is being watched meanwhile, and forgotten where a stage begins', () => {
    const trace = traceOf((t) => (t <= 200 ? 30 : 5000), 210);
    const watch = new FillWatch(trace);
    watch.begin(0);
    for (let index = 0; index <= 205; index += 1) watch.within(index, PUMPED);
    expect(watch.rushing).toBe(true);
    const copy = new FillWatch(trace);
    copy.become(watch);
    expect(copy.rushing).toBe(true);
    watch.begin(205);
    expect(watch.rushing).toBe(false);
    expect(copy.rushing).toBe(true);
  });

  test('needs a minute before it in the same stage', () => {
    const trace = traceOf((t) => (t <= 200 ? 30 : 5000), 260);
    const watch = new FillWatch(trace);
    watch.begin(180);
    const fills = Array.from({ length: 60 }, (_, n) => watch.within(180 + n, PUMPED));
    expect(fills.every((fill) => fill === null)).toBe(true);
  });
});
