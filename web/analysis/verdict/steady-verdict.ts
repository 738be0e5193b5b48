/** Keeps a word from coming and going: what was said of a hold earlier has a say in it. */
import type { Verdict } from '../../../protocol/verdicts.ts';
import type { Reservation } from '../conclusions.ts';
import type { Judgement } from './verdict.ts';

/** A word that has only just become sure is asked for again after so long, s. */
const ASKED_AGAIN_S = 30;

/**
 * A word for what is wrong is said once two looks that follow one another bear it out, and taken back
 * once two don't, or one bears out another: looks are at fixed moments, so that it can't waver with every reading. So is a pass, but
 * only for as long as the present bears it out, too.
 *
 * @param looks judgements of the same hold at earlier moments, the latest first; only taken as needed
 */
export function steadied(
  { leaning, ...now }: Judgement,
  looks: Iterable<Judgement>,
): Omit<Judgement, 'leaning'> {
  if (FINAL.some((reason) => now.reservations.includes(reason))) {
    return now;
  }
  const word = lastBorneOut(looks);
  if (word !== null && (word !== 'tight_dry' || leaning === 'tight_dry')) {
    const reservations = now.reservations.filter((reason) => !OF_NO_WORD.includes(reason));
    return { ...now, verdict: word, reservations, moreS: null };
  }
  if (now.verdict === 'undecided') return now;
  const reservations: Reservation[] = ['too_early', ...now.reservations];
  return { ...now, verdict: 'undecided', reservations, moreS: ASKED_AGAIN_S };
}

/** Whatever was said before, it is taken back at once where the readings or the sheet speak against it. */
const FINAL: readonly Reservation[] = [
  'falling',
  'not_the_system',
  'isolation_unsure',
  'evening_out',
  'ice_possible',
  'not_water_alone',
];
/** What keeps a word from being said, and goes with it. */
const OF_NO_WORD: readonly Reservation[] = ['too_early', 'between_limits'];

/** By the latest two successive looks that agree on a word, or on none. */
function lastBorneOut(looks: Iterable<Judgement>): Verdict | null {
  let later: Judgement | null = null;
  for (const look of looks) {
    if (later !== null) {
      const said = saidOf(later) ?? saidOf(look);
      const bothLean = later.leaning !== null && look.leaning !== null;
      if (bothLean && !isAlike(later.leaning, look.leaning)) return null;
      // A pass needs the later of the two to be sure.
      const isBorneOut = said !== 'tight_dry' || saidOf(later) === said;
      if (said !== null && bothLean && isBorneOut && isAlike(look.leaning, said)) return said;
      if (later.leaning === null && look.leaning === null) return null;
    }
    later = look;
  }
  return null;
}

function saidOf({ verdict }: Judgement): Verdict | null {
  return verdict === 'undecided' ? null : verdict;
}

/** Of the two words that name a leak, each confirms the other. */
function isAlike(one: Verdict | null, other: Verdict | null): boolean {
  return one === other || Boolean(one?.startsWith('leak') && other?.startsWith('leak'));
}
