/** When a pull-down began, by where the pressure stood, and where it was out of range. */
import { FallStart } from '../../../../web/analysis/stages/fall-start.ts';
import { NEAR_ATMOSPHERE_PA } from '../../../../web/analysis/stages/fill-watch.ts';
import { Trace } from '../../../../web/analysis/stages/trace.ts';
import { describe, expect, test } from 'vitest';

/** What is said at each second of a curve, null above the sensor's range: the first answer, and when. */
function begun(pressureAt: (t: number) => number | null, lengthS: number, fromBeginning = true) {
  const bins = Array.from({ length: lengthS }, (_, elapsedS) => ({
    ...{ elapsedS, pressurePa: pressureAt(elapsedS), count: 1, overRange: 0, temperatureC: null },
  }));
  const trace = new Trace(bins);
  const start = new FallStart(trace);
  for (const { elapsedS, pressurePa } of bins) {
    if (pressurePa === null || pressurePa >= NEAR_ATMOSPHERE_PA) {
      start.above(elapsedS, pressurePa);
      continue;
    }
    start.below(elapsedS, pressurePa);
    const beganS = start.look(trace.firstAfter(elapsedS) - 1, fromBeginning);
    if (beganS !== null) return { beganS, toldS: elapsedS, start };
  }
  return null;
}

const AIR_PA = 101_325;
const from =
  (atS: number, rate: number, levelPa = AIR_PA) =>
  (t: number) =>
    t <= atS ? levelPa : levelPa * Math.exp((atS - t) * rate);

describe('a fall from the atmosphere', () => {
  test('began when it last stood there', () => {
    const found = begun(from(40, 0.05), 200);
    expect(found?.beganS).toBe(40);
    expect(found?.toldS).toBeLessThan(65);
    expect(found?.start.topPa).toBe(AIR_PA);
    expect(found?.start.rangeEndPa).toBe(Infinity);
  });

  test('is told after three readings at seventeen twentieths of it, not after one', () => {
    const low = (isLow: (t: number) => boolean) => (t: number) => (isLow(t) ? 33_900 : 40_000);
    expect(
      begun(
        low((t) => t === 60 || t === 61),
        200,
      ),
    ).toBeNull();
    expect(
      begun(
        low((t) => t >= 60),
        200,
      ),
    ).toMatchObject({ beganS: 59, toldS: 62 });
    const hardly = (t: number) => (t >= 60 ? 34_100 : 40_000);
    expect(begun(hardly, 200)).toBeNull();
  });
});

describe('a fall from a level below the atmosphere', () => {
  test('began when it last stood at it', () => {
    expect(begun(from(50, 0.05, 40_000), 200)?.beganS).toBe(50);
  });

  test('is none as long as it stands there', () => {
    expect(begun(() => 40_000, 500)).toBeNull();
    expect(begun(() => 2600, 500)).toBeNull();
  });
});

describe('a fall into the range', () => {
  /** The sensor reads below 2.7 kPa only. */
  const cut = (curve: (t: number) => number) => (t: number) => (curve(t) > 2700 ? null : curve(t));

  test('began where gas alone would have it', () => {
    // ln(101325/2700)/0.05 = 72.5 s after 40 s it comes into the range.
    const found = begun(cut(from(40, 0.05)), 300);
    expect(found?.beganS).toBeGreaterThan(38);
    expect(found?.beganS).toBeLessThan(42);
    expect(found?.start.rangeEndPa).toBeLessThanOrEqual(2700);
    expect(found?.start.rangeEndPa).toBeGreaterThan(2500);
  });

  test('began where it came into the range, where that lies too low to tell', () => {
    const low = (curve: (t: number) => number) => (t: number) => (curve(t) > 900 ? null : curve(t));
    const cameS = Math.ceil(40 + Math.log(AIR_PA / 900) / 0.05);
    expect(begun(low(from(40, 0.05)), 300)?.beganS).toBe(cameS);
  });
});

describe('a recording that begins in a vacuum', () => {
  test('is in a pull-down once it has been there for half a minute', () => {
    const found = begun(() => 500, 100);
    expect(found?.toldS).toBe(30);
    expect(begun(() => 500, 30)).toBeNull();
    expect(begun(() => 500, 100, false)).toBeNull();
    expect(begun(() => 2500, 100)).toBeNull();
    expect(begun(() => 2499, 100)).not.toBeNull();
  });
});

test('another stage forgets where it stood, and goes on knowing how far the sensor sees', () => {
  const found = begun(from(50, 0.05, 40_000), 200);
  const { start } = found ?? {};
  start?.begin();
  expect(start?.topPa).toBe(40_000);
  start?.above(300, null);
  expect(start?.rangeEndPa).toBe(40_000);
});

test('one that goes on from where another is says the same', () => {
  const bins = Array.from({ length: 120 }, (_, elapsedS) => ({
    ...{ elapsedS, count: 1, overRange: 0, temperatureC: null },
    pressurePa: from(50, 0.05, 40_000)(elapsedS),
  }));
  const trace = new Trace(bins);
  const [whole, first, second] = [new FallStart(trace), new FallStart(trace), new FallStart(trace)];
  const goOn = (start: FallStart, fromS: number, toS: number) => {
    let beganS: number | null = null;
    for (let t = fromS; t < toS; t += 1) {
      start.below(t, trace.pressurePa(t));
      beganS ??= start.look(t, true);
    }
    return beganS;
  };
  const expected = goOn(whole, 0, 120);
  goOn(first, 0, 53);
  second.become(first);
  expect(goOn(second, 53, 120)).toBe(expected);
  expect(second.topPa).toBe(whole.topPa);
});
