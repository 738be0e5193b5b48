/** One thing that the profile asks for, and what trying it comes to. */
import { DeadlineError } from '../../sources/radio/deadline.ts';
import { BrokenError, NotTriedError } from './check-errors.ts';
import { LinkLostError, RefusedError } from './peer.ts';
import type { Visit } from './visit.ts';

export interface Check {
  /** Short, for a list and for whoever looks for it. */
  readonly id: string;
  /** Of the profile's document. */
  readonly section: string;
  readonly level: 'must' | 'should';
  /** What is asked for, as a sentence about the sensor. */
  readonly what: string;
  /**
   * What deserves to be said although it passed, or nothing.
   * @throws BrokenError, NotTriedError
   */
  readonly attempt: (visit: Visit) => Promise<string | undefined> | string | undefined;
}

export type Outcome =
  | { readonly kind: 'passed'; readonly remark: string | null }
  | { readonly kind: 'failed'; readonly expected: string; readonly came: string }
  | { readonly kind: 'not_tried'; readonly why: string };

export interface Result {
  readonly check: Pick<Check, 'id' | 'section' | 'level' | 'what'>;
  readonly outcome: Outcome;
}

/** Never rejects, and never takes longer than the limit. */
export async function outcomeOf(check: Check, visit: Visit, limitMs: number): Promise<Outcome> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => {
      reject(new BrokenError('an end', `none within ${limitMs / 1000} s`));
    }, limitMs);
  });
  try {
    const remark = await Promise.race([Promise.resolve(check.attempt(visit)), late]);
    return { kind: 'passed', remark: remark ?? null };
  } catch (error) {
    return outcomeOfError(error);
  } finally {
    clearTimeout(timer);
  }
}

function outcomeOfError(error: unknown): Outcome {
  if (error instanceof NotTriedError) return { kind: 'not_tried', why: error.message };
  if (error instanceof BrokenError) {
    return { kind: 'failed', expected: error.expected, came: error.came };
  }
  if (error instanceof DeadlineError) {
    return { kind: 'failed', expected: 'an answer', came: error.message };
  }
  if (error instanceof LinkLostError) {
    return { kind: 'failed', expected: 'a link that stands', came: error.message };
  }
  if (error instanceof RefusedError) {
    return { kind: 'failed', expected: 'the request to be taken', came: error.message };
  }
  throw error;
}
