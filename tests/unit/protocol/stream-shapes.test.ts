/** What goes over the stream: each message has exactly its fields, and no message is taken for another. */
import { describe, expect, test } from 'vitest';
import { CONDITIONS, receivedColumnsSchema } from '../../../protocol/reading.ts';
import { sourceStateSchema } from '../../../protocol/source-state.ts';
import {
  clientMessageSchema,
  greetingSchema,
  serverMessageSchema,
} from '../../../protocol/stream.ts';
import { expectExactShape, expectWords } from '../../support/exact-shape.ts';

const SENSOR = {
  ...{ id: 'a1', name: 'Gauge', manufacturer: 'Some', model: 'M', serial: 'S', firmware: '1' },
  label: { name: 'At the coil', place: 'system', displayStepPa: 0.5, givenAtMs: 1000 },
  calibratedOn: '2026-03-01',
};
const RECORDING = {
  id: 3,
  origin: 'import',
  startedAtMs: 1_795_687_200_000,
  title: 'a file',
  sensors: [SENSOR],
  takenFrom: {
    ...{ format: 'json', origin: 'sensor', recordingId: 2, startedAtMs: 5, title: '' },
    ...{ hash: 'ab', held: true, softwareVersion: '1' },
  },
  open: true,
};
const CONDITION = {
  phase: 'live',
  sinceMs: 1000,
  problem: 'sensor_lost',
  batteryPercent: 40,
  signalDbm: -60,
  missedReadings: 7,
};
const SOURCE = {
  id: 'radio',
  kind: 'radio',
  name: 'Radio',
  ...CONDITION,
  clockRate: 1,
  sensors: [{ sensorId: 'a1', name: 'Gauge', ...CONDITION, clockFastPercent: 2 }],
};
const COLUMNS = {
  index: [2, 3],
  channel: [0, 1],
  boot: [5, 5],
  sequence: [8, 9],
  elapsedS: [1.5, 2.5],
  pressurePa: [40.5, null],
  temperatureC: [20.5, null],
  condition: ['ok', 'over_range'],
};
const MARK = { id: 2, kind: 'isolated', elapsedS: 600.5, text: 'shut', madeBy: 'hand' };
const ENTRY = { elapsedS: 4.5, fields: { site: 'A', holdS: 900 } };
const SLIP = { index: 2, elapsedS: 3.5, pressurePa: 40, insteadPa: 50, atMs: 1000 };
const SEEN = { alert: '0/verdict/leak', untilS: 90.5, atMs: 1000 };
const MAY_LACK_OF_SOURCE = ['missedReadings', 'sensors.*.missedReadings'];

describe('what the bridge says', () => {
  test.each([
    [{ type: 'recording', recording: RECORDING }, { mayLack: [] }],
    [
      { type: 'source', source: SOURCE },
      {
        mayLack: [...MAY_LACK_OF_SOURCE, 'sensors.*.clockFastPercent'].map((at) => `source.${at}`),
      },
    ],
    [{ type: 'record', record: { kind: 'kept' } }, {}],
    [
      {
        type: 'record',
        record: { kind: 'held', sinceMs: 9, detail: 'full', waiting: 20, refused: 3 },
      },
      {},
    ],
    [{ type: 'record', record: { kind: 'damaged', sinceMs: 9, detail: 'torn', file: 'x' } }, {}],
    [
      {
        type: 'record',
        record: {
          kind: 'salvaged',
          folder: 'x',
          readings: { saved: 5, atLeast: 9 },
          otherFacts: { saved: 2, atLeast: 3 },
        },
      },
      {},
    ],
    [{ type: 'office', office: { kind: 'untold' } }, {}],
    [{ type: 'office', office: { kind: 'unreached', sinceMs: 9, waiting: 1234 } }, {}],
    [
      {
        type: 'facts',
        recordingId: 3,
        marks: [MARK],
        sheet: [ENTRY],
        takenBack: [SLIP],
        seenAlerts: [SEEN],
      },
      { mayLack: ['marks.*.text', 'sheet.*.fields.site', 'sheet.*.fields.holdS'] },
    ],
    [{ type: 'backfill', recordingId: 3, columns: COLUMNS, complete: false }, {}],
    [{ type: 'readings', recordingId: 3, columns: COLUMNS }, {}],
    [{ type: 'mark', recordingId: 3, mark: MARK }, { mayLack: ['mark.text'] }],
    [{ type: 'mark_taken_back', recordingId: 3, markId: 2 }, {}],
    [
      { type: 'sheet', recordingId: 3, entry: ENTRY },
      { mayLack: ['entry.fields.site', 'entry.fields.holdS'] },
    ],
    [{ type: 'job_deleted', recordingId: 3 }, {}],
    [{ type: 'taken_back', recordingId: 3, reading: SLIP }, {}],
    [{ type: 'seen_alert', recordingId: 3, seen: SEEN }, {}],
    [{ type: 'tick' }, {}],
  ])('%j', (message, free) => {
    expectExactShape(serverMessageSchema, message, free);
  });

  test('its greeting, which a page of any version reads', () => {
    const hello = {
      type: 'hello',
      streamVersion: 6,
      softwareVersion: '1.2',
      platform: 'linux',
      recordings: [RECORDING],
      sources: [SOURCE],
    };
    const mayLack = [...MAY_LACK_OF_SOURCE, 'sensors.*.clockFastPercent'];
    expectExactShape(serverMessageSchema, hello, {
      mayLack: mayLack.map((at) => `sources.*.${at}`),
    });
    expectWords(['linux', 'macos', 'windows', 'other'], (platform) =>
      serverMessageSchema.safeParse({ ...hello, platform }),
    );
    expect(greetingSchema.parse(hello)).toMatchObject({ type: 'hello', streamVersion: 6 });
    expect(greetingSchema.safeParse({ ...hello, type: 'tick' }).success).toBe(false);
    expect(greetingSchema.safeParse({ type: 'hello' }).success).toBe(false);
  });
});

test.each([
  { type: 'follow', recordingId: 3, afterIndex: 20 },
  { type: 'more', recordingId: 3 },
])('what a screen says: %j', (message) => {
  expectExactShape(clientMessageSchema, message);
});

describe('columns of readings', () => {
  const received = { ...COLUMNS, uptimeMs: [4000, 5000], arrivedS: [1.6, 2.6] };

  test('have a value for each row, or are refused', () => {
    expectExactShape(receivedColumnsSchema, received);
    const shorter = { ...received, boot: [5] };
    const refused = receivedColumnsSchema.safeParse(shorter);
    expect(refused.error?.issues[0]?.message).toMatch(/equal length/u);
  });

  test.each([
    ['index', 0],
    ['index', 1.5],
    ['channel', -1],
    ['channel', 256],
    ['boot', -1],
    ['boot', 2 ** 16],
    ['sequence', -1],
    ['sequence', 2 ** 32],
    ['uptimeMs', -1],
    ['uptimeMs', 2 ** 32],
    ['elapsedS', -0.1],
    ['pressurePa', -0.1],
    ['temperatureC', Number.NaN],
    ['arrivedS', Number.POSITIVE_INFINITY],
  ] as const)('%s is never %d', (field, value) => {
    const [first] = received[field];
    const changed = { ...received, [field]: [first, value] };
    expect(receivedColumnsSchema.safeParse(changed).success).toBe(false);
  });

  test('hold what a sensor’s widest numbers are', () => {
    const [least, most] = [0, 2 ** 32 - 1];
    const widest = { ...received, sequence: [least, most], uptimeMs: [least, most] };
    const all = { ...widest, boot: [0, 0xffff], channel: [0, 255] };
    expect(receivedColumnsSchema.safeParse(all).success).toBe(true);
  });

  test('say in one of five words how far a reading can be used', () => {
    expect([...CONDITIONS].sort()).toEqual(
      ['fault', 'ok', 'over_range', 'under_range', 'warming_up'].sort(),
    );
    expectWords(CONDITIONS, (word) =>
      receivedColumnsSchema.safeParse({ ...received, condition: ['ok', word] }),
    );
  });
});

test('a source is in one of its phases, and of one kind', () => {
  expectWords(
    [
      ...['starting', 'searching', 'found', 'connecting', 'live', 'weak', 'backfilling'],
      ...['stale', 'lost', 'gone', 'paused', 'finished', 'unavailable'],
    ],
    (phase) => sourceStateSchema.safeParse({ ...SOURCE, phase }),
  );
  expectWords(['radio', 'rehearsal', 'import', 'typed_in'], (kind) =>
    sourceStateSchema.safeParse({ ...SOURCE, kind }),
  );
  for (const batteryPercent of [-1, 101]) {
    expect(sourceStateSchema.safeParse({ ...SOURCE, batteryPercent }).success).toBe(false);
  }
  expect(sourceStateSchema.safeParse({ ...SOURCE, clockRate: 0 }).success).toBe(false);
});
