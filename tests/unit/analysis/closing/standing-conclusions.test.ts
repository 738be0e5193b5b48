/** What of a hold stands once it is closed up: by what was concluded, and by what is seen since. */
import type { Mark, MarkKind } from '../../../../protocol/mark.ts';
import { DEFAULT_SHEET } from '../../../../protocol/sheet.ts';
import {
  closedUpSinceS,
  isChargeReleased,
  standingConclusions,
} from '../../../../web/analysis/closing/closed-up.ts';
import type { Conclusions, Stage } from '../../../../web/analysis/conclusions.ts';
import { historyOf } from '../../../support/invented-curves.ts';
import { conclusionsWith, inRise } from '../../web/invented-conclusions.ts';
import { describe, expect, test } from 'vitest';

const mark = (kind: MarkKind, elapsedS: number): Mark => ({
  ...{ id: elapsedS, kind, elapsedS, text: '', madeBy: 'hand' },
});
const SHUT = [mark('sensor_isolated', 1901)];
const RELEASED = [mark('charge_released', 1901)];

/** Held from 1000 s, closed up at 1900 s: still, until something happens to it. */
const still = (lostS = Infinity) =>
  historyOf(
    Array.from({ length: 1200 }, (_, i) => ({
      elapsedS: 900 + i,
      pressurePa: 900 + i < lostS ? 30 : 300,
      condition: 'ok' as const,
      temperatureC: null,
    })),
  );
const held = (change: Parameters<typeof inRise>[0] = {}) =>
  inRise({ heldS: 900, verdict: 'tight_dry', ...change });
const stageOf = (name: Stage['name'], sinceS: number): Conclusions =>
  conclusionsWith({
    nowS: 2000,
    stage: { name, sinceS, recognisedBy: 'curve', alternatives: [] },
  });
const NOW: Conclusions = { ...held(), nowS: 2000 };
const stands = (before: Conclusions, now = NOW, marks: readonly Mark[] = SHUT, lostS?: number) =>
  standingConclusions(before, now, still(lostS), marks, DEFAULT_SHEET.leakLimitPaPerS);

describe('the verdict of a hold stands', () => {
  test('where the hold ran its whole length to one', () => {
    const before = held();
    expect(stands(before)).toBe(before);
    expect(stands(held({ heldS: 901 }))).not.toBeNull();
    expect(stands(held({ heldS: 899 }))).toBeNull();
  });

  test('and not where it was undecided, but for the charge, which ends all', () => {
    const undecided = held({ verdict: 'undecided' });
    expect(stands(undecided)).toBeNull();
    expect(stands(undecided, NOW, RELEASED)).toBe(undecided);
    const short = held({ heldS: 500 });
    expect(stands(short, NOW, RELEASED)).toBe(short);
  });

  test('where there was a hold', () => {
    expect(stands(stageOf('at_depth', 700), NOW, RELEASED)).toBeNull();
    expect(stands({ ...held(), rise: null }, NOW, RELEASED)).toBeNull();
    // A hold that is over already is not the one that was closed up.
    expect(stands({ ...held(), stage: stageOf('pull_down', 1500).stage })).toBeNull();
  });

  test.each(['pull_down', 'at_depth'] as const)('until it is pumped again: %s', (name) => {
    expect(stands(held(), stageOf(name, 1950))).toBeNull();
    // What is pumped since before that is the same evacuation, told anew by what came later.
    expect(stands(held(), stageOf(name, 1900))).not.toBeNull();
    // Nor is any other stage work: a valve’s own jump may look like one.
    expect(stands(held(), stageOf('rise', 1950))).not.toBeNull();
  });

  test('until its vacuum is lost, unless that is the charge', () => {
    expect(stands(held(), NOW, SHUT, 1950)).toBeNull();
    expect(stands(held(), NOW, RELEASED, 1950)).not.toBeNull();
    expect(stands(held(), NOW, [...SHUT, mark('charge_released', 1990)], 1925)).toBeNull();
  });
});

describe('closing up', () => {
  test('begins with its first mark, and is over where the work goes on', () => {
    expect(closedUpSinceS([])).toBeNull();
    expect(closedUpSinceS([mark('isolated', 1000), mark('cores_in', 1800)])).toBeNull();
    expect(closedUpSinceS([...SHUT, mark('charge_released', 1950)])).toBe(1901);
    expect(closedUpSinceS([...RELEASED, mark('sensor_isolated', 1950)])).toBe(1901);
    for (const kind of ['pump_on', 'cores_out', 'isolated'] as const) {
      expect(closedUpSinceS([...SHUT, mark(kind, 1950)]), kind).toBeNull();
      expect(closedUpSinceS([...SHUT, mark(kind, 1950), mark('charge_released', 1980)])).toBe(1980);
    }
  });

  test('is the charge only where that was let in since the work', () => {
    expect(isChargeReleased(SHUT)).toBe(false);
    expect(isChargeReleased(RELEASED)).toBe(true);
    expect(isChargeReleased([...RELEASED, mark('pump_on', 1950)])).toBe(false);
  });
});
