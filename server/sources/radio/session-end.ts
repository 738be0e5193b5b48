/** How a session with a sensor ends, and what is said about it. */
import { DeadlineError } from './deadline.ts';
import { RefusedError } from './link.ts';
import type { SessionReport } from './messages.ts';

export interface SessionEnd {
  /**
   * `unanswered`: a request got no answer in time, so the host library itself may be stuck.
   * `refused`: the sensor answers, and won't send its readings.
   */
  readonly reason: 'disconnected' | 'silent' | 'unanswered' | 'refused' | 'not_understood';
  readonly detail: string;
  /** Whether any reading came. */
  readonly delivered: boolean;
}

export class SilenceError extends Error {
  override readonly name = 'SilenceError';
}
export class NotUnderstoodError extends Error {
  override readonly name = 'NotUnderstoodError';
}

export function sessionEnd(failure: unknown, delivered: boolean): SessionEnd {
  const detail = failure instanceof Error ? failure.message : String(failure);
  return { reason: reasonOf(failure), detail, delivered };
}

function reasonOf(failure: unknown): SessionEnd['reason'] {
  if (failure instanceof SilenceError) return 'silent';
  if (failure instanceof RefusedError) return 'refused';
  if (failure instanceof NotUnderstoodError) return 'not_understood';
  return failure instanceof DeadlineError ? 'unanswered' : 'disconnected';
}

export function problemOf({ reason }: SessionEnd): NonNullable<SessionReport['problem']> {
  switch (reason) {
    case 'silent':
      return 'sensor_silent';
    case 'refused':
      return 'sensor_refuses';
    case 'not_understood':
      return 'sensor_not_understood';
    case 'disconnected':
    case 'unanswered':
      return 'sensor_lost';
  }
}
