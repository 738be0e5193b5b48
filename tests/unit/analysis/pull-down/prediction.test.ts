/** The ways on which a pull-down may go, and what they say together. */
import { logShareAbove } from '../../../../web/analysis/fitting/truncated-normal.ts';
import { LONGEST_S, outlookOf } from '../../../../web/analysis/pull-down/outlook.ts';
import { waysFrom } from '../../../../web/analysis/pull-down/prediction.ts';
import { quantileS } from '../../../../web/analysis/pull-down/remaining.ts';
import { normal, seeded } from '../../../support/invented-curves.ts';
import { once } from '../../../support/once.ts';
import { describe, expect, test } from 'vitest';

const NOW_S = 1000;
/** Every ten seconds up to now. */
const seen = (pressureAt: (t: number) => number, noise = 0.003) => {
  const random = seeded(9);
  return Array.from({ length: 100 }, (_, i) => {
    const elapsedS = 10 * (i + 1);
    return { elapsedS, pressurePa: pressureAt(elapsedS) * Math.exp(noise * normal(random)) };
  });
};
const falling = (t: number) => 8 + 3000 * Math.exp(-t / 150) + 200 * Math.exp(-t / 700);

describe('the ways', () => {
  const found = once(() => waysFrom(seen(falling), 60, NOW_S));

  test('have weights that add up to one, and go back to different moments', () => {
    const ways = found();
    expect(ways.length).toBeGreaterThan(1);
    expect(ways.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 9);
    const past = ways.map(({ pastS }) => pastS);
    expect(Math.max(...past)).toBeLessThanOrEqual(990);
    expect(Math.max(...past)).toBeGreaterThan(500);
    expect([...past].sort((a, b) => b - a)).toEqual(past);
    for (const { pastS, at } of ways) {
      expect(Math.exp(at(pastS).log) / falling(NOW_S)).toBeCloseTo(1, 1);
      const soon = Math.exp(at(pastS + 100).log);
      expect(soon / falling(NOW_S + 100)).toBeGreaterThan(0.9);
      expect(soon / falling(NOW_S + 100)).toBeLessThan(1.1);
    }
  });

  test('are the same a while later, but for the time since', () => {
    const ways = found();
    const later = waysFrom(seen(falling), 60, NOW_S + 50);
    expect(later.map(({ weight }) => weight)).toEqual(ways.map(({ weight }) => weight));
    for (const [i, { pastS }] of later.entries()) {
      expect(pastS).toBeCloseTo((ways[i]?.pastS ?? NaN) + 50, 9);
    }
  });

  test('that began before another law set in weigh next to nothing', () => {
    // A fall that nearly stood still, and goes on quickly from 500 s on.
    const changed = (t: number) => 10 + (t < 500 ? 3000 - t / 10 : 2950 * Math.exp((500 - t) / 90));
    const old = waysFrom(seen(changed), 60, NOW_S).filter(({ pastS }) => pastS > 600);
    expect(old.reduce((sum, { weight }) => sum + weight, 0)).toBeLessThan(0.1);
  });

  test('are none of fewer than ten points, however close', () => {
    const points = seen(falling);
    expect(waysFrom(points.slice(0, 9), 60, 100)).toEqual([]);
    expect(waysFrom([], 60, 0)).toEqual([]);
    expect(waysFrom(points.slice(0, 10), 60, 100)).not.toEqual([]);
  });

  test('take points that lie closer together than one can tell apart for one', () => {
    const ways = found();
    const doubled = seen(falling).flatMap((point) => [
      point,
      { ...point, elapsedS: point.elapsedS + 0.5 },
    ]);
    const twice = waysFrom(doubled, 60, NOW_S);
    expect(twice).toHaveLength(ways.length);
    for (const [i, { pastS, at }] of twice.entries()) {
      const way = ways[i];
      if (!way) throw new Error('as many');
      for (const aheadS of [0, 300, 3000]) {
        const [one, other] = [at(pastS + aheadS).log, way.at(way.pastS + aheadS).log];
        expect(Math.abs(one - other)).toBeLessThan(0.1);
      }
    }
  });

  test('of a scattered curve are less sure of what is to come', () => {
    const spreadOf = (noise: number) => {
      const [way] = waysFrom(seen(falling, noise), 60, NOW_S);
      return way === undefined ? NaN : way.at(way.pastS + 2000).sigma;
    };
    expect(spreadOf(0.05)).toBeGreaterThan(spreadOf(0.003));
  });

  test('are less sure of what they miss at first', () => {
    // The same fall, but for a bend that no earlier moment could foretell.
    const bent = (t: number) => falling(t) * (t < 800 ? 1 : Math.exp((800 - t) / 400));
    const spreadOf = (curve: (t: number) => number) =>
      Math.min(...waysFrom(seen(curve), 60, NOW_S).map((way) => way.at(way.pastS + 10).sigma));
    // The fits alone differ by 80 times.
    expect(spreadOf(bent)).toBeGreaterThan(200 * spreadOf(falling));
  });
});

describe('what they say together', () => {
  const found = once(() => waysFrom(seen(falling, 0.02), 60, NOW_S));
  const told = once(() => outlookOf(found()));
  const each = (aheadS: number) =>
    found().map(({ at, pastS, weight }) => {
      const { log, sigma } = at(pastS + aheadS);
      return { log, sigma: Math.hypot(sigma, 0.004), weight };
    });
  const together = (aheadS: number) => {
    const ways = each(aheadS);
    const log = ways.reduce((sum, way) => sum + way.weight * way.log, 0);
    const variance = ways.reduce(
      (sum, way) => sum + way.weight * (way.sigma ** 2 + (way.log - log) ** 2),
      0,
    );
    return { log, spread: Math.sqrt(variance) };
  };

  test('is nothing without any', () => {
    expect(outlookOf([])).toBeNull();
  });

  test('is how likely a depth is by then, and once reached it is reached', () => {
    const outlook = told();
    for (const depthPa of [60, 20, 9]) {
      let most = 0;
      const { moments } = outlook?.arrival(depthPa) ?? { moments: [] };
      expect(moments[0]?.afterS).toBeCloseTo(0.5, 12);
      expect(moments.at(-1)?.afterS).toBeCloseTo(LONGEST_S, 6);
      for (const { afterS, chance } of moments) {
        const now = each(afterS).reduce(
          (sum, { log, sigma, weight }) =>
            sum + weight * Math.exp(logShareAbove((Math.log(depthPa) - log) / sigma)),
          0,
        );
        most = Math.max(most, now);
        // Between the moments that are worked out, the pressures are taken as straight over ln t.
        expect(Math.abs(chance - most)).toBeLessThan(0.02);
      }
      expect(outlook?.chanceOf(depthPa)).toBe(moments.at(-1)?.chance);
    }
  });

  test('tells a moment more closely than the moments lie apart that it is worked out at', () => {
    // ln P falls by a five-hundredth a second: 40 % lower after 255 s; the sensor errs by 0.4 %, 2 s of that.
    const at = (timeS: number) => ({ log: -timeS / 500, sigma: 0 });
    const { moments } = outlookOf([{ weight: 1, at, pastS: 0 }])?.arrival(0.6) ?? { moments: [] };
    const trueS = -500 * Math.log(0.6);
    const afterS = (chance: number) => quantileS(moments, chance);
    expect(Math.abs(afterS(0.5) - trueS)).toBeLessThan(0.02 * trueS);
    expect(afterS(0.9) - afterS(0.1)).toBeLessThan(0.06 * trueS);
    expect(afterS(0.9)).toBeGreaterThan(trueS);
    expect(afterS(0.1)).toBeLessThan(trueS);
  });

  test('is where the pressure stands in eight hours, never above where it may be now', () => {
    const outlook = told();
    const { log, spread } = together(LONGEST_S);
    const now = together(0.5);
    const ceilingPa = Math.exp(now.log + 1.6449 * now.spread);
    const { estimate, low, high } = outlook?.floorPa ?? { estimate: 0, low: 0, high: 0 };
    expect(estimate / Math.min(Math.exp(log), ceilingPa)).toBeCloseTo(1, 6);
    expect(low / Math.exp(log - 1.6449 * spread)).toBeCloseTo(1, 6);
    expect(high / Math.min(Math.exp(log + 1.6449 * spread), ceilingPa)).toBeCloseTo(1, 6);
  });

  test('is a curve from now on, with eight tenths in its band', () => {
    const outlook = told();
    const curve = outlook?.curve(NOW_S, 600) ?? [];
    expect(curve[0]?.elapsedS).toBeCloseTo(NOW_S + 0.5, 9);
    expect(curve.at(-1)?.elapsedS).toBeLessThanOrEqual(NOW_S + 600);
    expect(curve.at(-1)?.elapsedS).toBeGreaterThan(NOW_S + 500);
    for (const { elapsedS, lowPa, midPa, highPa } of curve) {
      const { log, spread } = together(elapsedS - NOW_S);
      expect(midPa / Math.exp(log)).toBeCloseTo(1, 6);
      expect(lowPa / Math.exp(log - 1.2816 * spread)).toBeCloseTo(1, 6);
      expect(highPa).toBeGreaterThanOrEqual(midPa);
      expect(highPa / Math.exp(log + 1.2816 * spread)).toBeLessThan(1 + 1e-6);
    }
  });
});
