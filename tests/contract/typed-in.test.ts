/** Numbers typed into a whole bridge: on the stream, in one recording, until it is ended. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { apiErrorSchema } from '../../protocol/api.ts';
import { readingsFromColumns } from '../../protocol/reading.ts';
import { recordingSchema } from '../../protocol/recording.ts';
import { examinePdf } from '../support/poppler.ts';
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

async function type(pressurePa: number, temperatureC: number | null = null, agoS = 0) {
  const answer = await post('api/typed-in', { pressurePa, temperatureC, agoS });
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

test('a number that was read before stands where it was read, and the recording begins with it', async () => {
  const nowMs = Date.now();
  const { id, startedAtMs } = await type(900, null, 1200);
  expect(Math.abs(nowMs - startedAtMs - 1_200_000)).toBeLessThan(2000);
  await type(700);
  await type(800, null, 600);
  const { client, readings } = await follow(id);
  await client.until(() => readings().length === 3);
  client.close();
  const placed = readings().map(({ pressurePa, elapsedS }) => [
    pressurePa,
    Math.round(elapsedS / 10),
  ]);
  expect(placed).toEqual([
    [900, 0],
    [700, 120],
    [800, 60],
  ]);
  const answer = await post('api/typed-in', { pressurePa: 5, temperatureC: null, agoS: 3000 });
  expect(answer.status).toBe(409);
  expect(apiErrorSchema.parse(await answer.json()).code).toBe('before_recording');
  await end();
});

test('after a restart too', async () => {
  const { id } = await type(900, null, 1200);
  await type(700);
  await bridge.stop();
  bridge = await runBridge({ dataFolder: bridge.dataFolder });
  // Before the last one, though it is the first that the new bridge hears of.
  expect((await type(800, null, 600)).id).toBe(id);
  await type(650);
  const { client, readings } = await follow(id);
  await client.until(() => readings().length === 4);
  client.close();
  expect(readings().map(({ elapsedS }) => Math.round(elapsedS / 10))).toEqual([0, 120, 60, 120]);
  await end();
});

test('a slip is taken back by a further fact: pages, file and report go by what it should have been', async () => {
  const { id } = await type(900, 21, 600);
  await type(60_000, null, 300);
  const { client } = await follow(id);
  const answer = await post('api/typed-in/corrections', { index: 2, pressurePa: 600 });
  expect(answer.status).toBe(201);
  await client.until(() => client.heard.some((said) => said.type === 'taken_back'));
  client.close();
  const later = await follow(id);
  expect(later.readings()).toMatchObject([
    { index: 1, pressurePa: 900 },
    { index: 3, pressurePa: 600, temperatureC: null },
  ]);
  // Typed one after the other: some time goes by between the two.
  expect(Math.round((later.readings()[1]?.elapsedS ?? 0) / 10)).toBe(30);
  expect(later.client.heard.find((said) => said.type === 'facts')).toMatchObject({
    takenBack: [{ index: 2, pressurePa: 60_000, insteadPa: 600 }],
  });
  later.client.close();
  const text = async (path: string) => (await fetch(new URL(path, bridge.url))).text();
  const csv = await text(`api/recordings/${id}/readings.csv`);
  expect(csv).toContain(',600,');
  expect(csv).not.toContain(',60000,');
  const report = await text(`api/recordings/${id}/report?unit=Pa`);
  expect(report).toMatch(/Slips that were put right[^]*60\u00a0000 Pa[^]*600 Pa/u);
  const printed = await fetch(new URL(`api/recordings/${id}/report.pdf?unit=Pa`, bridge.url));
  const { attachments, letters } = examinePdf(Buffer.from(await printed.arrayBuffer()));
  expect(attachments.get('readings.csv')?.toString()).toBe(csv);
  expect(letters).toContain('2:2measured');

  // Taken back once, it is no reading any more; nor is one that was never typed.
  for (const index of [2, 99]) {
    const again = await post('api/typed-in/corrections', { index, pressurePa: null });
    expect(again.status).toBe(404);
  }
  await post('api/typed-in/corrections', { index: 3, pressurePa: null });
  const last = await follow(id);
  expect(last.readings()).toHaveLength(1);
  last.client.close();
  await end();
  const ended = await post('api/typed-in/corrections', { index: 1, pressurePa: 5 });
  expect(apiErrorSchema.parse(await ended.json()).code).toBe('nothing_typed_in');
});

test('a slip of before a restart can be put right after it', async () => {
  const { id } = await type(900, null, 600);
  await type(60_000, null, 300);
  await bridge.stop();
  bridge = await runBridge({ dataFolder: bridge.dataFolder });
  await post('api/typed-in/corrections', { index: 2, pressurePa: 600 });
  const { client, readings } = await follow(id);
  client.close();
  expect(readings().map(({ pressurePa }) => pressurePa)).toEqual([900, 600]);
  expect(Math.round((readings()[1]?.elapsedS ?? 0) / 10)).toBe(30);
  await end();
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
  ['a time to come', { pressurePa: 100, temperatureC: null, agoS: -60 }],
])('%s is refused and begins no recording', async (_what, body) => {
  const answer = await post('api/typed-in', body);
  expect(apiErrorSchema.parse(await answer.json()).code).toBe('bad_request');
  expect((await post('api/typed-in/end', {})).status).toBe(409);
});
