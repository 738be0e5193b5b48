/**
 * A write that does not return, and fails no more than it succeeds. Here it is the database that takes so long over
 * one row; a disk that hangs holds the writer's thread in the same call.
 */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, test, vi } from 'vitest';
import { PROBLEMS } from '../../protocol/problems.ts';
import type { RecordState } from '../../protocol/record-state.ts';
import { openForReading, RECORD_FILE } from '../../server/record/open-database.ts';
import { runBridge } from '../support/running-bridge.ts';
import { lostReadings, SteadySensors } from '../support/steady-sensors.ts';
import { StreamClient } from '../support/stream-client.ts';

const SENSORS = 4;
const STALL_MS = 9000;
const MILLION = 1e6;

/** Counts so far that it takes so long on this machine. */
function countUpTo(numbers: number): string {
  return `WITH RECURSIVE n(v) AS (SELECT 1 UNION ALL SELECT v + 1 FROM n WHERE v < ${numbers}) SELECT COUNT(*) FROM n`;
}

function numbersFor(stallMs: number): number {
  const database = new Database(':memory:');
  const beganMs = performance.now();
  database.prepare(countUpTo(MILLION)).get();
  const millionMs = performance.now() - beganMs;
  database.close();
  return Math.ceil((stallMs / millionMs) * MILLION);
}

/** Once, at the next reading that is written. */
function stallOnce(dataFolder: string): void {
  const database = new Database(join(dataFolder, RECORD_FILE), { timeout: 5000 });
  database.exec(`
    CREATE TABLE stall (is_over INTEGER);
    CREATE VIEW slow AS ${countUpTo(numbersFor(STALL_MS))};
    CREATE TRIGGER stall_once AFTER INSERT ON reading WHEN NOT EXISTS (SELECT 1 FROM stall)
      BEGIN INSERT INTO stall SELECT * FROM slow; END;`);
  database.close();
}

test('the page is told and goes on, readings wait, and all of them are there in order once it returns', async () => {
  const printed = vi.spyOn(console, 'error').mockReturnValue();
  const dataFolder = mkdtempSync(join(tmpdir(), 'stall-'));
  const sensors = new SteadySensors(SENSORS);
  const bridge = await runBridge({ dataFolder, sensors });
  const client = new StreamClient(bridge.url);
  const states = (): RecordState[] =>
    client.heard.flatMap((message) => (message.type === 'record' ? [message.record] : []));
  await client.until(() => client.heard.some(({ type }) => type === 'recording'));
  client.send({ type: 'follow', recordingId: 1, afterIndex: 0 });
  await client.until(() => client.indexes().length > SENSORS);

  stallOnce(dataFolder);
  await client.until(() => states().at(-1)?.kind === 'stalled');
  const shown = client.indexes().length;
  const late = new StreamClient(bridge.url);
  await late.until(() => late.heard.some(({ type }) => type === 'record'));
  expect(late.heard[1]).toMatchObject({ type: 'record', record: { kind: 'stalled' } });
  late.close();
  expect((await fetch(new URL('api/recordings/1', bridge.url))).status).toBe(200);
  const last = states().at(-1);
  expect(last).toMatchObject({ kind: 'stalled', sinceMs: expect.any(Number), refused: 0 });
  // Of nothing that is not on the disk a screen has heard.
  expect(client.indexes().length).toBe(shown);
  expect(last?.kind === 'stalled' && last.waiting).toBeGreaterThan(SENSORS * 20);

  await client.until(() => states().at(-1)?.kind === 'kept');
  await client.until(() => client.indexes().length > shown + SENSORS * 30);
  const indexes = client.indexes();
  expect(indexes).toEqual(indexes.map((_, at) => at + 1));
  await bridge.stop();
  client.close();
  expect(lostReadings(dataFolder, 1, SENSORS, sensors.delivered)).toBe(0);
  const database = openForReading(dataFolder);
  const sequences = database
    .prepare('SELECT sequence FROM reading WHERE channel = 0 ORDER BY reading_index')
    .pluck()
    .all();
  database.close();
  expect(sequences).toEqual(sequences.map((_, at) => at));
  const lines = printed.mock.calls.map(([line]) => String(line));
  expect(lines).toEqual([
    expect.stringContaining(PROBLEMS.write_stalled.meaning),
    'Everything that waited is written now.',
  ]);
  printed.mockRestore();
});
