/** Whether a bend downward in a hold is the valve that was opened to the pump again. */
import type { Stage } from '../conclusions.ts';
import type { Bend } from './bend.ts';

/** A pump pulls it down by so much, and so many of the sensor's own steps … */
const LEAST_FALL = 0.03;
const LEAST_STEPS = 2.5;
/** … and by this part of what it had risen … */
const LEAST_SHARE = 0.15;
/** … and faster than that: cooling does less than 3 % a minute. */
const LEAST_PER_S = 0.03 / 60;
/** A mark that says 'isolated' stands against it: only a fall by a quarter says that it was forgotten. */
const AGAINST_MARK = 0.3;

/** @param risen in ln P, since the valve was closed */
export function isReopening(bend: Bend, { recognisedBy }: Stage, risen: number): boolean {
  const { since, afterPerS, stepShare } = bend;
  if (-afterPerS < LEAST_PER_S) return false;
  const least = recognisedBy === 'mark' ? AGAINST_MARK : LEAST_FALL;
  return -since >= Math.max(least, LEAST_STEPS * stepShare, LEAST_SHARE * risen);
}
