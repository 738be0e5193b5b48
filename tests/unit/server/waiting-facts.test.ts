/** What waits for a disk that refuses: in order, whole, in bounded room, and written in parts that fit. */
import { expect, test } from 'vitest';
import { countOf, packReadings, pushRow } from '../../../server/record/packed-readings.ts';
import { type Waiting, WaitingFacts } from '../../../server/record/waiting-facts.ts';
import { invented } from '../../faults/invented-reading.ts';

let ticket = 0;
function readings(recordingId: number, first: number, count: number): Waiting {
  const packed = packReadings(Array.from({ length: count }, (_, at) => invented(first + at)));
  return { type: 'write', ticket: (ticket += 1), fact: { kind: 'readings', recordingId, packed } };
}
function end(recordingId: number): Waiting {
  return { type: 'write', ticket: (ticket += 1), fact: { kind: 'end', recordingId, endedAtMs: 1 } };
}

/** 'recording:first-last' of readings, else the kind. */
function told(facts: readonly Waiting[]): string[] {
  return facts.map(({ fact }) => {
    if (fact.kind !== 'readings') return fact.kind;
    const rows = Array.from({ length: countOf(fact.packed) }, (_, row) => {
      const values: (string | number | null)[] = [];
      pushRow(values, fact.packed, row);
      return Number(values[2]);
    });
    return `${fact.recordingId}:${rows[0]}-${rows.at(-1)} (${rows.length})`;
  });
}

test('neighbours are put together, others stay between them', () => {
  const waiting = new WaitingFacts();
  const first = [
    readings(1, 1, 1),
    readings(1, 2, 2),
    end(1),
    readings(1, 4, 1),
    readings(2, 1, 1),
  ];
  for (const one of first) waiting.add(one);
  waiting.gather();
  waiting.add(readings(2, 2, 1));
  waiting.gather();
  const all = waiting.first();
  expect(told(all)).toEqual(['1:1-3 (3)', 'end', '1:4-4 (1)', '2:1-2 (2)']);
  // Whoever waits for the last of them waits for all of them.
  expect(all.map((one) => one.ticket)).toEqual(
    [first[1], first[2], first[3]].map((one) => one?.ticket).concat(ticket),
  );
  waiting.written(all.length);
  expect([waiting.isEmpty, waiting.readings]).toEqual([true, 0]);
});

test('no fact has more readings than the stream may tell at once', () => {
  const waiting = new WaitingFacts();
  for (let first = 1; first <= 9000; first += 7) waiting.add(readings(1, first, 7));
  waiting.gather();
  const counts = waiting
    .first()
    .map(({ fact }) => (fact.kind === 'readings' ? countOf(fact.packed) : 0));
  expect(Math.max(...counts)).toBeLessThanOrEqual(2000);
  expect(counts.length).toBeLessThan(8);
});

test('a commit takes so many at a time, in order, and at least one fact', () => {
  const waiting = new WaitingFacts();
  for (let first = 1; first <= 60_000; first += 1500) waiting.add(readings(1, first, 1500));
  let next = 1;
  while (!waiting.isEmpty) {
    const batch = waiting.first();
    expect(batch.length).toBeGreaterThan(0);
    for (const text of told(batch)) {
      expect(text.startsWith(`1:${next}-`)).toBe(true);
      next += 1500;
    }
    expect(batch.length).toBeLessThanOrEqual(14);
    waiting.written(batch.length);
  }
  expect(next).toBe(60_001);
  waiting.add(readings(1, 1, 30_000));
  expect(waiting.first()).toHaveLength(1);
});

test('beyond the bound new readings are refused and counted; marks and the like are always taken', () => {
  const waiting = new WaitingFacts(100);
  waiting.add(readings(1, 1, 90));
  waiting.add(readings(1, 91, 20));
  waiting.add(end(1));
  waiting.add(readings(1, 111, 10));
  expect([waiting.readings, waiting.refused]).toEqual([100, 20]);
  expect(told(waiting.first())).toEqual(['1:1-90 (90)', 'end', '1:111-120 (10)']);
  waiting.written(3);
  expect(waiting.refused).toBe(0);
});
