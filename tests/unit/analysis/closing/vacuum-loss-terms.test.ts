/** What a rise after a hold is held against, each alone: the hold's own rise, a leak's, its noise, a display's steps. */
import { vacuumLoss } from '../../../../web/analysis/closing/vacuum-loss.ts';
import { History, type HistoryPoint } from '../../../../web/analysis/readings/history.ts';
import { normal, seeded } from '../../../support/invented-curves.ts';
import { describe, expect, test } from 'vitest';

const NO_LEAK = 0;

interface Seen {
  readonly isolatedS?: number;
  readonly judgedS?: number;
  readonly untilS?: number;
  readonly everyS?: number;
  readonly leakLimitPaPerS?: number;
}
type Shown = number | null | HistoryPoint['condition'];

/** @param shownAt what the gauge shows; null: nothing is heard */
function lossIn(shownAt: (elapsedS: number) => Shown, seen: Seen = {}) {
  const { isolatedS = 0, judgedS = 900, untilS = 1100, everyS = 1 } = seen;
  const { leakLimitPaPerS = NO_LEAK } = seen;
  const history = new History();
  for (let elapsedS = 0; elapsedS <= untilS; elapsedS += everyS) {
    const shown = shownAt(elapsedS);
    if (shown === null) continue;
    const [pressurePa, condition] =
      typeof shown === 'number' ? [shown, 'ok' as const] : [null, shown];
    history.insert({ elapsedS, pressurePa, condition, temperatureC: null });
  }
  return vacuumLoss(history, { isolatedS, judgedS }, untilS, leakLimitPaPerS);
}

describe('a step of more than a tenth of the pressure', () => {
  const flat = (stepPa: number) => (s: number) => (s < 1000 ? 40 : 40 + stepPa);

  test('is a loss where the hold stood still, and a smaller one is none', () => {
    expect(lossIn(flat(3.9))).toBeNull();
    expect(lossIn(flat(4.1))).toMatchObject({ atS: 1000, fromPa: 40 });
  });

  test('is none where the hold itself rose by a quarter of it in a minute', () => {
    // 3 Pa a minute, 80 Pa by then: four times 3 is 12, a tenth is 8; half a minute of its own comes on top.
    const rising = (stepPa: number) => (s: number) => 30 + s / 20 + (s < 1000 ? 0 : stepPa);
    expect(lossIn(rising(9))).toBeNull();
    expect(lossIn(rising(12))?.atS).toBe(1000);
  });

  test('is none where twice what counts as a leak would add it in a minute', () => {
    const ofLeak = { leakLimitPaPerS: 5 / 60 };
    expect(lossIn(flat(8), ofLeak)).toBeNull();
    expect(lossIn(flat(12), ofLeak)?.atS).toBe(1000);
  });
});

describe('after a silence', () => {
  /** Ten minutes of it. */
  const away = (s: number) => s > 920 && s < 1520;
  const seen = { untilS: 1600 };

  test('a hold may have risen all the while, by four times what it did before', () => {
    // 3 Pa a minute before, and so many times that in the silence: some 30 Pa each.
    const curve = (times: number) => (s: number) =>
      away(s) ? null : 30 + s / 20 + (s < 1500 ? 0 : ((times - 1) * 600) / 20);
    expect(lossIn(curve(3), seen)).toBeNull();
    expect(lossIn(curve(6), seen)?.atS).toBe(1520);
  });

  test('so may a leak that is let through, twice as fast', () => {
    // 1 Pa a minute is let through: 20 Pa in ten minutes.
    const curve = (risenPa: number) => (s: number) =>
      away(s) ? null : s < 1500 ? 40 : 40 + risenPa;
    const ofLeak = { ...seen, leakLimitPaPerS: 1 / 60 };
    expect(lossIn(curve(15), ofLeak)).toBeNull();
    expect(lossIn(curve(30), ofLeak)?.atS).toBe(1520);
    // It says where it stood before the silence.
    expect(lossIn(curve(30), ofLeak)?.fromPa).toBe(40);
  });
});

describe('a hold too short to show a rise of its own', () => {
  const short = { judgedS: 50, untilS: 90 };

  test('has its noise: what does not stand out of that is no loss', () => {
    // 2 Pa of 40: a tenth is twice that, and eight times it are 16 Pa.
    const noisy = (stepPa: number, seed: number) => {
      const random = seeded(seed);
      return lossIn((s) => 40 + (s < 60 ? 0 : stepPa) + 2 * normal(random), short);
    };
    for (const seed of [1, 2, 3, 4, 5, 6]) {
      expect(noisy(8, seed), String(seed)).toBeNull();
      expect(noisy(40, seed)?.atS, String(seed)).toBeGreaterThanOrEqual(55);
    }
  });

  test('has its display’s steps: two of them are no loss, three are', () => {
    const display = (steps: number) => (s: number) =>
      s >= 60 ? 40 + 5 * steps : s >= 35 && s < 40 ? 45 : 40;
    expect(lossIn(display(2), short)).toBeNull();
    expect(lossIn(display(3), short)?.atS).toBe(60);
  });

  test('and those are the small changes, not the large ones that came by', () => {
    // A pascal every other second; six of them twice.
    const display = (s: number) =>
      s >= 60 ? 49 : 40 + (s >= 35 && s < 39 ? 6 : 0) + (Math.floor(s / 2) % 2);
    expect(lossIn(display, short)?.atS).toBe(60);
  });

  test('tells nothing where next to nothing of its later half was heard', () => {
    const heard = (count: number) => (s: number) =>
      s >= 25 && s <= 50 - count ? null : s < 60 ? 40 : 80;
    expect(lossIn(heard(7), short)).toBeNull();
    expect(lossIn(heard(8), short)?.atS).toBe(60);
  });
});

describe('what is heard of a loss', () => {
  test('is certain with four readings in six seconds, and no sooner', () => {
    const slow = (untilS: number) => lossIn((s) => (s < 1000 ? 40 : 80), { everyS: 2, untilS });
    expect(slow(1004)).toBeNull();
    expect(slow(1006)).toMatchObject({ atS: 1000, knownS: 1006, toPa: expect.closeTo(80, 9) });
    expect(slow(1100)?.knownS).toBe(1006);
  });

  test('is where it stands now, however long it stood elsewhere', () => {
    expect(lossIn((s) => (s < 1000 ? 40 : s < 1095 ? 80 : 120))?.toPa).toBeCloseTo(120, 9);
  });

  test('is no reading that failed: nobody knows how high that was', () => {
    const failing = (s: number): Shown => (s >= 1000 && s < 1020 ? 'fault' : 40);
    expect(lossIn(failing)).toBeNull();
    const over = (s: number): Shown => (s >= 1000 && s < 1020 ? 'over_range' : 40);
    expect(lossIn(over)?.atS).toBe(1000);
  });
});
