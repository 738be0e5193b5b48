/** The holds of a job, as marked. */
import type { Mark } from '../../protocol/mark.ts';

export interface Hold {
  readonly fromS: number;
  /** Reopened, broken with nitrogen, or the end of the recording. */
  readonly toS: number;
}

/**
 * The holds that followed a pull-down.
 * @param marks in order of time
 * @param endS of the recording
 */
export function markedHolds(marks: readonly Mark[], endS: number): Hold[] {
  const holds: Hold[] = [];
  let pumped = false;
  let fromS: number | null = null;
  const close = (toS: number): void => {
    if (fromS !== null) holds.push({ fromS, toS });
    fromS = null;
  };
  for (const { kind, elapsedS } of marks) {
    if (kind === 'pump_on') pumped = true;
    if (kind === 'isolated' && pumped) fromS ??= elapsedS;
    if (kind === 'reopened' || kind === 'nitrogen_break') close(elapsedS);
  }
  close(endS);
  return holds;
}
