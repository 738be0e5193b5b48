/** Asking at the Record Access Control Point, and what comes of it. */
import {
  READING_FIELDS,
  RECORD_ACCESS_UUID,
  STORED_READINGS_UUID,
} from '../../../protocol/profile.ts';
import { decode } from '../../../protocol/profile-codec.ts';
import { decodeAnswer, type AccessAnswer, type Outcome } from '../../../protocol/record-access.ts';
import { sayCode } from './att-errors.ts';
import { hex } from './bytes.ts';
import { BrokenError, expect } from './check-errors.ts';
import { RefusedError } from './peer.ts';
import type { Visit } from './visit.ts';

export interface Answered {
  readonly stored: readonly Uint8Array[];
  readonly answer: Uint8Array;
}

/** A link with both characteristics, not yet configured where it is a new one. */
export async function needAccess(visit: Visit): Promise<void> {
  await visit.need(RECORD_ACCESS_UUID, 'Record Access Control Point', 'indicate');
  await visit.need(STORED_READINGS_UUID, 'Stored readings', 'notify');
}

/** The same, configured. */
export async function configureAccess(visit: Visit): Promise<void> {
  await needAccess(visit);
  if (visit.accessConfigured) return;
  await visit.peer.subscribe(STORED_READINGS_UUID, true);
  await visit.peer.subscribe(RECORD_ACCESS_UUID, true);
  visit.accessConfigured = true;
}

/** @throws BrokenError where no answer comes, and RefusedError where the write isn't taken */
export async function ask(visit: Visit, request: Uint8Array): Promise<Answered> {
  await configureAccess(visit);
  const [answersBefore, storedBefore] = [visit.answers.length, visit.stored.length];
  await visit.peer.write(RECORD_ACCESS_UUID, request);
  return await answerSince(visit, answersBefore, storedBefore);
}

/** Waits for the end of what was asked: section 8 allows 2 s between two stored readings, or to the answer. */
export async function answerSince(
  visit: Visit,
  answersBefore: number,
  storedBefore: number,
): Promise<Answered> {
  const { reportMs, graceMs } = visit.patience;
  for (;;) {
    const seen = visit.stored.length;
    const something = (): boolean =>
      visit.answers.length > answersBefore || visit.stored.length > seen;
    const came = await visit.until(something, reportMs + graceMs);
    const answer = visit.answers[answersBefore];
    if (answer !== undefined) return { stored: visit.stored.slice(storedBefore), answer };
    if (!came) {
      const sent = visit.stored.length - storedBefore;
      throw new BrokenError(
        `an answer at the control point within ${reportMs / 1000} s`,
        sent === 0 ? 'none' : `none after ${sent} stored readings`,
      );
    }
  }
}

/**
 * @param what was written, for the message: ', to …'
 * @throws BrokenError unless the write itself is refused with this ATT error
 */
export async function expectRefusal(
  code: number,
  attempt: () => Promise<unknown>,
  what = '',
): Promise<string | undefined> {
  try {
    await attempt();
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    expect(
      error.code === null || error.code === code,
      `${sayCode(code)}${what}`,
      sayCode(error.code),
    );
    return error.code === null ? 'refused; this system does not show with which code' : undefined;
  }
  throw new BrokenError(`${sayCode(code)}${what}`, 'it was taken');
}

/** @throws BrokenError unless this is the answer */
export function expectOutcome(bytes: Uint8Array, wanted: Outcome): void {
  const answer = decodeAnswer(bytes);
  const isRight = answer?.opCode === 'response' && answer.outcome === wanted;
  expect(isRight, wanted, sayAnswer(bytes));
}

/** @throws BrokenError where it is no count */
export function countIn(bytes: Uint8Array): number {
  const answer = decodeAnswer(bytes);
  if (answer?.opCode === 'countResponse') return answer.count;
  throw new BrokenError('a count', sayAnswer(bytes));
}

export function sequenceOf(bytes: Uint8Array): number {
  const decoded = decode(READING_FIELDS, bytes);
  if (decoded.ok) return decoded.values.sequence;
  throw new BrokenError('a stored reading in the form of a Reading', hex(bytes));
}

export function sayAnswer(bytes: Uint8Array): string {
  const answer: AccessAnswer | null = decodeAnswer(bytes);
  if (answer === null) return hex(bytes);
  if (answer.opCode === 'countResponse') return `a count of ${answer.count}`;
  return `${answer.outcome}, to ${answer.to ?? 'an op code of nobody'}`;
}
