/** What is said of a hold beside its word: its end, its curve with the band, and what is unknown at first. */
import { DEFAULT_SHEET, type Sheet } from '../../../../protocol/sheet.ts';
import type { RisePoint } from '../../../../web/analysis/rise/rise-points.ts';
import { evenedAfterS, hasGap, isFalling } from '../../../../web/analysis/rise/rise-signs.ts';
import { assessRise } from '../../../../web/analysis/verdict/rise.ts';
import {
  historyOf,
  holdPressure,
  QUIET_SENSOR,
  readingsOf,
  seeded,
} from '../../../support/invented-curves.ts';
import { describe, expect, test } from 'vitest';

const ISOLATED_S = 2000;
const rises = (curve: (heldS: number) => number, heldS: number, sheet: Partial<Sheet> = {}) => {
  const readings = readingsOf(
    (t) => curve(t - ISOLATED_S),
    QUIET_SENSOR,
    seeded(4),
    ISOLATED_S,
    ISOLATED_S + heldS,
  );
  const hold = { isolatedS: ISOLATED_S, isMarked: true, isolationSure: true };
  return assessRise(historyOf(readings), hold, { ...DEFAULT_SHEET, ...sheet }, ISOLATED_S + heldS);
};
const MIXED = holdPressure({
  leakPaPerS: 0.02,
  startPa: 30,
  moisture: [{ amountPa: 30, tauS: 120 }],
});

describe('the curve', () => {
  const rise = rises(MIXED, 450);
  const at = (elapsedS: number) =>
    rise.curve.reduce((a, b) =>
      Math.abs(b.elapsedS - elapsedS) < Math.abs(a.elapsedS - elapsedS) ? b : a,
    );

  test('goes along with the readings up to now, without a band', () => {
    for (const heldS of [100, 200, 300, 400]) {
      const { elapsedS, lowPa, midPa, highPa } = at(ISOLATED_S + heldS);
      expect(Math.abs(midPa - MIXED(elapsedS - ISOLATED_S))).toBeLessThan(1.5);
      expect([lowPa, highPa]).toEqual([midPa, midPa]);
    }
  });

  test('goes on to the end of the hold, and is there as sure as the end is, as 80 % of it', () => {
    const last = rise.curve.at(-1);
    expect(rise.curve).toHaveLength(49);
    expect(last?.elapsedS).toBeCloseTo(ISOLATED_S + 900, 6);
    const { estimate, low, high } = rise.endOfHold;
    expect(last?.midPa).toBeCloseTo(estimate, 6);
    expect(last?.lowPa).toBeCloseTo(estimate - (1.2816 / 1.6449) * (estimate - low), 1);
    expect(last?.highPa).toBeCloseTo(estimate + (1.2816 / 1.6449) * (high - estimate), 1);
    // Half way there the band is half as wide.
    const middle = at(ISOLATED_S + 675);
    expect((middle.highPa - middle.midPa) / ((last?.highPa ?? 0) - (last?.midPa ?? 0))).toBeCloseTo(
      0.5,
      1,
    );
  });

  test('of a hold that is over has no band, and goes on to now', () => {
    const { curve } = rises(MIXED, 1200);
    expect(curve.at(-1)?.elapsedS).toBeCloseTo(ISOLATED_S + 1200, 6);
    expect(curve.every(({ lowPa, midPa, highPa }) => lowPa === midPa && midPa === highPa)).toBe(
      true,
    );
  });
});

describe('figures', () => {
  test('hold what is so', () => {
    const rise = rises(MIXED, 900);
    expect(rise).toMatchObject({ sinceS: ISOLATED_S, heldS: 900, endOfHold: { atS: 900 } });
    expect(rise.leakPaPerS.low).toBeLessThan(0.02);
    expect(rise.leakPaPerS.high).toBeGreaterThan(0.02);
    expect(rise.moisturePa.low).toBeLessThan(31);
    expect(rise.moisturePa.high).toBeGreaterThan(29);
    expect(rise.endOfHold.low).toBeLessThan(MIXED(900));
    expect(rise.endOfHold.high).toBeGreaterThan(MIXED(900));
    // M/τ·e^(−t/τ) = L at τ·ln(M/(τ·L)) = 120·ln 12.5.
    expect(Math.abs((rise.changeoverS ?? 0) - 120 * Math.log(12.5))).toBeLessThan(60);
  });

  test('have no changeover without a leak, and none where what levels off goes on too long', () => {
    const dry = holdPressure({
      leakPaPerS: 0.0005,
      startPa: 30,
      moisture: [{ amountPa: 30, tauS: 120 }],
    });
    expect(rises(dry, 900).changeoverS).toBeNull();
    const straight = holdPressure({ leakPaPerS: 0.05, startPa: 30, moisture: [] });
    expect(rises(straight, 900).changeoverS).toBeNull();
  });

  test('of air are known where the volume of the system is', () => {
    const rate = (sheet: Partial<Sheet>) => rises(MIXED, 900, sheet).leakRatePaM3PerS;
    const known = rate({ volumeM3: 0.01 });
    expect((known?.estimate ?? 0) / 0.01).toBeCloseTo(rises(MIXED, 900).leakPaPerS.estimate, 9);
    expect(rate({})).toBeNull();
    expect(rate({ volumeM3: 0.01, sensorSees: 'stub' })).toBeNull();
    expect(rate({ volumeM3: 0.01, sensorSees: 'system' })).not.toBeNull();
  });

  test('are wide open before there is anything to go by', () => {
    const rise = rises(MIXED, 3);
    const limit = DEFAULT_SHEET.leakLimitPaPerS;
    expect(rise.leakPaPerS).toEqual({ estimate: limit, low: 0, high: 100 * limit });
    expect(rise.moisturePa).toEqual({ estimate: 0, low: 0, high: DEFAULT_SHEET.endLimitPa });
    // Nothing was read yet: valved off at the depth that the sheet asks for.
    expect(rise.endOfHold.estimate).toBe(DEFAULT_SHEET.isolateAtPa);
    expect(rise.endOfHold.low).toBeCloseTo(0.8 * rise.endOfHold.estimate, 6);
    expect(rise.endOfHold.high).toBeCloseTo(rise.endOfHold.estimate + 100 * limit * 900, 6);
    expect(rise).toMatchObject({
      verdict: 'undecided',
      changeoverS: null,
      noisePa: null,
      curve: [],
      evenedPa: null,
    });
  });

  test('begin anew at a step', () => {
    const stepped = (heldS: number) => 30 + 0.002 * heldS + (heldS > 400 ? 60 : 0);
    const rise = rises(stepped, 700);
    expect(rise.steps).toHaveLength(1);
    expect(Math.abs((rise.steps[0]?.atS ?? 0) - ISOLATED_S - 400)).toBeLessThan(3);
    expect(rise.steps[0]?.sizePa).toBeCloseTo(60, 0);
    expect(rise.endOfHold.atS).toBeGreaterThan(1295);
    expect(rise.endOfHold.atS).toBeLessThan(1310);
    expect(rise.evenedPa).toBeNull();
    expect(rise.leakPaPerS.high).toBeLessThan(0.02);
    expect(rise.reservations).toContain('step');
  });
});

describe('signs in the readings of a hold', () => {
  const pointsOf = (pressureAt: (heldS: number) => number, moments: readonly number[]) =>
    moments.map((heldS): RisePoint => ({
      ...{ heldS, pressurePa: pressureAt(heldS), widthS: 10, count: 10, stepPa: 0, dwellS: 0 },
    }));
  const usual = Array.from({ length: 60 }, (_, n) => 5 + 15 * n);

  test('a fall goes on, a rise or rest is none', () => {
    expect(isFalling(pointsOf((t) => 60 - 0.03 * t, usual))).toBe(true);
    expect(isFalling(pointsOf((t) => 60 + 0.03 * t, usual))).toBe(false);
    expect(isFalling(pointsOf(() => 60, usual))).toBe(false);
    expect(isFalling([])).toBe(false);
  });

  test('what fell at first and then rises has evened out by its lowest', () => {
    const evened = evenedAfterS(pointsOf((t) => 50 + 20 * Math.exp(-t / 40) + 0.01 * t, usual));
    // −20/40·e^(−t/40) + 0.01 = 0 at 40·ln 50 = 156 s.
    expect(evened).toBeGreaterThan(60);
    expect(evened).toBeLessThan(260);
    expect(evenedAfterS(pointsOf((t) => 50 + 0.03 * t, usual))).toBeLessThan(20);
  });

  test('a silence that is long for the hold is a gap', () => {
    expect(
      hasGap(
        pointsOf(() => 50, usual),
        900,
      ),
    ).toBe(false);
    expect(
      hasGap(
        pointsOf(
          () => 50,
          usual.filter((t) => t < 300 || t > 600),
        ),
        900,
      ),
    ).toBe(true);
    expect(
      hasGap(
        pointsOf(
          () => 50,
          usual.filter((t) => t < 450),
        ),
        900,
      ),
    ).toBe(true);
  });
});
