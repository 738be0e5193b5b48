/** What one sensor sees: from the job sheet, and from where it was said to sit. */
import { describe, expect, test } from 'vitest';
import type { RecordedSensor } from '../../../protocol/recording.ts';
import type { SensorPlace } from '../../../protocol/sensor-label.ts';
import type { SheetEntry, SensorView } from '../../../protocol/sheet.ts';
import { sheetOfSensor } from '../../../protocol/sheet-of-sensor.ts';
import { watchedByDefault } from '../../../web/store/watched-by-default.ts';

const BEGAN_MS = 1_000_000;

function sensor(place: SensorPlace | null, saidS = 0): RecordedSensor {
  const givenAtMs = BEGAN_MS + saidS * 1000;
  return {
    id: 'a',
    name: 'A',
    manufacturer: null,
    model: null,
    serial: null,
    firmware: null,
    label: place === null ? null : { name: '', place, displayStepPa: null, givenAtMs },
    calibratedOn: null,
  };
}

function entered(sensorSees: SensorView, elapsedS: number): SheetEntry {
  return { elapsedS, fields: { sensorSees } };
}

function sees(entries: readonly SheetEntry[], ...sensors: readonly RecordedSensor[]): SensorView {
  return sheetOfSensor(entries, { sensors: [...sensors], startedAtMs: BEGAN_MS }, 0).sensorSees;
}

describe('what the sensor sees', () => {
  test.each([
    ['nothing was said', null, 'unknown'],
    ['its place was left open', 'unknown', 'unknown'],
    ['it is at the system', 'system', 'system'],
    ['it is at the pump', 'pump', 'pump_side'],
  ] as const)('is its place’s where nobody entered it: %s', (_what, place, view) => {
    expect(sees([], sensor(place))).toBe(view);
    expect(sees([{ elapsedS: 5, fields: { site: 'Mill Street' } }], sensor(place))).toBe(view);
  });

  test('of two contradicting statements the later one holds', () => {
    expect(sees([entered('system', 60)], sensor('pump', 10))).toBe('system');
    expect(sees([entered('system', 60)], sensor('pump', 90))).toBe('pump_side');
    expect(sees([entered('pump_side', 60)], sensor('system', 10))).toBe('pump_side');
    expect(sees([entered('pump_side', 60)], sensor('system', 90))).toBe('system');
  });

  test('a section or a stub at the system is no contradiction', () => {
    expect(sees([entered('stub', 60)], sensor('system', 90))).toBe('stub');
    expect(sees([entered('section', 60)], sensor('system', 90))).toBe('section');
  });

  test('with several sensors no entry makes one at the pump see the system', () => {
    expect(sees([entered('system', 60)], sensor('pump', 10), sensor(null))).toBe('pump_side');
    expect(sees([entered('pump_side', 60)], sensor('system', 10), sensor(null))).toBe('pump_side');
  });
});

test.each([
  [[], 0],
  [[null, null], 0],
  [['pump', 'system'], 1],
  [[null, 'pump', 'system', 'system'], 2],
  [['pump', 'unknown'], 1],
  [['pump', null], 1],
  [['pump', 'pump'], 0],
] as const)('of sensors at %j the one at %i is watched', (places, channel) => {
  expect(watchedByDefault(places.map((place) => sensor(place)))).toBe(channel);
});
