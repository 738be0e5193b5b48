/** A pass that stands on the screen, and that the readings no longer bear out: pure. */
import type { Rise } from '../analysis/conclusions.ts';
import type { AlertFact } from '../words/alert-fact.ts';

/**
 * Another verdict is called out once it has stood for a while (`due-verdict.ts`): until then nobody is to read a
 * pass above a number that says otherwise.
 *
 * @param rise of the sensor that it was said of, now; null: nothing holds
 */
export function isInDoubt(fact: AlertFact, rise: Pick<Rise, 'verdict'> | null): boolean {
  const isVerdict = fact.kind === 'verdict' || fact.kind === 'verdict_changed';
  return isVerdict && fact.verdict === 'tight_dry' && rise !== null && rise.verdict !== 'tight_dry';
}
