/** Files as loggers and people write them: guessed, read as chosen, and each fault by its line. */
import { describe, expect, test } from 'vitest';
import { parseReadingsCsv, readingsCsvLines } from '../../../protocol/readings-csv.ts';
import { type Choice, isWhole } from '../../../web/read-in/choice.ts';
import { Found } from '../../../web/read-in/found.ts';
import { guessChoice } from '../../../web/read-in/guess.ts';
import { readNumber, readTime } from '../../../web/read-in/read-cell.ts';
import { readRows } from '../../../web/read-in/read-rows.ts';
import { splitFile, textFrom } from '../../../web/read-in/split-file.ts';
import { sayFaultyRow, sayFound, sayHowRead } from '../../../web/words/say-read-in.ts';
import { englishIn, MICRON } from '../../support/english-speech.ts';

function read(text: string, change: Partial<Choice> = {}): Found {
  const guess = guessChoice(text, '°C', change.separator);
  const choice = { ...guess, ...change };
  if (!isWhole(choice)) throw new Error('time or pressure is not chosen');
  const found = new Found();
  for (const row of readRows(text, choice, guess)) found.take(row);
  return found;
}

const rowsOf = (text: string, change: Partial<Choice> = {}) =>
  parseReadingsCsv(read(text, change).csv()).map((row) => [
    row.elapsedS,
    row.pressurePa,
    row.temperatureC,
    row.event,
  ]);

test('what a file says to have been a rehearsal is one still in what goes to the bridge', () => {
  const rows = Array.from({ length: 12_000 }, (_, at) => `${at},${100 + at},,20`);
  const said = (cell: string) =>
    `elapsed_s,pressure_pa,event,temperature_c,Origin\n${rows.map((row) => `${row},${cell}\n`).join('')}`;
  const sent = read(said('rehearsal')).csv();
  const lines = [...readingsCsvLines(sent)];
  expect(lines).toHaveLength(12_000);
  expect(lines.every(({ isRehearsed }) => isRehearsed)).toBe(true);
  expect(lines[11_999]?.row.pressurePa).toBe(12_099);
  // A column of that name is everybody's.
  const measured = read(said('roof')).csv();
  expect([...readingsCsvLines(measured)].some(({ isRehearsed }) => isRehearsed)).toBe(false);
  // The last row alone is enough, after others have been put by already.
  expect(read(`${said('')}12000,5,,20,rehearsal\n`).csv()).toMatch(
    /^elapsed_s,pressure_pa,event,temperature_c,origin\n0,100,,20,rehearsal\n/u,
  );
});

describe('a file is read as it is guessed', () => {
  test.each([
    [
      'as this program writes it',
      'elapsed_s,pressure_pa,event,temperature_c\n0,100.5,pump_on,20\n1,,,\n2.5,90,isolated,\n',
      [
        [0, 100.5, 20, 'pump_on'],
        [1, null, null, null],
        [2.5, 90, null, 'isolated'],
      ],
    ],
    [
      'semicolons, decimal commas, minutes, mbar, a byte order mark and CRLF',
      '\ufeffTime (min);Pressure (mbar)\r\n0;1013,25\r\n0,5;12,5\r\n',
      [
        [0, 101_325, null, null],
        [30, 1250, null, null],
      ],
    ],
    [
      'tabs, a clock that passes midnight, micron',
      'Time\tVacuum micron\n23:59:50\t500\n00:00:10\t400\n00:01\t300\n',
      [
        [0, 66.661, null, null],
        [20, 53.329, null, null],
        [70, 39.997, null, null],
      ],
    ],
    [
      'ISO dates in quotation marks, Torr and °F, events in other letters',
      '"Date, time","Pressure, Torr","Temp °F","Event"\n' +
        '"2026-05-03T23:59:59.500Z","1","68","Pump on"\n"2026-05-04T00:00:01Z","0.5","","Ballast-closed"\n',
      [
        [0, 133.322, 20, 'pump_on'],
        [1.5, 66.661, null, 'ballast_closed'],
      ],
    ],
    [
      'lines before the table, and columns that nobody needs',
      'Logger 4\nSite;Mill Street\n\nNo;Elapsed s;Battery V;Pressure Pa\n1;0;3,1;900\n2;10;3,1;800\n3;20;3,0;OVER\n',
      [
        [0, 900, null, null],
        [10, 800, null, null],
        [20, null, null, null],
      ],
    ],
    [
      'a date and a zone without a colon, with slashes',
      'Date Time,P [hPa]\n2026/05/03 12:00:00+0200,1\n2026/05/03 10:00:30+0000,2\n',
      [
        [0, 100, null, null],
        [30, 200, null, null],
      ],
    ],
  ])('%s', (_what, text, rows) => {
    expect(rowsOf(text)).toEqual(rows);
    expect(read(text).faulty).toBe(0);
  });

  test('what it does not say is left to choose', () => {
    const bare = '0,500\n1,400\n2,300\n';
    const guess = guessChoice(bare, '°C');
    expect(guess).toMatchObject({ headings: [], timeAs: null, pressureIn: null, firstLine: 1 });
    expect(guess.columns).toMatchObject({ time: 0, pressure: 1 });
    expect(isWhole(guess)).toBe(false);
    expect(rowsOf(bare, { timeAs: 'minutes', pressureIn: 'Pa' })[2]).toEqual([
      120,
      300,
      null,
      null,
    ]);
  });

  test('each guess can be changed', () => {
    const text = 'time_s;p_pa;other\n0;1;7\n1;2;8\n';
    const columns = { time: 0, pressure: 2, temperature: 1, event: null };
    expect(rowsOf(text, { columns, pressureIn: 'mbar', temperatureIn: '°F' })).toEqual([
      [0, 700, -17.22, null],
      [1, 800, -16.67, null],
    ]);
    expect(guessChoice(text, '°C', ',').width).toBe(1);
  });

  test('a comma file whose lines happen to hold semicolons is still one', () => {
    const text = 'elapsed s,pressure Pa,remark\n0,5,"a; b"\n1,6,c\n2,7,d\n';
    expect(guessChoice(text, '°C').separator).toBe(',');
    expect(read(text).readings).toBe(3);
  });
});

describe('a row that cannot be read', () => {
  const text = [
    'time_s,pressure_pa,temperature_c,event',
    '0,100,20,',
    '1,many,20,',
    '2,-5,20,',
    '3,5e9,20,',
    '4,100,warm,',
    '5,100,20,lunch',
    '6,100',
    'soon,100,20,',
    '9,100,20,',
    '8,100,20,',
    '1e9,100,20,',
    '10,90,20,isolated',
  ].join('\n');

  test('is told by its line and left out, and the others are read', () => {
    const found = read(text);
    expect(found.readings).toBe(3);
    expect(found.faulty).toBe(9);
    expect(found.faults.map(({ lineNumber, fault }) => [lineNumber, fault])).toEqual([
      [3, 'pressure'],
      [4, 'pressure_negative'],
      [5, 'pressure_high'],
      [6, 'temperature'],
      [7, 'event'],
      [8, 'cells'],
      [9, 'time'],
      [11, 'time_back'],
    ]);
    expect(parseReadingsCsv(found.csv())).toHaveLength(3);
  });

  test('is told with what stands there and what to do', () => {
    const [first] = read(text).faults;
    if (first === undefined) throw new Error('nothing is wrong');
    expect(sayFaultyRow(first, MICRON)).toBe(
      'line 3: “many” is no pressure; leave it empty where nothing was measured',
    );
  });

  test('has the number of its line in the file, whatever quotation marks hold', () => {
    const quoted = 'time_s;p_pa;remark\n0;1;"two\nlines"\n1;x;\n';
    expect(read(quoted).faults[0]?.lineNumber).toBe(4);
    expect(read(quoted).readings).toBe(1);
  });

  test('of a stray quotation mark is one row, not the rest of the file', () => {
    const stray = `time_s;p_pa\n0;1\n1;"2\n${Array.from({ length: 60 }, (_, s) => `${s + 2};3`).join('\n')}\n`;
    expect(read(stray)).toMatchObject({ readings: 61, faulty: 1 });
  });
});

describe('cells', () => {
  test.each([
    ['1013.25', '.', 1013.25],
    ['1013,25', ',', 1013.25],
    ['1 284,5', ',', 1284.5],
    ['1\u00a0284', '.', 1284],
    ['−5', '.', -5],
    ['6.6e-1', '.', 0.66],
    ['', '.', null],
    ['--', '.', null],
    ['OL', '.', null],
    ['> 25000', '.', null],
    // What may be a thousand or a decimal is neither.
    ['1,284', '.', Number.NaN],
    ['1.284', ',', Number.NaN],
    ['1.284,5', ',', Number.NaN],
    ['0x10', '.', Number.NaN],
    ['12 micron', '.', Number.NaN],
  ] as const)('%j with a decimal %j is %d', (cell, decimal, value) => {
    expect(readNumber(cell, decimal)).toBe(value);
  });

  test.each([
    ['12:40', 'clock', 45_600],
    ['1:02:03,5', 'clock', 3723.5],
    ['30:00:00', 'clock', 108_000],
    ['12:60', 'clock', Number.NaN],
    ['1,5', 'minutes', 90],
    ['2026-05-03 00:00:01.25', 'date', Date.UTC(2026, 4, 3) / 1000 + 1.25],
    ['2026-13-03 00:00', 'date', Number.NaN],
    ['03.05.2026 00:00', 'date', Number.NaN],
  ] as const)('%j as %s is %d s', (cell, kind, seconds) => {
    expect(readTime(cell, kind, ',')).toBe(seconds);
  });

  test('quotation marks within quotation marks, and separators within them', () => {
    expect([...splitFile('a;"b ""c""; d"; e \n', ';')].map(({ cells }) => cells)).toEqual([
      ['a', 'b "c"; d', 'e'],
    ]);
  });

  test('lines end as any system ends them', () => {
    const ends = ['\n', '\r\n', '\r'].map((end) => [...splitFile(`a,b${end}${end}c,d${end}`, ',')]);
    for (const lines of ends) {
      expect(lines.map(({ lineNumber, cells }) => [lineNumber, cells.join()])).toEqual([
        [1, 'a,b'],
        [3, 'c,d'],
      ]);
    }
  });

  test('a spreadsheet’s Unicode text is text', () => {
    const utf16 = new Uint8Array([0xff, 0xfe, 0x61, 0, 0x09, 0, 0xb0, 0]);
    expect(textFrom(utf16)).toBe('a\t°');
    expect(textFrom(new TextEncoder().encode('\ufeffa°'))).toBe('a°');
  });
});

test('a long file is read to its last row', () => {
  const rows = Array.from({ length: 12_345 }, (_, s) => `${s},${s + 1}`);
  const all = rowsOf(`time_s,pressure_pa\n${rows.join('\n')}\n`);
  expect(all).toHaveLength(12_345);
  expect(all.at(-1)).toEqual([12_344, 12_345, null, null]);
});

test('what was found is said before anything is kept', () => {
  const found = read('time_s,pressure_pa\n0,900\n60,\n3120,66\n3121,x\n3122,y\n');
  expect(sayFound(found, englishIn({ pressure: 'Pa' }))).toBe(
    '3 readings over 52 min, 66.0 Pa lowest; 1 of them without a pressure; 2 rows could not be read.',
  );
  const how = { time: 'Time', timeAs: 'clock', pressure: 'P', pressureIn: 'mbar' } as const;
  expect(sayHowRead({ ...how, faulty: 3, lines: [17, 40] }, MICRON)).toBe(
    'Read in with time from “Time” (time of day) and pressure from “P” (mbar). ' +
      '3 rows could not be read and were left out: line 17, 40 and others.',
  );
});
