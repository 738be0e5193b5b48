/** A connection in use, and the one way to ask a sensor something over it. */
import { eventWithin, type Wait } from './deadline.ts';
import type { HostPeripheral } from './host-library.ts';

export interface Link {
  readonly peripheral: HostPeripheral;
  /** How long an answer may take. */
  readonly limitMs: number;
  /** Aborted when the connection is lost. */
  readonly signal: AbortSignal;
  /** The sensor has answered something, be it with a refusal. */
  readonly onAnswer: () => void;
}

/** The sensor answers, and its answer to this request is no. */
export class RefusedError extends Error {
  override readonly name = 'RefusedError';
}

/**
 * Asks one question. Whatever comes back, a refusal too, shows that the host library works.
 * @throws DeadlineError where nothing comes in time
 */
export async function ask<T>(link: Link, request: Omit<Wait<T>, 'limitMs' | 'signal'>): Promise<T> {
  const { limitMs, signal, onAnswer } = link;
  try {
    const answer = await eventWithin({ ...request, limitMs, signal });
    onAnswer();
    return answer;
  } catch (error) {
    if (error instanceof RefusedError) onAnswer();
    throw error;
  }
}

/** A refusal, where the operating system tells of it; a lost link ends the wait by itself. */
export function throwIfRefused(error: unknown): void {
  if (error instanceof Error) throw new RefusedError(error.message);
}
