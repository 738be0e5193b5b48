/** Section 7: a report of readings that were notified live, held against them byte for byte. */
import { encodeRequest, type Selection } from '../../../protocol/record-access.ts';
import { ask, countIn, expectOutcome, sequenceOf, type Answered } from './access.ts';
import { hex, same } from './bytes.ts';
import { BrokenError, expect, NotTriedError } from './check-errors.ts';
import type { Check } from './check.ts';
import type { Visit } from './visit.ts';

/** So many of them are asked for. */
const MOST = 10;
/** A number that nothing has yet: this far beyond the latest. */
const BEYOND = 1_000_000;

/** What was asked for, and what came of it; the same report serves several checks. */
interface Reported extends Partial<Answered> {
  readonly wanted: ReadonlyMap<number, Uint8Array>;
  readonly stored: readonly Uint8Array[];
  /** Why there is no answer. */
  readonly failure: unknown;
}

const reports = new WeakMap<Visit, Promise<Reported>>();

export const REPORT_CHECKS: readonly Check[] = [
  {
    id: 'count-range',
    section: '7',
    level: 'must',
    what: 'It counts the stored readings in a range of numbers.',
    attempt: async (visit) => {
      const selection = rangeOf(await notified(visit));
      const { answer } = await ask(visit, encodeRequest({ opCode: 'count', selection }));
      const count = countIn(answer);
      const wanted = selection.to - selection.from + 1;
      expect(
        count === wanted,
        `${wanted} from ${selection.from} to ${selection.to}`,
        String(count),
      );
      return undefined;
    },
  },
  {
    id: 'report-bytes',
    section: '7',
    level: 'must',
    what: 'A stored reading has the bytes that were notified live.',
    attempt: async (visit) => {
      const { wanted, stored } = await sent(visit);
      for (const bytes of stored) {
        const live = wanted.get(sequenceOf(bytes));
        if (live === undefined) throw new BrokenError('readings of the range alone', hex(bytes));
        expect(same(live, bytes), hex(live), hex(bytes));
      }
      return `${stored.length} readings`;
    },
  },
  {
    id: 'report-whole',
    section: '7',
    level: 'must',
    what: 'A report has each reading that was asked for, once.',
    attempt: async (visit) => {
      const { wanted, stored } = await sent(visit);
      const numbers = stored.map(sequenceOf);
      for (const number of wanted.keys()) {
        const times = numbers.filter((it) => it === number).length;
        expect(times === 1, `number ${number} once`, times === 0 ? 'not at all' : `${times} times`);
      }
      return undefined;
    },
  },
  {
    id: 'report-order',
    section: '7',
    level: 'must',
    what: 'A report has the oldest reading first.',
    attempt: async (visit) => {
      const numbers = (await sent(visit)).stored.map(sequenceOf);
      const late = numbers.findIndex((number, place) => number < (numbers[place - 1] ?? 0));
      expect(late < 0, 'rising numbers', `${numbers[late] ?? 0} after ${numbers[late - 1] ?? 0}`);
      return undefined;
    },
  },
  {
    id: 'report-end',
    section: '7',
    level: 'must',
    what: 'A report ends with one indication at the control point, and says success.',
    attempt: async (visit) => {
      const { answer, failure } = await reported(visit);
      if (answer === undefined) throw failure;
      expectOutcome(answer, 'success');
      return undefined;
    },
  },
  {
    id: 'report-last',
    section: '7',
    level: 'must',
    what: 'The operators first and last mean one reading, and last the latest.',
    attempt: async (visit) => {
      const latest = visit.readings(1).at(-1)?.sequence ?? 0;
      for (const operator of ['first', 'last'] as const) {
        const selection = { operator };
        const { answer } = await ask(visit, encodeRequest({ opCode: 'count', selection }));
        const count = countIn(answer);
        expect(count === 1, `1 with ${operator}`, String(count));
      }
      const selection = { operator: 'last' } as const;
      const { stored } = await ask(visit, encodeRequest({ opCode: 'report', selection }));
      const [bytes] = stored;
      expect(stored.length === 1 && bytes !== undefined, 'one reading', String(stored.length));
      const number = sequenceOf(bytes ?? new Uint8Array(0));
      expect(number >= latest, `number ${latest} or later`, String(number));
      return undefined;
    },
  },
  {
    id: 'no-records',
    section: '7',
    level: 'must',
    what: 'A report of what is not kept says noRecords, and a count of it 0.',
    attempt: async (visit) => {
      const latest = visit.readings(1).at(-1)?.sequence ?? 0;
      const from = latest < 2 ** 31 ? latest + BEYOND : latest - 2 ** 31;
      const selection = { operator: 'within', from, to: from + 1 } as const;
      const report = await ask(visit, encodeRequest({ opCode: 'report', selection }));
      expectOutcome(report.answer, 'noRecords');
      const count = await ask(visit, encodeRequest({ opCode: 'count', selection }));
      expect(countIn(count.answer) === 0, '0', String(countIn(count.answer)));
      return undefined;
    },
  },
  {
    id: 'store-deep',
    section: '7',
    level: 'must',
    what: 'It keeps as many readings as bufferDepth says, or all since its restart.',
    attempt: async (visit) => {
      const { bufferDepth } = await visit.capabilities();
      const measured = (visit.readings(1).at(-1)?.sequence ?? 0) + 1;
      const wanted = Math.min(bufferDepth, measured);
      const selection = { operator: 'all' } as const;
      const { answer } = await ask(visit, encodeRequest({ opCode: 'count', selection }));
      const count = countIn(answer);
      expect(count >= wanted, `at least ${wanted}`, String(count));
      return String(count);
    },
  },
];

/** The latest that were notified, by their numbers: fewer than it keeps, so that all must be there. */
async function notified(visit: Visit): Promise<ReadonlyMap<number, Uint8Array>> {
  const { bufferDepth } = await visit.capabilities();
  const most = Math.max(1, Math.min(MOST, Math.floor(bufferDepth / 2)));
  const { boot } = visit.readings(2).at(-1) ?? { boot: NaN };
  const wanted = new Map<number, Uint8Array>();
  for (const { reading, bytes } of visit.live.slice(-most)) {
    if (reading?.boot === boot) wanted.set(reading.sequence, bytes);
  }
  const numbers = [...wanted.keys()];
  const isWhole = numbers.every(
    (number, place) => place === 0 || number === (numbers[place - 1] ?? 0) + 1,
  );
  if (!isWhole) throw new NotTriedError('what was notified is not numbered one after the other');
  return wanted;
}

function rangeOf(
  wanted: ReadonlyMap<number, Uint8Array>,
): Selection & { from: number; to: number } {
  const numbers = [...wanted.keys()];
  return { operator: 'within', from: numbers[0] ?? 0, to: numbers.at(-1) ?? 0 };
}

function reported(visit: Visit): Promise<Reported> {
  const known = reports.get(visit) ?? report(visit);
  reports.set(visit, known);
  return known;
}

async function report(visit: Visit): Promise<Reported> {
  const wanted = await notified(visit);
  const before = visit.stored.length;
  try {
    const selection = rangeOf(wanted);
    const answered = await ask(visit, encodeRequest({ opCode: 'report', selection }));
    return { wanted, ...answered, failure: null };
  } catch (error) {
    if (!(error instanceof BrokenError)) throw error;
    return { wanted, stored: visit.stored.slice(before), failure: error };
  }
}

async function sent(visit: Visit): Promise<Reported> {
  const found = await reported(visit);
  if (found.stored.length === 0) throw new NotTriedError('no stored reading was sent');
  return found;
}
