/** Whether a system dries from one evacuation to the next, and when that can’t be told. */
import type { Cycle } from '../../../../web/analysis/cycles/evacuation-cycles.ts';
import { moistureTrend } from '../../../../web/analysis/cycles/moisture-trend.ts';
import { historyOf, normal, seeded } from '../../../support/invented-curves.ts';
import { describe, expect, test } from 'vitest';

interface Hold {
  readonly lengthS?: number;
  readonly startPa?: number;
  /** Levels off by that much, with that time constant; a leak beside it. */
  readonly amountPa?: number;
  readonly tauS?: number;
  readonly leakPaPerS?: number;
  readonly temperatureC?: number | null;
  readonly silent?: boolean;
}

const CYCLE_S = 2000;

function trendOf(...holds: readonly Hold[]) {
  const random = seeded(11);
  const all = holds.map((hold) => ({
    ...{ lengthS: 600, startPa: 40, amountPa: 60, tauS: 200, leakPaPerS: 0, temperatureC: 20 },
    ...{ silent: false, ...hold },
  }));
  const history = historyOf(
    Array.from({ length: holds.length * CYCLE_S }, (_, elapsedS) => {
      const hold = all[Math.floor(elapsedS / CYCLE_S)];
      if (hold === undefined) throw new Error('there is a hold');
      const heldS = (elapsedS % CYCLE_S) - 1000;
      const risenPa =
        heldS <= 0
          ? 0
          : hold.amountPa * (1 - Math.exp(-heldS / hold.tauS)) + hold.leakPaPerS * heldS;
      const isSeen = !hold.silent || heldS < 100;
      return {
        elapsedS,
        pressurePa: isSeen ? hold.startPa + risenPa + 0.05 * normal(random) : null,
        condition: isSeen ? ('ok' as const) : ('over_range' as const),
        temperatureC: null,
      };
    }),
  );
  const cycles = all.map(({ lengthS }, at): Cycle => {
    const fromS = at * CYCLE_S;
    const long = { fromS: fromS + 1000, toS: fromS + 1000 + lengthS };
    return {
      ...{ fromS, toS: fromS + CYCLE_S, depthPa: 30, endPa: null, isBroken: true },
      ...{ brokenToPa: 101_325, unmarkedFill: 'none', restedFills: [] },
      // A short hold of the same cycle counts for nothing.
      holds:
        at % 2 === 0
          ? [{ fromS: fromS + 800, toS: fromS + 860 }, long]
          : [long, { fromS: fromS + 1800, toS: fromS + 1850 }],
    };
  });
  const temperatureAt = (fromS: number) => all[Math.floor(fromS / CYCLE_S)]?.temperatureC ?? null;
  return moistureTrend(history, cycles, temperatureAt);
}

const why = (...holds: readonly Hold[]) => {
  const trend = trendOf(...holds);
  return trend.kind === 'unlike' ? trend.why : trend.kind;
};

describe('two rises or more', () => {
  test('that become smaller are drying, that stay the same are not, and more is more', () => {
    expect(trendOf({}, { amountPa: 30 }).kind).toBe('drying');
    expect(trendOf({}, { amountPa: 30 }, { amountPa: 15 }).kind).toBe('drying');
    expect(trendOf({}, { amountPa: 30 }, { amountPa: 30 }).kind).toBe('same');
    expect(trendOf({}, {}).kind).toBe('same');
    expect(trendOf({ amountPa: 30 }, {}).kind).toBe('more');
    expect(trendOf({}, { amountPa: 30 }, { amountPa: 45 }).kind).toBe('more');
  });

  test('are compared at the same moment, half a minute after valve-off on', () => {
    const trend = trendOf({}, { amountPa: 30, lengthS: 500 });
    if (trend.kind !== 'drying') throw new Error(trend.kind);
    // The shorter one, less the seconds by which a reopening is marked late.
    expect(trend.atS).toBe(485);
    const risen = (amountPa: number) => amountPa * (Math.exp(-30 / 200) - Math.exp(-485 / 200));
    const [first, second] = trend.holds;
    expect(first?.risenPa?.estimate).toBeCloseTo(risen(60), 0);
    expect(second?.risenPa?.estimate).toBeCloseTo(risen(30), 0);
    for (const { risenPa } of trend.holds) {
      expect(risenPa?.low).toBeLessThan(risenPa?.estimate ?? NaN);
      expect((risenPa?.high ?? NaN) - (risenPa?.estimate ?? NaN)).toBeCloseTo(
        (risenPa?.estimate ?? NaN) - (risenPa?.low ?? NaN),
        9,
      );
    }
    expect(first).toMatchObject({ fromS: 1000, lengthS: 600, temperatureC: 20 });
    expect(second).toMatchObject({ fromS: 3000, lengthS: 500 });
    expect(first?.startPa?.estimate).toBeCloseTo(40, 0);
  });

  test('level off where their second half adds much less than the first', () => {
    const levelling = (...holds: readonly Hold[]) => {
      const trend = trendOf(...holds);
      return 'levelling' in trend ? trend.levelling : trend.kind;
    };
    expect(levelling({}, { amountPa: 30 })).toBe(true);
    const straight = { amountPa: 0, leakPaPerS: 0.1 };
    expect(levelling(straight, { ...straight, leakPaPerS: 0.05 })).toBe(false);
    expect(levelling({}, straight)).toBe(false);
  });
});

describe('no comparison', () => {
  test('of one evacuation with a hold, or none', () => {
    expect(trendOf().kind).toBe('too_few');
    expect(trendOf({}).kind).toBe('too_few');
  });

  test('where one was shorter than four minutes', () => {
    expect(why({ lengthS: 239 }, { lengthS: 239 })).toEqual(['too_short']);
    expect(why({ lengthS: 240 }, { lengthS: 240, amountPa: 20 })).toBe('drying');
  });

  test('where one was half as long again', () => {
    expect(why({ lengthS: 600 }, { lengthS: 399 })).toEqual(['length']);
    expect(why({ lengthS: 600 }, { lengthS: 401, amountPa: 20 })).toBe('drying');
  });

  test('where they began apart, unless that is little to what they rose', () => {
    expect(why({ startPa: 40 }, { startPa: 62 })).toEqual(['start']);
    expect(why({ startPa: 40 }, { startPa: 59, amountPa: 20 })).toBe('drying');
    expect(why({ startPa: 2, amountPa: 100 }, { startPa: 6, amountPa: 60 })).toBe('drying');
    expect(why({ startPa: 2, amountPa: 20 }, { startPa: 6, amountPa: 10 })).toEqual(['start']);
  });

  test('where one was warmer by more than two kelvin, or nobody measured that', () => {
    expect(why({ temperatureC: 20 }, { temperatureC: 22.1 })).toEqual(['temperature']);
    expect(why({ temperatureC: 20 }, { temperatureC: 22, amountPa: 20 })).toBe('drying');
    expect(why({ temperatureC: null }, {})).toEqual(['temperature_unknown']);
  });

  test('for several reasons at once, each said', () => {
    expect(why({ lengthS: 200, temperatureC: null }, { startPa: 90 })).toEqual([
      ...['too_short', 'start', 'length', 'temperature_unknown'],
    ]);
  });

  test('where one was not seen to its end: nothing is claimed', () => {
    const trend = trendOf({}, { amountPa: 30, silent: true });
    expect(['same', 'unlike']).toContain(trend.kind);
    expect('holds' in trend ? trend.holds[1]?.risenPa : undefined).toBeNull();
  });
});
