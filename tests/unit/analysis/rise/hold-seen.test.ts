/** What a gauge showed at moments of a hold, and what free gas says of the pump. */
import { fallRatePerS } from '../../../../web/analysis/flows/fall-rate.ts';
import { speedOnPlateauM3PerS } from '../../../../web/analysis/flows/pumping-speed.ts';
import { leakPlace } from '../../../../web/analysis/hunt/leak-place.ts';
import { holdSeen } from '../../../../web/analysis/rise/hold-seen.ts';
import { historyOf, normal, seeded } from '../../../support/invented-curves.ts';
import { describe, expect, test } from 'vitest';

function seenAs(pressureAt: (t: number) => number | null, lengthS: number, sigma = 0) {
  const random = seeded(3);
  return historyOf(
    Array.from({ length: lengthS + 1 }, (_, elapsedS) => {
      const truePa = pressureAt(elapsedS);
      const pressurePa = truePa === null ? null : truePa * (1 + sigma * normal(random));
      const condition = pressurePa === null ? ('over_range' as const) : ('ok' as const);
      return { elapsedS, pressurePa, condition, temperatureC: null };
    }),
  );
}

describe('the pressure of a hold', () => {
  const rising = (t: number) => (t <= 600 ? 40 - 0.02 * (t - 600) : 40 + 0.05 * (t - 600));

  test('is that of the straight line there, from the readings on either side', () => {
    const seen = holdSeen(seenAs(rising, 1600), 600, 1500);
    expect(seen.heldS).toBe(900);
    expect(seen.startPa?.estimate).toBeCloseTo(40, 6);
    for (const afterS of [0, 10, 450, 880, 900]) {
      expect(seen.pressureAt(afterS)?.estimate, String(afterS)).toBeCloseTo(40 + 0.05 * afterS, 6);
    }
    expect(seen.pressureAt(901)).toBeNull();
  });

  test('holds the truth nine times in ten, and no less than its scatter allows', () => {
    let [held, width] = [0, 0];
    const history = seenAs(rising, 6600, 0.01);
    const seen = holdSeen(history, 600, 6600);
    const moments = Array.from({ length: 60 }, (_, n) => 50 + 95 * n);
    for (const afterS of moments) {
      const found = seen.pressureAt(afterS);
      if (found === null) throw new Error('it was seen');
      const truePa = 40 + 0.05 * afterS;
      if (found.low <= truePa && truePa <= found.high) held += 1;
      width += (found.high - found.low) / truePa / moments.length;
      expect(found.high - found.estimate).toBeCloseTo(found.estimate - found.low, 9);
    }
    expect(held / moments.length).toBeGreaterThan(0.9);
    // Readings a second apart count for a quarter of their number.
    expect(width).toBeGreaterThan(0.002);
    expect(width).toBeLessThan(0.02);
  });

  test('is not known in a silence, nor before there are four readings', () => {
    const blank = (t: number) => (t > 800 && t < 1000 ? null : rising(t));
    const seen = holdSeen(seenAs(blank, 1600), 600, 1500);
    expect(seen.pressureAt(300)).toBeNull();
    expect(seen.pressureAt(150)).not.toBeNull();
    expect(
      holdSeen(
        seenAs((t) => (t < 597 ? null : 40), 1600),
        600,
        1500,
      ).startPa,
    ).not.toBeNull();
    expect(
      holdSeen(
        seenAs((t) => (t < 598 ? null : 40), 1600),
        600,
        1500,
      ).startPa,
    ).toBeNull();
    expect(holdSeen(seenAs(rising, 1600), 600, 500).heldS).toBe(0);
  });

  test('is never below nothing', () => {
    const faint = seenAs((t) => 0.5 + Math.sin(7 * t), 1600);
    expect(holdSeen(faint, 600, 1500).pressureAt(450)?.low).toBeGreaterThanOrEqual(0);
  });
});

describe('free gas', () => {
  const samplesOf = (pressureAt: (t: number) => number, count = 100) =>
    Array.from({ length: count }, (_, t) => ({
      elapsedS: 50 + t,
      pressurePa: pressureAt(t),
      count: 1,
    }));

  test.each([0.005, 0.05, 0.2])(
    'leaves at the rate of its fall, %d/s, whatever floor it has',
    (rate) => {
      for (const floorPa of [0, 30]) {
        const found = fallRatePerS(samplesOf((t) => floorPa + 5000 * Math.exp(-rate * t)));
        expect((found?.estimate ?? 0) / rate).toBeCloseTo(1, 2);
        expect(found?.low).toBeLessThanOrEqual(rate * 1.001);
        expect(found?.high).toBeGreaterThanOrEqual(rate * 0.999);
      }
    },
  );

  test('is as uncertain as its readings scatter', () => {
    const widths = [0.003, 0.02].map((sigma) => {
      const random = seeded(6);
      const found = fallRatePerS(
        samplesOf((t) => 5000 * Math.exp(-0.03 * t) * (1 + sigma * normal(random))),
      );
      return Math.log((found?.high ?? NaN) / (found?.low ?? NaN));
    });
    expect((widths[1] ?? 0) / (widths[0] ?? 1)).toBeGreaterThan(3);
  });

  test('is none of a few readings, or of a rise', () => {
    expect(fallRatePerS(samplesOf((t) => 5000 * Math.exp(-0.05 * t), 7))).toBeNull();
    expect(fallRatePerS(samplesOf((t) => 5000 * Math.exp(-0.05 * t), 8))).not.toBeNull();
    expect(fallRatePerS([])).toBeNull();
    expect(fallRatePerS(samplesOf((t) => 50 + t))).toBeNull();
  });
});

describe('the speed on a plateau', () => {
  /** Gas at k/s down to 600 Pa, water until 1000 s, and off it at another rate. */
  const wet = (before: number, off: number) => (t: number) =>
    t < 1000 ? Math.max(1e5 * Math.exp(-before * t), 600) : 600 * Math.exp(-off * (t - 1000));
  const plateau = (fromS: number) => ({ fromS, toS: 1000, pressurePa: 600, integralPaS: 0 });
  const speed = (before: number, off: number) =>
    speedOnPlateauM3PerS(
      seenAs(wet(before, off), 1800),
      0,
      plateau(Math.log(1e5 / 600) / before),
      0.01,
      20,
    );

  test('is between that before it, and that by which a thin hose would be slower there', () => {
    const found = speed(0.02, 1e-3);
    expect(found?.high).toBeCloseTo(0.01 * 0.02, 6);
    // From 1.2 to 9.6 times what water has at 20 °C, 2339 Pa: the middle is 7940 Pa.
    expect(found?.low).toBeCloseTo((0.01 * 0.02 * 600) / 7940, 6);
    expect(found?.estimate).toBeCloseTo(Math.sqrt((found?.low ?? 0) * (found?.high ?? 0)), 9);
  });

  test('is no lower than the fall off the plateau, and no higher than before it', () => {
    expect(speed(0.02, 0.01)?.low).toBeCloseTo(0.01 * 0.01, 5);
    expect(speed(0.02, 0.05)?.low).toBeCloseTo(0.01 * 0.02, 5);
  });

  test('is not known where the sensor saw no gas above it', () => {
    const cut = seenAs((t) => (t < 200 ? null : wet(0.02, 0.01)(t)), 1800);
    expect(speedOnPlateauM3PerS(cut, 0, plateau(256), 0.01, 20)).toBeNull();
  });
});

describe('where a leak is, by sections held alone', () => {
  const held = (...chances: readonly number[]) =>
    chances.map((leakChance, at) => ({
      part: { kind: 'section' as const, name: `S${at + 1}` },
      leakChance,
    }));

  test('in several, in one, in none: each with its chance', () => {
    const several = leakPlace(held(0.98, 0.97, 0.05), 'excluded');
    expect(several).toMatchObject({ kind: 'several', names: ['S1', 'S2'] });
    // Two or more of them: all but none, and but one alone.
    const [a, b, c] = [0.98, 0.97, 0.05];
    const none = (1 - a) * (1 - b) * (1 - c);
    const one = a * (1 - b) * (1 - c) + b * (1 - a) * (1 - c) + c * (1 - a) * (1 - b);
    expect(several).toMatchObject({ chance: expect.closeTo(1 - none - one, 9) });
    expect(leakPlace(held(0.98, 0.01), 'excluded')).toEqual({
      ...{ kind: 'found', name: 'S1', chance: expect.closeTo(0.98 * 0.99, 9) },
    });
    expect(leakPlace(held(0.02, 0.01), 'excluded')).toEqual({
      ...{ kind: 'none_of_them', chance: expect.closeTo(0.98 * 0.99, 9) },
    });
  });

  test('everything leaks: that may be the sensor’s own joint, until it was held alone', () => {
    expect(leakPlace(held(0.98, 0.99), 'not_tested')).toEqual({ kind: 'sensor_first' });
    expect(leakPlace(held(0.98, 0.99), 'excluded')).toMatchObject({ kind: 'several' });
    expect(leakPlace(held(0.98, 0.99, 0.1), 'not_tested')).toMatchObject({ kind: 'several' });
    expect(leakPlace(held(0.99), 'not_tested')).toEqual({ kind: 'sensor_first' });
    expect(leakPlace(held(0.99), 'excluded')).toMatchObject({ kind: 'found', name: 'S1' });
    expect(leakPlace(held(0.99, 0.01), 'not_tested')).toMatchObject({ kind: 'found' });
  });

  test('a section’s latest hold counts, and a hold of anything else does not', () => {
    const twice = [
      ...held(0.99, 0.01),
      { part: { kind: 'section' as const, name: 'S1' }, leakChance: 0.01 },
    ];
    expect(leakPlace(twice, 'excluded')).toMatchObject({ kind: 'none_of_them' });
    const others = [
      { part: { kind: 'system' as const }, leakChance: 0.99 },
      { part: { kind: 'section' as const, name: 'S9' }, leakChance: null },
    ];
    expect(leakPlace([...held(0.01), ...others], 'excluded')).toMatchObject({
      kind: 'none_of_them',
    });
    expect(leakPlace(others, 'excluded')).toEqual({ kind: 'no_sections' });
  });

  test('one is ahead with more than twice the chance of each other', () => {
    const name = (...chances: number[]) => {
      const found = leakPlace(held(...chances), 'excluded');
      return found.kind === 'undecided' ? found.name : found.kind;
    };
    expect(name(0.5, 0.2)).toBe('S1');
    expect(name(0.2, 0.5)).toBe('S2');
    expect(name(0.5, 0.4)).toBeNull();
  });
});
