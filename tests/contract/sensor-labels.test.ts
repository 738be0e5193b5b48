/** Names and places given to sensors, through a whole bridge: remembered, told to every page. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import {
  apiErrorSchema,
  givenLabelSchema,
  recordingListSchema,
  sensorLabelListSchema,
} from '../../protocol/api.ts';
import type { Recording } from '../../protocol/recording.ts';
import { parseReadingsCsv } from '../../protocol/readings-csv.ts';
import { PlayedSensors } from '../support/played-sensors.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';
import { StreamClient } from '../support/stream-client.ts';

/** In whichever zone the tests run: the 26th nearly everywhere. */
const NOON_MS = Date.UTC(2026, 10, 26, 11);

let bridge: RunningBridge;
let sensors: PlayedSensors;

beforeAll(async () => {
  sensors = new PlayedSensors();
  bridge = await runBridge({ sensors, wallClock: () => NOON_MS });
  sensors.meet('aa:01', 'Maker’s name');
  sensors.meet('aa:02', 'Maker’s name');
  sensors.measure('aa:01', 1, 500);
  sensors.measure('aa:02', 1, 400);
});
afterAll(() => bridge.remove());

function post(label: unknown): Promise<Response> {
  return fetch(new URL('api/sensor-labels', bridge.url), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(label),
  });
}

const roof = { sensorId: 'aa:01', name: '  roof ', place: 'system', displayStepPa: null };

async function labels() {
  const answer = await fetch(new URL('api/sensor-labels', bridge.url));
  return sensorLabelListSchema.parse(await answer.json()).labels;
}

async function recordings(): Promise<Recording[]> {
  const answer = await fetch(new URL('api/recordings', bridge.url));
  return recordingListSchema.parse(await answer.json()).recordings;
}

const named = (recording: Recording | undefined) =>
  recording?.sensors.map(({ id, name, label }) => [id, name, label?.name, label?.place]);

test('a label is trimmed, answered, and heard by every page that is open', async () => {
  const pages = [new StreamClient(bridge.url), new StreamClient(bridge.url)];
  await Promise.all(pages.map((page) => page.until(() => page.heard.length > 0)));
  const answer = await post(roof);
  expect(answer.status).toBe(201);
  expect(givenLabelSchema.parse(await answer.json())).toMatchObject({ name: 'roof' });
  for (const page of pages) {
    await page.until(() =>
      page.heard.some(
        (said) => said.type === 'recording' && said.recording.sensors[0]?.label?.name === 'roof',
      ),
    );
    page.close();
  }
});

test('the latest label of a sensor holds, and the sensor keeps its own name beside it', async () => {
  await post({ ...roof, name: 'cellar', place: 'pump' });
  await post({ ...roof, name: 'roof, north' });
  expect(await labels()).toMatchObject([{ sensorId: 'aa:01', name: 'roof, north' }]);
  const [recording] = await recordings();
  expect(named(recording)).toEqual([
    ['aa:01', 'Maker’s name', 'roof, north', 'system'],
    ['aa:02', 'Maker’s name', undefined, undefined],
  ]);
});

test('the day of a calibration is one that can have been, of a sensor that is known', async () => {
  const calibrate = (sensorId: string, calibratedOn: string) =>
    fetch(new URL('api/sensor-calibrations', bridge.url), {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ sensorId, calibratedOn }),
    });
  for (const day of ['2026-11-27', '2031-01-01', '1949-12-31', '1800-01-01']) {
    const answer = await calibrate('aa:02', day);
    expect(answer.status).toBe(400);
    const { code, detail } = apiErrorSchema.parse(await answer.json());
    expect(code).toBe('bad_request');
    expect(detail).toBe(
      `calibratedOn: ${day} is not between 1950-01-01 and today, 2026-11-26; enter the day on the certificate`,
    );
  }
  const unknown = await calibrate('nobody', '2026-03-01');
  expect(unknown.status).toBe(404);
  expect(apiErrorSchema.parse(await unknown.json())).toMatchObject({ detail: 'sensor nobody' });
  expect((await recordings())[0]?.sensors[1]?.calibratedOn).toBeNull();
  // Heard, never named; and named, never heard.
  expect((await post({ ...roof, sensorId: 'aa:09', name: 'spare' })).status).toBe(201);
  expect((await calibrate('aa:09', '1950-01-01')).status).toBe(201);
  expect((await calibrate('aa:02', '2026-11-26')).status).toBe(201);
  expect((await recordings())[0]?.sensors[1]?.calibratedOn).toBe('2026-11-26');
});

test('each sensor’s readings can be taken away on their own', async () => {
  const csv = async (query: string) =>
    (await fetch(new URL(`api/recordings/1/readings.csv${query}`, bridge.url))).text();
  const pressures = (text: string) => parseReadingsCsv(text).map(({ pressurePa }) => pressurePa);
  expect(pressures(await csv('?channel=0'))).toEqual([500]);
  expect(pressures(await csv('?channel=1'))).toEqual([400]);
  expect(pressures(await csv(''))).toEqual([500, 400]);
});

test('a restart of the bridge remembers it', async () => {
  await post({ ...roof, sensorId: 'aa:02', name: 'pump side', place: 'pump' });
  await bridge.stop();
  sensors = new PlayedSensors();
  bridge = await runBridge({ sensors, dataFolder: bridge.dataFolder });
  const [recording] = await recordings();
  expect(named(recording)?.map((sensor) => sensor[2])).toEqual(['roof, north', 'pump side']);
});

test.each([
  ['too long a name', { ...roof, name: 'r'.repeat(41) }],
  ['a name of two lines', { ...roof, name: 'roof\ncellar' }],
  ['a name that turns round what comes after it', { ...roof, name: 'roof\u202e' }],
  ['a place that there is none', { ...roof, place: 'garden' }],
  ['no sensor', { ...roof, sensorId: '' }],
])('%s is refused, and what was said before stands', async (_what, label) => {
  const before = await labels();
  const answer = await post(label);
  expect(answer.status).toBe(400);
  expect(apiErrorSchema.parse(await answer.json()).code).toBe('bad_request');
  expect(await labels()).toEqual(before);
});
