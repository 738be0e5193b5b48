/** Whoever looks at the page is told at once that readings are not being kept, and when they are again. */
import { existsSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { PROBLEMS } from '../../protocol/problems.ts';
import type { RecordState } from '../../protocol/record-state.ts';
import { startBridge } from '../../server/main.ts';
import { RECORD_FILE } from '../../server/record/open-database.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';
import { StreamClient } from '../support/stream-client.ts';

let bridge: RunningBridge;
let client: StreamClient;
let dataFolder = '';
const printed = vi.spyOn(console, 'error').mockReturnValue();
beforeEach(() => {
  dataFolder = mkdtempSync(join(tmpdir(), 'state-'));
  printed.mockClear();
});
afterEach(async () => {
  client.close();
  await bridge.remove();
});

const heard = (): RecordState[] =>
  client.heard.flatMap((message) => (message.type === 'record' ? [message.record] : []));
const until = (kind: RecordState['kind']) => client.until(() => heard().at(-1)?.kind === kind);

const typeIn = (pressurePa: number) =>
  fetch(new URL('api/typed-in', bridge.url), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ pressurePa, temperatureC: null }),
  });

test('while the record can’t be written the page is told so, and nothing is shown as kept', async () => {
  bridge = await runBridge({ dataFolder });
  client = new StreamClient(bridge.url);
  await until('kept');
  const other = new Database(join(dataFolder, RECORD_FILE));
  other.exec('BEGIN IMMEDIATE');
  const typed = typeIn(100);
  // The beginning of the recording may be held before the reading has come.
  const waiting = () => {
    const state = heard().at(-1);
    return state?.kind === 'held' ? state.waiting : 0;
  };
  await client.until(() => waiting() === 1);
  // Who opens the page now is told as well.
  const late = new StreamClient(bridge.url);
  await late.until(() => late.heard.some((message) => message.type === 'record'));
  expect(late.heard[1]).toMatchObject({
    type: 'record',
    record: { kind: 'held', sinceMs: expect.any(Number) },
  });
  late.close();
  expect(client.indexes()).toEqual([]);
  other.close();
  await until('kept');
  expect((await typed).status).toBe(201);
  const lines = printed.mock.calls.map(([line]) => String(line));
  expect(lines[0]).toContain(PROBLEMS.write_failed.meaning);
  expect(lines.slice(1)).toEqual(['Everything that waited is written now.']);
});

test('a damaged record: page and terminal say what was saved, and where the rest lies', async () => {
  writeFileSync(join(dataFolder, RECORD_FILE), 'no database '.repeat(1000));
  bridge = await runBridge({ dataFolder });
  client = new StreamClient(bridge.url);
  await until('salvaged');
  const [state] = heard();
  if (state?.kind !== 'salvaged') throw new Error('not told');
  expect(existsSync(join(state.folder, RECORD_FILE))).toBe(true);
  expect(state.readings).toEqual({ saved: 0, atLeast: 0 });
  const [before, after] = printed.mock.calls.map(([line]) => String(line));
  expect(before).toContain(PROBLEMS.record_damaged.meaning);
  expect(after).toContain(PROBLEMS.record_salvaged.meaning);
  expect(after).toContain(state.folder);
});

test('a second bridge on the folder is refused, and told where the first one is', async () => {
  bridge = await runBridge({ dataFolder });
  client = new StreamClient(bridge.url);
  await expect(startBridge({ port: 0, dataFolder })).rejects.toMatchObject({
    code: 'record_in_use',
    detail: expect.stringContaining(bridge.url),
  });
});

test('a folder that can’t be written: the start says so, with the folder', async () => {
  bridge = await runBridge({ dataFolder });
  client = new StreamClient(bridge.url);
  // Such a one for whoever runs this, also an administrator: a file in the place of a folder on its way.
  const path = join(dataFolder, RECORD_FILE, 'folder');
  await expect(startBridge({ port: 0, dataFolder: path })).rejects.toMatchObject({
    code: 'data_folder_unwritable',
    detail: expect.stringContaining(path),
  });
});
