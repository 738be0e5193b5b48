/** What a bend upward under pumping is taken for: a valve that was closed, a pump that stopped, or nothing. */
import type { Bend } from '../../../../web/analysis/stages/bend.ts';
import {
  type Pumping,
  turnedUp,
  valvedOffUnseen,
} from '../../../../web/analysis/stages/isolation-signs.ts';
import { describe, expect, test } from 'vitest';

/** Valved off at 30 Pa: level before, and up by 8 % within a minute, as sharp as a valve. */
const BEND: Bend = {
  ...{ atS: 1000, lengthS: 300, sigmas: 20, sharpness: 40, beforePerS: -1e-4, afterPerS: 1.2e-3 },
  ...{ since: 0.08, log: Math.log(30), steadyBefore: true, dip: 0, stepShare: 0.001 },
};
const PUMPING: Pumping = { nowS: 1060, bendPa: 30, depthPa: 66, fallPerS: 0.02, gentle: false };
const taken = (bend: Partial<Bend> = {}, pumping: Partial<Pumping> = {}) =>
  turnedUp({ ...BEND, ...bend }, { ...PUMPING, ...pumping });
const name = (bend: Partial<Bend> = {}, pumping: Partial<Pumping> = {}) =>
  taken(bend, pumping)?.name ?? null;

describe('a sharp bend', () => {
  test('near the depth is a hold, and a pump that stopped the second thought', () => {
    expect(taken()).toEqual({ name: 'rise', alternatives: ['pump_stopped'] });
    expect(name({}, { bendPa: 131 })).toBe('rise');
  });

  test('far above the depth is a stopped pump, unless the curve had levelled off', () => {
    const high = { bendPa: 1000, depthPa: 66 };
    expect(name({ since: 0.2, beforePerS: -1e-3, afterPerS: 3e-3 }, high)).toBe('pump_stopped');
    expect(taken({ since: 0.2, beforePerS: -1e-3, afterPerS: 3e-3 }, high)?.alternatives).toEqual([
      'rise',
    ]);
    expect(name({ since: 0.2, beforePerS: -4e-4, afterPerS: 3e-3 }, high)).toBe('rise');
  });

  test('that is not sharper than warmth makes them is none, unless it rises as nothing warm does', () => {
    expect(name({ sharpness: 8.9 })).toBeNull();
    expect(name({ sharpness: 9 })).toBe('rise');
    expect(name({ sharpness: 0, since: 0.11, afterPerS: 1.8e-3 })).toBe('rise');
    expect(name({ sharpness: 0, since: 0.09, afterPerS: 1.8e-3 })).toBeNull();
    expect(name({ sharpness: 0, since: 0.11, afterPerS: 1.5e-3 })).toBeNull();
  });

  test('that rises faster than the pump ever pulled is let in, and no hold', () => {
    // No more than four times the quickest fall comes in: 4 · 30 Pa · 0.02/s = 2.4 Pa/s.
    const risen = (pa: number) => ({ since: Math.log1p(pa / 30), afterPerS: 0.05 });
    expect(name(risen(60 * 2.3))).toBe('rise');
    expect(name(risen(60 * 2.5))).toBeNull();
    expect(name(risen(60 * 2.5), { fallPerS: 0.03 })).toBe('rise');
  });

  test('is waited for: fifteen seconds, a hundredth of the pressure, two and a half steps of a display', () => {
    const small = { since: 0.011, afterPerS: 7e-4 };
    expect(name(small)).toBe('rise');
    expect(name({ since: 0.0099, afterPerS: 7e-4, sigmas: 5 })).toBeNull();
    expect(name(small, { nowS: 1015 })).toBe('rise');
    expect(name(small, { nowS: 1014 })).toBeNull();
    expect(name({ ...small, stepShare: 0.0043 })).toBe('rise');
    expect(name({ ...small, stepShare: 0.0045 })).toBeNull();
  });

  test('after which it went as far down as half of what it went up is none', () => {
    expect(name({ dip: 0.04 })).toBe('rise');
    expect(name({ dip: 0.041 })).toBeNull();
  });

  test('after a steep fall counts once it has risen by a tenth, faster than warm oil', () => {
    // A fall of 1 % a second bends by itself within a minute.
    const steep = { beforePerS: -0.01 };
    expect(name({ ...steep, since: 0.08 })).toBeNull();
    expect(name({ ...steep, since: 0.1, afterPerS: 5e-4 })).toBe('rise');
    expect(name({ ...steep, since: 0.1, afterPerS: 4.9e-4 })).toBeNull();
    expect(name({ beforePerS: -0.008, since: 0.05 })).toBe('rise');
  });

  test('where water may boil counts from an eighth on: boiling comes and goes', () => {
    const boiling = { bendPa: 500, depthPa: 66 };
    expect(name({ since: 0.119, afterPerS: 2e-3 }, boiling)).toBeNull();
    expect(name({ since: 0.12, afterPerS: 2e-3 }, boiling)).toBe('rise');
    expect(name({ since: 0.08 }, { bendPa: 500, depthPa: 250 })).toBe('rise');
  });
});

describe('a fall that stops dead', () => {
  const still: Partial<Bend> = {
    ...{ since: 0.001, afterPerS: 1e-5, beforePerS: -2e-3, sigmas: 9, stepShare: 0.001 },
  };

  test('near the depth is a hold of a tight system', () => {
    expect(name(still)).toBe('rise');
    expect(name(still, { bendPa: 140 })).toBeNull();
  });

  test.each([
    ['not beyond doubt', { sigmas: 7.9 }, {}],
    ['slowing down already', { steadyBefore: false }, {}],
    ['that goes on by a tenth', { afterPerS: -2.1e-4 }, {}],
    ['that rises by a tenth of it', { afterPerS: 2.1e-4 }, {}],
    ['seen for less than 20 s', { beforePerS: -5e-3 }, { nowS: 1019 }],
    ['of less than 3 % in a minute', { beforePerS: -4.9e-4 }, {}],
    ['of less than 8 % in half a minute', { beforePerS: -2.5e-3 }, { nowS: 1030 }],
    ['of less than six steps of the display', { stepShare: 0.021 }, {}],
    ['so steep that it bends by itself', { beforePerS: -8.4e-3 }, {}],
  ] as const)('is none: %s', (_what, bend, pumping) => {
    expect(name({ ...still, ...bend }, pumping)).toBeNull();
  });

  test.each([
    [{ sigmas: 8 }, {}],
    [{ afterPerS: -1.9e-4 }, {}],
    [{ beforePerS: -5e-3 }, { nowS: 1020 }],
    [{ beforePerS: -5.1e-4 }, {}],
    [{ beforePerS: -2.7e-3 }, { nowS: 1030 }],
    [{ stepShare: 0.019 }, {}],
    [{ beforePerS: -8.2e-3 }, {}],
  ] as const)('is one all the same with %j, %j', (bend, pumping) => {
    expect(name({ ...still, ...bend }, pumping)).toBe('rise');
  });
});

describe('a gentle bend that has gone on for long', () => {
  const gentle = { gentle: true };

  test('near the depth is a hold, with a doubt', () => {
    expect(taken({ sharpness: 0 }, gentle)).toEqual({
      ...{ name: 'rise', alternatives: ['pump_stopped', 'pull_down'] },
    });
    expect(name({ sharpness: 0, since: 1e-4 }, gentle)).toBe('rise');
  });

  test('is none far above it, falling, or lower than where it began', () => {
    expect(name({}, { ...gentle, bendPa: 133 })).toBeNull();
    expect(name({}, { ...gentle, bendPa: 132 })).toBe('rise');
    expect(name({ since: 0 }, gentle)).toBeNull();
    expect(name({ since: -0.1 }, gentle)).toBeNull();
    expect(name({ dip: 0.041 }, gentle)).toBeNull();
  });
});

test('what has only risen since the first reading is a rise where it began near the target, and nothing fell before', () => {
  const rise = { name: 'rise', alternatives: ['pump_stopped', 'pull_down'] };
  expect(valvedOffUnseen(60, 0.05, 67)).toEqual(rise);
  expect(valvedOffUnseen(60, 0.051, 67)).toBeNull();
  expect(valvedOffUnseen(90_000, 0, 67)).toBeNull();
});
