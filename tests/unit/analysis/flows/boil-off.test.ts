/** The plateau on which water boiled: its length, its pressure and what lies under it. */
import { boilOff } from '../../../../web/analysis/flows/boil-off.ts';
import { History } from '../../../../web/analysis/readings/history.ts';
import { describe, expect, test } from 'vitest';

/** @returns the plateau of a curve that is read each second, or where it is read at all */
function plateauOf(
  pressureAt: (t: number) => number,
  lengthS: number,
  isRead: (t: number) => boolean = () => true,
  pulled = { fromS: -1, toS: lengthS },
) {
  const history = new History();
  for (let elapsedS = 1; elapsedS <= lengthS; elapsedS += 1) {
    if (!isRead(elapsedS)) continue;
    const pressurePa = pressureAt(elapsedS);
    history.insert({ elapsedS, pressurePa, condition: 'ok', temperatureC: null });
  }
  return boilOff(history, pulled);
}

/** Down to a plateau from 200 s on, and on from its end. */
const boiling =
  (untilS: number, levelAt: (t: number) => number = () => 500, steepness = 0.02) =>
  (t: number) => {
    if (t < 200) return levelAt(200) * Math.exp((200 - t) * 0.03);
    return t <= untilS ? levelAt(t) : levelAt(untilS) * Math.exp((untilS - t) * steepness);
  };

describe('a plateau', () => {
  test('is as long as it stood, to within its blocks, with all that lies under it', () => {
    const found = plateauOf(boiling(800), 1000);
    expect(found?.fromS).toBeGreaterThan(150);
    expect(found?.fromS).toBeLessThan(260);
    expect(found?.toS).toBeGreaterThan(750);
    expect(found?.toS).toBeLessThan(850);
    expect(found?.pressurePa).toBeCloseTo(500, 6);
    const within = plateauOf(
      boiling(800, () => 500, 5),
      1000,
    );
    const lengthS = (within?.toS ?? NaN) - (within?.fromS ?? NaN);
    expect((within?.integralPaS ?? NaN) / (500 * lengthS)).toBeCloseTo(1, 2);
  });

  test('that sinks slowly has the area under its line', () => {
    const sinking = (t: number) => 560 - 0.1 * t;
    const found = plateauOf(boiling(900, sinking), 1100);
    const [fromS, toS] = [Math.max(found?.fromS ?? NaN, 200), Math.min(found?.toS ?? NaN, 900)];
    const inner = (toS - fromS) * sinking((fromS + toS) / 2);
    expect((found?.integralPaS ?? NaN) / inner).toBeGreaterThan(0.97);
    expect((found?.integralPaS ?? NaN) / inner).toBeLessThan(1.06);
  });

  test('has the same area whether it is read each second or each ten', () => {
    const often = plateauOf(boiling(900), 1100);
    const seldom = plateauOf(boiling(900), 1100, (t) => t < 400 || t > 950 || t % 10 === 0);
    expect((seldom?.integralPaS ?? NaN) / (often?.integralPaS ?? NaN)).toBeCloseTo(1, 1);
  });

  test('is the longer one of two, whichever comes first', () => {
    const two = (firstS: number, secondS: number) => (t: number) => {
      if (t < 200) return 580 * Math.exp((200 - t) * 0.03);
      if (t < 200 + firstS) return 580;
      if (t < 260 + firstS) return 580 * Math.exp(-(t - 200 - firstS) * 0.01);
      if (t < 260 + firstS + secondS) return 580 * Math.exp(-0.6);
      return 580 * Math.exp(-0.6 - (t - 260 - firstS - secondS) * 0.02);
    };
    expect(plateauOf(two(600, 240), 1300)?.pressurePa).toBeCloseTo(580, 3);
    expect(plateauOf(two(240, 600), 1300)?.pressurePa).toBeCloseTo(580 * Math.exp(-0.6), 3);
  });

  test('goes on over half a minute that is not flat, and ends at a minute of it', () => {
    const kinked = (downS: number) => (t: number) => {
      const gone = Math.min(Math.max(t - 500, 0), downS);
      return boiling(900, () => 600)(t) * Math.exp((-0.05 / 60) * gone);
    };
    const [short, long] = [plateauOf(kinked(60), 1100), plateauOf(kinked(240), 1100)];
    expect((short?.toS ?? NaN) - (short?.fromS ?? NaN)).toBeGreaterThan(600);
    expect((long?.toS ?? NaN) - (long?.fromS ?? NaN)).toBeLessThan(420);
  });
});

describe('no plateau', () => {
  test('is one outside of where water boils', () => {
    expect(
      plateauOf(
        boiling(800, () => 100),
        1000,
      ),
    ).toBeNull();
    expect(
      plateauOf(
        boiling(800, () => 900),
        1000,
      ),
    ).toBeNull();
  });

  test('is one that lasts less than a minute', () => {
    expect(
      plateauOf(
        boiling(225, () => 500, 0.1),
        400,
      ),
    ).toBeNull();
    expect(
      plateauOf(
        boiling(400, () => 500, 0.1),
        500,
      ),
    ).not.toBeNull();
  });

  test('is one that is not over: three readings have to be a quarter below', () => {
    // 0.02/s: a quarter below after 14.4 s.
    expect(plateauOf(boiling(800), 810)).toBeNull();
    expect(plateauOf(boiling(800), 816)).toBeNull();
    expect(plateauOf(boiling(800), 845)).not.toBeNull();
  });

  test('is told of other times than those that were asked about', () => {
    const curve = boiling(800);
    expect(plateauOf(curve, 1000, undefined, { fromS: 790, toS: 1000 })).toBeNull();
    expect(plateauOf(curve, 1000, undefined, { fromS: -1, toS: 700 })).toBeNull();
  });

  test('is told across a long silence', () => {
    const silent = plateauOf(boiling(1000), 1200, (t) => t < 400 || t > 800);
    const lengthS = (silent?.toS ?? 0) - (silent?.fromS ?? 0);
    expect(lengthS).toBeLessThan(300);
  });

  test('is told of nothing at all', () => {
    expect(boilOff(new History(), { fromS: -1, toS: 100 })).toBeNull();
  });
});
