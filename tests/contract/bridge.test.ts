/** The bridge as pages meet it: API, stream and refusals, over real sockets and a real record. */
import { mkdtempSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  apiErrorSchema,
  healthSchema,
  recordingDetailSchema,
  rehearsalListSchema,
} from '../../protocol/api.ts';
import { markSchema } from '../../protocol/mark.ts';
import { parseReadingsCsv } from '../../protocol/readings-csv.ts';
import { recordingSchema } from '../../protocol/recording.ts';
import { startBridge } from '../../server/main.ts';
import { Recorder } from '../../server/record/recorder.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';
import { StreamClient } from '../support/stream-client.ts';

let bridge: RunningBridge;

beforeAll(async () => {
  bridge = await runBridge();
});
afterAll(() => bridge.remove());

const get = async (path: string): Promise<unknown> =>
  (await fetch(new URL(path, bridge.url))).json();

function post(path: string, body: unknown): Promise<Response> {
  return fetch(new URL(path, bridge.url), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
}

/** A request with headers that fetch would not let a program set. */
function statusWith(headers: Record<string, string>): Promise<number | undefined> {
  return new Promise((resolve, reject) => {
    request(new URL('api/health', bridge.url), { headers }, (answer) => {
      answer.resume();
      resolve(answer.statusCode);
    })
      .on('error', reject)
      .end();
  });
}

describe('a rehearsal through the whole bridge', () => {
  test('is recorded, streamed, marked, resumed and exported without losing a reading', async () => {
    const { rehearsals } = rehearsalListSchema.parse(await get('api/rehearsals'));
    const client = new StreamClient(bridge.url);
    await client.until(() => client.heard[0]?.type === 'hello');
    const answer = await post('api/rehearsals', { name: rehearsals[0]?.name, rate: 120 });
    expect(answer.status).toBe(201);
    const recording = recordingSchema.parse(await answer.json());
    expect(recording).toMatchObject({ origin: 'rehearsal', open: true });

    client.send({ type: 'follow', recordingId: recording.id, afterIndex: 0 });
    await client.until(() => client.indexes().length >= 60);
    client.close();

    // Another screen comes back with what the first one had and gets the rest, nothing twice.
    const had = client.indexes().at(-1) ?? 0;
    const resumed = new StreamClient(bridge.url);
    await resumed.until(() => resumed.heard[0]?.type === 'hello');
    resumed.send({ type: 'follow', recordingId: recording.id, afterIndex: had });
    await resumed.until(() => resumed.indexes().length >= 60);
    const all = [...client.indexes(), ...resumed.indexes()];
    expect(all).toEqual(all.map((_, position) => position + 1));

    const mark = await post(`api/recordings/${recording.id}/marks`, {
      kind: 'note',
      elapsedS: 12,
      text: 'gauge tapped',
    });
    expect(markSchema.parse(await mark.json())).toMatchObject({ kind: 'note', madeBy: 'hand' });
    await resumed.until(() =>
      resumed.heard.some((said) => said.type === 'mark' && said.mark.text === 'gauge tapped'),
    );
    await post(`api/recordings/${recording.id}/sheet`, { elapsedS: 0, fields: { targetPa: 40 } });

    expect((await post('api/rehearsals/current', { stop: true })).status).toBe(204);
    await resumed.until(() =>
      resumed.heard.some((said) => said.type === 'recording' && !said.recording.open),
    );
    const detail = recordingDetailSchema.parse(await get(`api/recordings/${recording.id}`));
    expect(detail.sheet).toEqual([{ elapsedS: 0, fields: { targetPa: 40 } }]);
    expect(detail.recording.open).toBe(false);
    expect(detail.marks.map(({ kind }) => kind)).toContain('pump_on');

    const csv = await fetch(new URL(`api/recordings/${recording.id}/readings.csv`, bridge.url));
    const rows = parseReadingsCsv(await csv.text());
    expect(rows).toHaveLength(detail.readingCount);
    expect(rows.some(({ event }) => event === 'pump_on')).toBe(true);
    expect(csv.headers.get('content-disposition')).toMatch(/-rehearsal-\d+\.csv"$/u);

    const late = await post(`api/recordings/${recording.id}/marks`, { kind: 'note', elapsedS: 1 });
    expect(late.status).toBe(409);
    resumed.close();
  });
});

describe('refusals say what, where and what to do', () => {
  test.each([
    ['an unknown rehearsal', 'api/rehearsals', { name: 'nowhere' }, 404, 'unknown_scenario'],
    ['a speed that does not exist', 'api/rehearsals', { name: 'x', rate: 7 }, 400, 'bad_request'],
    [
      'a mark on no recording',
      'api/recordings/99999/marks',
      { kind: 'note', elapsedS: 1 },
      404,
      'not_found',
    ],
    ['a field of the wrong kind', 'api/rehearsals/current', { paused: 'yes' }, 400, 'bad_request'],
    ['an address that is nothing', 'api/nothing', {}, 404, 'not_found'],
  ])('%s', async (_what, path, body, status, code) => {
    const answer = await post(path, body);
    expect(answer.status).toBe(status);
    expect(apiErrorSchema.parse(await answer.json()).code).toBe(code);
  });

  test('a body that is not JSON', async () => {
    const answer = await fetch(new URL('api/rehearsals', bridge.url), {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: '{',
    });
    expect(apiErrorSchema.parse(await answer.json()).code).toBe('bad_request');
  });

  test('a stream message that is not one closes that connection only', async () => {
    const client = new StreamClient(bridge.url);
    await client.until(() => client.heard.length > 0);
    client.send('{"type":"nonsense"}');
    await client.until(() => client.closeCode !== null);
    expect(client.closeCode).toBe(1008);
    expect(healthSchema.parse(await get('api/health')).product).toBe('ebbline');
  });
});

describe('only this machine', () => {
  test.each([
    ['its own page', {}, 200],
    ['a page from elsewhere', { origin: 'https://elsewhere.example' }, 403],
    ['a name from elsewhere that points here', { host: 'elsewhere.example' }, 403],
  ])('%s', async (_what, headers, status) => {
    expect(await statusWith(headers)).toBe(status);
  });

  test('the stream as well', async () => {
    const client = new StreamClient(bridge.url, { origin: 'https://elsewhere.example' });
    await client.until(() => client.closeCode !== null);
    expect(client.heard).toEqual([]);
  });

  test('listens on loopback only', () => {
    expect(new URL(bridge.url).hostname).toBe('127.0.0.1');
  });
});

test('a port that is taken is said so, and nothing is left open', async () => {
  const port = Number(new URL(bridge.url).port);
  const sensors = { id: 'radio', start: () => undefined, stop: () => Promise.resolve() };
  await expect(
    startBridge({ port, dataFolder: `${bridge.dataFolder}/second` }, { sensors }),
  ).rejects.toMatchObject({ code: 'port_taken', detail: `port ${port}` });
});

test('a rehearsal that its bridge left running has ended at the next start', async () => {
  const dataFolder = mkdtempSync(join(tmpdir(), 'bridge-'));
  const recorder = await Recorder.open(dataFolder, { durable: () => {}, held: () => {} });
  const id = recorder.begin('rehearsal', Date.now(), 'quay');
  await recorder.close();
  const next = await runBridge({ dataFolder });
  const answer = await fetch(new URL(`api/recordings/${id}`, next.url));
  expect(recordingDetailSchema.parse(await answer.json()).recording.open).toBe(false);
  await next.remove();
});
