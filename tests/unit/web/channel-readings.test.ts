/** One insert for history and live: ordered by data time, nothing twice, whatever the order. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Reading } from '../../../protocol/reading.ts';
import { ChannelReadings } from '../../../web/store/channel-readings.ts';

function reading(index: number, change: Partial<Reading> = {}): Reading {
  return {
    index,
    channel: 0,
    boot: 1,
    sequence: index,
    elapsedS: index,
    pressurePa: 100 + index,
    temperatureC: 20,
    condition: 'ok',
    ...change,
  };
}

function all(readings: ChannelReadings): Reading[] {
  return Array.from({ length: readings.length }, (_, row) => readings.reading(row));
}

test('readings come back as they went in, a missing pressure as null', () => {
  const readings = new ChannelReadings(0);
  const given = [
    reading(1, { pressurePa: null, condition: 'over_range', temperatureC: null }),
    reading(2, { condition: 'warming_up' }),
  ];
  expect(readings.insert(given)).toEqual(given);
  expect(all(readings)).toEqual(given);
  expect(readings.latest()).toEqual(given[1]);
});

test('another channel’s readings are not taken', () => {
  const readings = new ChannelReadings(0);
  expect(readings.insert([reading(1, { channel: 1 })])).toEqual([]);
  expect(readings.latest()).toBeNull();
});

test('what a sensor had stored goes to its place in the middle', () => {
  const readings = new ChannelReadings(0);
  readings.insert([reading(1), reading(2, { elapsedS: 10 })]);
  readings.insert([reading(4, { elapsedS: 6 }), reading(3, { elapsedS: 5 })]);
  expect(all(readings).map(({ index }) => index)).toEqual([1, 3, 4, 2]);
  expect(readings.rowFrom(5)).toBe(1);
  expect(readings.rowFrom(5.5)).toBe(2);
  expect(readings.rowFrom(99)).toBe(4);
});

test('any order and any repetition give the same columns', () => {
  const item = fc.record({ index: fc.integer({ min: 1, max: 60 }), batch: fc.nat(5) });
  fc.assert(
    fc.property(fc.array(item, { maxLength: 120 }), (items) => {
      const readings = new ChannelReadings(0);
      // Several readings share a time, and times do not follow the index.
      const of = (index: number) => reading(index, { elapsedS: (index * 7) % 20 });
      let fresh = 0;
      for (let batch = 0; batch <= 5; batch += 1) {
        const own = items.filter((one) => one.batch === batch).map((one) => of(one.index));
        fresh += readings.insert(own).length;
      }
      const expected = [...new Set(items.map((one) => one.index))]
        .map(of)
        .sort((a, b) => a.elapsedS - b.elapsedS || a.index - b.index);
      expect(all(readings)).toEqual(expected);
      expect(fresh).toBe(expected.length);
    }),
  );
});
