import { describe, expect, test } from 'vitest';
import type { ReceivedReading } from '../../../protocol/reading.ts';
import type { SourceState } from '../../../protocol/source-state.ts';
import { Feed, NEW_RECORDING_AFTER_S } from '../../../server/sources/feed.ts';
import type { Ledger, Unfinished } from '../../../server/sources/feed.ts';
import { readingBytes } from '../../support/reading-bytes.ts';

function setUp(
  unfinished: Unfinished | null = null,
  nowMs = 1_000_000,
  setting: { readonly zeroMs?: number; readonly longestSilenceS?: number } = {},
) {
  const said: string[] = [];
  const readings: ReceivedReading[] = [];
  const states: SourceState[] = [];
  let next = 7;
  const ledger: Ledger = {
    begin: (origin, startedAtMs) => {
      said.push(`begin ${origin} ${startedAtMs}`);
      next += 1;
      return next;
    },
    end: (id) => void said.push(`end ${id}`),
    sensor: (id, channel, { name }) => void said.push(`sensor ${id} ${channel} ${name}`),
    readings: (id, batch) => {
      said.push(`readings ${id}`);
      readings.push(...batch);
    },
    mark: (id, mark, madeBy) => {
      said.push(`mark ${id} ${mark.kind} ${madeBy}`);
      return Promise.resolve({ ...mark, id: 1, madeBy });
    },
  };
  const feed = new Feed({
    ledger,
    origin: 'sensor',
    title: '',
    marksMadeBy: 'hand',
    wallClock: () => nowMs,
    onState: (state) => states.push(state),
    unfinished,
    ...setting,
  });
  const identity = (id: string, name: string) => ({
    id,
    name,
    manufacturer: null,
    model: null,
    serial: null,
    firmware: null,
  });
  const send = (sequence: number, arrivedMs: number, sensorId = 'a', bytes = {}) =>
    feed.reading({
      sensorId,
      arrivedMs,
      bytes: readingBytes({ sequence, uptimeMs: sequence * 1000, ...bytes }),
    });
  return { feed, said, readings, states, identity, send };
}

describe('a feed', () => {
  test('begins the recording with the first reading, not before', () => {
    const { feed, said, identity, send } = setUp();
    feed.sensor(identity('a', 'Roof'));
    expect(said).toEqual([]);
    send(0, 500_000);
    expect(said).toEqual(['begin sensor 1000000', 'sensor 8 0 Roof', 'readings 8']);
  });

  test('gives each sensor its channel and passes on what is learnt of it later', () => {
    const { feed, said, readings, identity, send } = setUp();
    send(0, 0, 'a');
    send(0, 100, 'b');
    feed.sensor(identity('b', 'Pump'));
    expect(readings.map(({ channel }) => channel)).toEqual([0, 1]);
    expect(said.at(-1)).toBe('sensor 8 1 Pump');
  });

  test('an over-range reading carries no pressure, whatever the bytes say', () => {
    const { readings, send } = setUp();
    send(0, 0, 'a', { flags: { overRange: true }, pressurePa: 20_000 });
    expect(readings[0]).toMatchObject({ pressurePa: null, condition: 'over_range' });
  });

  test('a fault outweighs; a pressure of "not known" without a flag is a fault', () => {
    const { readings, send } = setUp();
    send(0, 0, 'a', { flags: { overRange: true, fault: true } });
    send(1, 1000, 'a', { pressurePa: null });
    expect(readings.map(({ condition }) => condition)).toEqual(['fault', 'fault']);
  });

  test('bytes that can’t be read are reported, and nothing is recorded for them', () => {
    const { feed, readings, states, send } = setUp();
    send(0, 0);
    const live: SourceState = {
      id: 'radio',
      kind: 'radio',
      name: '',
      phase: 'live',
      sinceMs: 0,
      problem: null,
      batteryPercent: null,
      signalDbm: null,
      clockRate: 1,
      sensors: [],
    };
    feed.state(live);
    for (const arrivedMs of [1000, 2000]) {
      feed.reading({ sensorId: 'a', arrivedMs, bytes: new Uint8Array(3) });
    }
    expect(readings).toHaveLength(1);
    // Another state of the radio must not cover it up, but a problem of the radio's own may.
    feed.state({ ...live, batteryPercent: 50 });
    feed.state({ ...live, problem: 'sensor_silent' });
    send(1, 3000);
    expect(states.map(({ problem }) => problem)).toEqual([
      null,
      'sensor_not_understood',
      'sensor_not_understood',
      'sensor_silent',
      'sensor_silent',
    ]);
    feed.state(live);
    expect(states.at(-1)?.problem).toBeNull();
  });

  test('a clock that had to be put right is told of, with its sensor', () => {
    const { feed, states, send } = setUp();
    const unknown = { batteryPercent: null, signalDbm: null };
    const heard = { phase: 'live', sinceMs: 0, problem: null, ...unknown } as const;
    const sensors = ['a', 'b'].map((sensorId) => ({ sensorId, name: sensorId, ...heard }));
    feed.state({ id: 'radio', kind: 'radio', name: '', clockRate: 1, ...heard, sensors });
    for (let second = 0; second < 600; second += 1) {
      send(second, second * 1000, 'b');
      send(second, second * 1020, 'a');
    }
    const [a, b] = states.at(-1)?.sensors ?? [];
    expect(a?.clockFastPercent).toBeCloseTo(-1.96, 1);
    expect(b).not.toHaveProperty('clockFastPercent');
    expect(states.length).toBeLessThan(5);
  });

  test('of two sensors the one that can’t be read is named, whatever the other sends', () => {
    const { feed, states, send } = setUp();
    const heard = { phase: 'live', sinceMs: 0, problem: null } as const;
    const unknown = { batteryPercent: null, signalDbm: null };
    const sensors = ['a', 'b'].map((sensorId) => ({
      sensorId,
      name: sensorId,
      ...heard,
      ...unknown,
    }));
    const about = { id: 'radio', kind: 'radio', name: '', clockRate: 1 } as const;
    feed.state({ ...about, ...heard, ...unknown, sensors });
    for (const arrivedMs of [1000, 2000]) {
      feed.reading({ sensorId: 'a', arrivedMs, bytes: new Uint8Array(3) });
      send(arrivedMs / 1000, arrivedMs, 'b');
    }
    // Said once, not with every reading of the other.
    expect(states).toHaveLength(2);
    expect(states.at(-1)?.sensors.map(({ problem }) => problem)).toEqual([
      'sensor_not_understood',
      null,
    ]);
    send(1, 3000, 'a');
    expect(states.at(-1)?.sensors.map(({ problem }) => problem)).toEqual([null, null]);
    expect(states.at(-1)?.problem).toBeNull();
  });

  test('a long silence ends one recording and begins another', () => {
    const { said, send } = setUp();
    send(0, 0);
    send(1, NEW_RECORDING_AFTER_S * 1000 + 1);
    expect(said.filter((line) => !line.startsWith('sensor'))).toEqual([
      'begin sensor 1000000',
      'readings 8',
      'end 8',
      'begin sensor 1000000',
      'readings 9',
    ]);
  });
});

describe('a source that knows its own times', () => {
  test('has data time zero where it says, also before its first reading', () => {
    const { readings, send } = setUp(null, 1_000_000, { zeroMs: 2000 });
    send(12, 12_000);
    send(30, 30_000);
    expect(readings.map(({ elapsedS }) => elapsedS)).toEqual([10, 28]);
  });

  test('may be silent for as long as it says within one recording', () => {
    const { said, send } = setUp(null, 1_000_000, { longestSilenceS: Number.POSITIVE_INFINITY });
    send(0, 0);
    send(1, 30 * 86_400_000);
    expect(said.filter((line) => line.startsWith('begin'))).toHaveLength(1);
  });

  test('has its marks made by whom it says', () => {
    const { feed, said, send } = setUp();
    feed.mark({ kind: 'isolated', elapsedS: 0, text: '' });
    send(0, 0);
    feed.mark({ kind: 'isolated', elapsedS: 0, text: '' });
    expect(said.filter((line) => line.startsWith('mark'))).toEqual(['mark 8 isolated hand']);
  });
});

describe('after the bridge was away', () => {
  const unfinished: Unfinished = {
    recordingId: 3,
    startedAtMs: 900_000,
    lastElapsedS: 40,
    sensors: [
      { id: 'x', name: '', manufacturer: null, model: null, serial: null, firmware: null },
      { id: 'a', name: '', manufacturer: null, model: null, serial: null, firmware: null },
    ],
  };

  test('the recording goes on where the wall clock says, on the sensor’s old channel', () => {
    const { readings, said, send } = setUp(unfinished);
    send(0, 77);
    expect(said).toContain('readings 3');
    expect(readings[0]).toMatchObject({ elapsedS: 100, channel: 1 });
  });

  test('a wall clock set back does not lay new readings over old ones', () => {
    const { readings, send } = setUp(unfinished, 800_000);
    send(0, 77);
    expect(readings[0]?.elapsedS).toBe(40);
  });

  test('what ended long ago is ended, and a new recording begins', () => {
    const { said, send } = setUp(unfinished, 900_000 + (NEW_RECORDING_AFTER_S + 41) * 1000);
    send(0, 77);
    expect(said.slice(0, 2)).toEqual(['end 3', expect.stringContaining('begin sensor')]);
  });

  test('what would have been gone on with can be ended, and is then not gone on with', () => {
    const { feed, said, send } = setUp(unfinished);
    expect(feed.finish()).toBe(3);
    expect(feed.finish()).toBeNull();
    send(0, 77);
    expect(said.slice(0, 2)).toEqual(['end 3', expect.stringContaining('begin sensor')]);
  });
});
