/** What one page has seen, every page knows: through a whole bridge, its record and its stream. */
import Database from 'better-sqlite3';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { apiErrorSchema, recordingDetailSchema } from '../../protocol/api.ts';
import { seenAlertSchema } from '../../protocol/seen-alert.ts';
import type { ServerMessage } from '../../protocol/stream.ts';
import { PlayedSensors } from '../support/played-sensors.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';
import { StreamClient } from '../support/stream-client.ts';

const SEEN_AT_MS = 1_800_000_000_000;

let bridge: RunningBridge;
let sensors: PlayedSensors;

beforeAll(async () => {
  sensors = new PlayedSensors();
  bridge = await runBridge({ sensors, wallClock: () => SEEN_AT_MS });
  sensors.meet('aa:01', 'Sensor');
  sensors.measure('aa:01', 1, 500);
});
afterAll(() => bridge.remove());

function post(path: string, body: unknown): Promise<Response> {
  return fetch(new URL(`api/recordings/1/${path}`, bridge.url), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
}

async function seenSoFar() {
  const answer = await fetch(new URL('api/recordings/1', bridge.url));
  return recordingDetailSchema.parse(await answer.json()).seenAlerts;
}

async function following(): Promise<StreamClient> {
  const page = new StreamClient(bridge.url);
  await page.until(() => page.heard.length > 0);
  page.send({ type: 'follow', recordingId: 1, afterIndex: 0 });
  await page.until(() => page.heard.some(({ type }) => type === 'backfill'));
  return page;
}

const told = (heard: readonly ServerMessage[]) =>
  heard.flatMap((said) => (said.type === 'seen_alert' ? [said.seen] : []));
const told0 = (heard: readonly ServerMessage[]) =>
  heard.flatMap((said) => (said.type === 'facts' ? said.seenAlerts : []));

const target = { alert: '0/target', untilS: 812.5 };

test('is answered, told to every page that is open, and to one that opens later', async () => {
  const pages = await Promise.all([following(), following()]);
  const answer = await post('seen-alerts', target);
  expect(answer.status).toBe(201);
  const seen = { ...target, atMs: SEEN_AT_MS };
  expect(seenAlertSchema.parse(await answer.json())).toEqual(seen);
  for (const page of pages) {
    await page.until(() => told(page.heard).length > 0);
    expect(told(page.heard)).toEqual([seen]);
    page.close();
  }
  const later = await following();
  expect(told0(later.heard)).toEqual([seen]);
  later.close();
});

test('two that press at once are both answered, and a restart remembers', async () => {
  const verdict = { alert: '0/verdict/leak', untilS: 1300 };
  const answers = await Promise.all([post('seen-alerts', verdict), post('seen-alerts', verdict)]);
  expect(answers.map(({ status }) => status)).toEqual([201, 201]);
  await bridge.stop();
  bridge = await runBridge({ sensors: new PlayedSensors(), dataFolder: bridge.dataFolder });
  expect((await seenSoFar()).map(({ alert }) => alert)).toEqual([
    target.alert,
    verdict.alert,
    verdict.alert,
  ]);
});

test('is never rewritten', () => {
  const database = new Database(join(bridge.dataFolder, 'record.sqlite'));
  expect(() => database.exec("UPDATE seen_alert SET alert = 'x'")).toThrow(/never rewritten/u);
  database.close();
});

test.each([
  ['no alert', { ...target, alert: '' }],
  ['an alert that is no name', { ...target, alert: '0/<b>' }],
  ['a moment before the beginning', { ...target, untilS: -1 }],
  ['more than is asked for', { ...target, by: 'Ines' }],
])('%s is refused and nothing is kept', async (_what, body) => {
  const before = await seenSoFar();
  const answer = await post('seen-alerts', body);
  expect(answer.status).toBe(400);
  expect(apiErrorSchema.parse(await answer.json()).code).toBe('bad_request');
  expect(await seenSoFar()).toEqual(before);
});
