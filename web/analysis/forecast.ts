/** When the target will be reached, or why not, from what the pull-down has shown so far. */
import type { Mark } from '../../protocol/mark.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import { boilingPointC } from '../../protocol/water.ts';
import type {
  Cause,
  CurvePoint,
  Estimate,
  Forecast,
  RankedCause,
  Remaining,
} from './conclusions.ts';
import { boilOffEvidence, boilOffMayCome, isInBoilingRange, plateauEndS } from './plateau.ts';
import {
  arrivalAt,
  candidatesFor,
  floorFrom,
  LONGEST_S,
  remainingFrom,
  type Candidate,
} from './prediction.ts';
import { pressuresAfter } from './pull-down-models.ts';
import type { PullDownPoint } from './pull-down-points.ts';

/** What the forecast starts from. */
export interface PullDownSeen {
  /** Pump on, or the last change of the rig. */
  readonly sinceS: number;
  readonly nowS: number;
  /** Since then, up to now. */
  readonly points: readonly PullDownPoint[];
  /** The whole pull-down, changes or not: the quickest fall in it is what the rig can do. */
  readonly allPoints: readonly PullDownPoint[];
  readonly pressurePa: number | null;
  /** d ln P / dt, 1/s, or null while unknown. */
  readonly relativeRatePerS: number | null;
  readonly targetReachedS: number | null;
  readonly isolationDepthReachedS: number | null;
}

/** Evidence from here on makes boil-off the reason. */
const BOILING_FROM = 0.5;
/**
 * Before boiling range, the chance that water will boil, and the delay it then means: as many jobs
 * are wet as dry, and a plateau takes from minutes to an hour. Settings of ours.
 */
const BOIL_OFF_TO_COME = [{ weight: 0.3, delayS: 900, spread: 0.9 }];
/** A floor is believed where nine tenths of the weight say so … */
const NEVER_FROM = 0.9;
/** … the curve has come within this factor of it: farther up it is extrapolation … */
const NEAR_FLOOR = 1.2;
/** … and has had five minutes: the bend from gas to the tail looks like a floor at first. */
const LEAST_LEVEL_S = 300;
/** Rising by more than 3 % a minute is no pull-down. */
const RISING_PER_S = 0.03 / 60;
/** Held at the target within this factor, it counts as reached. */
const STILL_REACHED = 1.05;
/** Times of the curve to come, as parts of its length. */
const CURVE_POINTS = 32;
/** 10 % and 90 % points of the normal distribution. */
const Z90 = 1.2816;

export function forecastPullDown(
  seen: PullDownSeen,
  marks: readonly Mark[],
  sheet: Sheet,
): Forecast {
  const { sinceS, pressurePa, nowS } = seen;
  const nothing = { sinceS, remaining: null, remainingToIsolation: null, floorPa: null, curve: [] };
  if (pressurePa === null) {
    return { ...nothing, outcome: 'too_early', causes: only('sensor'), boilingPointC: null };
  }
  const boiling = boilOffEvidence(pressurePa, seen.relativeRatePerS ?? Infinity);
  const isBoiling = boiling >= BOILING_FROM;
  const dryS = isBoiling ? null : plateauEndS(seen.points);
  const points = dryS === null ? seen.points : seen.points.filter((p) => p.elapsedS >= dryS);
  const candidates = candidatesFor(points, nowS);
  const floor = floorFrom(candidates);
  const causes = rankCauses(seen, marks, boiling, floor);
  const common = {
    ...nothing,
    causes,
    boilingPointC: isBoiling ? boilingPointC(pressurePa) : null,
    floorPa: isBoiling ? null : floor,
    curve: isBoiling ? [] : curveOf(candidates, nowS, sheet.isolateAtPa),
  };
  // Just after a plateau there is nothing yet to go by but that it has ended.
  const plateau = isBoiling || (dryS !== null && candidates.length === 0);
  const isReached = seen.targetReachedS !== null && pressurePa <= sheet.targetPa * STILL_REACHED;
  const remainingToIsolation =
    seen.isolationDepthReachedS === null
      ? remainingTo(sheet.isolateAtPa, seen, candidates, plateau)
      : null;
  if (isReached) return { ...common, outcome: 'reached', remainingToIsolation };
  if ((seen.relativeRatePerS ?? 0) > RISING_PER_S) return { ...common, outcome: 'too_early' };

  const remaining = remainingTo(sheet.targetPa, seen, candidates, plateau);
  if (remaining) return { ...common, outcome: 'reaches', remaining, remainingToIsolation };
  const isStuck =
    !isInBoilingRange(pressurePa) &&
    arrivalAt(candidates, sheet.targetPa, []).neverWeight >= NEVER_FROM &&
    nowS - sinceS >= LEAST_LEVEL_S &&
    floor !== null &&
    floor.low > sheet.targetPa &&
    pressurePa <= NEAR_FLOOR * floor.low;
  return { ...common, outcome: isStuck ? 'levels_off' : 'too_early' };
}

/** Null where nothing is known yet, or where it will more likely not be reached. */
function remainingTo(
  depthPa: number,
  seen: PullDownSeen,
  candidates: readonly Candidate[],
  isOnPlateau: boolean,
): Remaining | null {
  const { pressurePa } = seen;
  if (pressurePa === null) return null;
  if (isOnPlateau) return remainingWhileBoiling(depthPa, pressurePa, seen);
  if (candidates.length === 0) return null;
  const detours = boilOffMayCome(pressurePa) ? BOIL_OFF_TO_COME : [];
  return remainingFrom(arrivalAt(candidates, depthPa, detours));
}

/**
 * A plateau ends without warning. It could end now, and the gas then goes as fast as it ever went:
 * a lower bound. How long it lasts is unknown; that it lasts as long again as it has is as likely as
 * not, if now is any moment of it. There is no upper bound.
 */
function remainingWhileBoiling(
  depthPa: number,
  pressurePa: number,
  seen: PullDownSeen,
): Remaining | null {
  const fastest = fastestFallPerS(seen.allPoints);
  if (fastest === null) return null;
  const atOnceS = Math.log(Math.max(pressurePa / depthPa, 1)) / fastest;
  const onPlateauS = seen.nowS - plateauSinceS(seen.allPoints, pressurePa);
  return { p10S: atOnceS, p50S: 3 * atOnceS + onPlateauS, p90S: null };
}

/** Since when the curve has been within a fifth of the present pressure. */
function plateauSinceS(points: readonly PullDownPoint[], pressurePa: number): number {
  const away = points.findLast((point) => Math.abs(Math.log(point.pressurePa / pressurePa)) > 0.2);
  return away?.elapsedS ?? points[0]?.elapsedS ?? 0;
}

/** The quickest fall between points at least 10 s apart, 1/s. */
function fastestFallPerS(points: readonly PullDownPoint[]): number | null {
  let fastest = 0;
  let start = 0;
  for (const [i, point] of points.entries()) {
    while (start < i && point.elapsedS - (points[start + 1]?.elapsedS ?? point.elapsedS) >= 10) {
      start += 1;
    }
    const from = points[start];
    if (!from || point.elapsedS - from.elapsedS < 10) continue;
    const fall = Math.log(from.pressurePa / point.pressurePa) / (point.elapsedS - from.elapsedS);
    fastest = Math.max(fastest, fall);
  }
  return fastest > 0 ? fastest : null;
}

function only(cause: Cause): RankedCause[] {
  return [{ cause, weight: 1 }];
}

function rankCauses(
  seen: PullDownSeen,
  marks: readonly Mark[],
  boiling: number,
  floor: Estimate | null,
): RankedCause[] {
  const pressurePa = seen.pressurePa ?? 0;
  const fallPerS = -(seen.relativeRatePerS ?? 0);
  const fastest = fastestFallPerS(seen.allPoints) ?? Math.max(fallPerS, 1e-6);
  // Half as fast as it ever went is still gas on its way; a tenth of that is a tail.
  const speed = Math.min(Math.max(fallPerS / fastest, 0), 1);
  const nearFloor = floor && floor.low > 0 ? Math.min(floor.low / pressurePa, 1) ** 2 : 0;
  const evidence: [Cause, number][] = [
    ['rising', fallPerS < -RISING_PER_S ? 5 : 0],
    ['boil_off', 3 * boiling],
    ['ballast', isBallastOpen(marks) && speed < 0.1 ? 1 : 0],
    ['floor', nearFloor * (1 - speed) * (boiling > 0 ? 1 : 2)],
    ['slow_tail', boiling > 0.5 ? 0.1 : (1 - speed) ** 2 * (1 - nearFloor)],
    ['gas', Math.min(2 * speed, 1)],
  ];
  const total = evidence.reduce((sum, [, weight]) => sum + weight, 0);
  if (!(total > 0)) return only('slow_tail');
  return evidence
    .filter(([, weight]) => weight / total > 0.02)
    .sort(([, a], [, b]) => b - a)
    .map(([cause, weight]) => ({ cause, weight: weight / total }));
}

function isBallastOpen(marks: readonly Mark[]): boolean {
  const last = marks.findLast(({ kind }) => kind === 'ballast_opened' || kind === 'ballast_closed');
  return last?.kind === 'ballast_opened';
}

/** The mixture's middle and band, as far as the depth to isolate at, or for as long as was seen. */
function curveOf(candidates: readonly Candidate[], nowS: number, depthPa: number): CurvePoint[] {
  if (candidates.length === 0) return [];
  const arrivalS = arrivalAt(candidates, depthPa, []).quantileS(0.5);
  const triedS = candidates[0]?.triedS ?? 0;
  const lengthS = Math.min(Number.isFinite(arrivalS) ? 1.3 * arrivalS : 20 * triedS, LONGEST_S);
  // Denser at first: the curve bends there.
  const timesS = Array.from(
    { length: CURVE_POINTS + 1 },
    (_, i) => lengthS * (i / CURVE_POINTS) ** 2,
  );
  const ways = candidates.map((candidate) => ({
    candidate,
    pressuresPa: pressuresAfter(candidate.model, candidate.model.lastPa, timesS),
  }));
  return timesS.map((afterS, place) => {
    const here = ways.map(({ candidate, pressuresPa }) => ({
      ...candidate,
      pressurePa: pressuresPa[place] ?? candidate.model.lastPa,
    }));
    return { elapsedS: nowS + afterS, ...bandOf(here) };
  });
}

function bandOf(
  candidates: readonly (Candidate & { readonly pressurePa: number })[],
): Omit<CurvePoint, 'elapsedS'> {
  let mean = 0;
  let square = 0;
  for (const { model, weight, rateError, pressurePa } of candidates) {
    const log = Math.log(pressurePa);
    const own = rateError * Math.abs(log - Math.log(model.lastPa));
    mean += weight * log;
    square += weight * (log * log + own * own);
  }
  const spread = Z90 * Math.sqrt(Math.max(square - mean * mean, 0));
  return {
    lowPa: Math.exp(mean - spread),
    midPa: Math.exp(mean),
    highPa: Math.exp(mean + spread),
  };
}
