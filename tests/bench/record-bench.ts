/**
 * How much the record costs over the bare database: the same rows in the same batches, once through
 * the recorder (its thread, messages and answers) and once by plain inserts on an equal connection.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { ReceivedReading } from '../../protocol/reading.ts';
import { openForWriting } from '../../server/record/open-database.ts';
import { Recorder } from '../../server/record/recorder.ts';

const BATCHES = 400;
/** Eight sensors at 10 Hz for a quarter of a second. */
const ROWS = 20;

export async function benchRecord(): Promise<{ name: string; ratio: number; detail: string }> {
  const folder = mkdtempSync(join(tmpdir(), 'bench-'));
  const batches = Array.from({ length: BATCHES }, (_, batch) =>
    Array.from({ length: ROWS }, (_row, row) => reading(batch * ROWS + row)),
  );
  const bareS = timeBare(join(folder, 'bare'), batches);
  const recordS = await timeRecorder(join(folder, 'record'), batches);
  rmSync(folder, { recursive: true, force: true });
  const rate = Math.round((BATCHES * ROWS) / recordS);
  return {
    name: 'record: recorder / bare inserts, a commit for each batch of 20',
    ratio: recordS / bareS,
    detail: `${rate} readings/s durable`,
  };
}

function reading(sequence: number): ReceivedReading {
  return {
    channel: sequence % 8,
    boot: 1,
    sequence,
    uptimeMs: sequence * 100,
    arrivedS: sequence / 10,
    elapsedS: sequence / 10,
    pressurePa: 100 + Math.sin(sequence),
    temperatureC: 20,
    condition: 'ok',
  };
}

function timeBare(folder: string, batches: readonly ReceivedReading[][]): number {
  const database = openForWriting(folder);
  database.prepare('INSERT INTO recording VALUES (1, ?, 0, ?)').run('sensor', '');
  const insert = database.prepare('INSERT INTO reading VALUES (1, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)');
  const write = database.transaction((rows: readonly ReceivedReading[]) => {
    for (const row of rows) {
      insert.run(
        row.sequence + 1,
        row.channel,
        row.boot,
        row.sequence,
        row.uptimeMs,
        row.arrivedS,
        row.elapsedS,
        row.pressurePa,
        row.temperatureC,
        row.condition,
      );
    }
  });
  const beganMs = performance.now();
  for (const rows of batches) write(rows);
  const tookS = (performance.now() - beganMs) / 1000;
  database.close();
  return tookS;
}

async function timeRecorder(
  folder: string,
  batches: readonly ReceivedReading[][],
): Promise<number> {
  const recorder = await Recorder.open(folder, { durable: () => undefined, held: () => undefined });
  const recordingId = recorder.begin('sensor', 0, '');
  await recorder.settled();
  const beganMs = performance.now();
  for (const rows of batches) {
    recorder.readings(recordingId, rows);
    // Each batch waits for the disk, as live readings do; handed over at once they would share commits.
    await recorder.settled();
  }
  const tookS = (performance.now() - beganMs) / 1000;
  await recorder.close();
  return tookS;
}
