/** Numbers typed into a whole bridge: on the stream, in one recording, until it is ended. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { apiErrorSchema } from '../../protocol/api.ts';
import { readingsFromColumns } from '../../protocol/reading.ts';
import { recordingSchema } from '../../protocol/recording.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';
import { StreamClient } from '../support/stream-client.ts';

let bridge: RunningBridge;

beforeAll(async () => {
  bridge = await runBridge();
});
afterAll(() => bridge.remove());

function post(path: string, body: unknown): Promise<Response> {
  return fetch(new URL(path, bridge.url), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
}

async function type(pressurePa: number, temperatureC: number | null = null) {
  const answer = await post('api/typed-in', { pressurePa, temperatureC });
  expect(answer.status).toBe(201);
  return recordingSchema.parse(await answer.json());
}

const end = async () => recordingSchema.parse(await (await post('api/typed-in/end', {})).json());

/** The readings of a recording, as a screen gets them that follows it from now on. */
async function follow(recordingId: number) {
  const client = new StreamClient(bridge.url);
  await client.until(() => client.heard.length > 0);
  client.send({ type: 'follow', recordingId, afterIndex: 0 });
  await client.until(() => client.heard.some((said) => said.type === 'backfill'));
  const readings = () =>
    client.heard.flatMap((said) =>
      said.type === 'backfill' || said.type === 'readings' ? readingsFromColumns(said.columns) : [],
    );
  return { client, readings };
}

test('each number is a reading on the stream, in one recording until it is ended', async () => {
  const first = await type(612.345678, 18.5);
  expect(first).toMatchObject({ origin: 'typed_in', open: true, title: '' });
  const { client, readings } = await follow(first.id);
  expect((await type(60)).id).toBe(first.id);
  await client.until(() => readings().length === 2);
  // To the profile's resolution, as from any sensor.
  expect(readings()).toMatchObject([
    { pressurePa: 612.346, temperatureC: 18.5, condition: 'ok', elapsedS: 0 },
    { pressurePa: 60, temperatureC: null, condition: 'ok' },
  ]);
  expect(readings()[1]?.elapsedS).toBeGreaterThan(0);

  expect(await end()).toMatchObject({ id: first.id, open: false });
  await client.until(() =>
    client.heard.some((said) => said.type === 'recording' && !said.recording.open),
  );
  client.close();
  expect((await type(50)).id).not.toBe(first.id);
  await end();
});

test('a restart of the bridge goes on with the recording, or lets it be ended', async () => {
  const { id } = await type(70);
  const restart = async () => {
    await bridge.stop();
    bridge = await runBridge({ dataFolder: bridge.dataFolder });
  };
  await restart();
  expect((await type(65)).id).toBe(id);
  const { client, readings } = await follow(id);
  client.close();
  const [before, after] = readings();
  expect(before?.channel).toBe(after?.channel);
  expect(after?.elapsedS).toBeGreaterThan(before?.elapsedS ?? Number.NaN);
  await restart();
  expect(await end()).toMatchObject({ id, open: false });
});

test('there is nothing to end before there is a number', async () => {
  const answer = await post('api/typed-in/end', {});
  expect(answer.status).toBe(409);
  expect(apiErrorSchema.parse(await answer.json()).code).toBe('nothing_typed_in');
});

test.each([
  ['a negative pressure', { pressurePa: -1, temperatureC: null }],
  ['a pressure that no vacuum sensor shows', { pressurePa: 500_000, temperatureC: null }],
  ['no pressure', { temperatureC: 20 }],
  ['a word', { pressurePa: 'deep', temperatureC: null }],
])('%s is refused and begins no recording', async (_what, body) => {
  const answer = await post('api/typed-in', body);
  expect(apiErrorSchema.parse(await answer.json()).code).toBe('bad_request');
  expect((await post('api/typed-in/end', {})).status).toBe(409);
});
