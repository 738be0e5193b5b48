/** A recording as one file, JSON and full CSV: comes back as it went, and nothing wrong gets in. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { csvRows, textCell, textOfCell } from '../../../protocol/csv-cells.ts';
import { FULL_CSV_HEADER, FullCsvRows, isFullCsv } from '../../../protocol/full-csv.ts';
import { jobsIn, WHOLE_JOB } from '../../../protocol/job.ts';
import { CONDITIONS } from '../../../protocol/reading.ts';
import { readFullCsv } from '../../../protocol/read-full-csv.ts';
import { readRecordingJson } from '../../../protocol/read-recording-json.ts';
import {
  type RecordedReading,
  recordingJsonParts,
  recordingJsonSchemaDocument,
  type RecordingJsonHead,
} from '../../../protocol/recording-json.ts';

const finite = fc.double({ noNaN: true, noDefaultInfinity: true });
const positive = fc.double({ noNaN: true, noDefaultInfinity: true, min: 0 });
const anyReadings = fc
  .array(
    fc.record({
      channel: fc.nat(1),
      boot: fc.nat(0xffff),
      sequence: fc.nat(0xffff_ffff),
      uptimeMs: fc.nat(0xffff_ffff),
      arrivedS: finite,
      elapsedS: fc.double({ noNaN: true, min: 0, max: 1e7 }),
      pressurePa: fc.option(positive),
      temperatureC: fc.option(finite),
      condition: fc.constantFrom(...CONDITIONS),
    }),
    { minLength: 1, maxLength: 20 },
  )
  // Of a job that was deleted the numbers are gone.
  .map((all) => all.map((one, at): RecordedReading => ({ ...one, index: 3 * at + 1 })));

function headOf(
  change: Partial<RecordingJsonHead> = {},
): Omit<RecordingJsonHead, 'format' | 'version'> {
  const unknown = { manufacturer: null, model: null, serial: null, firmware: null };
  const said = { label: null, calibratedOn: null };
  return {
    softwareVersion: '0',
    recording: {
      id: 4,
      origin: 'typed_in',
      startedAtMs: 1_790_000_000_123,
      title: '',
      sensors: ['a', 'b'].map((id) => ({ id, name: `=${id}`, ...unknown, ...said })),
      takenFrom: null,
      open: false,
    },
    job: null,
    marks: [{ id: 7, kind: 'note', elapsedS: 1.5, text: '-1', madeBy: 'hand' }],
    marksTakenBack: [],
    sheet: [{ elapsedS: 0, fields: { site: 'x' } }],
    takenBack: [],
    seenAlerts: [],
    signOffs: [],
    verified: {
      recordingId: 4,
      links: 1,
      facts: 1,
      addedLater: 0,
      deleted: 0,
      hash: 'ab',
      broken: null,
    },
    ...change,
  };
}

function jsonOf(
  readings: readonly RecordedReading[],
  change: Partial<RecordingJsonHead> = {},
): string {
  const column = (name: keyof RecordedReading) => [
    readings.slice(0, 3).map((reading) => reading[name]),
    readings.slice(3).map((reading) => reading[name]),
  ];
  return [...recordingJsonParts(headOf(change), column)].join('');
}

test('JSON comes back number for number, whatever was recorded', () => {
  fc.assert(
    fc.property(anyReadings, (readings) => {
      const read = readRecordingJson(jsonOf(readings));
      const normal = (one: RecordedReading) => JSON.stringify(one, Object.keys(one).sort());
      expect([...read.readings()].map(normal)).toEqual(readings.map(normal));
      expect(read.head).toEqual({ format: 'ebbline-recording', version: 1, ...headOf() });
    }),
    { numRuns: 100 },
  );
});

test('a file of one job becomes a recording with that one job, and one of before is the whole recording', () => {
  const [note] = headOf().marks;
  if (note === undefined) throw new Error('there is a mark');
  const begin = { ...note, id: 6, kind: 'job_begun', elapsedS: 1 } as const;
  const signed = {
    fromS: 0,
    lastS: null,
    licence: '',
    remark: '',
    quoted: '',
    softwareVersion: '0',
    atMs: 1,
  };
  const part = {
    job: { beginMark: 6, fromS: 1, untilS: 90 },
    marks: [begin, note],
    signOffs: [{ beginMark: 6, name: 'A', ...signed }],
    verified: null,
  };
  const { head } = readRecordingJson(jsonOf([READING], part));
  expect(jobsIn(head.marks)).toEqual([WHOLE_JOB]);
  expect(head.marks).toEqual([note]);
  expect(head.signOffs).toEqual([{ beginMark: 0, name: 'A', ...signed }]);
  expect(() => readRecordingJson(jsonOf([READING], { ...part, marks: [note] }))).toThrow(
    /job.beginMark: there is no such mark/u,
  );
  const before = whole.replace(/ "job": null,\n/u, '');
  expect(before).not.toBe(whole);
  expect(readRecordingJson(before).head.job).toBeNull();
});

test('full CSV comes back number for number, whatever was recorded', () => {
  fc.assert(
    fc.property(anyReadings, fc.integer({ min: -14 * 60, max: 14 * 60 }), (readings, offset) => {
      const { recording, marks } = headOf();
      const rows = new FullCsvRows(recording, [], offset);
      const text =
        FULL_CSV_HEADER +
        marks.map((mark) => rows.mark(mark, null)).join('') +
        [...readings]
          .reverse()
          .map((reading) => rows.reading(reading))
          .join('');
      expect(isFullCsv(text)).toBe(true);
      const read = readFullCsv(text);
      const values = (one: RecordedReading) => ({ ...one, arrivedS: one.arrivedS + 0 });
      expect([...read.readings()].map(values)).toEqual(readings.map(values).map(positiveZero));
      expect(read.head.marks).toEqual(marks);
      expect(read.head.recording).toMatchObject({
        id: 4,
        origin: 'typed_in',
        startedAtMs: recording.startedAtMs,
      });
    }),
    { numRuns: 100 },
  );
});

/** Text knows no negative zero. */
function positiveZero(reading: RecordedReading): RecordedReading {
  const plain = (value: number | null) => (value === null ? null : value + 0);
  return {
    ...reading,
    elapsedS: reading.elapsedS + 0,
    pressurePa: plain(reading.pressurePa),
    temperatureC: plain(reading.temperatureC),
  };
}

test('no text in a cell is a formula, and all of it comes back', () => {
  fc.assert(
    fc.property(
      fc.string({ unit: 'binary' }),
      fc.constantFrom('', '=', '+', '-', '@', '\t', "'", '"'),
      (text, first) => {
        const cell = textCell(first + text);
        const bare = cell.replace(/^"/u, '');
        expect(bare).not.toMatch(/^[=+\-@\t\r]/u);
        const [row] = [...csvRows(`a,${cell},b\r\n`)];
        expect(row?.cells.map((one, at) => (at === 1 ? textOfCell(one) : one))).toEqual([
          'a',
          first + text,
          'b',
        ]);
      },
    ),
  );
});

const READING: RecordedReading = {
  index: 1,
  channel: 0,
  boot: 1,
  sequence: 1,
  uptimeMs: 5,
  arrivedS: 1,
  elapsedS: 1,
  pressurePa: 5,
  temperatureC: null,
  condition: 'ok',
};
const whole = jsonOf([READING, { ...READING, index: 2 }]);
const columnWith = (name: string, values: string) =>
  whole.replace(new RegExp(`("${name}": \\[)[^\\]]*`, 'u'), `$1${values}`);

describe('a file that is no good is refused, with the place and what to do', () => {
  test.each([
    ['no JSON', 'PK\u0003', /not JSON.*export it again/u],
    ['half a file', whole.slice(0, 300), /ends before its end/u],
    ['another format', '{"format":"x"}', /^format: .*must say/u],
    ['a list', '[]', /^format: /u],
    ['another version', '{"format":"ebbline-recording","version":2}', /^version: .*newer/u],
    ['deep nesting', `${'['.repeat(100_000)}${']'.repeat(100_000)}`, /^format: /u],
    [
      'text in the place of a number',
      columnWith('pressurePa', '5,"NaN"'),
      /^reading 2 of the file, pressurePa: /u,
    ],
    [
      'a number beyond all numbers',
      columnWith('pressurePa', '5,1e400'),
      /^reading 2 of the file, pressurePa: /u,
    ],
    ['a negative time', columnWith('elapsedS', '-1,2'), /^reading 1 of the file, elapsedS: /u],
    ['numbers out of order', columnWith('index', '2,1'), /^reading 2 of the file, index: .*sort/u],
    ['the same number twice', columnWith('index', '1,1'), /^reading 2 of the file, index: /u],
    ['columns of unequal length', columnWith('boot', '1'), /^readings.boot: it has 1 values/u],
    [
      'a sensor that is not there',
      columnWith('channel', '0,9'),
      /^reading 2 .*recording.sensors has 2/u,
    ],
    [
      'an own prototype',
      whole.replace('"marks":', '"__proto__": {"a": 1}, "marks":'),
      /__proto__/u,
    ],
    ['an unknown kind of mark', whole.replace('"note"', '"nonsense"'), /^marks.0.kind: /u],
    [
      'an unknown column',
      whole.replace('"readings": {', '"readings": {"more":[],'),
      /^readings.more: /u,
    ],
  ])('%s', (_what, text, message) => {
    expect(() => readRecordingJson(text)).toThrow(message);
  });

  test('a text of megabytes, wherever it stands', () => {
    const sensors = headOf().recording.sensors.map((sensor) => ({
      ...sensor,
      ...{ manufacturer: 'm', model: 'm', serial: '1', firmware: '1', calibratedOn: '2026-03-01' },
      label: { name: 'Roof', place: 'system', displayStepPa: null, givenAtMs: 1 } as const,
    }));
    const from = {
      origin: 'sensor',
      recordingId: 1,
      startedAtMs: 1,
      title: 'a',
      hash: 'b',
    } as const;
    const takenFrom = { ...from, format: 'json', held: false, softwareVersion: '0' };
    const words = { name: 'A', licence: '1', remark: 'r', quoted: 'q', softwareVersion: '0' };
    const full = jsonOf([READING], {
      recording: { ...headOf().recording, title: 't', sensors, takenFrom },
      seenAlerts: [{ alert: '0/target', untilS: 9, atMs: 1 }],
      signOffs: [{ ...words, beginMark: 0, fromS: 0, lastS: null, atMs: 1 }],
    });
    const head = full.slice(0, full.indexOf('"readings"'));
    const texts = [...head.matchAll(/": "[^"]+"|": ""/gu)];
    expect(texts.length).toBeGreaterThan(30);
    for (const { 0: text, index } of texts) {
      const long = `": "${'7'.repeat(5_000_000)}"`;
      const harmed = full.slice(0, index) + long + full.slice(index + text.length);
      expect(() => readRecordingJson(harmed), text).toThrow(/^[a-z]/u);
    }
  });

  test('what contradicts itself', () => {
    const slip = { index: 9, elapsedS: 1, pressurePa: 5, insteadPa: null, atMs: 1 };
    expect(() => readRecordingJson(jsonOf([READING], { takenBack: [slip] }))).toThrow(
      /takenBack.0.index: there is no reading 9/u,
    );
    const [mark] = headOf().marks;
    if (mark === undefined) throw new Error('there is a mark');
    expect(() => readRecordingJson(jsonOf([READING], { marks: [mark, mark] }))).toThrow(/twice/u);
    const words = { name: 'A', licence: '', remark: '', quoted: '', softwareVersion: '0' };
    const text = { ...words, fromS: 0, lastS: null, atMs: 1 };
    expect(() =>
      readRecordingJson(jsonOf([READING], { signOffs: [{ beginMark: 8, ...text }] })),
    ).toThrow(/signOffs.0.beginMark/u);
  });

  test.each([
    ['a word among numbers', ['5,', 'x,'], /line 2: pressure_pa is "x"/u],
    ['a quotation mark that stands alone', ['ok,', '"ok,'], /line 2: a quotation mark/u],
    ['a cell too few', [',typed_in', ''], /line 2: 20 cells under 21 headings/u],
    ['another recording', [',4,typed_in', ',5,typed_in'], /line 3: it is of another recording/u],
  ])('full CSV with %s', (_what, [from = '', to = ''], message) => {
    const rows = new FullCsvRows(headOf().recording, [], 60);
    const row = rows.reading(READING);
    const second = rows.reading({ ...READING, index: 2 });
    expect(row).toContain(from);
    expect(() => readFullCsv(FULL_CSV_HEADER + row.replace(from, to) + second)).toThrow(message);
  });
});

test('the published schema is that of this program', () => {
  const published = new URL('../../../protocol/recording-json.schema.json', import.meta.url);
  expect(JSON.parse(readFileSync(published, 'utf8'))).toEqual(recordingJsonSchemaDocument());
});
