/** Whether a bend upward under pumping is a valve that was closed, a pump that stopped, or neither. */
import type { StageName } from '../conclusions.ts';
import { isInBoilingRange } from '../pull-down/plateau.ts';
import type { Bend } from './bend.ts';
import { mostPaPerS } from './filling.ts';

/** What else was going on when the curve bent. */
export interface Pumping {
  readonly nowS: number;
  readonly bendPa: number;
  /** An isolation is looked for near or below this (the target). */
  readonly depthPa: number;
  /** Quickest fall of ln P in the pull-down, 1/s. */
  readonly fallPerS: number;
  /** It has gone on for so long that it need not be sharp. */
  readonly gentle: boolean;
}

export interface TurnedUp {
  readonly name: 'rise' | 'pump_stopped';
  /** What the curve fits as well, the likelier first. */
  readonly alternatives: readonly StageName[];
}

/** So much likelier sharp than gentle: three standard errors. */
const LEAST_SHARPNESS = 9;
/** No warmth does that: a tenth, at 10 % a minute. The vapour pressure of water goes by 6.4 % a kelvin. */
const QUICK_RISE = 0.1;
const QUICK_PER_S = 0.1 / 60;
/** A rise must have gone so far, and so many of the sensor's own steps … */
const LEAST_RISE = 0.01;
const LEAST_STEPS = 2.5;
/** … for so long. */
const LEAST_S = 15;
/** A fall that stopped dead: without the stop it would have gone on by so much … */
const LEAST_MISSED_SOON = 0.08;
const LEAST_STILL_S = 20;
/** … or by so much over so long; and it goes on by less than this part of it. */
const LEAST_MISSED = 0.03;
const LONG_STILL_S = 60;
/** A display of few digits stands still by itself, and bins of several readings hide half of its step. */
const STILL_STEPS = 6;
const STILL_SHARE = 0.1;
/** Who valves off, is near the target … */
const NEAR_TARGET = 2;
/** … or has seen the curve level off, to less than 3 % a minute. */
const LEVEL_PER_S = 0.03 / 60;
/** A bend of its own takes longer, see below. A setting of ours. */
const ABRUPT_WITHIN = 0.5;
/** Where the fall before was too steep to tell, only a rise by a tenth does … */
const STEEP_RISE = 0.1;
/** … that is faster than oil that warms up: 3 % a minute. */
const STEEP_PER_S = 0.03 / 60;
const STOPPED_SIGMAS = 8;
/** Who rises, has not been deeper since by more than this part of it. */
const MOST_DIP = 0.5;
/** Boiling comes and goes, and by itself makes up to a tenth: a setting of ours. */
const BOILING_RISE = 0.12;

export function turnedUp(
  bend: Bend,
  { nowS, bendPa, depthPa, fallPerS, gentle }: Pumping,
): TurnedUp | null {
  const near = bendPa <= NEAR_TARGET * depthPa;
  if (gentle) {
    return near && bend.since > 0 && bend.dip <= MOST_DIP * bend.since
      ? { name: 'rise', alternatives: ['pump_stopped', 'pull_down'] }
      : null;
  }
  const quick = bend.since >= QUICK_RISE && bend.afterPerS >= QUICK_PER_S;
  if (!quick && bend.sharpness < LEAST_SHARPNESS) return null;
  // What rushes in faster than it was pumped before is let in.
  const inflowPaPerS = (bendPa * Math.expm1(bend.since)) / Math.max(nowS - bend.atS, 1);
  if (inflowPaPerS > mostPaPerS(bendPa, fallPerS)) return null;
  const lastedS = nowS - bend.atS;
  const level = Math.abs(bend.beforePerS) < LEVEL_PER_S;
  if (!near && isInBoilingRange(bendPa) && bend.since < BOILING_RISE) return null;
  if (!isRising(bend, lastedS) && !(near && hasStopped(bend, lastedS))) return null;
  return near || level
    ? { name: 'rise', alternatives: ['pump_stopped'] }
    : { name: 'pump_stopped', alternatives: ['rise'] };
}

/** A fall by more than this before it, in ln P, is one: something was still pumped. A setting of ours. */
const LEAST_FALL = 0.05;

/**
 * What has risen for long from the first reading on, and was near the target there.
 * @param fell in ln P, from the first reading until the stage was told
 */
export function valvedOffUnseen(firstPa: number, fell: number, depthPa: number): TurnedUp | null {
  if (firstPa > NEAR_TARGET * depthPa || fell > LEAST_FALL) return null;
  return { name: 'rise', alternatives: ['pump_stopped', 'pull_down'] };
}

function isRising(
  { since, dip, stepShare, beforePerS, afterPerS }: Bend,
  lastedS: number,
): boolean {
  if (dip > MOST_DIP * since) return false;
  if (lastedS < LEAST_S || since < Math.max(LEAST_RISE, LEAST_STEPS * stepShare)) return false;
  return isAbrupt(beforePerS, lastedS) || (since >= STEEP_RISE && afterPerS >= STEEP_PER_S);
}

function hasStopped(
  { beforePerS, afterPerS, sigmas, steadyBefore, stepShare }: Bend,
  lastedS: number,
): boolean {
  const missed = -beforePerS * lastedS;
  return (
    sigmas >= STOPPED_SIGMAS &&
    steadyBefore &&
    isAbrupt(beforePerS, lastedS) &&
    lastedS >= LEAST_STILL_S &&
    missed >= STILL_STEPS * stepShare &&
    missed >= (lastedS >= LONG_STILL_S ? LEAST_MISSED : LEAST_MISSED_SOON) &&
    Math.abs(afterPerS) < -STILL_SHARE * beforePerS
  );
}

/**
 * P = floor + A·e^(−kt) bends by itself from its fall at k to none, in ln P over some 4/k. A bend is
 * sharper than that only where it is seen within a part of 1/k.
 */
function isAbrupt(beforePerS: number, lastedS: number): boolean {
  return -beforePerS * lastedS < ABRUPT_WITHIN;
}
