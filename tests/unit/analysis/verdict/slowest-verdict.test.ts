/** One verdict by several sensors: what any of them finds is found, and a pass waits for all. */
import { DEFAULT_SHEET } from '../../../../protocol/sheet.ts';
import type { Verdict } from '../../../../protocol/verdicts.ts';
import {
  heardTogether,
  sensorSaid,
  slowestVerdict,
} from '../../../../web/analysis/verdict/slowest-verdict.ts';
import { riseWith } from '../../web/invented-conclusions.ts';
import { describe, expect, test } from 'vitest';

const said = (channel: number, verdict: Verdict | null, moreS: number | null = null) => ({
  ...{ channel, verdict, moreS, seesSystem: true },
});
const verdictOf = (...verdicts: readonly (Verdict | null)[]) =>
  slowestVerdict(verdicts.map((verdict, channel) => said(channel, verdict)))?.verdict;

describe('the verdict', () => {
  test('is a pass where each has passed, and none as long as one is open', () => {
    expect(verdictOf('tight_dry')).toBe('tight_dry');
    expect(verdictOf('tight_dry', 'tight_dry')).toBe('tight_dry');
    expect(verdictOf('tight_dry', 'undecided')).toBe('undecided');
    expect(verdictOf(null, 'tight_dry')).toBe('undecided');
    expect(verdictOf(null)).toBe('undecided');
  });

  test.each(['leak', 'moisture', 'leak_and_moisture'] as const)(
    'is %s where one has found it, whatever the others do',
    (found) => {
      expect(verdictOf('tight_dry', found)).toBe(found);
      expect(verdictOf(found, 'undecided')).toBe(found);
      expect(verdictOf(found, null)).toBe(found);
    },
  );

  test('is both where one leaks and another is moist', () => {
    expect(verdictOf('leak', 'moisture')).toBe('leak_and_moisture');
    expect(verdictOf('moisture', 'leak', 'tight_dry')).toBe('leak_and_moisture');
  });

  test('is nobody’s where none sees the system, and not of those that do not', () => {
    expect(slowestVerdict([])).toBeNull();
    const atPump = { ...said(1, 'leak'), seesSystem: false };
    expect(slowestVerdict([atPump])).toBeNull();
    expect(slowestVerdict([atPump, said(2, 'tight_dry')])).toEqual({
      ...{ verdict: 'tight_dry', waiting: [], finding: [], moreS: null },
    });
  });
});

test('who is waited for, who has found something, and for how long', () => {
  const sensors = [
    said(1, 'undecided', 60),
    said(2, 'leak'),
    said(3, null, 240),
    said(4, 'tight_dry'),
    said(5, 'moisture'),
    said(6, 'leak_and_moisture', 9000),
  ];
  expect(slowestVerdict(sensors)).toEqual({
    verdict: 'leak_and_moisture',
    waiting: [1, 3],
    finding: [2, 5, 6],
    moreS: 240,
  });
  // One of whom nobody knows how long it takes.
  expect(slowestVerdict([...sensors, said(7, 'undecided')])?.moreS).toBeNull();
  expect(slowestVerdict([said(1, null), said(2, 'undecided', 10)])?.moreS).toBeNull();
});

describe('what one has said', () => {
  test('is that of its own hold, with what it sees', () => {
    const rise = riseWith({ verdict: 'undecided', moreS: 300 });
    const sheet = { ...DEFAULT_SHEET, sensorSees: 'pump_side' } as const;
    expect(sensorSaid(3, rise, sheet)).toEqual({
      ...{ channel: 3, verdict: 'undecided', moreS: 300, seesSystem: false },
    });
    expect(sensorSaid(2, null, { ...DEFAULT_SHEET, sensorSees: 'system' })).toEqual({
      ...{ channel: 2, verdict: null, moreS: null, seesSystem: true },
    });
  });

  test('stays as it is unless it is a pass that the others do not bear out', () => {
    const passed = riseWith({ verdict: 'tight_dry', reservations: [], moreS: null });
    const [open, found, all] = [
      [said(1, 'tight_dry'), said(2, 'undecided', 120)],
      [said(1, 'tight_dry'), said(2, 'leak'), said(3, null, 50)],
      [said(1, 'tight_dry'), said(2, 'tight_dry')],
    ].map(slowestVerdict);
    const others = { ...passed, verdict: 'undecided', reservations: ['other_sensor'] };
    expect(heardTogether(passed, open ?? null)).toEqual({ ...others, moreS: 120 });
    // No wait helps where another one has found a leak.
    expect(heardTogether(passed, found ?? null)).toEqual({ ...others, moreS: null });
    expect(heardTogether(passed, all ?? null)).toBe(passed);
    expect(heardTogether(passed, null)).toBe(passed);
    const moist = riseWith({ verdict: 'moisture' });
    expect(heardTogether(moist, open ?? null)).toBe(moist);
    const unsure = riseWith({ verdict: 'tight_dry', reservations: ['ice_possible'] });
    expect(heardTogether(unsure, open ?? null).reservations).toEqual([
      'ice_possible',
      'other_sensor',
    ]);
  });
});
