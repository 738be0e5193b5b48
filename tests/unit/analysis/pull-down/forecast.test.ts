import type { Mark } from '../../../../protocol/mark.ts';
import { DEFAULT_SHEET } from '../../../../protocol/sheet.ts';
import { judge } from '../../../../web/analysis/judge.ts';
import { rankCauses } from '../../../../web/analysis/pull-down/causes.ts';
import { outlookOf } from '../../../../web/analysis/pull-down/outlook.ts';
import { waterShare } from '../../../../web/analysis/pull-down/plateau.ts';
import { waysFrom } from '../../../../web/analysis/pull-down/prediction.ts';
import { quantileS, remainingFrom } from '../../../../web/analysis/pull-down/remaining.ts';
import { overAfterS, overBy } from '../../../../web/analysis/pull-down/scale-free.ts';
import { historyOf, readingsOf, seeded, QUIET_SENSOR } from '../../../support/invented-curves.ts';
import { expect, test } from 'vitest';

const SENSOR = { ...QUIET_SENSOR, topPa: 2700 };

function conclude(curve: (elapsedS: number) => number, nowS: number, marks: readonly Mark[] = []) {
  const readings = readingsOf(curve, SENSOR, seeded(11), 0, nowS);
  return judge(historyOf(readings), marks, DEFAULT_SHEET, nowS);
}

/** What is said of an exact curve, thinned as the judge thins it: finer towards the present. */
function arrivesAt(curve: (elapsedS: number) => number, nowS: number) {
  const { moments } = outlookAt(curve, nowS).arrival(66.66);
  return (probability: number) => quantileS(moments, probability);
}

function outlookAt(curve: (elapsedS: number) => number, nowS: number) {
  const points: { elapsedS: number; pressurePa: number }[] = [];
  for (let agoS = 0; agoS < nowS - 10; agoS += Math.max(1, 0.05 * agoS)) {
    points.unshift({ elapsedS: nowS - agoS, pressurePa: curve(nowS - agoS) });
  }
  const outlook = outlookOf(waysFrom(points, DEFAULT_SHEET.targetPa, nowS));
  if (!outlook) throw new Error('so many points are enough');
  return outlook;
}

test('an exponential to a floor goes on as one', () => {
  const afterS = arrivesAt((t) => 20 + 900 * Math.exp(-t / 50), 120);
  // From 20 + 900·e^(−120/50) = 101.6 Pa to 66.66 Pa: 50·ln(81.6/46.66) = 27.96 s.
  expect(Math.abs(afterS(0.5) / 27.96 - 1)).toBeLessThan(0.05);
  expect(afterS(0.1)).toBeLessThan(28);
  expect(afterS(0.9) / 27.96).toBeGreaterThan(0.98);
});

test('gas that a gauge sees all the way from the air down goes on as it does', () => {
  // 10⁵·e^(−t/250) passes 66.66 Pa at 250·ln(10⁵/66.66) = 1828 s.
  const gas = (t: number) => 1e5 * Math.exp(-t / 250);
  const sensor = { ...QUIET_SENSOR, relativeNoise: 0.003 };
  for (const nowS of [1645, 1737]) {
    const history = historyOf(readingsOf(gas, sensor, seeded(3), 0, nowS));
    const remaining = judge(history, [], DEFAULT_SHEET, nowS).forecast?.remaining;
    const trueS = 1828 - nowS;
    expect((remaining?.p50S ?? 0) / trueS, `at ${nowS} s`).toBeGreaterThan(0.8);
    expect((remaining?.p50S ?? 0) / trueS, `at ${nowS} s`).toBeLessThan(1.25);
    expect((remaining?.p90S ?? Infinity) / trueS, `at ${nowS} s`).toBeLessThan(1.8);
  }
});

test.each([
  ['diffusion', 0.5],
  ['many binding energies', 1],
])('a tail as of %s goes on as a power of time', (_, power) => {
  const curve = (t: number) => 66.66 * (t / 3000) ** -power;
  for (const nowS of [900, 1500, 2100, 2700]) {
    const afterS = arrivesAt(curve, nowS);
    const leftS = 3000 - nowS;
    expect(afterS(0.5) / leftS, `at ${nowS} s`).toBeGreaterThan(0.85);
    expect(afterS(0.5) / leftS, `at ${nowS} s`).toBeLessThan(1.15);
    expect(afterS(0.1)).toBeLessThan(leftS);
    expect(afterS(0.9)).toBeGreaterThan(leftS);
  }
});

test('the hyperbola of a thin hose is a spectrum too', () => {
  // dP/dt = −a·P²: P = P₀/(1 + a·P₀·t).
  const curve = (t: number) => 1e5 / (1 + 0.5 * t);
  const nowS = 1500;
  const leftS = (1e5 / 66.66 - 1) / 0.5 - nowS;
  expect(Math.abs(arrivesAt(curve, nowS)(0.5) / leftS - 1)).toBeLessThan(0.08);
});

test('nothing is expected above what there is now', () => {
  const outlook = outlookAt((t) => 300 + 50 * Math.sin(t), 40);
  expect(outlook.floorPa.high).toBeLessThan(500);
  const band = outlook.curve(40, 3600);
  expect(band.length).toBeGreaterThan(10);
  for (const { lowPa, midPa, highPa } of band) {
    expect(lowPa).toBeLessThanOrEqual(midPa);
    expect(midPa).toBeLessThanOrEqual(highPa);
    expect(highPa).toBeLessThan(500);
  }
});

test('over range it is too early, and the sensor is why', () => {
  const mark: Mark = { id: 1, kind: 'pump_on', elapsedS: 5, text: '', madeBy: 'hand' };
  const { forecast } = conclude(() => 90_000, 60, [mark]);
  expect(forecast).toMatchObject({
    outcome: 'too_early',
    causes: [{ cause: 'sensor', weight: 1 }],
  });
});

test('a plateau may end now, or last many times as long again', () => {
  const { forecast } = conclude((t) => 2e5 * Math.exp(-t / 12) + 590 - t / 100, 550);
  expect(forecast?.outcome).toBe('reaches');
  expect(forecast?.causes[0]?.cause).toBe('boil_off');
  // Some 430 s on the plateau so far.
  expect(forecast?.remaining?.p10S).toBeLessThan(120);
  expect(forecast?.remaining?.p50S).toBeGreaterThan(400);
  expect(forecast?.remaining?.p90S).toBeGreaterThan(2000); // 1.5 · 9^(1/2.2) times 550 s
  // Ice and vapour at some 584 Pa: just below 0 °C.
  expect(forecast?.boilingPointC).toBeCloseTo(-0.6, 0);
});

test('as long as water may still come to boil the upper end is far off', () => {
  const curve = (t: number) => 5 + 1e5 * Math.exp(-t / 200);
  const sheet = { ...DEFAULT_SHEET, targetPa: 400 };
  // 828 Pa, above where boiling water stands, and 679 Pa, where it may: a minute or two from the target.
  const [above, below] = [960, 1000].map((nowS) => {
    const history = historyOf(readingsOf(curve, SENSOR, seeded(11), 0, nowS));
    return judge(history, [], sheet, nowS).forecast?.remaining;
  });
  expect(above?.p10S).toBeLessThan(200);
  expect(above?.p90S).toBeGreaterThan(1000);
  expect(below?.p50S).toBeLessThan(150);
});

test('a flat stretch where water may cool itself is water first, and a floor after that', () => {
  const { forecast } = conclude((t) => 3e4 * Math.exp(-t / 12) + 900 - t / 20, 300);
  expect(forecast?.causes[0]?.cause).toBe('boil_off');
});

test('a floor above the target, held to for long, is a curve that levels off', () => {
  const { forecast } = conclude((t) => 95 + 3e4 * Math.exp(-t / 40), 1400);
  expect(forecast).toMatchObject({ outcome: 'levels_off', remaining: null });
  expect(forecast?.floorPa?.low).toBeGreaterThan(DEFAULT_SHEET.targetPa);
  expect(forecast?.causes[0]?.cause).toBe('floor');
});

test('where a curve levels off, the present pressure lies within what is said of its floor', () => {
  // A moment ago it went up by a per cent: the points that tell the level have seen little of that.
  const floor = (t: number) => 95 + 3e4 * Math.exp(-t / 40) + (t > 1395 ? 1 : 0);
  const { forecast, pressurePa } = conclude(floor, 1400);
  expect(forecast?.outcome).toBe('levels_off');
  expect(pressurePa).toBeGreaterThan(95.5);
  expect(forecast?.floorPa?.high).toBeGreaterThanOrEqual(pressurePa ?? Infinity);
});

test('a floor below the target is none of its business', () => {
  const { forecast } = conclude((t) => 30 + 3e4 * Math.exp(-t / 80), 480);
  expect(forecast?.outcome).toBe('reaches');
  // 3e4·e^(−t/80) = 66.66 − 30 at t = 80·ln(3e4/36.66) = 536.6 s: 56.6 s to go.
  expect(forecast?.remaining?.p10S).toBeLessThan(57);
  expect(forecast?.remaining?.p90S).toBeGreaterThan(55);
});

test('a rising pressure is no forecast, and named', () => {
  // So gently that nothing shows a valve or a pump that stopped: by then 4.8 % a minute.
  const { forecast } = conclude((t) => 250 * Math.exp(t ** 2 / 1e6), 400);
  expect(forecast).toMatchObject({ outcome: 'too_early' });
  expect(forecast?.causes[0]?.cause).toBe('rising');
});

test('a change of the ballast starts the forecast afresh', () => {
  const mark: Mark = { id: 1, kind: 'ballast_closed', elapsedS: 200, text: '', madeBy: 'hand' };
  const { forecast } = conclude((t) => 30 + 3e4 * Math.exp(-t / 80), 400, [mark]);
  expect(forecast?.sinceS).toBe(200);
});

test('just after a change the whole pull-down goes on being its age', () => {
  const mark: Mark = { id: 1, kind: 'ballast_closed', elapsedS: 396, text: '', madeBy: 'hand' };
  const { forecast } = conclude((t) => 30 + 3e4 * Math.exp(-t / 80), 400, [mark]);
  expect(forecast).toMatchObject({ outcome: 'reaches', sinceS: 396 });
});

test('in a short silence the forecast goes on; in a long one there is none', () => {
  const curve = (t: number) => 30 + 3e4 * Math.exp(-t / 80);
  const history = historyOf(readingsOf(curve, SENSOR, seeded(11), 0, 420));
  const at = (nowS: number) => judge(history, [], DEFAULT_SHEET, nowS).forecast;
  const [before, within] = [at(420), at(480)];
  expect(within?.outcome).toBe('reaches');
  // Sixty seconds later there are sixty seconds less to go.
  const left = (within?.remaining?.p50S ?? 0) - (before?.remaining?.p50S ?? 0);
  expect(left).toBeGreaterThan(-75);
  expect(left).toBeLessThan(-45);
  expect(at(1400)).toMatchObject({ outcome: 'too_early', causes: [{ cause: 'sensor' }] });
});

test('a fall that quickens without a mark starts the forecast afresh', () => {
  // A ballast, say, that nobody marked: a floor of 150 Pa is gone at 400 s.
  const curve = (t: number) =>
    t < 400 ? 150 + 3e4 * Math.exp(-t / 30) : 40 + 110 * Math.exp(-(t - 400) / 20);
  const { forecast } = conclude(curve, 500);
  expect(forecast?.sinceS).toBeGreaterThan(390);
  expect(forecast?.sinceS).toBeLessThan(410);
});

test('a level that sinks beyond doubt speaks for wet oil', () => {
  const evidence = { boiling: 0, mayBeWater: false, isRising: false, isBallastOpen: false };
  const causesAt = (error: number) =>
    rankCauses({ ...evidence, isFloor: true, exponent: { value: 0.1, error } });
  expect(causesAt(0.01).map(({ cause }) => cause)).toContain('wet_oil');
  expect(causesAt(0.09).map(({ cause }) => cause)).not.toContain('wet_oil');
});

/** Chances at whole steps up to eight hours. */
const chances = (chanceBy: (afterS: number) => number) => ({
  moments: Array.from({ length: 2880 }, (_, i) => {
    const afterS = 10 * (i + 1);
    return { afterS, chance: chanceBy(afterS) };
  }),
});

test('of times that extrapolate alike, those that suit the age are believed', () => {
  // As likely in ten minutes as in five hours: x/1.5 is 0.67 or 20 after ten minutes, 0.022 or 0.67
  // after five hours, and (x/1.5)/(1 + x/1.5)² 0.24 or 0.045, 0.021 or 0.24.
  const either = chances((afterS) => (afterS < 600 ? 0 : afterS < 18_000 ? 0.5 : 1));
  expect(
    remainingFrom(either, { ageS: 600, leastS: 0, times: 1, isSeen: true }, 0).p50S,
  ).toBeLessThan(601);
  expect(
    remainingFrom(either, { ageS: 18_000, leastS: 0, times: 1, isSeen: true }, 0).p10S,
  ).toBeGreaterThan(17_900);
});

test('the early end has more below it while as much is ahead as is behind, and the late end as much above', () => {
  // As likely in every order of magnitude but where Gott's own density bends it: by the chance at the end told, back.
  const wide = chances((afterS) =>
    Math.min(Math.max(Math.log(afterS / 1000) / Math.log(20), 0), 1),
  );
  const told = (ageS: number) =>
    remainingFrom(wide, { ageS, leastS: 0, times: 1, isSeen: true }, 0);
  const below = (ageS: number, endS: number) => {
    const weights = wide.moments.map(({ afterS, chance }, i) => {
      const odds = afterS / (1.5 * ageS);
      return ((chance - (wide.moments[i - 1]?.chance ?? 0)) * odds) / (1 + odds) ** 2;
    });
    const sum = (values: readonly number[]) => values.reduce((all, value) => all + value, 0);
    return sum(weights.filter((_, i) => (wide.moments[i]?.afterS ?? 0) <= endS)) / sum(weights);
  };
  // It lies between 1000 and 20 000 s: the middle more than an age of 600 s ahead, and less than a quarter of 90 000.
  expect(below(600, told(600).p10S)).toBeCloseTo(0.22, 2);
  expect(below(90_000, told(90_000).p10S)).toBeCloseTo(0.1, 2);
  for (const ageS of [600, 90_000]) {
    expect(below(ageS, told(ageS).p50S)).toBeCloseTo(0.5, 2);
    expect(below(ageS, told(ageS).p90S ?? NaN)).toBeCloseTo(0.88, 2);
  }
});

test('what may end at once has a tenth below the early end, however much is ahead', () => {
  const sharp = chances((afterS) => (afterS < 2000 ? 0 : 1));
  const waiting = { ageS: 1000, leastS: 0, times: 2, isSeen: true };
  // Beforehand 0.4; without water as long with 1/(1 + 2000/1500) = 0.43, so that the share is 0.61. A tenth of all
  // is 0.164 of it, odds of 0.197, and so after 0.197^(1/0.4) times 2000 s.
  expect(remainingFrom(sharp, waiting, 0.4).p10S).toBeCloseTo(34.3, 0);
});

test('an age of hours leaves room for never, one of minutes does not', () => {
  const mostly = chances((afterS) => 0.7 * Math.min(afterS / 9000, 1));
  expect(
    remainingFrom(mostly, { ageS: 300, leastS: 0, times: 1, isSeen: true }, 0).p90S,
  ).not.toBeNull();
  expect(
    remainingFrom(mostly, { ageS: 14_400, leastS: 0, times: 1, isSeen: true }, 0).p90S,
  ).toBeNull();
});

test('water that may have to boil away first moves the upper end, not the lower', () => {
  const sharp = chances((afterS) => Math.min(Math.max((afterS - 400) / 200, 0), 1));
  const waiting = { ageS: 1000, leastS: 400, times: 2, isSeen: true };
  const [dry, wet] = [0, 0.3].map((share) => remainingFrom(sharp, waiting, share));
  expect(dry?.p90S).toBeLessThan(600);
  expect(wet?.p90S).toBeGreaterThan(1500);
  expect(Math.abs((wet?.p10S ?? 0) / (dry?.p10S ?? 1) - 1)).toBeLessThan(0.1);
});

test('the longer a curve would take without water, the more it is held to be water', () => {
  // Sharp at twenty times the age, where 1 − share is worth 0.8/(1 + 20/1.5) = 0.056 against 0.2.
  const late = chances((afterS) => (afterS < 10_000 ? 0 : 1));
  const waiting = { ageS: 500, leastS: 0, times: 1.5, isSeen: true };
  expect(remainingFrom(late, waiting, 0).p50S).toBeGreaterThan(9900);
  expect(remainingFrom(late, waiting, 0.2).p50S).toBeLessThan(1000);
  // At a fifth of the age the share stays about what it was.
  const soon = chances((afterS) => (afterS < 100 ? 0 : 1));
  expect(remainingFrom(soon, waiting, 0.2).p50S).toBeLessThan(110);
});

test('where cold ice may stand there is a little chance of it, below that none', () => {
  const FALLING = { isBoiling: false, flatness: 0 };
  const { targetPa } = DEFAULT_SHEET;
  expect(waterShare(300, targetPa, FALLING)).toBeGreaterThan(waterShare(130, targetPa, FALLING));
  expect(waterShare(130, targetPa, FALLING)).toBeGreaterThan(0);
  expect(waterShare(95, targetPa, FALLING)).toBe(0);
});

test('what is known by its age alone is as likely as not over after so many times that', () => {
  const law = { ageS: 100, leastS: 20, times: 2, isSeen: true };
  expect(overAfterS(law, 0.5)).toBeCloseTo(220, 9);
  expect(overBy(law, 20)).toBe(0);
  for (const probability of [0.1, 0.3, 0.7, 0.9]) {
    expect(overBy(law, overAfterS(law, probability))).toBeCloseTo(probability, 9);
  }
});
