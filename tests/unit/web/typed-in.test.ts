/** Typed-in readings on the page: read in their unit, judged at once, joined, and never called stale. */
import { describe, expect, test } from 'vitest';
import type { Origin, Recording } from '../../../protocol/recording.ts';
import { columnsFromReadings } from '../../../protocol/reading.ts';
import type { Reading } from '../../../protocol/reading.ts';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { gridTimeAfter } from '../../../web/analysis/readings/judging-grid.ts';
import { Judging } from '../../../web/analysis/judging.ts';
import { initialConnection } from '../../../web/connection/connection-core.ts';
import { ChannelReadings } from '../../../web/store/channel-readings.ts';
import { freshness, isCurrent } from '../../../web/store/freshness.ts';
import { presentS } from '../../../web/store/present-time.ts';
import { ChannelCurve } from '../../../web/store/channel-curve.ts';
import { FollowedRecording } from '../../../web/store/followed-recording.ts';
import { agoFrom } from '../../../web/typed-in/ago-from.ts';
import { displayStepFrom } from '../../../web/sensors/display-step-from.ts';
import { readTyped } from '../../../web/typed-in/typed-form.ts';
import { lastTyped } from '../../../web/typed-in/typed-list.ts';
import { sayWrongPressure } from '../../../web/typed-in/wrong-pressure.ts';
import { englishIn } from '../../support/english-speech.ts';

const KEPT = { kind: 'kept' } as const;

function recording(origin: Origin, open: boolean): Recording {
  return { id: 1, open, origin, startedAtMs: 1_000_000, title: '', takenFrom: null, sensors: [] };
}

function typed(elapsedS: number, index: number, boot = 1): Reading {
  return {
    index,
    channel: 0,
    boot,
    sequence: index,
    elapsedS,
    pressurePa: 90_000 / index,
    temperatureC: null,
    condition: 'ok',
  };
}

describe('what was typed', () => {
  const micron = englishIn({});
  const imperial = englishIn({ pressure: 'inHg', temperature: '°F' });

  test.each([
    ['500', '', micron, 66.661, null],
    [' 0,5 ', '68', imperial, 1693.19, 20],
    ['612.5', '−5', micron, 81.66, -5],
  ] as const)('%j and %j become a reading', (pressure, temperature, units, pa, celsius) => {
    const read = readTyped({ pressure, when: '', temperature }, units, 0);
    if (!read.ok) throw new Error(read.wrong);
    expect(read.reading.pressurePa).toBeCloseTo(pa, 2);
    if (celsius === null) expect(read.reading.temperatureC).toBeNull();
    else expect(read.reading.temperatureC).toBeCloseTo(celsius, 9);
  });

  test.each([
    ['', '', 'pressure'],
    ['-3', '', 'pressure'],
    ['deep', '', 'pressure'],
    // A thousand and a half to some, one and a half to others.
    ['1,500', '', 'pressure'],
    ['1.500', '', 'pressure'],
    // 300 000 Pa: micron typed where inHg is chosen, say.
    ['2250185', '', 'pressure'],
    ['500', 'warm', 'temperature'],
    ['500', '300', 'temperature'],
  ] as const)('%j and %j do not: the %s is wrong', (pressure, temperature, wrong) => {
    expect(readTyped({ pressure, when: '', temperature }, micron, 0)).toEqual({ ok: false, wrong });
  });

  test('a gauge’s step is refused for the same, and one is told which two numbers it may be', () => {
    expect(displayStepFrom('1,500', 'micron')).toBeUndefined();
    expect(displayStepFrom('1,500', 'mbar')).toBe(150);
    expect(displayStepFrom('0.001', 'Pa')).toBe(0.001);
    expect(sayWrongPressure('1,500', 'micron', micron)).toMatch(/“1,500” may be 1500 or 1\.5/u);
    expect(sayWrongPressure('deep', 'micron', micron)).toMatch(/absolute pressure/u);
  });

  test('what it was read at counts back from now', () => {
    const noon = new Date(2026, 4, 3, 12, 40, 30).getTime();
    const read = (when: string) =>
      readTyped({ pressure: '5', when, temperature: '' }, micron, noon);
    expect(read('-2 min')).toMatchObject({ ok: true, reading: { agoS: 120 } });
    expect(read('soon')).toEqual({ ok: false, wrong: 'when' });
  });
});

describe('when it was read', () => {
  /** In the zone of whoever runs the test, as on the clock of the laptop. */
  const now = new Date(2026, 4, 3, 12, 40, 30).getTime();
  const midnight = new Date(2026, 4, 3, 0, 5, 0).getTime();

  test.each([
    ['', 0],
    [' Now ', 0],
    ['-2', 120],
    ['−2 min', 120],
    ['- 1,5 minutes', 90],
    ['-90 s', 90],
    ['-1 h', 3600],
    ['12:40', 30],
    ['12:40:25', 5],
    ['7.10', 19_830],
  ])('%j is %d s ago', (text, agoS) => expect(agoFrom(text, now, 'now')).toBe(agoS));

  test('a time of day that is still to come was before midnight', () => {
    expect(agoFrom('23:55', midnight, 'now')).toBe(600);
  });

  test.each([
    ['a moment that would have to be yesterday’s', '12:41'],
    ['more than is taken', '-12 h'],
    ['no time of day', '25:10'],
    ['the time to come', '+2 min'],
    ['a word', 'soon'],
    ['an unknown unit', '-2 weeks'],
  ])('%s is refused', (_what, text) => expect(agoFrom(text, now, 'now')).toBeNull());
});

test('the last typed come first, a slip where it was typed and with what became of it', () => {
  const slip = { index: 2, elapsedS: 3, pressurePa: 45_000, insteadPa: 450, atMs: 9 };
  const listed = lastTyped([typed(0, 1), typed(3, 4), typed(6, 3)], [slip], 3);
  expect(listed.map(({ index, takenBack }) => [index, takenBack?.insteadPa])).toEqual([
    [4, undefined],
    [3, undefined],
    [2, 450],
  ]);
});

test('a reading that is taken back leaves neither curve nor conclusion a trace', () => {
  const shown = new FollowedRecording(1, true);
  const three = [typed(0, 1), typed(3, 2), typed(6, 3)];
  shown.insert(columnsFromReadings(three));
  shown.judge();
  const slip = { index: 3, elapsedS: 6, pressurePa: 30_000, insteadPa: null, atMs: 9 };
  shown.takeBack([slip]);
  shown.judge();
  expect(shown.readings.length).toBe(2);
  expect(shown.conclusions.value?.nowS).toBeLessThan(6);
  // Said again after a lost connection, it is still one slip.
  shown.takeBack([slip]);
  expect(shown.takenBack.value).toHaveLength(1);
});

describe('a recording that is typed in', () => {
  const live = { ...initialConnection(0), phase: 'live', sinceMs: 0 } as const;

  test('is neither live nor stale, whatever the radio does, and is still worth acting on', () => {
    const state = freshness(live, recording('typed_in', true), null, KEPT);
    expect(state.kind).toBe('typed_in');
    expect(isCurrent(state)).toBe(true);
  });

  test('ends as any other, and a lost bridge is said first', () => {
    expect(freshness(live, recording('typed_in', false), null, KEPT).kind).toBe('ended');
    const lost = { ...live, phase: 'lost' } as const;
    expect(freshness(lost, recording('typed_in', true), null, KEPT).kind).toBe('stale');
  });

  test('dates what is done between two numbers by the clock, and never before the last one', () => {
    const open = recording('typed_in', true);
    expect(presentS(open, 60, 1_000_000 + 180_000)).toBe(180);
    expect(presentS(open, 60, 900_000)).toBe(60);
    expect(presentS(recording('typed_in', false), 60, 1_000_000 + 180_000)).toBe(60);
    expect(presentS(recording('sensor', true), 60, 1_000_000 + 180_000)).toBe(60);
  });

  test('is drawn without gaps, through any silence and any restart of the bridge', () => {
    const all = [typed(0, 1), typed(3, 2), typed(6, 3), typed(1200, 4), typed(9000, 5, 2)];
    const drawn = (joined: boolean) => {
      const curve = new ChannelCurve(new ChannelReadings(0), joined);
      curve.insert(curve.readings.insert(all));
      return curve.drawn({ fromS: 0, toS: 9000 });
    };
    expect(drawn(false).pressurePa).toContain(null);
    expect(drawn(true).elapsedS).toEqual([0, 3, 6, 1200, 9000]);
  });

  test('is judged with its latest number, though none has come after it', () => {
    const judged = (sparse: boolean) => {
      const judging = new Judging(sparse);
      judging.insert([typed(0, 1), typed(120.4, 2)]);
      return judging.conclude([], DEFAULT_SHEET, [])?.pressurePa;
    };
    expect(judged(true)).toBeCloseTo(45_000);
    expect(judged(false)).not.toBeCloseTo(45_000);
  });

  test('the second of a reading is over at the point of the grid after it', () => {
    expect([0, 0.9, 1, 1.5, 2, 120.4].map(gridTimeAfter)).toEqual([2, 2, 2, 2, 4, 122]);
  });
});
