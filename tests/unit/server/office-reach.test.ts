/** When a page is told that the office is not reached, and how much waits for it then. */
import { beforeEach, expect, test } from 'vitest';
import type { OfficeState } from '../../../protocol/office-state.ts';
import type { Origin, Recording } from '../../../protocol/recording.ts';
import { OfficeReach } from '../../../server/vans/publish/office-reach.ts';

const BEGAN_MS = 1000;
let nowMs = 0;
let told: OfficeState[] = [];

beforeEach(() => {
  nowMs = 10_000;
  told = [];
});

function recording(id: number, origin: Origin): Recording {
  const startedAtMs = BEGAN_MS * id;
  return { id, origin, startedAtMs, title: '', sensors: [], takenFrom: null, open: false };
}

/** Ten readings times its number in each: recordings 1 and 3 from sensors, 2 a rehearsal. */
function reach(withRehearsals = false): OfficeReach {
  const all = [recording(1, 'sensor'), recording(2, 'rehearsal'), recording(3, 'sensor')];
  const sent = { factsVersion: 1, factsHash: '', chainLength: 1, deleted: false };
  return new OfficeReach({
    record: {
      recordingIds: () => all.map(({ id }) => id),
      recording: (id) => all.find((one) => one.id === id) ?? null,
      lastIndex: (id) => 10 * id,
    },
    cursors: {
      all: () => [
        { ...sent, recordingId: 1, startedAtMs: BEGAN_MS, lastIndex: 4 },
        // Of another recording that had this number in an older record.
        { ...sent, recordingId: 3, startedAtMs: 5, lastIndex: 30 },
      ],
    },
    withRehearsals,
    wallClock: () => nowMs,
    office: (state) => told.push(state),
  });
}

test('a break of some seconds is none', () => {
  const office = reach();
  nowMs += 29_000;
  office.missed();
  expect(told).toEqual([]);
  office.reached();
  nowMs += 29_000;
  office.missed();
  expect(told).toEqual([{ kind: 'reached' }]);
});

test('a longer one is said with its beginning and what waits, until all of that is there', () => {
  const office = reach();
  office.reached();
  nowMs += 31_000;
  office.missed();
  nowMs += 60_000;
  office.missed();
  const unreached = { kind: 'unreached', sinceMs: 10_000, waiting: 6 + 30 };
  expect(told).toEqual([{ kind: 'reached' }, unreached, unreached]);
  office.reached();
  office.reached();
  expect(told.slice(3)).toEqual([{ kind: 'reached' }]);
});

test('rehearsals wait only where they are published', () => {
  const office = reach(true);
  nowMs += 31_000;
  office.missed();
  expect(told).toMatchObject([{ waiting: 6 + 20 + 30 }]);
});
