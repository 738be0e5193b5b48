/** Verdicts: the first of a hold at once, another one when it has stood. */
import type { Rise } from '../analysis/conclusions.ts';
import type { AlertFact } from '../words/alert-fact.ts';
import type { AlertSituation, DueAlerts } from './alert-situation.ts';
import type { GivenAlerts, HoldAlerts } from './given-alerts.ts';
import { isPumping } from './is-pumping.ts';

/** The moment of an isolation is refined as the curve grows; closer than this it is the same one. */
const SAME_ISOLATION_S = 120;
/**
 * Another verdict is announced once it has stood for so long, s. With the noise, an interval that
 * touches its limit crosses it to and fro: in 48 simulated holds a verdict that came back had been
 * away for 30 s at most, and once for 74 s. Nobody closes up within the minute that this waits.
 */
const STANDS_S = 60;

/** So often the wait is doubled at most: four minutes. A setting of ours. */
const MOST_DOUBLINGS = 2;

/**
 * With each change the next one has to stand twice as long: of a hold that lies at its limit nobody wants to
 * hear every other minute. That a pass is taken back is always said as soon.
 */
function hasToStandS({ announced, changes }: HoldAlerts): number {
  return announced === 'tight_dry' ? STANDS_S : STANDS_S * 2 ** Math.min(changes, MOST_DOUBLINGS);
}

export function dueVerdict({ conclusions }: AlertSituation, given: GivenAlerts): DueAlerts {
  const { rise } = conclusions;
  // Pumped again, it is no longer the system that was judged.
  if (rise === null) return { due: [], given, over: isPumping(conclusions) ? ['verdict'] : [] };
  const known = knownHold(given, rise.sinceS);
  const { fact, hold } = known === undefined ? firstVerdict(rise) : laterVerdict(rise, known);
  const changed = hold !== null && hold !== known;
  return {
    due: fact === null ? [] : [fact],
    given: changed
      ? { ...given, holds: [...given.holds.filter((one) => one !== known), hold] }
      : given,
    over: [],
  };
}

/** What was announced of a hold, or undefined. */
function knownHold(given: GivenAlerts, isolatedS: number): HoldAlerts | undefined {
  return given.holds.find(({ sinceS }) => Math.abs(sinceS - isolatedS) < SAME_ISOLATION_S);
}

interface HeldVerdict {
  readonly fact: AlertFact | null;
  readonly hold: HoldAlerts | null;
}

/** It is waited for, so it is said at once. */
function firstVerdict(rise: Rise): HeldVerdict {
  const { verdict, sinceS } = rise;
  if (verdict === 'undecided') return { fact: null, hold: null };
  const atS = judgedS(rise);
  return {
    fact: { kind: 'verdict', atS, sinceS, verdict },
    hold: {
      sinceS,
      announced: verdict,
      changing: null,
      passedS: verdict === 'tight_dry' ? atS : null,
      lost: false,
      changes: 0,
    },
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
  if (judgedS(rise) - changing.fromS < hasToStandS(known)) {
    return { fact: null, hold: known };
  }
  const { fromS } = changing;
  const changes = known.changes + 1;
  // Whoever was told that the vacuum is being lost needs not be told that the pass went with it.
  if (known.lost && verdict === 'undecided') {
    return {
      fact: null,
      hold: { ...known, announced: verdict, changing: null, passedS: null, changes },
    };
  }
  const passedS = verdict === 'tight_dry' ? fromS : null;
  return {
    fact: { kind: 'verdict_changed', atS: fromS, sinceS: fromS, verdict, before: announced },
    hold: { ...known, announced: verdict, changing: null, passedS, changes },
  };
}

/** The data time up to which the hold was judged: it stands still once the system is opened again. */
function judgedS({ sinceS, heldS }: Rise): number {
  return sinceS + heldS;
}
