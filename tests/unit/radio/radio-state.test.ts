import { expect, test } from 'vitest';
import { GONE_AFTER_MS, shownState as shownAt } from '../../../server/sources/radio/radio-state.ts';
import type { RadioFacts, SensorFacts } from '../../../server/sources/radio/radio-state.ts';

const sensor = (facts: Partial<SensorFacts>): SensorFacts => ({
  name: 'A',
  phase: 'live',
  enteredMs: 0,
  problem: null,
  batteryPercent: 50,
  signalDbm: -60,
  missed: 0,
  fetching: false,
  ...facts,
});
const radio = (facts: Partial<RadioFacts>, ...sensors: SensorFacts[]): RadioFacts => ({
  radio: 'on',
  restarted: false,
  sensors: new Map(sensors.map((facts, place) => [String(place), facts])),
  ...facts,
});

const shownState = (facts: RadioFacts) => shownAt(facts, 1000);

test.each([
  ['starts', radio({ radio: 'starting' }), 'starting', null],
  ['searches', radio({}), 'searching', null],
  ['searches after a restart', radio({ restarted: true }), 'searching', 'radio_restarted'],
  ['has no adapter', radio({ radio: 'no_adapter' }), 'unavailable', 'no_adapter'],
  [
    'is off with a sensor',
    radio({ radio: 'adapter_off' }, sensor({})),
    'unavailable',
    'adapter_off',
  ],
  [
    'is silent',
    radio({}, sensor({ phase: 'stale', problem: 'sensor_silent' })),
    'stale',
    'sensor_silent',
  ],
  ['has a weak signal', radio({}, sensor({ signalDbm: -93 })), 'weak', null],
  [
    'fetches',
    radio({}, sensor({ missed: 3, fetching: true, signalDbm: -93 })),
    'backfilling',
    null,
  ],
  ['cannot fetch', radio({}, sensor({ missed: 3 })), 'live', null],
])('a radio that %s', (_, facts, phase, problem) => {
  expect(shownState(facts)).toMatchObject({ phase, problem });
});

test('of several sensors the best off is shown, the first among equals', () => {
  const lost = sensor({ name: 'lost', phase: 'lost', problem: 'sensor_lost' });
  const one = sensor({ name: 'one' });
  const two = sensor({ name: 'two' });
  const stale = sensor({ name: 'stale', phase: 'stale' });
  expect(shownState(radio({}, lost, stale, one, two))).toMatchObject({
    name: 'one',
    phase: 'live',
  });
});

test('of lost sensors the one that was lost last is shown', () => {
  const before = sensor({ name: 'before', phase: 'lost', problem: 'sensor_silent' });
  const after = sensor({ name: 'after', phase: 'lost', problem: 'sensor_lost' });
  expect(shownState(radio({}, before, after))).toMatchObject({
    name: 'after',
    problem: 'sensor_lost',
  });
});

test('a battery is remembered when its sensor is lost, a signal is not', () => {
  const shown = shownState(radio({}, sensor({ phase: 'lost' })));
  expect(shown).toMatchObject({ batteryPercent: 50, signalDbm: null });
});

test('each sensor has its own phase, problem, battery and signal', () => {
  const live = sensor({ batteryPercent: 80, signalDbm: -50 });
  const lost = sensor({ phase: 'lost', problem: 'sensor_lost', batteryPercent: 9, signalDbm: -90 });
  expect(shownState(radio({}, lost, live)).sensors).toEqual([
    {
      sensorId: '0',
      name: 'A',
      phase: 'lost',
      problem: 'sensor_lost',
      batteryPercent: 9,
      signalDbm: null,
    },
    { sensorId: '1', name: 'A', phase: 'live', problem: null, batteryPercent: 80, signalDbm: -50 },
  ]);
});

test('without a radio no sensor is live, whatever it was', () => {
  const { sensors } = shownState(radio({ radio: 'adapter_off' }, sensor({}), sensor({})));
  expect(sensors.map(({ phase, problem, signalDbm }) => ({ phase, problem, signalDbm }))).toEqual(
    Array(2).fill({ phase: 'unavailable', problem: 'adapter_off', signalDbm: null }),
  );
});

test('a sensor that was lost long ago is gone', () => {
  const lost = radio({}, sensor({ phase: 'lost', problem: 'sensor_lost', enteredMs: 5 }));
  expect(shownAt(lost, GONE_AFTER_MS).phase).toBe('lost');
  expect(shownAt(lost, GONE_AFTER_MS + 5).phase).toBe('gone');
});

test('says how many readings can still be fetched, and nothing where none are missing', () => {
  expect(shownState(radio({}, sensor({ missed: 3 }))).sensors[0]?.missedReadings).toBe(3);
  expect(shownState(radio({}, sensor({}))).sensors[0]).not.toHaveProperty('missedReadings');
});
