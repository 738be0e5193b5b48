/** What is drawn: a bounded number of points, every extreme among them, and gaps as nulls. */
import { expect, test } from 'vitest';
import type { Reading } from '../../../protocol/reading.ts';
import { ChannelReadings } from '../../../web/store/channel-readings.ts';
import { thinReadings } from '../../../web/store/thin-readings.ts';

function readings(count: number, change: (at: number) => Partial<Reading> = () => ({})) {
  const channel = new ChannelReadings(0);
  channel.insert(
    Array.from({ length: count }, (_, at) => ({
      index: at + 1,
      channel: 0,
      boot: 1,
      sequence: at,
      elapsedS: at,
      pressurePa: 100,
      temperatureC: null,
      condition: 'ok' as const,
      ...change(at),
    })),
  );
  return channel;
}

test('few readings are all drawn', () => {
  const drawn = thinReadings(
    readings(5, (at) => ({ pressurePa: 10 + at })),
    0,
    4,
  );
  expect(drawn.elapsedS).toEqual([0, 1, 2, 3, 4]);
  expect(drawn.pressurePa).toEqual([10, 11, 12, 13, 14]);
});

test('a window takes one reading beyond either edge, so that the line runs into it', () => {
  expect(thinReadings(readings(20), 8.5, 11.5).elapsedS).toEqual([8, 9, 10, 11, 12]);
});

test('many readings are thinned, and no spike is lost', () => {
  const many = readings(100_000, (at) => ({
    pressurePa: at === 54_321 ? 9000 : at === 77_777 ? 1 : 100,
  }));
  const drawn = thinReadings(many, 0, 100_000);
  expect(drawn.pressurePa.length).toBeLessThanOrEqual(2000);
  expect(drawn.elapsedS[drawn.pressurePa.indexOf(9000)]).toBe(54_321);
  expect(drawn.elapsedS[drawn.pressurePa.indexOf(1)]).toBe(77_777);
  expect([...drawn.elapsedS].sort((a, b) => a - b)).toEqual(drawn.elapsedS);
});

test.each<[string, (at: number) => Partial<Reading>]>([
  ['missing sequence numbers', (at) => ({ sequence: at < 5 ? at : at + 3 })],
  ['a changed boot', (at) => ({ boot: at < 5 ? 1 : 2 })],
  ['a long silence', (at) => ({ elapsedS: at < 5 ? at : at + 60 })],
])('%s breaks the line once', (_, change) => {
  const drawn = thinReadings(readings(10, change), 0, 100);
  expect(drawn.pressurePa.filter((value) => value === null)).toHaveLength(1);
  expect(drawn.pressurePa[5]).toBeNull();
});

test('a sequence number that wraps around is no gap', () => {
  const drawn = thinReadings(
    readings(4, (at) => ({ sequence: (0xffff_fffe + at) % 2 ** 32 })),
    0,
    4,
  );
  expect(drawn.pressurePa).not.toContain(null);
});

test('an outage shows in a thinned curve as well', () => {
  const drawn = thinReadings(
    readings(10_000, (at) => (at < 5000 ? {} : { elapsedS: at + 2000, sequence: at + 2000 })),
    0,
    12_000,
  );
  const gap = drawn.pressurePa.indexOf(null);
  expect(drawn.elapsedS[gap]).toBe(5999.5);
});

test('readings without a pressure, or at zero, are never drawn', () => {
  const drawn = thinReadings(
    readings(6, (at) => ({ pressurePa: at === 2 ? null : at === 4 ? 0 : 50 })),
    0,
    6,
  );
  expect(drawn.pressurePa).toEqual([50, 50, null, 50, null, 50]);
});
