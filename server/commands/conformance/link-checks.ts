/** Sections 2, 4, 7 and 8: what a lost link does, and that nothing was left changed. */
import { READING_UUID, RECORD_ACCESS_UUID } from '../../../protocol/profile.ts';
import { encodeRequest } from '../../../protocol/record-access.ts';
import { DeadlineError, eventWithin } from '../../sources/radio/deadline.ts';
import { isHostPeripheral } from '../../sources/radio/host-library.ts';
import { ask, expectOutcome, expectRefusal, sequenceOf } from './access.ts';
import { hex, same } from './bytes.ts';
import { BrokenError, expect, NotTriedError } from './check-errors.ts';
import type { Check } from './check.ts';
import { expectInterval } from './reading-checks.ts';
import type { Reading, Visit } from './visit.ts';

const NOT_CONFIGURED = 0xfd;
/** Longer than this nobody waits for a notification that must not come. */
const LONGEST_SILENCE_MS = 10_000;

/** The last reading before the link ended on purpose, and the first one after. */
interface Gap {
  readonly before: Reading;
  readonly after: Reading;
}
const gaps = new WeakMap<Visit, Gap>();

export const LINK_CHECKS: readonly Check[] = [
  {
    id: 'live-unbroken',
    section: '7',
    level: 'must',
    what: 'Live readings went on, none left out and none twice, while it was asked for stored ones.',
    attempt: (visit) => {
      const numbers = visit.readings(3).map(({ sequence }) => sequence);
      for (const [place, number] of numbers.entries()) {
        const wanted = ((numbers[place - 1] ?? number - 1) + 1) % 2 ** 32;
        expect(place === 0 || number === wanted, String(wanted), String(number));
      }
      return `${numbers.length} readings`;
    },
  },
  {
    id: 'advertises-again',
    section: '2',
    level: 'must',
    what: 'It advertises again within 2 s of the end of a link.',
    attempt: advertisesAgain,
  },
  {
    id: 'configurations-forgotten',
    section: '8',
    level: 'must',
    what: 'On a new link nothing is configured: it sends nothing, and refuses requests with 0xFD.',
    attempt: async (visit) => {
      await visit.need(READING_UUID, 'Reading');
      const heard = visit.live.length;
      const silenceMs = Math.min(3 * (await visit.intervalMs()), LONGEST_SILENCE_MS);
      const came = await visit.until(() => visit.live.length > heard, silenceMs);
      expect(!came, 'no notification', 'one that nobody had subscribed to');
      if (visit.peer.propertiesOf(RECORD_ACCESS_UUID) === null) return undefined;
      const request = encodeRequest({ opCode: 'count', selection: { operator: 'all' } });
      return await expectRefusal(NOT_CONFIGURED, () =>
        visit.peer.write(RECORD_ACCESS_UUID, request),
      );
    },
  },
  {
    id: 'boot-over-link',
    section: '4',
    level: 'must',
    what: 'A mere new link changes neither boot id nor clock, and the numbers go on.',
    attempt: async (visit) => {
      const { before, after } = await overGap(visit);
      expect(after.boot === before.boot, `boot id ${before.boot}`, String(after.boot));
      const isLater = after.sequence > before.sequence && after.uptimeMs > before.uptimeMs;
      const said = ({ sequence, uptimeMs }: Reading) => `number ${sequence} at ${uptimeMs} ms`;
      expect(isLater, `more than ${said(before)}`, said(after));
      return undefined;
    },
  },
  {
    id: 'measures-without-link',
    section: '8',
    level: 'must',
    what: 'It goes on measuring and counting while nobody is connected.',
    attempt: async (visit) => {
      const { before, after } = await overGap(visit);
      const { intervalMs } = await visit.capabilities();
      if (intervalMs === 0) throw new NotTriedError('it claims an interval of 0 ms');
      // As if of three readings: the mean of the steps is all that is looked at.
      expectInterval([before, after, after], intervalMs);
      return `${after.sequence - before.sequence - 1} readings`;
    },
  },
  {
    id: 'missed-readings',
    section: '7',
    level: 'must',
    what: 'What was measured while nobody was connected can be asked for afterwards.',
    attempt: async (visit) => {
      const { before, after } = await overGap(visit);
      const missed = after.sequence - before.sequence - 1;
      if (missed < 1) throw new NotTriedError('nothing was missed');
      const { bufferDepth } = await visit.capabilities();
      if (missed >= bufferDepth) throw new NotTriedError(`it keeps ${bufferDepth} readings only`);
      const [from, to] = [before.sequence + 1, after.sequence - 1];
      const selection = { operator: 'within', from, to } as const;
      const report = await ask(visit, encodeRequest({ opCode: 'report', selection }));
      expectOutcome(report.answer, 'success');
      const numbers = new Set(report.stored.map(sequenceOf));
      expect(numbers.size === missed, `${missed} readings, ${from} to ${to}`, String(numbers.size));
      return `${missed} readings`;
    },
  },
];

export const LAST_CHECKS: readonly Check[] = [
  {
    id: 'left-as-found',
    section: '6',
    level: 'must',
    what: 'After all this its Capabilities are what they were.',
    attempt: async (visit) => {
      const before = await visit.firstCapabilities();
      await visit.capabilities(true);
      const after = await visit.capabilitiesBytes();
      expect(same(before, after), hex(before), hex(after));
      return undefined;
    },
  },
];

async function advertisesAgain(visit: Visit): Promise<string> {
  await visit.link();
  const { againMs, graceMs, answerMs } = visit.patience;
  const { library, found, peer } = visit;
  const signal = new AbortController().signal;
  await peer.disconnect();
  const endedMs = performance.now();
  const limitMs = againMs + graceMs;
  try {
    await eventWithin({
      what: 'an advertisement',
      emitter: library,
      event: 'discover',
      limitMs,
      signal,
      begin: () => library.startScanning([], true),
      take: (it) => (isHostPeripheral(it) && it.id === found.id ? true : undefined),
    });
    return `after ${Math.round(performance.now() - endedMs)} ms`;
  } catch (error) {
    if (!(error instanceof DeadlineError)) throw error;
    visit.fearForLink();
    throw new BrokenError(
      `an advertisement within ${againMs / 1000} s`,
      `none within ${limitMs} ms`,
    );
  } finally {
    await eventWithin({
      what: 'the end of the search',
      emitter: library,
      event: 'scanStop',
      limitMs: answerMs,
      signal,
      begin: () => library.stopScanning(),
      take: () => true,
    });
  }
}

/** Subscribes on the new link, where that has not been done yet. */
async function overGap(visit: Visit): Promise<Gap> {
  const known = gaps.get(visit);
  if (known !== undefined) return known;
  const before = visit.readings(1).at(-1);
  if (before === undefined) throw new NotTriedError('nothing was notified');
  await visit.need(READING_UUID, 'Reading', 'notify');
  const heard = visit.live.length;
  await visit.peer.subscribe(READING_UUID, true);
  const limitMs = 3 * (await visit.intervalMs()) + visit.patience.graceMs;
  await visit.until(() => visit.live.slice(heard).some(({ reading }) => reading !== null), limitMs);
  const after = visit.live.slice(heard).find(({ reading }) => reading !== null)?.reading;
  if (after == null) throw new NotTriedError('nothing was notified on the new link');
  const gap = { before, after };
  gaps.set(visit, gap);
  return gap;
}
