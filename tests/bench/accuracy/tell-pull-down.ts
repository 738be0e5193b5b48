/** Cuts a pull-down at random moments and notes what is said of it. */
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { between, seeded } from '../../support/invented-curves.ts';
import type { ForecastLine, MomentLine, NeverLine, WatchLine } from './lines.ts';
import { lastMinuteS, logTimeS } from './rivals.ts';
import { Subject } from './subject.ts';
import type { PullDownTrial } from './trials.ts';

export const SHARES = [0.3, 0.5, 0.7, 0.9] as const;
/** At a fixed share the time that elapsed would give the answer away. */
const ABOUT = 0.05;
export const NEVER_MINUTES = [10, 20, 40] as const;
const WATCH_EVERY_S = 30;
/** Of the true time; in each, one moment is as likely as another. */
const PARTS = 10;

type PullDownLine = ForecastLine | MomentLine | NeverLine | WatchLine;

/** @param watch also judge it all along */
export function tellPullDown(trial: PullDownTrial, watch: boolean): PullDownLine[] {
  const subject = new Subject(trial.points, trial.marks);
  const lines: PullDownLine[] =
    trial.reachedS === null
      ? never(trial, subject)
      : [...cuts(trial, subject, trial.reachedS), ...moments(trial, subject, trial.reachedS)];
  return watch ? [...lines, watched(trial, subject)] : lines;
}

function cuts(trial: PullDownTrial, subject: Subject, reachedS: number): ForecastLine[] {
  const { world, seed, wet, pumpOnS } = trial;
  const random = seeded(seed * 31 + 7);
  const targetPa = DEFAULT_SHEET.targetPa;
  return SHARES.map((share) => {
    const nowS = pumpOnS + (reachedS - pumpOnS) * between(random, share - ABOUT, share + ABOUT);
    const { forecast, nowS: judgedS } = subject.judge(nowS);
    const remaining = forecast?.remaining ?? null;
    return {
      what: 'forecast',
      world,
      seed,
      wet,
      share,
      nowS: judgedS,
      elapsedS: judgedS - pumpOnS,
      trueS: reachedS - judgedS,
      outcome: forecast?.outcome ?? 'none',
      p10S: remaining?.p10S ?? null,
      p50S: remaining?.p50S ?? null,
      p90S: remaining?.p90S ?? null,
      floorPa: forecast?.floorPa?.estimate ?? null,
      cause: forecast?.causes[0]?.cause ?? null,
      lastMinuteS: lastMinuteS(subject.points, judgedS, targetPa),
      logTimeS: logTimeS(subject.points, pumpOnS, judgedS, targetPa),
    };
  });
}

/** So that what is said at the beginning counts as much as what is said near the end. */
function moments(trial: PullDownTrial, subject: Subject, reachedS: number): MomentLine[] {
  const { world, seed, wet, pumpOnS } = trial;
  const random = seeded(seed * 37 + 11);
  return Array.from({ length: PARTS }, (_, part) => {
    const share = between(random, part / PARTS, (part + 1) / PARTS);
    const { forecast, nowS } = subject.judge(pumpOnS + (reachedS - pumpOnS) * share);
    const { p10S = null, p50S = null, p90S = null } = forecast?.remaining ?? {};
    return {
      ...{ what: 'moment', world, seed, wet, elapsedS: nowS - pumpOnS, trueS: reachedS - nowS },
      ...{ p10S, p50S, p90S, cause: forecast?.causes[0]?.cause ?? null },
    };
  });
}

function never(trial: PullDownTrial, subject: Subject): NeverLine[] {
  const { world, seed, wet, pumpOnS, endS, facts } = trial;
  return NEVER_MINUTES.filter((minute) => pumpOnS + minute * 60 <= endS).map((minute) => ({
    what: 'never',
    world,
    seed,
    wet,
    obstacle: String(facts['obstacle']),
    minute,
    outcome: subject.judge(pumpOnS + minute * 60).forecast?.outcome ?? 'none',
  }));
}

function watched(trial: PullDownTrial, subject: Subject): WatchLine {
  const { world, seed, wet, pumpOnS, reachedS, endS } = trial;
  const outcomes: { nowS: number; outcome: string }[] = [];
  for (let nowS = pumpOnS + WATCH_EVERY_S; nowS <= endS; nowS += WATCH_EVERY_S) {
    outcomes.push({ nowS, outcome: subject.judge(nowS).forecast?.outcome ?? 'none' });
  }
  return {
    what: 'watch',
    world,
    seed,
    wet,
    reaches: reachedS !== null,
    judged: outcomes.length,
    changes: outcomes.filter(({ outcome }, i) => i > 0 && outcome !== outcomes[i - 1]?.outcome)
      .length,
    levelsOffS: outcomes.flatMap(({ nowS, outcome }) =>
      outcome === 'levels_off' ? [nowS - pumpOnS] : [],
    ),
  };
}
