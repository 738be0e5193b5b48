/** Two people mark one and the same thing at once, from two pages: it is marked once, and both are told. */
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { apiErrorSchema, recordingDetailSchema } from '../../protocol/api.ts';
import type { NewMark } from '../../protocol/mark.ts';
import { markSchema } from '../../protocol/mark.ts';
import { recordingSchema } from '../../protocol/recording.ts';
import { PlayedSensors } from '../support/played-sensors.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';

let bridge: RunningBridge;

beforeAll(async () => {
  const sensors = new PlayedSensors();
  bridge = await runBridge({ sensors });
  sensors.meet('aa:01', 'Sensor');
  sensors.measure('aa:01', 1, 500);
  sensors.measure('aa:01', 121, 400);
  // Nothing can be marked that lies far after the last reading.
  await vi.waitFor(async () => expect((await recorded()).readingCount).toBe(2));
});
afterAll(() => bridge.remove());

async function post(path: string, body: unknown): Promise<unknown> {
  const answer = await fetch(new URL(`api/${path}`, bridge.url), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
  expect(answer.status).toBe(201);
  return answer.json();
}

async function mark(kind: NewMark['kind'], elapsedS: number, text = '', recordingId = 1) {
  return markSchema.parse(await post(`recordings/${recordingId}/marks`, { kind, elapsedS, text }));
}

async function recorded() {
  const answer = await fetch(new URL('api/recordings/1', bridge.url));
  // Before the first reading there is no recording.
  if (answer.status === 404) return { readingCount: 0, marks: [] };
  return recordingDetailSchema.parse(await answer.json());
}

async function marked() {
  const { marks } = await recorded();
  return marks.map(({ kind, elapsedS }) => [kind, elapsedS]);
}

test('the second press is answered by the mark of the first', async () => {
  const [one, other] = await Promise.all([mark('isolated', 100), mark('isolated', 101.5)]);
  expect(other).toEqual(one);
  expect(await marked()).toHaveLength(1);
});

test('what comes later, or after something else, is another mark', async () => {
  await mark('reopened', 104);
  await mark('isolated', 107);
  await mark('isolated', 120);
  expect((await marked()).slice(1)).toEqual([
    ['reopened', 104],
    ['isolated', 107],
    ['isolated', 120],
  ]);
});

test('two notes are two notes', async () => {
  await Promise.all([mark('note', 121, 'cellar valve stiff'), mark('note', 121, 'roof too')]);
  expect(await marked()).toHaveLength(6);
});

test('in a rehearsal at 120 times the speed of life, two hands are as far apart as people’s own clock says', async () => {
  // Nobody helps: what a helper marked in between would make it another one.
  const wish = { name: 'weir-street-archive', rate: 120, seed: 4, helper: false };
  const { id } = recordingSchema.parse(await post('rehearsals', wish));
  // Ten seconds of data would be over within 83 ms.
  const [first, second] = await Promise.all([
    mark('oil_changed', 10, '', id),
    mark('oil_changed', 50, '', id),
  ]);
  expect(second).toEqual(first);
  await new Promise((resolve) => setTimeout(resolve, 3100));
  expect(await mark('oil_changed', 300, '', id)).not.toEqual(first);
});

test('what has yet to come can’t be marked, and the answer says how late a mark may be', async () => {
  const before = await marked();
  const answer = await fetch(new URL('api/recordings/1/marks', bridge.url), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ kind: 'isolated', elapsedS: 999_999 }),
  });
  expect(answer.status).toBe(400);
  const { code, detail } = apiErrorSchema.parse(await answer.json());
  expect(code).toBe('bad_request');
  expect(detail).toMatch(/999999 s lies after .* give \d+(?:\.\d+)? s at most/u);
  expect(await marked()).toEqual(before);
});
