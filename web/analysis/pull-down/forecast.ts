/** When the target will be reached, or why not, from what the pull-down has shown so far. */
import type { Mark } from '../../../protocol/mark.ts';
import type { Sheet } from '../../../protocol/sheet.ts';
import { boilingPointC } from '../../../protocol/water.ts';
import type { Forecast, Remaining } from '../conclusions.ts';
import { median } from '../fitting/median.ts';
import { isBallastOpen, rankCauses } from './causes.ts';
import { steepestFallPerS } from './fall-seen.ts';
import { levelOf } from './levelling.ts';
import { outlookOf, LONGEST_S, type Outlook } from './outlook.ts';
import { boilOffEvidence, mayBeWater, plateauEndS, plateauMayCome, waterShare } from './plateau.ts';
import { waysFrom } from './prediction.ts';
import type { PullDownPoint } from './pull-down-points.ts';
import { quantileS, remainingFrom, remainingOf } from './remaining.ts';
import { exponentOf, flatnessOf } from './tail-exponent.ts';

/** What the forecast starts from. */
export interface PullDownSeen {
  /** Pump on, or the last change of the rig. */
  readonly sinceS: number;
  readonly nowS: number;
  /** Since then, up to now. */
  readonly points: readonly PullDownPoint[];
  /** The whole pull-down, changes or not: the quickest fall in it is what the rig can do. */
  readonly allPoints: readonly PullDownPoint[];
  /** Since then, by equal parts of the age. */
  readonly agedPoints: readonly PullDownPoint[];
  readonly pressurePa: number | null;
  /** The latest reading has no pressure, because it is out of the sensor's range. */
  readonly isOverRange: boolean;
  /** d ln P / dt, 1/s, or null while unknown. */
  readonly relativeRatePerS: number | null;
  readonly targetReachedS: number | null;
  readonly isolationDepthReachedS: number | null;
}

/** Evidence from here on makes boil-off the reason. */
const BOILING_FROM = 0.5;
/** What a curve does of late, and so why, shows over this part of its age. */
const CAUSE_SHARE = 0.3;
/** Rising by more than 3 % a minute is no pull-down. */
const RISING_PER_S = 0.03 / 60;
const RISING_S = 120;
/** Pumped for less than this, its age says nothing. */
const LEAST_AGE_S = 20;
/**
 * In terms of its age, what is left of a pull-down whose curve says nothing. From air to some 3 kPa, where most
 * sensors begin to see, gas goes down by ln(1e5/3e3) = 3.5, from there to a depth of 67 Pa by ln(3e3/67) = 3.8, ever
 * more slowly, and the tail comes on top: when the gauge begins to see, about twice as long is ahead, and before
 * that more. At any moment of a plateau that ends about as much of it is behind as ahead, and the tail comes on top.
 * With these about as many moments of training pull-downs, from the first on, come late as early: with 1.5 on a
 * plateau 48 in a hundred came late in one world, 75 in the other. In a silence nothing at all is known. Settings of ours.
 */
const TIMES_GAS = 2.5;
const TIMES_WATER = 2.25;
const TIMES_SILENT = 1;
/** Of a bound that comes from thinned readings so much is sure. */
const SURELY = 0.75;
/** So long without a reading nothing is said of the time ahead. */
const LONGEST_SILENCE_S = 600;
/** Held at the target within this factor, it counts as reached. */
const STILL_REACHED = 1.05;

export function forecastPullDown(
  seen: PullDownSeen,
  marks: readonly Mark[],
  sheet: Sheet,
): Forecast {
  const { sinceS, nowS } = seen;
  const nothing = { sinceS, remaining: null, remainingToIsolation: null, floorPa: null, curve: [] };
  const pressurePa = seen.pressurePa ?? lastHeardPa(seen);
  if (pressurePa === null) {
    const times = seen.isOverRange ? TIMES_GAS : TIMES_SILENT;
    const waiting = { ageS: ageOf(seen), leastS: 0, times, isSeen: false };
    const remaining = waiting.ageS < LEAST_AGE_S ? null : remainingOf(waiting);
    const causes = [{ cause: 'sensor', weight: 1 } as const];
    return { ...nothing, outcome: 'too_early', remaining, causes, boilingPointC: null };
  }
  const boiling = boilOffEvidence(pressurePa, seen.relativeRatePerS ?? Infinity);
  const isBoiling = boiling >= BOILING_FROM;
  const dryS = isBoiling ? null : plateauEndS(seen.points);
  const points = dryS === null ? seen.points : seen.points.filter((p) => p.elapsedS >= dryS);
  const outlook =
    outlookOf(waysFrom(points, sheet.targetPa, nowS)) ??
    // Just after a change, what was before it has to do.
    (sinceS > (seen.allPoints[0]?.elapsedS ?? nowS)
      ? outlookOf(waysFrom(seen.allPoints, sheet.targetPa, nowS))
      : null);
  const floor = outlook?.floorPa ?? null;
  const level = levelOf(seen.agedPoints, sinceS, sheet.targetPa);
  const exponent = exponentOf(seen.points, sinceS, CAUSE_SHARE * (nowS - sinceS));
  const causes = rankCauses({
    boiling,
    mayBeWater: mayBeWater(pressurePa),
    isFloor: level !== null,
    exponent,
    isRising: isRising(seen, pressurePa),
    isBallastOpen: isBallastOpen(marks),
  });
  const common = {
    ...nothing,
    causes,
    boilingPointC: isBoiling ? boilingPointC(pressurePa) : null,
    floorPa: isBoiling ? null : floor,
    curve: isBoiling || outlook === null ? [] : outlook.curve(nowS, curveLengthS(outlook, sheet)),
  };
  const ahead = { pressurePa, outlook, isBoiling, flatness: flatnessOf(exponent) };
  const isReached = seen.targetReachedS !== null && pressurePa <= sheet.targetPa * STILL_REACHED;
  const remainingToIsolation =
    seen.isolationDepthReachedS === null ? remainingTo(sheet.isolateAtPa, seen, ahead) : null;
  if (isReached) return { ...common, outcome: 'reached', remainingToIsolation };
  if (isRising(seen, pressurePa)) return { ...common, outcome: 'too_early' };
  if (level) {
    // What the points' medians have smoothed away may stand above them: the band begins where it is now.
    const floorPa = { ...level, high: Math.max(level.high, pressurePa) };
    return { ...common, outcome: 'levels_off', floorPa };
  }
  const remaining = remainingTo(sheet.targetPa, seen, ahead);
  return remaining
    ? { ...common, outcome: 'reaches', remaining, remainingToIsolation }
    : { ...common, outcome: 'too_early' };
}

/** In a short silence the latest pressures still stand; out of range, or silent for long, none does. */
function lastHeardPa({ isOverRange, allPoints, nowS }: PullDownSeen): number | null {
  const last = allPoints.at(-1);
  if (isOverRange || last === undefined || nowS - last.elapsedS > LONGEST_SILENCE_S) return null;
  return median(allPoints.slice(-3).map((point) => point.pressurePa));
}

/** Rising now, and higher than it was two minutes ago. */
function isRising({ relativeRatePerS, points, nowS }: PullDownSeen, pressurePa: number): boolean {
  if ((relativeRatePerS ?? 0) <= RISING_PER_S) return false;
  const before = points.findLast(({ elapsedS }) => elapsedS <= nowS - RISING_S);
  return before !== undefined && pressurePa > (1 + RISING_PER_S * RISING_S) * before.pressurePa;
}

/** As far as the depth to isolate at, or as long again as three times what has been. */
function curveLengthS({ arrival }: Outlook, { isolateAtPa, targetPa }: Sheet): number {
  const [toDepthS, toTargetS] = [isolateAtPa, targetPa].map((depthPa) =>
    quantileS(arrival(depthPa).moments, 0.5),
  );
  return Math.min(1.3 * Math.min(toDepthS ?? Infinity, 2 * (toTargetS ?? Infinity)), LONGEST_S);
}

interface Ahead {
  readonly pressurePa: number;
  readonly outlook: Outlook | null;
  readonly isBoiling: boolean;
  /** 0 to 1, of late. */
  readonly flatness: number;
}

/**
 * Null where nothing is known yet. Whether water has to boil away first no curve shows, and a plateau
 * ends without warning: it may end now, and the gas then goes as fast as it ever went, a lower bound;
 * else it is a matter of its age.
 */
function remainingTo(
  depthPa: number,
  seen: PullDownSeen,
  { pressurePa, outlook, ...water }: Ahead,
): Remaining | null {
  const ageS = ageOf(seen);
  if (ageS < LEAST_AGE_S) return null;
  const fastest = steepestFallPerS(seen.allPoints);
  const fall = Math.log(Math.max(pressurePa / depthPa, 1));
  const leastS = fastest > 0 ? (SURELY * fall) / fastest : 0;
  const times = plateauMayCome(pressurePa) ? TIMES_GAS : TIMES_WATER;
  const waiting = { ageS, leastS, times, isSeen: true };
  if (outlook === null) return remainingOf(waiting);
  const share = waterShare(pressurePa, depthPa, water);
  return remainingFrom(outlook.arrival(depthPa), waiting, share);
}

/** Just after a change of the rig, that of the whole pull-down. */
function ageOf({ nowS, sinceS, allPoints }: PullDownSeen): number {
  const ageS = nowS - sinceS;
  return ageS < LEAST_AGE_S ? nowS - (allPoints[0]?.elapsedS ?? sinceS) : ageS;
}
