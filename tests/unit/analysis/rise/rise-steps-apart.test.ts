/** Steps of a rise that are near one another, in short holds, beside a display's own steps. */
import { riseSteps } from '../../../../web/analysis/rise/rise-steps.ts';
import { normal, seeded } from '../../../support/invented-curves.ts';
import { describe, expect, test } from 'vitest';

interface Seen {
  readonly everyS?: number;
  readonly lengthS?: number;
  readonly sigmaPa?: number;
  readonly displayPa?: number;
  readonly risePaPerS?: number;
}
type Jump = readonly [atS: number, sizePa: number];

function stepsOf(jumps: readonly Jump[], seen: Seen = {}) {
  const { everyS = 1, lengthS = 500, sigmaPa = 0.05, displayPa = 0, risePaPerS = 0.02 } = seen;
  const random = seeded(4);
  const samples = Array.from({ length: Math.floor(lengthS / everyS) + 1 }, (_, i) => {
    const elapsedS = i * everyS;
    const jumpedPa = jumps.reduce((sum, [atS, pa]) => sum + (elapsedS >= atS ? pa : 0), 0);
    const truePa = 40 + risePaPerS * elapsedS + jumpedPa + sigmaPa * normal(random);
    const pressurePa = displayPa > 0 ? Math.round(truePa / displayPa) * displayPa : truePa;
    return { elapsedS, pressurePa, count: 1 };
  });
  return riseSteps(samples, 0);
}
/** Where medians are compared a step is placed within half of them: to twenty seconds of readings a second apart. */
const told = (jumps: readonly Jump[], seen: Seen = {}) =>
  stepsOf(jumps, seen).map(({ toS, sizePa }) => [20 * Math.round(toS / 20), Math.round(sizePa)]);

describe('two steps', () => {
  const [small, large] = [8, 20];

  test('within half a minute are told once, as the larger, whichever comes first', () => {
    const [first, second] = [200, 220];
    expect(
      told([
        [first, small],
        [second, large],
      ]),
    ).toEqual([[second, large]]);
    expect(
      told([
        [first, large],
        [second, small],
      ]),
    ).toEqual([[first, large]]);
  });

  test('further apart are two, in order of time', () => {
    for (const second of [240, 400]) {
      const rising = told([
        [200, small],
        [second, large],
      ]);
      expect(rising).toEqual([
        [200, small],
        [second, large],
      ]);
      const falling = told([
        [200, large],
        [second, small],
      ]);
      expect(falling).toEqual([
        [200, large],
        [second, small],
      ]);
    }
  });
});

describe('a step', () => {
  test('is found in a short hold of few readings: what is around it is no noise', () => {
    expect(told([[100, 10]], { everyS: 5, lengthS: 195 })).toEqual([[100, 10]]);
  });

  test('is none in the first 25 seconds, when the valve itself makes one', () => {
    expect(told([[15, 20]])).toEqual([]);
    expect(told([[40, 20]])).toEqual([[40, 20]]);
  });

  test('is found once, by a slow gauge and by a quick one', () => {
    for (const everyS of [0.25, 1, 5, 15]) {
      const found = told([[100 + 60 * everyS, 10]], { everyS, lengthS: 200 + 120 * everyS });
      expect(found, String(everyS)).toHaveLength(1);
    }
  });

  test('lies between two readings that follow one another, half a window from it at most', () => {
    const [step] = stepsOf([[250, 10]], { everyS: 5 });
    expect(Math.abs((step?.toS ?? 0) - 250)).toBeLessThanOrEqual(25);
    expect(step?.fromS).toBe((step?.toS ?? 0) - 5);
  });

  test('of two of a display’s own is none, of four it is one', () => {
    const display = { displayPa: 5, sigmaPa: 0, risePaPerS: 0.1 };
    expect(told([[200, 10]], display)).toEqual([]);
    expect(stepsOf([[200, 20]], display)).toHaveLength(1);
  });

  test('stands out of the noise by eight times that of what is compared', () => {
    // Medians of four: some 0.55 of a reading's deviation each; less two others' mean: 0.55·√3.
    expect(told([[250, 10]], { sigmaPa: 0.4 })).toHaveLength(1);
    expect(told([[250, 5]], { sigmaPa: 1.5 })).toEqual([]);
  });

  test('is half as large again as what the curve itself does in as long', () => {
    // 2 Pa/s: 8 Pa over four readings.
    expect(told([[100, 10]], { risePaPerS: 2 })).toEqual([]);
    expect(told([[100, 15]], { risePaPerS: 2 })).toHaveLength(1);
  });

  test('is none of those that come and go, as where it bubbles', () => {
    const swinging = Array.from({ length: 500 }, (_, elapsedS) => ({
      ...{ elapsedS, pressurePa: 40 + 2 * Math.sin((2 * Math.PI * elapsedS) / 17), count: 1 },
    }));
    expect(riseSteps(swinging, 0)).toEqual([]);
  });
});
