/** Section 4 and 8: what it measures and notifies, and when. */
import { READING_FIELDS, READING_UUID } from '../../../protocol/profile.ts';
import { encodedLength } from '../../../protocol/profile-codec.ts';
import { hex, same } from './bytes.ts';
import { BrokenError, expect, NotTriedError } from './check-errors.ts';
import type { Check } from './check.ts';
import type { Reading, Visit } from './visit.ts';

const LENGTH = encodedLength(READING_FIELDS);
/** Of the flags' byte. */
const RESERVED_BITS = 0xe0;
const WRAP = 2 ** 32;
/**
 * How far the mean of a few intervals may be off: their clock's ppm are nothing beside it. It is our own
 * allowance for a timer in a small device.
 */
const INTERVAL_SHARE = 0.2;
/** What the timer of a small, busy device adds to the first and the last of them. */
const TIMER_MS = 30;

export const READING_CHECKS: readonly Check[] = [
  {
    id: 'notifications',
    section: '8',
    level: 'must',
    what: 'It takes a subscription to Reading and notifies each measurement within an interval, or 250 ms.',
    attempt: listen,
  },
  {
    id: 'reading-length',
    section: '4',
    level: 'must',
    what: `Each Reading is ${LENGTH} bytes.`,
    attempt: (visit) => {
      const wrong = heard(visit).find(({ bytes }) => bytes.length !== LENGTH);
      if (wrong === undefined) return undefined;
      throw new BrokenError(`${LENGTH} bytes`, `${wrong.bytes.length}: ${hex(wrong.bytes)}`);
    },
  },
  {
    id: 'reserved-bits',
    section: '4',
    level: 'must',
    what: 'Reserved bits of the flags are 0.',
    attempt: (visit) => {
      const wrong = heard(visit).find(({ bytes }) => ((bytes[0] ?? 0) & RESERVED_BITS) !== 0);
      expect(wrong === undefined, 'bits 5 to 7 of the first byte 0', hex(wrong?.bytes ?? NO_BYTES));
      return undefined;
    },
  },
  {
    id: 'fault-pressure',
    section: '4',
    level: 'must',
    what: 'With the flag fault, the pressure is not known.',
    attempt: (visit) => {
      const wrong = visit
        .readings(1)
        .find(({ flags, pressurePa }) => flags.fault && pressurePa !== null);
      expect(wrong === undefined, 'not known', `${wrong?.pressurePa ?? 0} Pa`);
      return undefined;
    },
  },
  {
    id: 'out-of-range-pressure',
    section: '4',
    level: 'should',
    what: 'With the flags overRange and underRange, the pressure is not known.',
    attempt: (visit) => {
      const wrong = visit
        .readings(1)
        .find(
          ({ flags, pressurePa }) => (flags.overRange || flags.underRange) && pressurePa !== null,
        );
      expect(wrong === undefined, 'not known', `${wrong?.pressurePa ?? 0} Pa`);
      return undefined;
    },
  },
  {
    id: 'sequence',
    section: '4',
    level: 'must',
    what: 'Each measurement is notified once, numbered one after the other.',
    attempt: (visit) => {
      for (const [before, after] of pairs(visit)) {
        const wanted = (before.sequence + 1) % WRAP;
        expect(
          after.sequence === wanted,
          `${wanted} after ${before.sequence}`,
          String(after.sequence),
        );
      }
      return undefined;
    },
  },
  {
    id: 'boot-stands',
    section: '4',
    level: 'must',
    what: 'The boot id stays as it is as long as it does not restart.',
    attempt: (visit) => {
      for (const [before, after] of pairs(visit)) {
        expect(after.boot === before.boot, String(before.boot), String(after.boot));
      }
      return undefined;
    },
  },
  {
    id: 'uptime',
    section: '4',
    level: 'must',
    what: 'uptimeMs counts milliseconds: as many as pass while it is listened to.',
    attempt: (visit) => {
      for (const [before, after] of pairs(visit)) {
        const step = (after.uptimeMs - before.uptimeMs + WRAP) % WRAP;
        expect(step > 0 && step < WRAP / 2, `more than ${before.uptimeMs}`, String(after.uptimeMs));
      }
      const { saidMs, passedMs } = spans(visit);
      const off = Math.abs(saidMs - passedMs);
      expect(
        off <= INTERVAL_SHARE * passedMs + visit.patience.graceMs,
        `about the ${Math.round(passedMs)} ms that passed`,
        `${saidMs} ms`,
      );
      return undefined;
    },
  },
  {
    id: 'interval',
    section: '5',
    level: 'must',
    what: 'It measures at the interval that Capabilities say.',
    attempt: async (visit) => {
      const { intervalMs } = await visit.capabilities();
      if (intervalMs === 0) throw new NotTriedError('it claims an interval of 0 ms');
      expectInterval(visit.readings(3), intervalMs);
      const count = visit.readings(3).length - 1;
      const { passedMs } = spans(visit);
      expect(
        Math.abs(passedMs / count - intervalMs) <=
          INTERVAL_SHARE * intervalMs + visit.patience.graceMs / count,
        `${intervalMs} ms between notifications`,
        `${Math.round(passedMs / count)} ms`,
      );
      return undefined;
    },
  },
  {
    id: 'read-latest',
    section: '4',
    level: 'must',
    what: 'Reading, when it is read, is the latest measurement.',
    attempt: readLatest,
  },
];

const NO_BYTES = new Uint8Array(0);

/** @throws BrokenError where the mean of their uptime's steps is another */
export function expectInterval(readings: readonly Reading[], intervalMs: number): void {
  const [first] = readings;
  const last = readings.at(-1);
  if (first === undefined || last === undefined || readings.length < 3) {
    throw new NotTriedError('too few readings came');
  }
  const steps = (last.sequence - first.sequence + WRAP) % WRAP || readings.length - 1;
  const meanMs = ((last.uptimeMs - first.uptimeMs + WRAP) % WRAP) / steps;
  expect(
    Math.abs(meanMs - intervalMs) <= INTERVAL_SHARE * intervalMs + TIMER_MS / steps,
    `${intervalMs} ms between measurements`,
    `${Math.round(meanMs)} ms`,
  );
}

async function listen(visit: Visit): Promise<undefined> {
  await visit.need(READING_UUID, 'Reading', 'notify');
  const intervalMs = await visit.intervalMs();
  const { readings, listenMs, graceMs } = visit.patience;
  await visit.peer.subscribe(READING_UUID, true);
  // Up to an interval until the next measurement, and as long again until it is sent.
  const firstMs = Math.max(intervalMs, 250) + intervalMs + graceMs;
  const came = await visit.until(() => visit.live.length > 0, firstMs);
  expect(came, `a notification within ${Math.round(firstMs)} ms`, 'none');
  // Half as long again as they take: one that measures more slowly is heard as well, and told of.
  const enoughMs = Math.min(listenMs, readings * intervalMs * 1.5 + graceMs);
  await visit.until(() => visit.live.length >= readings, enoughMs);
  return undefined;
}

async function readLatest(visit: Visit): Promise<undefined> {
  await visit.need(READING_UUID, 'Reading', 'read');
  heard(visit);
  const before = visit.live.length;
  const bytes = await visit.peer.read(READING_UUID);
  // One may come, or be on its way, while it is asked.
  const intervalMs = await visit.intervalMs();
  await visit.until(() => visit.live.length > before + 1, 2 * intervalMs + visit.patience.graceMs);
  const near = visit.live.slice(Math.max(0, before - 1));
  expect(
    near.some((it) => same(it.bytes, bytes)),
    `one of those notified about then, as ${hex(near[0]?.bytes ?? NO_BYTES)}`,
    hex(bytes),
  );
  return undefined;
}

function heard(visit: Visit): Visit['live'] {
  if (visit.live.length === 0) throw new NotTriedError('nothing was notified');
  return visit.live;
}

function pairs(visit: Visit): [Reading, Reading][] {
  const readings = visit.readings(3);
  return readings.slice(1).flatMap((after, place) => {
    const before = readings[place];
    return before === undefined ? [] : [[before, after]];
  });
}

/** By its clock and by ours, from the first to the last reading. */
function spans(visit: Visit): { saidMs: number; passedMs: number } {
  const sound = visit.live.filter(({ reading }) => reading !== null);
  const [first] = sound;
  const last = sound.at(-1);
  if (first?.reading == null || last?.reading == null || sound.length < 3) {
    throw new NotTriedError('too few readings came');
  }
  return {
    saidMs: (last.reading.uptimeMs - first.reading.uptimeMs + WRAP) % WRAP,
    passedMs: last.arrivedMs - first.arrivedMs,
  };
}
