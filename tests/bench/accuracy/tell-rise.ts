/** Cuts a rise at random moments and notes what is said of it. */
import { between, seeded } from '../../support/invented-curves.ts';
import { cleanPoints } from './clean-points.ts';
import type { EndLine, FirstLine, RiseLine } from './lines.ts';
import { isDecided, isRight } from './right-verdict.ts';
import { Subject } from './subject.ts';
import type { RiseTrial } from './trials.ts';

export const MINUTES = [5, 10, 15, 30] as const;
const ABOUT = 0.1;
export const END_SAID_S = [60, 120, 300] as const;
const END_S = 600;
const WATCH_EVERY_S = 30;

type AnyRiseLine = RiseLine | EndLine | FirstLine;

/** @param watch also judge it all along */
export function tellRise(trial: RiseTrial, watch: boolean): AnyRiseLine[] {
  const subject = new Subject(trial.points, trial.marks);
  const lines: AnyRiseLine[] = [...cuts(trial, subject), ...ends(trial, subject)];
  return watch ? [...lines, first(trial, subject)] : lines;
}

function cuts(trial: RiseTrial, subject: Subject): RiseLine[] {
  const { world, seed, kind, isolatedS, leakPaPerS, heldS: longestS } = trial;
  const random = seeded(seed * 31 + 11);
  return MINUTES.map((minute) => {
    const about = between(random, 1 - ABOUT, 1 + ABOUT);
    const heldS = Math.min(minute * 60 * about, longestS);
    const { rise } = subject.judge(isolatedS + heldS);
    return {
      what: 'rise',
      world,
      seed,
      kind,
      minute,
      heldS,
      verdict: rise?.verdict ?? 'none',
      reservations: rise?.reservations ?? [],
      trueLeakPaPerS: leakPaPerS,
      leakPaPerS: rise?.leakPaPerS ?? null,
      moisturePa: rise?.moisturePa ?? null,
    };
  });
}

/** None where trapped air is let go before the end: nobody can know. */
function ends(trial: RiseTrial, asRead: Subject): EndLine[] {
  const { world, seed, kind, isolatedS, shownAt, facts, marks } = trial;
  const stepAtS = facts['stepAtS'];
  if (typeof stepAtS === 'number' && stepAtS < END_S) return [];
  const clean = new Subject(cleanPoints(trial, Math.max(...END_SAID_S)), marks);
  return [asRead, clean].flatMap((subject) =>
    END_SAID_S.map((atS) => ({
      what: 'end',
      world,
      seed,
      kind,
      atS,
      truePa: shownAt(isolatedS + END_S),
      saidPa: subject.judge(isolatedS + atS, END_S).rise?.endOfHold ?? null,
      clean: subject === clean,
    })),
  );
}

function first(trial: RiseTrial, subject: Subject): FirstLine {
  const { world, seed, kind, isolatedS, heldS: longestS, leakPaPerS } = trial;
  let firstRightS: number | null = null;
  const saidTightS: number[] = [];
  for (let heldS = WATCH_EVERY_S; heldS <= longestS; heldS += WATCH_EVERY_S) {
    const verdict = subject.judge(isolatedS + heldS).rise?.verdict ?? 'none';
    if (verdict === 'tight_dry') saidTightS.push(heldS);
    if (!isDecided(verdict)) continue;
    if (isRight(kind, leakPaPerS, verdict, 'leak_named')) firstRightS ??= heldS;
    else firstRightS = null;
  }
  return { what: 'first', world, seed, kind, trueLeakPaPerS: leakPaPerS, firstRightS, saidTightS };
}
