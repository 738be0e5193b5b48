/**
 * Closing up takes the system away from the sensor: it is shut off, or the charge is let in. From then on its
 * readings say nothing of the hold, and what was concluded before stands; but only where that was concluded, and
 * only while nothing shows that the vacuum was lost before the charge was let in.
 */
import type { Mark, MarkKind } from '../../../protocol/mark.ts';
import type { Conclusions } from '../conclusions.ts';
import type { History } from '../readings/history.ts';
import { stageBegunBy } from '../stages/mark-effects.ts';
import { isOfRelease, vacuumLoss } from './vacuum-loss.ts';

const CLOSING: readonly MarkKind[] = ['sensor_isolated', 'charge_released'];

/** Work on the vacuum goes on after all, or the sensor sees something else: whatever begins a stage, or anew. */
function goesOn({ kind }: Mark): boolean {
  return kind === 'pump_on' || kind === 'cores_out' || stageBegunBy(kind, 'rise') !== null;
}

/**
 * @param marks in order of time
 * @returns the first mark of closing up with nothing after it that goes on; null: there is none
 */
export function closedUpSinceS(marks: readonly Mark[]): number | null {
  return sinceWork(marks).find(({ kind }) => CLOSING.includes(kind))?.elapsedS ?? null;
}

export function isChargeReleased(marks: readonly Mark[]): boolean {
  return sinceWork(marks).some(({ kind }) => kind === 'charge_released');
}

export interface SensorShutOff {
  readonly atS: number;
  /** What was concluded up to then, or up to a release just before, stands. */
  readonly judgedUpToS: number | null;
}

/**
 * @param marks in any order
 * @returns null: the sensor sees the system, or whatever else is connected to it
 */
export function sensorShutOff(
  marks: readonly Mark[],
  { stage, nowS }: Pick<Conclusions, 'stage' | 'nowS'>,
): SensorShutOff | null {
  const inOrder = [...marks].sort((a, b) => a.elapsedS - b.elapsedS || a.id - b.id);
  const atS = sinceWork(inOrder).find(({ kind }) => kind === 'sensor_isolated')?.elapsedS;
  const closedS = closedUpSinceS(inOrder);
  if (atS === undefined || closedS === null) return null;
  const isPumped = stage.name === 'pull_down' || stage.name === 'at_depth';
  if (isPumped && stage.sinceS > atS) return null;
  return { atS, judgedUpToS: nowS === closedS ? nowS : null };
}

function sinceWork(marks: readonly Mark[]): readonly Mark[] {
  return marks.slice(marks.findLastIndex(goesOn) + 1);
}

/**
 * What stood when closing up began: that of a hold that ran its whole length to a verdict, or of whatever hold there
 * was once the charge is in. Null where nothing was concluded yet, where the marks mean something else (a sensor that
 * is shut off for a nitrogen test), where the curve shows that it is pumped again, or that the vacuum was lost before
 * the release.
 * @param marks in order of time
 */
export function standingConclusions(
  before: Conclusions,
  now: Conclusions,
  history: History,
  marks: readonly Mark[],
  leakLimitPaPerS: number,
): Conclusions | null {
  const { rise } = before;
  if (before.stage.name !== 'rise' || rise === null) return null;
  const isConcluded = rise.verdict !== 'undecided' && rise.heldS >= rise.endOfHold.atS;
  if (!isConcluded && !isChargeReleased(marks)) return null;
  const isPumped = now.stage.name === 'pull_down' || now.stage.name === 'at_depth';
  if (isPumped && now.stage.sinceS > before.nowS) return null;
  const span = { isolatedS: rise.sinceS, judgedS: before.nowS };
  const loss = vacuumLoss(history, span, now.nowS, leakLimitPaPerS);
  return loss === null || isOfRelease(loss, marks) ? before : null;
}
