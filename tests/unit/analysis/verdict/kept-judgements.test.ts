/** What was judged at a past moment is kept as long as all that it depends on is the same, and no longer. */
import { DEFAULT_SHEET } from '../../../../protocol/sheet.ts';
import { History } from '../../../../web/analysis/readings/history.ts';
import type { LeakTold } from '../../../../web/analysis/rise/leak-told.ts';
import { judgedBefore } from '../../../../web/analysis/verdict/past-holds.ts';
import { beforeEach, describe, expect, test } from 'vitest';

type Past = Parameters<typeof judgedBefore>[1];
const told = (middleS: number): LeakTold => {
  return { logLikelihoodAt: () => 0, atPaPerS: [], priors: [], middleS };
};
const [EARLIER, OTHER] = [told(100), told(100)];
const PAST: Past = {
  hold: { isolatedS: 1000, isMarked: true, isolationSure: true },
  sheet: DEFAULT_SHEET,
  untilS: 1500,
  earlier: [EARLIER],
};

let history: History;
let judged: number;
beforeEach(() => {
  history = new History();
  judged = 0;
  hear(2000);
});
function hear(elapsedS: number) {
  history.insert({ elapsedS, pressurePa: 30, condition: 'ok', temperatureC: null });
}
/** How often it has been judged, once this has been asked for too. */
function after(past: Past): number {
  const found = judgedBefore(history, past, () => {
    judged += 1;
    const verdict = { verdict: 'undecided', reservations: [], keepsRule: null } as const;
    return { ...verdict, moreS: past.untilS, leaning: null };
  });
  // Whatever is kept, it is that of the moment that was asked for.
  expect(found.moreS).toBe(past.untilS);
  return judged;
}

describe('a past moment', () => {
  test('is judged once, also where all of it is said anew', () => {
    expect(after(PAST)).toBe(1);
    expect(after({ ...PAST, hold: { ...PAST.hold }, earlier: [EARLIER] })).toBe(1);
    hear(2001);
    expect(after(PAST)).toBe(1);
  });

  test.each<[string, Partial<Past>]>([
    ['a hold that began elsewhere', { hold: { ...PAST.hold, isolatedS: 1001 } }],
    ['a hold that nobody marked', { hold: { ...PAST.hold, isMarked: false } }],
    ['a hold that may be pumped', { hold: { ...PAST.hold, isolationSure: false } }],
    ['another sheet', { sheet: { ...DEFAULT_SHEET, targetPa: 30 } }],
    ['another moment', { untilS: 1501 }],
    ['other holds before it', { earlier: [OTHER] }],
    ['none before it', { earlier: [] }],
    ['one more before it', { earlier: [EARLIER, OTHER] }],
  ])('is judged anew for %s, and both are kept', (_what, change) => {
    expect(after(PAST)).toBe(1);
    expect(after({ ...PAST, ...change })).toBe(2);
    expect(after(PAST)).toBe(2);
    expect(after({ ...PAST, ...change })).toBe(2);
  });

  test('is judged anew once a reading came late: it may belong to it', () => {
    after(PAST);
    hear(1200);
    expect(after(PAST)).toBe(2);
    expect(after(PAST)).toBe(2);
  });

  test('is none up to the latest reading: another of the same moment may follow', () => {
    expect(after({ ...PAST, untilS: 2000 })).toBe(1);
    expect(after({ ...PAST, untilS: 2000 })).toBe(2);
    hear(2001);
    expect(after({ ...PAST, untilS: 2000 })).toBe(3);
    expect(after({ ...PAST, untilS: 2000 })).toBe(3);
  });

  test('of another recording is another', () => {
    after(PAST);
    history = new History();
    hear(2000);
    expect(after(PAST)).toBe(2);
  });

  test('is one of a few dozen that are kept, those last asked for', () => {
    const at = (n: number) => after({ ...PAST, untilS: 1100 + n });
    for (let n = 0; n < 24; n += 1) at(n);
    // However often one of them is asked for, it takes the room of one.
    for (let again = 0; again < 30; again += 1) at(23);
    expect(at(0)).toBe(24);
    // Which drops the one that was not asked for the longest.
    expect(at(24)).toBe(25);
    expect(at(0)).toBe(25);
    expect(at(1)).toBe(26);
  });
});
