/** What is drawn of a curve: a bounded number of points, every extreme, gaps as nulls, and what no line tells. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Reading } from '../../../protocol/reading.ts';
import { ChannelCurve, DRAWN_SLICES } from '../../../web/store/channel-curve.ts';
import { ChannelReadings } from '../../../web/store/channel-readings.ts';
import { recordedReading } from '../../support/recorded-readings.ts';

type Change = (at: number) => Partial<Reading>;

function curveOf(readings: readonly Reading[], joined = false): ChannelCurve {
  const curve = new ChannelCurve(new ChannelReadings(0), joined);
  curve.insert(curve.readings.insert(readings));
  return curve;
}

function count(many: number, change: Change = () => ({})): Reading[] {
  return Array.from({ length: many }, (_, at) => recordedReading(at, change(at)));
}

const all = { fromS: 0, toS: 1e6 };

test('few readings are all drawn', () => {
  const drawn = curveOf(count(5, (at) => ({ pressurePa: 10 + at }))).drawn({ fromS: 0, toS: 4 });
  expect(drawn.elapsedS).toEqual([0, 1, 2, 3, 4]);
  expect(drawn.pressurePa).toEqual([10, 11, 12, 13, 14]);
  expect(drawn.stretches).toEqual([]);
});

test('a window takes one reading beyond either edge, so that the line runs into it', () => {
  expect(curveOf(count(20)).drawn({ fromS: 8.5, toS: 11.5 }).elapsedS).toEqual([8, 9, 10, 11, 12]);
});

describe('a long recording', () => {
  const many = curveOf(
    count(100_000, (at) => ({ pressurePa: at === 54_321 ? 9000 : at === 77_777 ? 1 : 100 })),
  );

  test.each([100_000, 30_000, 5000])('is thinned to what a picture of %d s can show', (widthS) => {
    const drawn = many.drawn({ fromS: 0, toS: widthS });
    expect(drawn.pressurePa.length).toBeLessThanOrEqual(4 * (DRAWN_SLICES + 2));
    expect(drawn.pressurePa.length).toBeGreaterThan(DRAWN_SLICES / 4);
    expect([...drawn.elapsedS].sort((a, b) => a - b)).toEqual(drawn.elapsedS);
  });

  test('loses no spike, and no end', () => {
    const drawn = many.drawn({ fromS: 0, toS: 100_000 });
    expect(drawn.elapsedS[drawn.pressurePa.indexOf(9000)]).toBe(54_321);
    expect(drawn.elapsedS[drawn.pressurePa.indexOf(1)]).toBe(77_777);
    expect(drawn.elapsedS[0]).toBe(0);
    expect(drawn.elapsedS.at(-1)).toBe(99_999);
  });

  test('takes no more memory than is said', () => {
    // A day in blocks of 256 slices of 96 bytes: 11.1 MB, and at most one half-empty block a level.
    const day = curveOf(count(86_400));
    expect(day.bytes).toBeLessThanOrEqual((86_400 * 96 * 4) / 3 + 8 * 256 * 96);
    expect(curveOf(count(2, (at) => ({ elapsedS: at * 1e6 }))).bytes).toBeLessThan(0.5e6);
  });
});

describe('gaps', () => {
  test.each<[string, Change]>([
    ['missing sequence numbers', (at) => ({ sequence: at < 5 ? at : at + 3 })],
    ['a changed boot', (at) => ({ boot: at < 5 ? 1 : 2 })],
    ['a long silence', (at) => ({ elapsedS: at < 5 ? at : at + 60 })],
  ])('%s breaks the line once', (_, change) => {
    const drawn = curveOf(count(10, change)).drawn(all);
    expect(drawn.pressurePa.filter((value) => value === null)).toHaveLength(1);
    expect(drawn.pressurePa[5]).toBeNull();
    expect(drawn.stretches).toEqual([{ kind: 'gap', fromS: 4, toS: change(5).elapsedS ?? 5 }]);
  });

  test('a sequence number that wraps around is no gap', () => {
    const drawn = curveOf(count(4, (at) => ({ sequence: (0xffff_fffe + at) % 2 ** 32 }))).drawn(
      all,
    );
    expect(drawn.pressurePa).not.toContain(null);
  });

  test('readings that are minutes apart from the first on are not', () => {
    const drawn = curveOf(count(60, (at) => ({ elapsedS: at * 120 }))).drawn(all);
    expect(drawn.pressurePa).not.toContain(null);
  });

  test('nor are those of a sensor whose pace was slowed', () => {
    const slowed = count(300, (at) => ({ elapsedS: at < 100 ? at * 0.1 : 10 + (at - 100) * 8 }));
    expect(curveOf(slowed).drawn(all).pressurePa).not.toContain(null);
    // From far as well, where only slices are looked at.
    const longer = count(3300, (at) => ({
      elapsedS: at < 3000 ? at * 0.1 : 300 + (at - 3000) * 8,
    }));
    const far = curveOf(longer).drawn({ fromS: 0, toS: 2700 });
    expect(far.elapsedS.length).toBeLessThan(3000);
    expect(far.pressurePa).not.toContain(null);
  });

  test('an outage shows in a thinned curve as well', () => {
    const outage: Change = (at) => (at < 5000 ? {} : { elapsedS: at + 2000, sequence: at + 2000 });
    const drawn = curveOf(count(10_000, outage)).drawn({ fromS: 0, toS: 12_000 });
    expect(drawn.elapsedS[drawn.pressurePa.indexOf(null)]).toBe(5999.5);
    expect(drawn.stretches).toEqual([{ kind: 'gap', fromS: 4999, toS: 7000 }]);
  });

  test('typed numbers have none', () => {
    const typed = count(5, (at) => ({ elapsedS: at * 3000, boot: at, sequence: at * 7 }));
    expect(curveOf(typed, true).drawn(all).pressurePa).not.toContain(null);
    expect(curveOf(typed).drawn(all).pressurePa).toContain(null);
  });
});

describe('what no line tells', () => {
  test('readings without a pressure, or at zero, are never drawn', () => {
    const drawn = curveOf(
      count(6, (at) => ({ pressurePa: at === 2 ? null : at === 4 ? 0 : 50 })),
    ).drawn(all);
    expect(drawn.pressurePa).toEqual([50, 50, null, 50, null, 50]);
    expect(drawn.stretches).toEqual([
      { kind: 'fault', fromS: 2, toS: 2 },
      { kind: 'under_range', fromS: 4, toS: 4 },
    ]);
  });

  test('each condition has its stretch, near and from far', () => {
    const condition: Change = (at) => {
      if (at < 2000) return { condition: 'warming_up' };
      if (at < 4000) return { condition: 'over_range', pressurePa: null };
      if (at < 6000) return {};
      return at < 8000 ? { condition: 'fault', pressurePa: null } : {};
    };
    const curve = curveOf(count(10_000, condition));
    const kinds = (toS: number) => curve.drawn({ fromS: 0, toS }).stretches.map(({ kind }) => kind);
    expect(kinds(10_000)).toEqual(['warming_up', 'over_range', 'fault']);
    expect(kinds(1500)).toEqual(['warming_up']);
    const far = curve.drawn({ fromS: 0, toS: 10_000 });
    for (const { fromS, toS } of far.stretches) expect(toS - fromS).toBeCloseTo(2000, -2);
    // No line joins the ends of what was not measured.
    const broken = far.elapsedS.filter((_, row) => far.pressurePa[row] === null);
    expect(broken).toHaveLength(2);
  });

  test('readings that came after later ones are told, from near and from far, and no others', () => {
    const curve = curveOf(
      count(9000, (at) => {
        const late = at >= 8000;
        // Recorded last, they belong between 3000 and 4000 s.
        const place = late ? at - 5000 : at < 3000 ? at : at + 1000;
        return { elapsedS: place, sequence: place };
      }),
    );
    expect(curve.drawn({ fromS: 2990, toS: 3010 }).stretches).toEqual([
      { kind: 'late', fromS: 3000, toS: 3010 },
    ]);
    const [late, ...others] = curve.drawn({ fromS: 0, toS: 9000 }).stretches;
    expect(others).toEqual([]);
    expect(late?.kind).toBe('late');
    expect(Math.abs((late?.fromS ?? 0) - 3000)).toBeLessThan(12);
    expect(Math.abs((late?.toS ?? 0) - 3999)).toBeLessThan(12);
  });
});

test('whatever the order in which readings come, the same is drawn', () => {
  const item = fc.record({
    pressurePa: fc.option(fc.double({ min: 0, max: 1e5, noNaN: true }), { freq: 9 }),
    isLost: fc.boolean(),
    batch: fc.nat(4),
  });
  fc.assert(
    fc.property(fc.array(item, { minLength: 1, maxLength: 300 }), (items) => {
      const readings = items.flatMap(({ pressurePa, isLost }, at) =>
        isLost && at % 7 === 0 ? [] : [recordedReading(at, { pressurePa })],
      );
      const whole = curveOf(readings);
      const parts = new ChannelCurve(new ChannelReadings(0));
      for (let batch = 0; batch <= 4; batch += 1) {
        const own = readings.filter(({ index }) => items[index - 1]?.batch === batch);
        parts.insert(parts.readings.insert(own));
      }
      for (const slices of [1, 7, 60, 800]) {
        const [a, b] = [whole, parts].map((curve) => curve.drawn({ fromS: 0, toS: 300 }, slices));
        expect(b?.elapsedS).toEqual(a?.elapsedS);
        expect(b?.pressurePa).toEqual(a?.pressurePa);
        const gaps = [a, b].map((drawn) => drawn?.stretches.filter(({ kind }) => kind === 'gap'));
        expect(gaps[1]).toEqual(gaps[0]);
      }
    }),
  );
});
