/** Keeps a word from coming and going: what was said of a hold a little earlier has a say in it. */
import type { Reservation, Verdict } from './conclusions.ts';
import type { Judgement } from './verdict.ts';

/** A word that has only just become sure is asked for again after so long, s. */
const ASKED_AGAIN_S = 30;

/**
 * A word for what is wrong is said once it was likely a little earlier too. A pass needs no such thing:
 * its conditions are stricter, and what is no longer a pass is none.
 * @param before the judgement of the same hold a little earlier; only asked for if needed
 */
export function steadied(
  { verdict, reservations, keepsRule, moreS }: Judgement,
  before: () => Judgement | null,
): Omit<Judgement, 'leaning'> {
  const fresh = { verdict, reservations, keepsRule, moreS };
  if (verdict === 'tight_dry' || verdict === 'undecided') return fresh;
  const earlier = before();
  if (isAlike(earlier?.verdict, verdict) || isAlike(earlier?.leaning, verdict)) return fresh;
  const early: Reservation[] = ['too_early', ...reservations];
  return { verdict: 'undecided', reservations: early, keepsRule, moreS: ASKED_AGAIN_S };
}

/** Of the two words that name a leak, each confirms the other. */
function isAlike(one: Verdict | null | undefined, other: Verdict): boolean {
  return one === other || (other.startsWith('leak') && (one?.startsWith('leak') ?? false));
}
