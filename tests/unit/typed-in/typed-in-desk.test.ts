/** Typed numbers on their way into recordings: which one, and where on its time axis. */
import { describe, expect, test } from 'vitest';
import type { ReceivedReading } from '../../../protocol/reading.ts';
import type { TakenBack } from '../../../protocol/typed-in.ts';
import { LONGEST_AGO_S } from '../../../protocol/typed-in.ts';
import type { Unfinished } from '../../../server/sources/feed.ts';
import { TypedInDesk } from '../../../server/sources/typed-in/typed-in-desk.ts';

const BEGAN_MS = 1_700_000_000_000;

function setUp(unfinished: Unfinished | null = null) {
  let nowMs = BEGAN_MS;
  const begun: number[] = [];
  const readings: ReceivedReading[] = [];
  const takenBack: TakenBack[] = [];
  const desk = new TypedInDesk({
    ledger: {
      begin: (_origin, startedAtMs) => begun.push(startedAtMs) + 100,
      end: () => undefined,
      sensor: () => undefined,
      readings: (_id, taken) => void readings.push(...taken),
      mark: () => Promise.reject(new Error('nobody marks')),
    },
    wallClock: () => nowMs,
    onState: () => undefined,
    unfinished,
    readingAt: (_id, index) => {
      const reading = readings[index - 1];
      const isThere = reading !== undefined && takenBack.every((slip) => slip.index !== index);
      return isThere ? { ...reading, index } : undefined;
    },
    takeBack: (_id, slip) => void takenBack.push(slip),
  });
  return {
    desk,
    begun,
    takenBack,
    pass: (seconds: number) => (nowMs += seconds * 1000),
    type: (pressurePa: number, agoS = 0) => desk.type({ pressurePa, temperatureC: 20, agoS }),
    placed: () => readings.map(({ pressurePa, elapsedS }) => [pressurePa, elapsedS]),
  };
}

describe('a number that was read before', () => {
  test('begins the recording at the moment at which it was read', () => {
    const { type, begun, placed, pass } = setUp();
    type(900, 1200);
    pass(60);
    type(700);
    type(800, 600);
    expect(begun).toEqual([BEGAN_MS - 1_200_000]);
    expect(placed()).toEqual([
      [900, 0],
      [700, 1260],
      [800, 660],
    ]);
  });

  test('of before the recording began is refused, and changes nothing', () => {
    const { type, placed } = setUp();
    type(900, 100);
    expect(() => type(950, 101)).toThrow(expect.objectContaining({ code: 'before_recording' }));
    expect(placed()).toEqual([[900, 0]]);
  });

  test('does not make the silence after it any longer', () => {
    const { type, pass } = setUp();
    const first = type(900, LONGEST_AGO_S);
    type(800);
    // Typed last, and read eleven hours ago.
    type(850, LONGEST_AGO_S - 60);
    pass(2 * 3600);
    expect(type(700)).toBe(first);
    pass(13 * 3600);
    expect(type(600)).not.toBe(first);
  });
});

describe('a slip', () => {
  test('is taken back as it was typed, and typed anew where it stood', () => {
    const { desk, type, pass, placed, takenBack } = setUp();
    type(900);
    pass(60);
    type(60_000);
    pass(60);
    desk.correct({ index: 2, pressurePa: 600 });
    expect(takenBack).toEqual([
      { index: 2, elapsedS: 60, pressurePa: 60_000, insteadPa: 600, atMs: BEGAN_MS + 120_000 },
    ]);
    expect(placed().at(-1)).toEqual([600, 60]);
    expect(() => desk.correct({ index: 2, pressurePa: null })).toThrow(
      expect.objectContaining({ code: 'not_found' }),
    );
  });

  test('there is none before anything was typed, and none after the end', async () => {
    const { desk, type } = setUp();
    const nothing = expect.objectContaining({ code: 'nothing_typed_in' });
    expect(() => desk.correct({ index: 1, pressurePa: 5 })).toThrow(nothing);
    type(900);
    await desk.end();
    expect(() => desk.correct({ index: 1, pressurePa: 5 })).toThrow(nothing);
  });
});

test('a recording that was open when the bridge started is gone on with, also backwards', () => {
  const { type, placed, begun } = setUp({
    recordingId: 7,
    startedAtMs: BEGAN_MS - 3_600_000,
    lastElapsedS: 3000,
    sensors: [],
  });
  expect(type(500, 1200)).toBe(7);
  type(400);
  expect(begun).toEqual([]);
  expect(placed()).toEqual([
    [500, 2400],
    [400, 3600],
  ]);
});
