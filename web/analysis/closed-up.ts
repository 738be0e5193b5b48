/**
 * Closing up takes the system away from the sensor: it is shut off, or the charge is let in. From then on its
 * readings say nothing of the hold, and what was concluded before stands.
 */
import type { Mark, MarkKind } from '../../protocol/mark.ts';
import type { Conclusions } from './conclusions.ts';

const CLOSING: readonly MarkKind[] = ['sensor_isolated', 'charge_released'];
/** Work on the vacuum goes on after all. */
const GOING_ON: readonly MarkKind[] = [
  'pump_on',
  'reopened',
  'isolated',
  'nitrogen_break',
  'stub_opened',
];

/**
 * @param marks in order of time
 * @returns the first mark of closing up with nothing after it that goes on; null: there is none
 */
export function closedUpSinceS(marks: readonly Mark[]): number | null {
  const goesOn = marks.findLastIndex(({ kind }) => GOING_ON.includes(kind));
  return marks.slice(goesOn + 1).find(({ kind }) => CLOSING.includes(kind))?.elapsedS ?? null;
}

export function isChargeReleased(marks: readonly Mark[]): boolean {
  const goesOn = marks.findLastIndex(({ kind }) => GOING_ON.includes(kind));
  return marks.slice(goesOn + 1).some(({ kind }) => kind === 'charge_released');
}

/**
 * What stood when closing up began, where that was a hold; null where the marks mean something else, as a
 * sensor that is shut off for a nitrogen test, or where the curve shows that it is pumped again.
 */
export function standingConclusions(before: Conclusions, now: Conclusions): Conclusions | null {
  const isPumped = now.stage.name === 'pull_down' || now.stage.name === 'at_depth';
  if (before.stage.name !== 'rise') return null;
  return isPumped && now.stage.sinceS > before.nowS ? null : before;
}
