/** The holds of a job, each as its end says: also one after which the system was opened. */
import { describe, expect, test } from 'vitest';
import type { Conclusions, Stage } from '../../../web/analysis/conclusions.ts';
import { judgedHolds } from '../../../web/analysis/judged-holds.ts';
import { conclusionsWith, inRise, riseWith } from '../web/invented-conclusions.ts';

const after = (name: Stage['name'], rise: Conclusions['rise'] = null) =>
  conclusionsWith({
    stage: { name, sinceS: 1900, recognisedBy: 'curve', alternatives: [] },
    rise,
  });
const HELD = inRise({ heldS: 300, verdict: 'undecided' });
/** As it was judged once all of it was seen. */
const WHOLE = riseWith({ heldS: 900, verdict: 'tight_dry' });
const holdsOf = (...conclusions: readonly Conclusions[]) =>
  judgedHolds(conclusions.map((one, at) => ({ conclusions: one, untilS: 1000 + 900 * at })));

describe('a hold', () => {
  test.each(['vented', 'nitrogen_break'] as const)(
    'that ends with "%s" is judged by that end',
    (name) => {
      const [hold] = holdsOf(after('pull_down'), HELD, after(name, WHOLE));
      expect(hold?.rise).toBe(WHOLE);
      // So that nobody reads two verdicts of one hold; all else is as it stood in the hold.
      expect(hold?.conclusions).toEqual({ ...HELD, rise: WHOLE });
      expect(hold?.untilS).toBe(1900);
    },
  );

  test('that is pumped again, or goes on, is judged by itself', () => {
    expect(holdsOf(HELD)[0]?.rise).toBe(HELD.rise);
    for (const name of ['pull_down', 'at_depth', 'waiting'] as const) {
      expect(holdsOf(HELD, after(name, WHOLE))[0]?.rise, name).toBe(HELD.rise);
    }
  });

  test('is one only where the system was held, and something can be said of it', () => {
    expect(holdsOf(after('pull_down'), after('vented', WHOLE), after('at_depth'))).toEqual([]);
    expect(holdsOf(HELD, after('vented'))).toEqual([]);
    expect(holdsOf({ ...HELD, rise: null })).toEqual([]);
  });

  test('is one of several, each with its own end', () => {
    const holds = holdsOf(HELD, after('vented', WHOLE), after('pull_down'), HELD);
    expect(holds.map(({ rise, untilS }) => [rise.heldS, untilS])).toEqual([
      [900, 1000],
      [300, 3700],
    ]);
  });
});
