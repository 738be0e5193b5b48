/** Both CSV formats, sign by sign: what a file may look like, and what is said of one that is wrong. */
import { describe, expect, test } from 'vitest';
import { csvRows, textCell, textOfCell } from '../../../protocol/csv-cells.ts';
import {
  FULL_CSV_COLUMNS,
  FULL_CSV_HEADER,
  FullCsvRows,
  isFullCsv,
} from '../../../protocol/full-csv.ts';
import type { Mark } from '../../../protocol/mark.ts';
import { readFullCsv } from '../../../protocol/read-full-csv.ts';
import type { RecordedReading } from '../../../protocol/recording-json.ts';
import type { Recording } from '../../../protocol/recording.ts';
import {
  asRehearsedRows,
  formatReadingsCsvRows,
  isCsvEvent,
  parseReadingsCsv,
  READINGS_CSV_HEADER,
  readingsCsvLines,
  REHEARSED_CSV_HEADER,
} from '../../../protocol/readings-csv.ts';
import { micronFromPa } from '../../../protocol/units.ts';

const HEADER = 'elapsed_s,pressure_pa,event\n';

describe('readings as CSV', () => {
  test('any line end, a byte order mark, quotation marks and white space are all right', () => {
    const rows = [
      { elapsedS: 0, pressurePa: 1e5, event: 'pump_on', temperatureC: null },
      { elapsedS: 1.5, pressurePa: null, event: null, temperatureC: null },
    ];
    for (const end of ['\n', '\r\n', '\r']) {
      const text = ['elapsed_s,pressure_pa,event', '0,1e5,pump_on', '1.5,,', ''].join(end);
      expect(parseReadingsCsv(text)).toEqual(rows);
      expect(parseReadingsCsv(`\uFEFF${text}`)).toEqual(rows);
      expect(parseReadingsCsv(text.replace('0,1e5,pump_on', ' "0" , 1e5,"pump_on"'))).toEqual(rows);
      expect(parseReadingsCsv(text.replace('pump_on', `pump_on${end} ${end}`))).toEqual(rows);
    }
  });

  test.each([
    ['5', 5],
    ['+5', 5],
    ['5.', 5],
    ['.5', 0.5],
    ['5.25', 5.25],
    ['5e2', 500],
    ['5E+2', 500],
    ['50e-1', 5],
    ['12.5e0', 12.5],
  ])('%s is a number', (cell, value) => {
    expect(parseReadingsCsv(`${HEADER}0,${cell},`)[0]?.pressurePa).toBe(value);
  });

  test.each(['5 0', '0x10', 'Infinity', 'NaN', '1e', '.', '5mbar', 'x5', '--5', '1e5.5'])(
    '%s is none',
    (cell) => {
      expect(() => parseReadingsCsv(`${HEADER}0,1,\n1,${cell},`)).toThrow(
        `line 3: pressure_pa is "${cell}", which is not a number`,
      );
    },
  );

  test('columns may stand in any order, and others among them', () => {
    const text =
      'event,origin,x,temperature_c,pressure_pa,elapsed_s\n,rehearsal,9,-4.5,30,7\n,,,,31,7';
    expect([...readingsCsvLines(text)]).toEqual([
      {
        lineNumber: 2,
        row: { elapsedS: 7, pressurePa: 30, event: null, temperatureC: -4.5 },
        isRehearsed: true,
      },
      {
        lineNumber: 3,
        row: { elapsedS: 7, pressurePa: 31, event: null, temperatureC: null },
        isRehearsed: false,
      },
    ]);
  });

  test.each([
    ['', 'line 1: the header lacks elapsed_s and pressure_pa and event; it must name'],
    [
      'elapsed_s,event\n1,',
      'line 1: the header lacks pressure_pa; it must name elapsed_s,pressure_pa,event',
    ],
    [HEADER, 'line 2: there are no readings; add at least one row'],
    [`${HEADER}\n\n`, 'line 2: there are no readings'],
    [`${HEADER}1,2`, 'line 2: 2 cells under 3 headings; write numbers with a point'],
    [`${HEADER}1,2,,`, 'line 2: 4 cells under 3 headings'],
    [`${HEADER},2,`, 'line 2: elapsed_s must be seconds from 0 on'],
    [`${HEADER}-1,2,`, 'line 2: elapsed_s must be seconds from 0 on'],
    [
      `${HEADER}0,-2,`,
      "line 2: pressure_pa is -2, but absolute pressure can't be negative; convert",
    ],
    [
      `${HEADER}0,2,\n5,2,\n4.5,2,`,
      'line 4: elapsed_s goes back from 5 to 4.5; sort the rows by time',
    ],
    [
      `${HEADER}0,2,hello`,
      'line 2: the event "hello" is unknown; use pump_on, ballast_closed, isolated or nothing',
    ],
    [`${HEADER}0,1e999,`, 'line 2: pressure_pa is "1e999", which is too large'],
    [`${HEADER}x,1,`, 'line 2: elapsed_s is "x", which is not a number'],
    ['elapsed_s,pressure_pa,event,temperature_c\n0,1,,x', 'line 2: temperature_c is "x"'],
  ])('%j is told what is wrong', (text, message) => {
    expect(() => parseReadingsCsv(text)).toThrow(message);
  });

  test('a vacuum of nothing and two readings of one moment are no mistakes', () => {
    expect(parseReadingsCsv(`${HEADER}0,0,\n0,0,isolated`)).toHaveLength(2);
  });

  test('what is written is read again, and what was played stays so', () => {
    const rows = [
      { elapsedS: 0.1, pressurePa: 33.25, event: 'isolated', temperatureC: -1.5 },
      { elapsedS: 0.2, pressurePa: null, event: null, temperatureC: null },
    ] as const;
    const written = formatReadingsCsvRows(rows);
    expect(parseReadingsCsv(READINGS_CSV_HEADER + written)).toEqual(rows);
    const played = [...readingsCsvLines(REHEARSED_CSV_HEADER + asRehearsedRows(written))];
    expect(played.map(({ row }) => row)).toEqual(rows);
    expect(played.every(({ isRehearsed }) => isRehearsed)).toBe(true);
    expect(['pump_on', 'ballast_closed', 'isolated', 'reopened'].map(isCsvEvent)).toEqual([
      ...[true, true, true, false],
    ]);
  });
});

describe('cells', () => {
  test.each([
    '=1',
    '+1',
    '-1',
    '@a',
    '＝1',
    '＋1',
    '－1',
    '＠a',
    '\t=1',
    '\r=1',
    '\n=1',
    '\0=1',
    "'a",
  ])('%j is no formula to a spreadsheet, and comes back', (text) => {
    const cell = textCell(text);
    expect(cell.replace(/^"/u, '').startsWith("'")).toBe(true);
    const [row] = [...csvRows(`${cell},x`)];
    expect(textOfCell(row?.cells[0] ?? '')).toBe(text);
  });

  test('what is harmless stands as it was typed, even with such a sign within', () => {
    for (const text of ['a', '1-2', 'a=b', "a'b", '3 @ 4']) expect(textCell(text)).toBe(text);
    expect(textCell('a "b", c')).toBe('"a ""b"", c"');
    expect(textCell('a\nb')).toBe('"a\nb"');
    expect(textCell('a\rb')).toBe('"a\rb"');
  });

  test('rows know the line on which each begins; empty lines are none', () => {
    const text = '\uFEFFa,b\r\n\r\n"c\nd",""\r"e ""f""",g\n\nh';
    expect([...csvRows(text)]).toEqual([
      { line: 1, cells: ['a', 'b'] },
      { line: 3, cells: ['c\nd', ''] },
      { line: 5, cells: ['e "f"', 'g'] },
      { line: 7, cells: ['h'] },
    ]);
    expect([...csvRows('a,')]).toEqual([{ line: 1, cells: ['a', ''] }]);
    expect([...csvRows('')]).toEqual([]);
    expect(() => [...csvRows('a\nb"c')]).toThrow(
      'line 2: a quotation mark stands alone; write each within quotation marks twice',
    );
  });
});

describe('full CSV', () => {
  const RECORDING: Recording = {
    ...{ id: 4, origin: 'sensor', startedAtMs: Date.UTC(2026, 10, 26, 16), title: '' },
    sensors: ['Gauge', '=Second'].map((name, at) => ({
      ...{ id: `${at}`, name, manufacturer: null, model: null, serial: null, firmware: null },
      ...{ label: null, calibratedOn: null },
    })),
    ...{ takenFrom: null, open: false },
  };
  const READING: RecordedReading = {
    ...{ index: 2, channel: 1, boot: 3, sequence: 4, uptimeMs: 5, arrivedS: 6.5, elapsedS: 7.25 },
    ...{ pressurePa: 40, temperatureC: -3, condition: 'warming_up' },
  };
  const MARK: Mark = { id: 7, kind: 'isolated', elapsedS: 8, text: 'shut, now', madeBy: 'hand' };
  const SLIP = { index: 2, elapsedS: 7.25, pressurePa: 40, insteadPa: 41, atMs: 1_795_687_200_000 };
  const rows = (offsetMinutes = 0, takenBack: readonly (typeof SLIP)[] = []) =>
    new FullCsvRows(RECORDING, takenBack, offsetMinutes);
  const cellsOf = (row: string) => {
    const [found] = [...csvRows(row)];
    return Object.fromEntries(FULL_CSV_COLUMNS.map((name, at) => [name, found?.cells[at]]));
  };

  test('a row has all that a reading has, and the time on the wall of that place', () => {
    expect(cellsOf(rows(90).reading(READING))).toEqual({
      ...{ row: 'reading', time: '2026-11-26T17:30:07.250+01:30', elapsed_s: '7.25' },
      ...{ sensor: '2', sensor_name: "'=Second", pressure_pa: '40' },
      ...{ pressure_micron: String(micronFromPa(40)), temperature_c: '-3' },
      ...{ condition: 'warming_up', taken_back: '', instead_pa: '', mark: '', marked_by: '' },
      ...{ note: '', number: '2', boot: '3', sequence: '4', uptime_ms: '5', arrived_s: '6.5' },
      ...{ recording: '4', origin: 'sensor' },
    });
    expect(cellsOf(rows(-210).reading(READING))['time']).toBe('2026-11-26T12:30:07.250-03:30');
    expect(cellsOf(rows().reading(READING))['time']).toBe('2026-11-26T16:00:07.250+00:00');
    const unknown = { ...READING, channel: 9, pressurePa: null, temperatureC: null };
    expect(cellsOf(rows().reading(unknown))).toMatchObject({
      ...{ sensor: '10', sensor_name: '', pressure_pa: '', pressure_micron: '', temperature_c: '' },
    });
  });

  test('a mark has a row of its own', () => {
    expect(cellsOf(rows().mark(MARK, null))).toMatchObject({
      ...{ row: 'mark', elapsed_s: '8', mark: 'isolated', marked_by: 'hand', note: 'shut, now' },
      ...{ number: '7', taken_back: '', sensor: '', pressure_pa: '', recording: '4' },
    });
  });

  test('what was taken back comes back as such, and a rehearsal stays one whichever way it took', () => {
    const text =
      FULL_CSV_HEADER +
      rows(60, [SLIP]).reading(READING) +
      rows(60).reading({ ...READING, index: 3, channel: 0 }) +
      rows(60).mark(MARK, 1_795_687_300_000) +
      rows(60).mark({ ...MARK, id: 8 }, null);
    const { head, count } = readFullCsv(text);
    expect(count).toBe(2);
    expect(head.takenBack).toEqual([SLIP]);
    expect(head.marksTakenBack).toEqual([{ ...MARK, atMs: 1_795_687_300_000 }]);
    expect(head.marks).toEqual([{ ...MARK, id: 8 }]);
    expect(head.recording.sensors.map(({ id, name }) => [id, name])).toEqual([
      ['sensor-1', 'Gauge'],
      ['sensor-2', '=Second'],
    ]);
    const takenFrom: Recording['takenFrom'] = {
      ...{ format: 'x', recordingId: 1, startedAtMs: 0, title: '' },
      origin: 'rehearsal',
      ...{ hash: '', held: false, softwareVersion: '' },
    };
    const again = new FullCsvRows({ ...RECORDING, origin: 'import', takenFrom }, [], 0);
    expect(cellsOf(again.reading(READING))['origin']).toBe('rehearsal');
  });

  test('of one job it begins with the mark of that job, which is not needed where nothing is before', () => {
    const begun: Mark = { id: 9, kind: 'job_begun', elapsedS: 7, text: '', madeBy: 'hand' };
    const file = (...more: readonly string[]) =>
      readFullCsv(
        FULL_CSV_HEADER + rows().mark(begun, null) + rows().reading(READING) + more.join(''),
      );
    expect(file().head.marks).toEqual([]);
    const early = { ...MARK, elapsedS: 6 };
    expect(file(rows().mark(early, null)).head.marks).toEqual([begun, early]);
    const before = rows().reading({ ...READING, index: 1, elapsedS: 6 });
    expect(file(before).head.marks).toEqual([begun]);
    expect(file(rows().mark(MARK, null)).head.marks).toEqual([MARK]);
  });

  test('is known by its first line, whatever that ends with', () => {
    const bare = FULL_CSV_HEADER.trim();
    for (const text of [bare, `${bare}\n`, `${bare}\r`, `\uFEFF${bare}\r\nx`]) {
      expect(isFullCsv(text)).toBe(true);
    }
    for (const text of ['', `x${bare}`, `${bare},x\n`, bare.slice(1), `\n${bare}`]) {
      expect(isFullCsv(text)).toBe(false);
    }
  });

  test.each([
    ['row', 'reading', 'other', 'line 2: row is "other"; write reading or mark'],
    ['number', '2', '', 'line 2: index: '],
    ['number', '2', '2.5', 'line 2: index: '],
    ['elapsed_s', '7.25', '1e', 'line 2: elapsed_s is "1e", which is no number'],
    ['elapsed_s', '7.25', '0x7', 'line 2: elapsed_s is "0x7", which is no number'],
    ['elapsed_s', '7.25', '1e999', 'line 2: elapsed_s is "1e999", which is no number'],
    ['elapsed_s', '7.25', '-7', 'line 2: elapsedS: '],
    ['condition', 'warming_up', 'fine', 'line 2: condition: '],
    [
      'time',
      '2026-11-26T16:00:07.250+00:00',
      '26.11.2026 16:00',
      'line 2: time is "26.11.2026 16:00"; write it as',
    ],
    ['time', '2026-11-26T16:00:07.250+00:00', '2026-11-26T16:00:07', 'line 2: time is'],
    ['time', '2026-11-26T16:00:07.250+00:00', '2026-13-26T16:00:07Z', 'line 2: time is'],
    [
      'origin',
      'sensor',
      'dream',
      'line 2: recording and origin must say which one it is; export it again',
    ],
    ['recording', '4', '', 'line 2: recording and origin must say'],
    ['recording', '4', '0', 'line 2: recording and origin must say'],
    ['recording', '4', '1.5', 'line 2: recording and origin must say'],
    ['sensor', '2', '', 'line 2: channel: '],
  ])('with %s %j as %j is refused', (column, from, to, message) => {
    const [row] = [...csvRows(rows().reading(READING))];
    const at = FULL_CSV_COLUMNS.findIndex((one) => one === column);
    expect(row?.cells[at]).toBe(from);
    const cells = row?.cells.map((cell, place) => (place === at ? to : cell)) ?? [];
    expect(() => readFullCsv(`${FULL_CSV_HEADER}${cells.join(',')}`)).toThrow(message);
  });

  test('of two recordings, without rows, or with a number twice is refused', () => {
    const text = FULL_CSV_HEADER + rows().reading(READING);
    const other = new FullCsvRows({ ...RECORDING, origin: 'import' }, [], 0);
    expect(() => readFullCsv(text + other.reading({ ...READING, index: 3 }))).toThrow(
      'line 3: it is of another recording than the lines before; one file has one recording',
    );
    expect(() => readFullCsv(FULL_CSV_HEADER)).toThrow('line 2: there are no readings or marks');
    expect(() => readFullCsv(text + rows().reading(READING))).toThrow(
      'number 2 is there twice among the readings; leave one out',
    );
    expect(() => readFullCsv(`${text}"`)).toThrow('line 3: a quotation mark stands alone');
  });

  test('without a number of a recording begins when its first row says', () => {
    expect(readFullCsv(FULL_CSV_HEADER + rows(60).reading(READING)).head.recording).toMatchObject({
      ...{ id: 4, origin: 'sensor', startedAtMs: RECORDING.startedAtMs, title: '', open: false },
    });
  });
});
