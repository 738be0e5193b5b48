/** A word is said once two looks that follow one another bear it out, and taken back once two don't. */
import type { Verdict } from '../../../../protocol/verdicts.ts';
import type { Reservation } from '../../../../web/analysis/conclusions.ts';
import { steadied } from '../../../../web/analysis/verdict/steady-verdict.ts';
import type { Judgement } from '../../../../web/analysis/verdict/verdict.ts';
import { expect, test } from 'vitest';

function sure(verdict: Verdict): Judgement {
  return { verdict, leaning: verdict, reservations: [], keepsRule: false, moreS: null };
}

function unsure(leaning: Verdict | null, reason: Reservation = 'too_early'): Judgement {
  return { verdict: 'undecided', leaning, reservations: [reason], keepsRule: null, moreS: 60 };
}

/** The word for a present and looks before it, the latest first. */
const wordFor = (now: Judgement, ...looks: Judgement[]) => steadied(now, looks).verdict;

test('two looks bear a word out, of which one is sure', () => {
  expect(wordFor(sure('moisture'), sure('moisture'), unsure('moisture'))).toBe('moisture');
  expect(wordFor(sure('moisture'), unsure('moisture'), sure('moisture'))).toBe('moisture');
  expect(wordFor(sure('moisture'), unsure('moisture'), unsure('moisture'))).toBe('undecided');
  expect(wordFor(sure('moisture'), sure('moisture'), unsure('leak'))).toBe('undecided');
  expect(wordFor(sure('moisture'), sure('moisture'))).toBe('undecided');
  expect(wordFor(sure('leak'))).toBe('undecided');
});

test('what is sure and not yet borne out is asked for again', () => {
  const fresh = steadied(sure('leak'), []);
  expect(fresh).toMatchObject({ verdict: 'undecided', reservations: ['too_early'] });
  expect(fresh.moreS).toBeGreaterThan(0);
});

test('a word stays through one look that does not bear it out, and not through two', () => {
  const [yes, no] = [sure('leak'), unsure(null)];
  expect(wordFor(no, no, yes, yes)).toBe('leak');
  expect(wordFor(no, yes, no, yes, yes)).toBe('leak');
  expect(wordFor(yes, no, no, yes, yes)).toBe('undecided');
  const kept = steadied(unsure('leak', 'between_limits'), [yes, yes]);
  expect(kept).toMatchObject({ verdict: 'leak', reservations: [], moreS: null });
});

test('either word that names a leak bears out the other', () => {
  expect(wordFor(unsure(null), sure('leak_and_moisture'), unsure('leak'))).toBe(
    'leak_and_moisture',
  );
  expect(wordFor(unsure(null), unsure('leak_and_moisture'), sure('leak'))).toBe('leak');
  expect(wordFor(unsure(null), sure('leak'), sure('moisture'))).toBe('undecided');
});

test('a pass is never kept where the present does not bear it out', () => {
  const looks = [sure('tight_dry'), sure('tight_dry')];
  expect(wordFor(sure('tight_dry'), ...looks)).toBe('tight_dry');
  expect(wordFor(unsure('tight_dry'), ...looks)).toBe('tight_dry');
  expect(wordFor(unsure(null), ...looks)).toBe('undecided');
  expect(wordFor(unsure('leak'), ...looks)).toBe('undecided');
  expect(wordFor(unsure('tight_dry'), unsure('tight_dry'), unsure('tight_dry'))).toBe('undecided');
});

test('a pass is not begun by an early look alone', () => {
  const [pass, likely] = [sure('tight_dry'), unsure('tight_dry')];
  expect(wordFor(likely, likely, pass)).toBe('undecided');
  expect(wordFor(likely, pass, likely)).toBe('tight_dry');
  expect(wordFor(likely, likely, pass, pass)).toBe('tight_dry');
});

test.each(['falling', 'isolation_unsure', 'ice_possible', 'not_water_alone'] as const)(
  '"%s" takes any word back at once',
  (reason) => {
    const looks = [sure('leak'), sure('leak')];
    expect(wordFor(unsure('leak', reason), ...looks)).toBe('undecided');
  },
);

test('looks are taken only as far back as needed', () => {
  function* looks() {
    yield sure('leak');
    yield sure('leak');
    throw new Error('not needed');
  }
  expect(steadied(sure('leak'), looks()).verdict).toBe('leak');
});
