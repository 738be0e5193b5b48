/** Holds by the hundred, from a formula that the judge doesn't know, as seen by many sensors. */
import { describe, expect, test } from 'vitest';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import type { Verdict } from '../../../web/analysis/conclusions.ts';
import { assessRise } from '../../../web/analysis/rise.ts';
import {
  between,
  historyOf,
  holdPressure,
  inventHold,
  inventSensor,
  logBetween,
  readingsOf,
  seeded,
  type HoldClass,
  type InventedHold,
} from '../../support/invented-curves.ts';

const CURVES = 60;
const HOLD_S = DEFAULT_SHEET.holdS;
/** Valved off this long after the readings begin. */
const ISOLATED_S = 40;
const HOLD = { isolatedS: ISOLATED_S, isMarked: true, isolationSure: true };

function invented(seed: number, invent: (random: () => number) => InventedHold) {
  const random = seeded(seed);
  const hold = invent(random);
  const sensor = { ...inventSensor(random, HOLD_S), topPa: 1e5 };
  const truePa = holdPressure(hold);
  const seenPa = (elapsedS: number) => truePa(Math.max(elapsedS - ISOLATED_S, 0));
  const history = historyOf(readingsOf(seenPa, sensor, random, 0, ISOLATED_S + HOLD_S + 2));
  const judgedAt = (heldS: number) => assessRise(history, HOLD, DEFAULT_SHEET, ISOLATED_S + heldS);
  return { hold, endPa: truePa(HOLD_S), judgedAt };
}

interface Tally {
  readonly said: Map<Verdict, number>;
  leakInside: number;
  endInside: number;
}

function tally(kind: HoldClass, heldS: number): Tally {
  const result: Tally = { said: new Map(), leakInside: 0, endInside: 0 };
  for (let seed = 0; seed < CURVES; seed += 1) {
    const { hold, endPa, judgedAt } = invented(1000 * seed + kind.length, (random) =>
      inventHold(random, kind),
    );
    const { verdict, leakPaPerS: leak, endOfHold: end } = judgedAt(heldS);
    result.said.set(verdict, (result.said.get(verdict) ?? 0) + 1);
    if (leak.low <= hold.leakPaPerS && hold.leakPaPerS <= leak.high) result.leakInside += 1;
    if (end.low <= endPa && endPa <= end.high) result.endInside += 1;
  }
  return result;
}

/** Verdicts that are right of each kind, and the share that says one of them after 15 minutes. */
const RIGHT: Record<HoldClass, { readonly verdicts: readonly Verdict[]; readonly share: number }> =
  {
    tight: { verdicts: ['tight_dry'], share: 0.95 },
    moist: { verdicts: ['moisture'], share: 0.8 },
    leaking: { verdicts: ['leak', 'leak_and_moisture'], share: 0.9 },
    // The rest is 'undecided': with much moisture on top, a quarter of an hour is short.
    mixed: { verdicts: ['leak', 'leak_and_moisture'], share: 0.45 },
  };

describe.each(['tight', 'moist', 'leaking', 'mixed'] as const)('%s holds', (kind) => {
  test('are told by the end, and hardly ever called something else', () => {
    const { said, leakInside, endInside } = tally(kind, HOLD_S);
    const { verdicts, share } = RIGHT[kind];
    const right = verdicts.reduce((sum, verdict) => sum + (said.get(verdict) ?? 0), 0);
    const wrong = CURVES - right - (said.get('undecided') ?? 0);
    expect(right).toBeGreaterThanOrEqual(share * CURVES);
    expect(wrong).toBeLessThanOrEqual(0.02 * CURVES);
    // 90 % intervals: four fifths is where one would stop trusting them.
    expect(leakInside).toBeGreaterThanOrEqual(0.8 * CURVES);
    expect(endInside).toBeGreaterThanOrEqual(0.8 * CURVES);
  });

  test('have intervals that hold after five minutes too', () => {
    const { leakInside, endInside } = tally(kind, HOLD_S / 3);
    expect(leakInside).toBeGreaterThanOrEqual(0.85 * CURVES);
    expect(endInside).toBeGreaterThanOrEqual(0.85 * CURVES);
  });
});

test('a leak above the limit is never called tight and dry, at any moment of the hold', () => {
  for (let seed = 0; seed < CURVES; seed += 1) {
    // From just above the limit, where it is hardest, with little or much that levels off.
    const { judgedAt } = invented(70_000 + seed, (random) => ({
      ...inventHold(random, seed % 2 === 0 ? 'tight' : 'mixed'),
      leakPaPerS: DEFAULT_SHEET.leakLimitPaPerS * logBetween(random, 1.05, 4),
    }));
    for (let heldS = 60; heldS <= HOLD_S; heldS += 70) {
      expect(judgedAt(heldS).verdict, `curve ${seed} after ${heldS} s`).not.toBe('tight_dry');
    }
  }
});

test('what levels off more slowly than the hold lasts is not called a leak', () => {
  let called = 0;
  for (let seed = 0; seed < CURVES / 2; seed += 1) {
    const { judgedAt } = invented(90_000 + seed, (random) => ({
      leakPaPerS: 0,
      startPa: 28,
      moisture: [{ amountPa: between(random, 40, 340), tauS: between(random, 900, 1600) }],
    }));
    if (judgedAt(HOLD_S).verdict.startsWith('leak')) called += 1;
  }
  expect(called).toBeLessThanOrEqual(0.1 * CURVES);
});
