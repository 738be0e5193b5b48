/** Which alerts are due: pure. Each once per recording, and none from a single spike. */
import type { Sheet } from '../../protocol/sheet.ts';
import type { Conclusions, Rise } from '../analysis/conclusions.ts';
import type { AlertFact } from '../words/say-alert.ts';
import type { GivenAlerts, HoldAlerts } from './given-alerts.ts';

/** The moment of an isolation is refined as the curve grows; closer than this it is the same one. */
const SAME_ISOLATION_S = 120;
/**
 * Another verdict is announced once it has stood for so long, s. With the noise, an interval that
 * touches its limit crosses it to and fro: in 48 simulated holds a verdict that came back had been
 * away for 30 s at most, and once for 74 s. Nobody closes up within the minute that this waits.
 */
const STANDS_S = 60;

export interface DueAlerts {
  readonly due: readonly AlertFact[];
  /** The same object as before where nothing changed. */
  readonly given: GivenAlerts;
}

/** `targetReachedS` is reached *and held*, so a spike raises nothing. */
export function dueAlerts(conclusions: Conclusions, sheet: Sheet, given: GivenAlerts): DueAlerts {
  const due: AlertFact[] = [];
  const { targetReachedS, rise } = conclusions;
  let after = given;
  if (targetReachedS !== null && !given.target) {
    due.push({ kind: 'target', atS: targetReachedS, targetPa: sheet.targetPa });
    after = { ...after, target: true };
  }
  if (rise === null) return { due, given: after };
  const known = given.holds.find(({ sinceS }) => Math.abs(sinceS - rise.sinceS) < SAME_ISOLATION_S);
  const { fact, hold } = known === undefined ? firstVerdict(rise) : laterVerdict(rise, known);
  if (fact !== null) due.push(fact);
  if (hold !== null && hold !== known) {
    after = { ...after, holds: [...after.holds.filter((one) => one !== known), hold] };
  }
  return { due, given: after };
}

interface HeldVerdict {
  readonly fact: AlertFact | null;
  readonly hold: HoldAlerts | null;
}

/** It is waited for, so it is said at once. */
function firstVerdict(rise: Rise): HeldVerdict {
  const { verdict, sinceS } = rise;
  if (verdict === 'undecided') return { fact: null, hold: null };
  return {
    fact: { kind: 'verdict', atS: judgedS(rise), verdict },
    hold: { sinceS, announced: verdict, changing: null },
  };
}

/** Undecided is something to say as well once there was a verdict: that one no longer stands. */
function laterVerdict(rise: Rise, known: HoldAlerts): HeldVerdict {
  const { verdict } = rise;
  const { announced, changing } = known;
  const same = announced === verdict || (announced === null && verdict !== 'undecided');
  if (same) {
    const settled = announced === verdict && changing === null;
    return { fact: null, hold: settled ? known : { ...known, announced: verdict, changing: null } };
  }
  if (changing?.verdict !== verdict) {
    return { fact: null, hold: { ...known, changing: { verdict, fromS: judgedS(rise) } } };
  }
  if (judgedS(rise) - changing.fromS < STANDS_S) return { fact: null, hold: known };
  return {
    fact: { kind: 'verdict_changed', atS: changing.fromS, verdict, before: announced },
    hold: { ...known, announced: verdict, changing: null },
  };
}

/** The data time up to which the hold was judged: it stands still once the system is opened again. */
function judgedS({ sinceS, heldS }: Rise): number {
  return sinceS + heldS;
}
