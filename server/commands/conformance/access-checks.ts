/** Section 7: requests that it must refuse, a second one, and abort. */
import { RECORD_ACCESS_UUID, STORED_READINGS_UUID } from '../../../protocol/profile.ts';
import { decodeAnswer, encodeRequest, type Outcome } from '../../../protocol/record-access.ts';
import {
  answerSince,
  ask,
  configureAccess,
  expectOutcome,
  expectRefusal,
  needAccess,
  sayAnswer,
} from './access.ts';
import { BrokenError, expect, NotTriedError } from './check-errors.ts';
import type { Check } from './check.ts';
import type { Visit } from './visit.ts';

const NOT_CONFIGURED = 0xfd;
const UNDER_WAY = 0xfe;

const COUNT_ALL = encodeRequest({ opCode: 'count', selection: { operator: 'all' } });
const REPORT_ALL = encodeRequest({ opCode: 'report', selection: { operator: 'all' } });
const REPORT_LAST = encodeRequest({ opCode: 'report', selection: { operator: 'last' } });
const ABORT = encodeRequest({ opCode: 'abort' });

export const CONFIGURATION_CHECKS: readonly Check[] = [
  {
    id: 'needs-configuration',
    section: '7',
    level: 'must',
    what: 'It refuses with 0xFD what it has no way to answer: while indications, or for a report notifications, are not configured.',
    attempt: async (visit) => {
      await needAccess(visit);
      const write = (request: Uint8Array) => () => visit.peer.write(RECORD_ACCESS_UUID, request);
      await expectRefusal(NOT_CONFIGURED, write(COUNT_ALL));
      await visit.peer.subscribe(RECORD_ACCESS_UUID, true);
      const remark = await expectRefusal(NOT_CONFIGURED, write(REPORT_LAST));
      await visit.peer.subscribe(STORED_READINGS_UUID, true);
      visit.accessConfigured = true;
      return remark;
    },
  },
];

export const ACCESS_CHECKS: readonly Check[] = [
  // Of numbers that nothing has: should it delete all the same, nothing is lost.
  refusal('refuses-delete', 'a request to delete', 'opCodeNotSupported', [
    [2, 4, 1, 0xfe, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff],
  ]),
  refusal('unknown-op-code', 'an op code of nobody', 'opCodeNotSupported', [
    [99, 1],
    [5, 0],
  ]),
  refusal('wrong-operator', 'operator 0, and abort with another', 'invalidOperator', [
    [1, 0],
    [4, 0],
    [3, 1],
  ]),
  refusal('unknown-operator', 'an operator above 6', 'operatorNotSupported', [[4, 7]]),
  refusal('wrong-operand', 'an operand of the wrong length, or back to front', 'invalidOperand', [
    [4, 3, 1, 0],
    [4, 4, 1, 2, 0, 0, 0, 1, 0, 0, 0],
  ]),
  refusal('other-filter', 'a filter type other than 1', 'operandNotSupported', [
    [4, 3, 2, 0, 0, 0, 0],
  ]),
  refusal('nothing-to-abort', 'abort, where no report is under way,', 'abortUnsuccessful', [
    [3, 0],
  ]),
  {
    id: 'one-at-a-time',
    section: '7',
    level: 'must',
    what: 'It refuses with 0xFE a request while a report is under way.',
    attempt: async (visit) => {
      const begun = await beginReport(visit);
      try {
        return await expectRefusal(UNDER_WAY, () =>
          visit.peer.write(RECORD_ACCESS_UUID, COUNT_ALL),
        );
      } catch (error) {
        // Whether the report was over by then is known by what came first.
        const [first] = visit.answers.slice(begun.answers);
        if (first !== undefined && isEndOfReport(first)) throw tooSoon();
        throw error;
      } finally {
        await endReport(visit, begun);
      }
    },
  },
  {
    id: 'abort',
    section: '7',
    level: 'must',
    what: 'Abort stops a report, and answers success when it has stopped.',
    attempt: async (visit) => {
      const begun = await beginReport(visit);
      try {
        await visit.peer.write(RECORD_ACCESS_UUID, ABORT);
        const { answerMs, graceMs } = visit.patience;
        const isAnswered = (): boolean => abortAnswer(visit, begun) !== undefined;
        await visit.until(isAnswered, answerMs);
        const answer = abortAnswer(visit, begun);
        if (answer === undefined) throw new BrokenError('an answer to abort', 'none');
        const [first] = visit.answers.slice(begun.answers);
        if (first !== undefined && isOver(first)) throw tooSoon();
        expectOutcome(answer, 'success');
        const sent = visit.stored.length;
        await visit.until(() => visit.stored.length > sent, graceMs);
        expect(visit.stored.length === sent, 'no stored reading after that', 'more of them');
        return undefined;
      } finally {
        await endReport(visit, begun);
      }
    },
  },
];

interface Begun {
  readonly answers: number;
  readonly stored: number;
}

function refusal(
  id: string,
  what: string,
  outcome: Outcome,
  requests: readonly (readonly number[])[],
): Check {
  return {
    id,
    section: '7',
    level: 'must',
    what: `To ${what} it answers ${outcome}.`,
    attempt: async (visit) => {
      for (const request of requests) {
        const { answer } = await ask(visit, Uint8Array.from(request));
        expectOutcome(answer, outcome);
      }
      return undefined;
    },
  };
}

async function beginReport(visit: Visit): Promise<Begun> {
  await configureAccess(visit);
  const begun = { answers: visit.answers.length, stored: visit.stored.length };
  await visit.peer.write(RECORD_ACCESS_UUID, REPORT_ALL);
  await visit.until(() => visit.stored.length > begun.stored, visit.patience.reportMs);
  return begun;
}

/** So that nothing of it falls into what is asked next. */
async function endReport(visit: Visit, begun: Begun): Promise<void> {
  if (!visit.peer.connected) return;
  const { graceMs } = visit.patience;
  for (;;) {
    const seen = visit.stored.length;
    const more = await visit.until(() => visit.stored.length > seen, graceMs);
    if (!more) break;
  }
  await answerSince(visit, begun.answers, begun.stored).catch((error: unknown) => {
    if (!(error instanceof BrokenError)) throw error;
  });
}

function abortAnswer(visit: Visit, begun: Begun): Uint8Array | undefined {
  return visit.answers.slice(begun.answers).find((bytes) => sayAnswer(bytes).endsWith('to abort'));
}

function isEndOfReport(bytes: Uint8Array): boolean {
  const answer = decodeAnswer(bytes);
  return answer?.opCode === 'response' && answer.to === 'report';
}

/** Ended by itself, and not by the abort. */
function isOver(bytes: Uint8Array): boolean {
  const answer = decodeAnswer(bytes);
  if (answer?.opCode !== 'response' || answer.to !== 'report') return false;
  return answer.outcome === 'success' || answer.outcome === 'noRecords';
}

function tooSoon(): NotTriedError {
  return new NotTriedError('the report of all was over too soon; let it measure for longer first');
}
