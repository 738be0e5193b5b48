/** Which verdicts are right of which class. */
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import type { Verdict } from '../../../protocol/verdicts.ts';
import type { RiseClass } from '../../support/second-world/rise-class.ts';

/**
 * To the word, or with a leak named where there is one.
 *
 * Of a borderline case every verdict is right but 'tight and dry' where its leak is above the limit.
 * Where moisture hides a leak above the limit, naming both is right too.
 */
export function isRight(
  kind: RiseClass,
  leakPaPerS: number,
  verdict: Verdict | 'none',
  how: 'to_the_word' | 'leak_named',
): boolean {
  const aboveLimit = leakPaPerS > DEFAULT_SHEET.leakLimitPaPerS;
  const namesLeak = verdict === 'leak' || verdict === 'leak_and_moisture';
  switch (kind) {
    case 'tight_dry':
      return verdict === 'tight_dry';
    case 'moisture':
      return verdict === 'moisture' || (aboveLimit && verdict === 'leak_and_moisture');
    case 'leak':
    case 'leak_and_moisture':
      return verdict === kind || (how === 'leak_named' && namesLeak);
    case 'borderline':
      return !(aboveLimit && verdict === 'tight_dry');
  }
}

export function isDecided(verdict: Verdict | 'none'): boolean {
  return verdict !== 'undecided' && verdict !== 'none';
}
