/** Two holds of one system, pumped on between: the leak is the same, what levels off is less. */
import type { Mark, MarkKind } from '../../../../protocol/mark.ts';
import { DEFAULT_SHEET } from '../../../../protocol/sheet.ts';
import { judge } from '../../../../web/analysis/judge.ts';
import type { HistoryPoint } from '../../../../web/analysis/readings/history.ts';
import {
  between,
  historyOf,
  logBetween,
  QUIET_SENSOR,
  readingsOf,
  seeded,
} from '../../../support/invented-curves.ts';
import { expect, test } from 'vitest';

const FIRST_S = 600;
const REOPENED_S = 1000;
const SECOND_S = 1800;
const END_S = 2300;
const START_PA = 25;
const TAU_S = 500;

interface Release {
  readonly leakPaPerS: number;
  /** What levels off, more slowly than a hold lasts, by its first rate. */
  readonly slowPaPerS: number;
}

/** Pumped down, held, pumped down again, held; the inflows of the two holds may differ. */
function session(first: Release, second: Release) {
  const rise = ({ leakPaPerS, slowPaPerS }: Release, heldS: number) =>
    leakPaPerS * heldS + slowPaPerS * TAU_S * -Math.expm1(-heldS / TAU_S);
  const curve = (elapsedS: number): number => {
    if (elapsedS < FIRST_S) return START_PA + 3000 * Math.exp(-elapsedS / 60);
    if (elapsedS < REOPENED_S) return START_PA + rise(first, elapsedS - FIRST_S);
    if (elapsedS < SECOND_S) {
      const topPa = rise(first, REOPENED_S - FIRST_S);
      return START_PA + topPa * Math.exp(-(elapsedS - REOPENED_S) / 20);
    }
    return START_PA + rise(second, elapsedS - SECOND_S);
  };
  const marks = [
    markOf('pump_on', 0),
    markOf('isolated', FIRST_S),
    markOf('reopened', REOPENED_S),
    markOf('isolated', SECOND_S),
  ];
  const points = readingsOf(curve, QUIET_SENSOR, seeded(8), 0, END_S);
  const history = historyOf(points);
  const told = (nowS: number, only = marks) => judge(history, only, DEFAULT_SHEET, nowS).rise;
  return { points, marks, told };
}

function markOf(kind: MarkKind, elapsedS: number): Mark {
  return { id: elapsedS + 1, kind, elapsedS, text: '', madeBy: 'hand' };
}

const LEAK: Release = { leakPaPerS: 0.04, slowPaPerS: 0.04 };
/** Between the two, the walls gave off three quarters of theirs. */
const LESS: Release = { leakPaPerS: 0.04, slowPaPerS: 0.01 };

test('the second hold is read together with the first, and tells the leak more closely than that one', () => {
  const { marks, told } = session(LEAK, LESS);
  const first = told(REOPENED_S - 2);
  const second = told(END_S);
  const alone = told(
    END_S,
    // Joints were tightened between: what the first hold tells is of another system.
    [...marks, markOf('joints_tightened', REOPENED_S + 100)],
  );
  expect(first?.verdict).toBe('undecided');
  expect(first?.earlierHolds).toBe(0);
  expect(second?.earlierHolds).toBe(1);
  expect(alone?.earlierHolds).toBe(0);
  const width = (rise: typeof first) => (rise?.leakPaPerS.high ?? 0) - (rise?.leakPaPerS.low ?? 0);
  expect(width(second)).toBeLessThan(width(first));
  // By itself it can't know of what is being exhausted, nor what no model has right in either, and is the surer of it.
  expect(width(second)).toBeLessThan(1.25 * width(alone));
  expect(second?.leakPaPerS.low).toBeLessThanOrEqual(0.04);
  expect(second?.leakPaPerS.high).toBeGreaterThanOrEqual(0.04);
});

test('a first hold that contradicts the second is left out, marked or not', () => {
  // Something was tightened and nobody said so.
  const { told } = session(
    { leakPaPerS: 0.2, slowPaPerS: 0 },
    { leakPaPerS: 0.0005, slowPaPerS: 0 },
  );
  const second = told(END_S);
  expect(second?.earlierHolds).toBe(0);
  expect(second?.leakPaPerS.high).toBeLessThan(0.01);
});

test('what is kept of past holds follows the readings that come late', () => {
  const { points, marks, told } = session(LEAK, LESS);
  // A stretch of the first hold is backfilled only when the second is well under way.
  const isLate = ({ elapsedS }: HistoryPoint) => elapsedS > 700 && elapsedS < 960;
  const history = historyOf(points.filter((point) => !isLate(point) && point.elapsedS <= 2100));
  const judged = (nowS: number) => judge(history, marks, DEFAULT_SHEET, nowS).rise;
  const without = judged(2100);
  for (const point of points) {
    if (isLate(point)) history.insert(point);
  }
  expect(judged(2100)).toEqual(told(2100));
  expect(judged(2100)?.leakPaPerS).not.toEqual(without?.leakPaPerS);
  for (const point of points) {
    if (point.elapsedS > 2100) history.insert(point);
  }
  expect(judged(END_S)).toEqual(told(END_S));
});

test('no leak is passed because part of it might be a slow release, however long was pumped between', () => {
  const limit = DEFAULT_SHEET.leakLimitPaPerS;
  const random = seeded(6);
  for (let run = 0; run < 25; run += 1) {
    const leak = between(random, 1.02, 1.25) * limit;
    const slow = between(random, 0.2, 0.6) * limit;
    const tauS = logBetween(random, 2500, 14_000);
    const reopenedS = FIRST_S + 2 * Math.round(between(random, 350, 900));
    const secondS = reopenedS + 2 * Math.round(between(random, 3600, 10_000));
    const endS = secondS + 900;
    /** What leak and slow release have brought between two moments, Pa. */
    const cameIn = (fromS: number, toS: number) =>
      leak * (toS - fromS) +
      slow * tauS * (Math.exp((endS - fromS) / tauS) - Math.exp((endS - toS) / tauS));
    const curve = (elapsedS: number): number => {
      if (elapsedS < FIRST_S) return START_PA + 3000 * Math.exp(-elapsedS / 60);
      if (elapsedS < reopenedS) return START_PA + cameIn(FIRST_S, elapsedS);
      if (elapsedS >= secondS) return START_PA + cameIn(secondS, elapsedS);
      return START_PA + cameIn(FIRST_S, reopenedS) * Math.exp(-(elapsedS - reopenedS) / 20);
    };
    const marks = [
      markOf('pump_on', 0),
      markOf('isolated', FIRST_S),
      markOf('reopened', reopenedS),
      markOf('isolated', secondS),
    ];
    const history = historyOf(readingsOf(curve, QUIET_SENSOR, seeded(1000 + run), 0, endS));
    for (const nowS of [endS - 250, endS - 120, endS]) {
      const rise = judge(history, marks, DEFAULT_SHEET, nowS).rise;
      expect(rise?.verdict, `run ${run} at ${nowS} s`).not.toBe('tight_dry');
    }
  }
});
