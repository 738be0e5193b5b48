/** A recording's JSON that contradicts itself, part by part; and how its file is written. */
import { describe, expect, test } from 'vitest';
import { carriedFrom } from '../../../protocol/job.ts';
import { DEFAULT_SHEET, type Sheet } from '../../../protocol/sheet.ts';
import { readRecordingJson } from '../../../protocol/read-recording-json.ts';
import { READING_COLUMN_NAMES, recordingJsonParts } from '../../../protocol/recording-json.ts';
import { salvagesOf, writeSalvageNote } from '../../../protocol/salvage-note.ts';
import { vanReadingsSchema } from '../../../protocol/van-messages.ts';

const SENSOR = {
  ...{ id: 'a', name: 'Gauge', manufacturer: null, model: null, serial: null, firmware: null },
  ...{ label: null, calibratedOn: null },
};
const MARK = { id: 7, kind: 'job_begun', elapsedS: 1, text: '', madeBy: 'hand' };
const HEAD = {
  ...{ format: 'ebbline-recording', version: 1, softwareVersion: '0', job: null },
  recording: {
    ...{ id: 4, origin: 'sensor', startedAtMs: 5, title: '', sensors: [SENSOR, SENSOR] },
    ...{ takenFrom: null, open: false },
  },
  ...{ marks: [MARK], marksTakenBack: [], sheet: [], takenBack: [], seenAlerts: [], signOffs: [] },
  verified: null,
};
const READINGS = {
  ...{ index: [1, 2], channel: [0, 1], boot: [1, 1], sequence: [1, 2], uptimeMs: [5, 6] },
  ...{ arrivedS: [1, 2], elapsedS: [1, 2], pressurePa: [5, null], temperatureC: [null, 20] },
  condition: ['ok', 'fault'],
};
const SIGN_OFF = {
  ...{ fromS: 0, name: 'A', licence: '', remark: '', quoted: '', lastS: null },
  ...{ softwareVersion: '', atMs: 0 },
};
const read = (head: object = {}, readings: object = {}) =>
  readRecordingJson(JSON.stringify({ ...HEAD, ...head, readings: { ...READINGS, ...readings } }));

test('what contradicts nothing is read, as often as one likes', () => {
  const { count, readings } = read();
  expect(count).toBe(2);
  expect([...readings()]).toEqual([...readings()]);
  expect([...readings()].map(({ index }) => index)).toEqual([1, 2]);
  expect(readRecordingJson(`\uFEFF${JSON.stringify({ ...HEAD, readings: READINGS })}`).count).toBe(
    2,
  );
});

describe('refused, with the place and what to do', () => {
  test.each(Object.keys(READINGS))('a file without the column %s', (column) => {
    const rest = Object.fromEntries(Object.entries(READINGS).filter(([name]) => name !== column));
    expect(() => readRecordingJson(JSON.stringify({ ...HEAD, readings: rest }))).toThrow(
      `readings.${column}: this column is missing; export it again`,
    );
  });

  test.each<[string, object, object, string]>([
    [
      'a channel beyond the sensors',
      {},
      { channel: [0, 2] },
      'reading 2 of the file, channel: it is 2, and recording.sensors has 2',
    ],
    ['a number twice', {}, { index: [2, 2] }, 'reading 2 of the file, index: it is 2 after 2'],
    ['a shorter column', {}, { boot: [1] }, 'readings.boot: it has 1 values and "index" has 2'],
    [
      'a longer column',
      {},
      { boot: [1, 1, 1] },
      'readings.boot: it has 3 values and "index" has 2',
    ],
    [
      'a slip of no reading',
      { takenBack: [{ index: 3, elapsedS: 1, pressurePa: 5, insteadPa: null, atMs: 1 }] },
      {},
      'takenBack.0.index: there is no reading 3',
    ],
    [
      'a slip twice',
      {
        takenBack: [2, 2].map((index) => ({
          index,
          elapsedS: 1,
          pressurePa: 5,
          insteadPa: null,
          atMs: 1,
        })),
      },
      {},
      'takenBack: index 2 is there twice; leave one out',
    ],
    [
      'a mark twice, once taken back',
      { marksTakenBack: [{ ...MARK, atMs: 1 }] },
      {},
      'marks and marksTakenBack: id 7 is there twice',
    ],
    [
      'a job that begins nowhere',
      { job: { beginMark: 8, fromS: 1, untilS: null } },
      {},
      'job.beginMark: there is no such mark',
    ],
    [
      'a sign-off of no job',
      {
        signOffs: [
          { ...SIGN_OFF, beginMark: 7 },
          { ...SIGN_OFF, beginMark: 8 },
        ],
      },
      {},
      'signOffs.1.beginMark: there is no such mark',
    ],
    ['another format', { format: 'x' }, {}, 'format: the file is not a recording in this format'],
    ['another version', { version: 2 }, {}, 'version: this program reads version 1'],
    ['a field of nobody', { more: 1 }, {}, 'put it right or export the recording again'],
  ])('%s', (_what, head, readings, message) => {
    expect(() => read(head, readings)).toThrow(message);
  });

  test('whatever length it has: what is said of it is short', () => {
    const long = 'x'.repeat(5000);
    for (const [head, readings] of [
      [{}, { [long]: [] }],
      [{ [long]: 1 }, {}],
    ] as const) {
      let said = '';
      try {
        read(head, readings);
      } catch (error) {
        said = error instanceof Error ? error.message : '';
      }
      expect(said).toContain('xxx');
      expect(said.length).toBeLessThan(700);
    }
  });
});

describe('taken', () => {
  test('the first job, a mark that begins one, and one that was taken back', () => {
    expect(read({ job: { beginMark: 0, fromS: 0, untilS: 9 } }).head.marks).toHaveLength(1);
    expect(read({ job: { beginMark: 7, fromS: 1, untilS: null } }).head.marks).toEqual([]);
    const takenBack = { marks: [], marksTakenBack: [{ ...MARK, atMs: 1 }] };
    expect(read({ ...takenBack, signOffs: [{ ...SIGN_OFF, beginMark: 7 }] }).count).toBe(2);
    expect(read({ signOffs: [{ ...SIGN_OFF, beginMark: 0 }] }).head.signOffs).toHaveLength(1);
  });

  test('no readings at all', () => {
    const none = Object.fromEntries(Object.keys(READINGS).map((name) => [name, []]));
    expect(read({}, none).count).toBe(0);
  });
});

test('a file whose columns are not of one length is not written to its end', () => {
  const { head } = read();
  const parts = (lengthOf: (name: string) => number) =>
    [...recordingJsonParts(head, (name) => [[], new Array<number>(lengthOf(name)).fill(1)])].join(
      '',
    );
  expect(parts(() => 3)).toContain('"boot": [1,1,1]');
  expect(READING_COLUMN_NAMES[1]).toBe('channel');
  expect(() => parts((name) => (name === 'channel' ? 2 : 3))).toThrow(
    '2 values of channel, and 3 of others',
  );
  expect(parts(() => 0)).toContain('"boot": []');
});

test('a van sends readings, or nothing', () => {
  const columns = {
    ...{ index: [1], channel: [0], boot: [1], sequence: [1], elapsedS: [1], pressurePa: [5] },
    ...{ temperatureC: [null], condition: ['ok'] },
  };
  const message = { recordingId: 1, startedAtMs: 5, after: 0, simulated: false };
  expect(vanReadingsSchema.safeParse({ ...message, columns }).success).toBe(true);
  const none = Object.fromEntries(Object.keys(columns).map((name) => [name, []]));
  const { error } = vanReadingsSchema.safeParse({ ...message, columns: none });
  expect(error?.issues[0]?.message).toMatch(/must be a reading/u);
});

test('a note that only quotes a salvage is none', () => {
  const lost = { readings: { saved: 1, atLeast: 2 }, otherFacts: { saved: 3, atLeast: 4 } };
  const text = writeSalvageNote(lost, 'x');
  const note = (said: string) =>
    salvagesOf([{ id: 1, kind: 'note', elapsedS: 0, text: said, madeBy: 'bridge' }]);
  expect(note(text)).toEqual([lost]);
  expect(note(`Before: ${text}`)).toEqual([]);
});

describe('what the next job is given', () => {
  const GEAR: Partial<Sheet> = {
    ...{
      gaugeErrorShare: 0.05,
      pumpDisplacementM3PerS: 1e-3,
      pumpUltimatePa: 2,
      pumpBatteryS: 900,
    },
    ...{ hoseBoreM: 0.01, hoseLengthM: 1.5, hoseCount: 2, people: 'Ines', pumpBallast: 'yes' },
    ...{ pumpOilChangedOn: 'May', stubVolumeM3: 1e-4 },
    nitrogenGauge: { ...DEFAULT_SHEET.nitrogenGauge, stepPa: 5 },
  };
  const EQUIPMENT: Partial<Sheet> = {
    ...{ site: 'Quay', equipment: 'Cold room', serial: 'N', refrigerant: 'R-32', oil: 'poe' },
    ...{ targetPa: 60, isolateAtPa: 30, holdS: 600, endLimitPa: 70, allowedRisePa: 9 },
    ...{ passRule: 'own', leakLimitPaPerS: 0.01, altitudeM: 300, coldestPlace: 'roof' },
    ...{ valveOrder: 'gas first', tubes: [], vessels: [], sections: [] },
  };
  const OF_THE_DAY: Partial<Sheet> = {
    ...{
      metalTemperatureC: 4,
      coldestTemperatureC: 1,
      ambientTemperatureC: 9,
      sensorSees: 'system',
    },
    ...{
      core: 'out',
      systemHistory: 'opened',
      nitrogenReadings: [],
      tickedSteps: [],
      seenSection: 'A',
    },
  };
  const entries = [{ elapsedS: 0, fields: { ...GEAR, ...EQUIPMENT, ...OF_THE_DAY } }];

  test('is gear and people for other equipment, and nothing else', () => {
    expect(carriedFrom(entries, 'other')).toEqual(GEAR);
  });

  test('is what holds for the same equipment as well, and nothing that was measured or done that day', () => {
    expect(carriedFrom(entries, 'same')).toEqual({ ...GEAR, ...EQUIPMENT });
  });

  test('is nothing where nobody entered anything', () => {
    expect(carriedFrom([], 'same')).toEqual({});
    expect(carriedFrom([], 'other')).toEqual({});
  });
});
