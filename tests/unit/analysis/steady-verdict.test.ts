/** A word is said once it was likely a little earlier too. */
import { expect, test } from 'vitest';
import type { Verdict } from '../../../web/analysis/conclusions.ts';
import { steadied } from '../../../web/analysis/steady-verdict.ts';
import type { Judgement } from '../../../web/analysis/verdict.ts';

function said(verdict: Verdict, leaning: Verdict | null = null): Judgement {
  return { verdict, leaning, reservations: [], keepsRule: false, moreS: null };
}

test('a word that was likely before is said, a new one is asked for again', () => {
  expect(steadied(said('moisture'), () => said('undecided', 'moisture')).verdict).toBe('moisture');
  expect(steadied(said('moisture'), () => said('moisture')).verdict).toBe('moisture');
  const fresh = steadied(said('moisture'), () => said('undecided', 'leak'));
  expect(fresh).toMatchObject({ verdict: 'undecided', reservations: ['too_early'] });
  expect(fresh.moreS).toBeGreaterThan(0);
  expect(steadied(said('leak'), () => null).verdict).toBe('undecided');
});

test('either word that names a leak confirms the other', () => {
  expect(steadied(said('leak_and_moisture'), () => said('leak')).verdict).toBe('leak_and_moisture');
  expect(steadied(said('leak'), () => said('undecided', 'leak_and_moisture')).verdict).toBe('leak');
});

test('a pass is asked of the present alone, and likely is not sure', () => {
  const never = () => {
    throw new Error('nothing to ask');
  };
  expect(steadied(said('tight_dry'), never).verdict).toBe('tight_dry');
  expect(steadied(said('undecided', 'leak'), never).verdict).toBe('undecided');
});
