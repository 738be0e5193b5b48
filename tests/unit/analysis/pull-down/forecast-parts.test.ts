/** What a forecast is made from: which part of the curve, which depth, what age; and where there is none. */
import { DEFAULT_SHEET } from '../../../../protocol/sheet.ts';
import {
  forecastPullDown,
  type PullDownSeen,
} from '../../../../web/analysis/pull-down/forecast.ts';
import { agedPoints, pullDownPoints } from '../../../../web/analysis/pull-down/pull-down-points.ts';
import { describe, expect, test } from 'vitest';

/** A second apart and exact; `sinceS` is the pump, or the last change of the rig. */
function seenOf(
  curve: (elapsedS: number) => number,
  nowS: number,
  change: Partial<PullDownSeen> = {},
): PullDownSeen {
  const sinceS = change.sinceS ?? 0;
  const samples = Array.from({ length: nowS }, (_, i) => ({
    ...{ elapsedS: i + 1, pressurePa: curve(i + 1), count: 1 },
  }));
  const since = samples.filter(({ elapsedS }) => elapsedS > sinceS);
  return {
    ...{ sinceS, nowS },
    points: pullDownPoints(since, nowS),
    allPoints: pullDownPoints(samples, nowS),
    agedPoints: agedPoints(since, sinceS, nowS),
    pressurePa: curve(nowS),
    isOverRange: false,
    relativeRatePerS: Math.log(curve(nowS) / curve(nowS - 5)) / 5,
    ...{ targetReachedS: null, isolationDepthReachedS: null },
    ...change,
  };
}
const forecastOf = (seen: PullDownSeen, sheet: Partial<typeof DEFAULT_SHEET> = {}) =>
  forecastPullDown(seen, [], { ...DEFAULT_SHEET, ...sheet });
const falling = (t: number) => 30 + 3e4 * Math.exp(-t / 80);

describe('the part of the curve that tells what follows', () => {
  test('is what came after a plateau, once that is over', () => {
    // Ten minutes of boiling, then 30 + 570·e^(−t/60): at the target after 60·ln(570/36.66) = 164.6 s.
    const curve = (t: number) => (t < 600 ? 600 : 30 + 570 * Math.exp(-(t - 600) / 60));
    const { outcome, floorPa, remaining, curve: band } = forecastOf(seenOf(curve, 690));
    expect(outcome).toBe('reaches');
    expect(floorPa?.estimate).toBeLessThan(66);
    expect(remaining?.p10S).toBeLessThan(74.6);
    expect(remaining?.p50S).toBeGreaterThan(50);
    expect(remaining?.p50S).toBeLessThan(150);
    expect(band.length).toBeGreaterThan(10);
  });

  test('is all of it just after a change of the rig, until there is enough since', () => {
    const before = forecastOf(seenOf(falling, 420));
    const changed = forecastOf(seenOf(falling, 420, { sinceS: 418 }));
    expect(changed.floorPa).toEqual(before.floorPa);
    expect(changed.remaining?.p10S).toBeCloseTo(before.remaining?.p10S ?? NaN, 0);
    expect(changed.remaining?.p50S).toBeCloseTo(before.remaining?.p50S ?? NaN, 0);
    expect(changed.curve.length).toBeGreaterThan(10);
  });

  test('is none of a plateau on which water still boils: it may end at any time', () => {
    const curve = (t: number) => Math.max(600, 1e5 * Math.exp(-t / 20));
    const boiling = forecastOf(seenOf(curve, 500));
    expect(boiling).toMatchObject({ outcome: 'reaches', floorPa: null, curve: [] });
    expect(boiling.causes[0]?.cause).toBe('boil_off');
    // Vapour over ice at 600 Pa: a little below 0 °C.
    expect(boiling.boilingPointC ?? NaN).toBeCloseTo(-0.2, 0);
    expect(forecastOf(seenOf(falling, 420)).boilingPointC).toBeNull();
    // Nor does it seem to boil while nobody knows how fast the pressure falls.
    const unknown = seenOf(curve, 500, { relativeRatePerS: null });
    expect(forecastOf(unknown).boilingPointC).toBeNull();
  });
});

describe('what is left', () => {
  const unseen = { points: [], allPoints: [], agedPoints: [] };

  test('on a plateau is over twice its age, and the quickest fall there was', () => {
    // From 600 Pa to the target it is ln(600/66.66) = 2.197 time constants, of which three quarters are sure.
    const left = (tauS: number) =>
      forecastOf(seenOf((t) => Math.max(600, 1e5 * Math.exp(-t / tauS)), 600)).remaining?.p50S ??
      NaN;
    expect(left(20)).toBeGreaterThan(2.25 * 600);
    expect(left(60) - left(20)).toBeGreaterThan(0.9 * 0.75 * 2.197 * 40);
    expect(left(60) - left(20)).toBeLessThan(1.1 * 0.75 * 2.197 * 40);
  });

  test('of a curve that says nothing is 2.5 times its age where gas goes, less where water may boil', () => {
    const left = (pressurePa: number) =>
      forecastOf(seenOf(falling, 100, { ...unseen, pressurePa })).remaining?.p50S;
    expect(left(2000)).toBeCloseTo(250, 6);
    expect(left(600)).toBeCloseTo(225, 6);
  });

  test('may be little of what stands as flat as ice does, and not of what falls as slowly as its age has it', () => {
    // Ice at −18 °C, 125 Pa, that hardly falls, against gas that leaves metal, by t^(−0.6).
    const left = (curve: (t: number) => number) => {
      const { outcome, remaining } = forecastOf(seenOf(curve, 500));
      expect(outcome).toBe('reaches');
      return remaining ?? { p10S: NaN, p50S: NaN, p90S: NaN };
    };
    const onIce = left((t) => 125 * (1 + 800 * Math.exp(-t / 15)) * (1 - t / 3e4));
    const tail = left((t) => 125 * (t / 500) ** -0.6 + 3e4 * Math.exp(-t / 15));
    expect(onIce.p10S).toBeLessThan(0.05 * 500);
    expect(onIce.p50S).toBeLessThan(3 * 500);
    // It is there after 500·(125/66.66)^(1/0.6) = 1423 s.
    expect(tail.p10S).toBeGreaterThan(0.5 * 923);
    expect(tail.p10S).toBeLessThan(923);
  });

  test('is drawn a third beyond the depth to isolate at, or beyond twice the time to the target', () => {
    const drawnS = (isolateAtPa: number) => {
      const { curve } = forecastOf(seenOf(falling, 420), { isolateAtPa });
      return (curve.at(-1)?.elapsedS ?? NaN) - 420;
    };
    // At 60 Pa after 80·ln(3e4/30) = 552.6 s; at the target after 536.6 s, and at 31 Pa far later.
    expect(drawnS(60) / (1.3 * 132.6)).toBeCloseTo(1, 0);
    expect(drawnS(60)).toBeLessThan(1.3 * 160);
    expect(drawnS(31)).toBeGreaterThan(1.3 * 180);
    expect(drawnS(31)).toBeLessThan(2.6 * 140);
  });
});

describe('a depth that is reached', () => {
  const deep = (pressurePa: number) =>
    forecastOf(seenOf(falling, 600, { targetReachedS: 560, pressurePa }));

  test('stays so within five per cent', () => {
    expect(deep(DEFAULT_SHEET.targetPa * 1.04).outcome).toBe('reached');
    expect(deep(DEFAULT_SHEET.targetPa * 1.06).outcome).not.toBe('reached');
    const never = seenOf(falling, 600, { pressurePa: 60 });
    expect(forecastOf(never).outcome).not.toBe('reached');
  });

  test('leaves that to isolate at, as long as that is not reached', () => {
    const { remaining, remainingToIsolation } = deep(60);
    expect(remaining).toBeNull();
    expect(remainingToIsolation).not.toBeNull();
    const both = seenOf(falling, 600, { targetReachedS: 560, isolationDepthReachedS: 590 });
    expect(forecastOf(both, { isolateAtPa: 50 }).remainingToIsolation).toBeNull();
  });

  test('is come to later the deeper it is', () => {
    const { remaining, remainingToIsolation } = forecastOf(seenOf(falling, 420), {
      isolateAtPa: 40,
    });
    expect(remainingToIsolation?.p50S).toBeGreaterThan((remaining?.p50S ?? Infinity) + 40);
    // 80·ln(3e4/10) = 640.5 s.
    expect(remainingToIsolation?.p10S).toBeLessThan(221);
    expect(remainingToIsolation?.p90S).toBeGreaterThan(220);
  });
});

describe('where no pressure is known', () => {
  const blind = (change: Partial<PullDownSeen>) =>
    forecastOf(seenOf(falling, 100, { pressurePa: null, isOverRange: true, ...change }));

  test('gas above the range has 2.5 times its age to go, and a silence its age', () => {
    expect(blind({ nowS: 100 }).remaining?.p50S).toBeCloseTo(250, 6);
    const silent = blind({ nowS: 100, isOverRange: false, allPoints: [], points: [] });
    expect(silent.remaining?.p50S).toBeCloseTo(100, 6);
    // Nothing else is known: by Gott’s law nine of ten are over after nine times the middle.
    expect(blind({ nowS: 100 }).remaining?.p90S).toBeCloseTo(9 * 250, 6);
    expect(silent.remaining?.p90S).toBeCloseTo(900, 6);
    expect(silent.remaining?.p10S).toBeCloseTo(100 / 9, 6);
    for (const { outcome, causes } of [blind({}), silent]) {
      expect(outcome).toBe('too_early');
      expect(causes).toEqual([{ cause: 'sensor', weight: 1 }]);
    }
  });

  test('nothing is said in the first twenty seconds', () => {
    const young = { allPoints: [], points: [] };
    expect(blind({ ...young, nowS: 19 }).remaining).toBeNull();
    expect(blind({ ...young, nowS: 20 }).remaining).not.toBeNull();
    // Nor of a curve that is seen, however fast it falls.
    const seen = (nowS: number) => forecastOf(seenOf((t) => 5000 * Math.exp(-t / 10), nowS));
    expect(seen(19).outcome).toBe('too_early');
    expect(seen(25).outcome).toBe('reaches');
  });

  test('what was heard last stands for ten minutes', () => {
    const heard = (nowS: number) =>
      forecastOf({ ...seenOf(falling, 400, { pressurePa: null }), nowS }).outcome;
    expect(heard(999)).toBe('reaches');
    expect(heard(1001)).toBe('too_early');
  });

  test('and what was heard last is the middle of the latest three', () => {
    const seen = seenOf(falling, 600, { pressurePa: null });
    const odd = seen.allPoints.map((point, i) =>
      i === seen.allPoints.length - 1 ? { ...point, pressurePa: 600 } : point,
    );
    // Were it 600 Pa water would seem to boil.
    const flat = { ...seen, allPoints: odd, relativeRatePerS: 0 };
    expect(forecastOf(flat).causes[0]?.cause).not.toBe('boil_off');
  });
});

describe('a pressure that rises', () => {
  /** By so much a minute, from 300 s on. */
  const rising = (share: number) => (t: number) =>
    100 * Math.exp((Math.log(1 + share) * Math.max(t - 300, 0)) / 60);
  const outcomeOf = (share: number, nowS: number, change: Partial<PullDownSeen> = {}) => {
    const { outcome, causes } = forecastOf(seenOf(rising(share), nowS, change));
    return [outcome, causes.some(({ cause }) => cause === 'rising')];
  };

  test('by more than three per cent a minute, for two minutes, is no pull-down', () => {
    expect(outcomeOf(0.05, 460)).toEqual(['too_early', true]);
    expect(outcomeOf(0.02, 460)[1]).toBe(false);
    // For half a minute so far.
    expect(outcomeOf(0.05, 330)[1]).toBe(false);
  });

  test('is one only while it rises', () => {
    expect(outcomeOf(0.05, 460, { relativeRatePerS: 0 })[1]).toBe(false);
    expect(outcomeOf(0.05, 460, { relativeRatePerS: null })[1]).toBe(false);
  });
});
