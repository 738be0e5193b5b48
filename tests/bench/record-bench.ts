/**
 * How much the record costs over the bare database: the same rows in the same batches, once through
 * the recorder (its thread, messages and answers) and once by plain inserts on an equal connection.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { ReceivedReading } from '../../protocol/reading.ts';
import { median } from '../../web/analysis/fitting/median.ts';
import { openForWriting } from '../../server/record/open-database.ts';
import { Recorder } from '../../server/record/recorder.ts';

const BATCHES = 1000;
/** At first both are slow: the runtime has not compiled what it runs yet. A visit has tens of thousands of batches. */
const WARM_UP = 300;
/** Eight sensors at 10 Hz for a quarter of a second. */
const ROWS = 20;

export async function benchRecord(): Promise<{ name: string; ratio: number; detail: string }[]> {
  const folder = mkdtempSync(join(tmpdir(), 'bench-'));
  const bare = openBare(join(folder, 'bare'));
  const record = await openRecorder(join(folder, 'record'));
  const bareMs: number[] = [];
  const recordMs: number[] = [];
  // Turn by turn: whatever else the machine does meets both alike.
  for (let batch = 0; batch < BATCHES; batch += 1) {
    const rows = Array.from({ length: ROWS }, (_, row) => reading(batch * ROWS + row));
    const tookBareMs = await took(() => bare.write(rows));
    const tookRecordMs = await took(() => record.write(rows));
    if (batch < WARM_UP) continue;
    bareMs.push(tookBareMs);
    recordMs.push(tookRecordMs);
  }
  bare.close();
  await record.close();
  rmSync(folder, { recursive: true, force: true });
  const [bareMedianMs, recordMedianMs] = [median(bareMs), median(recordMs)];
  const [bareSumMs, recordSumMs] = [sum(bareMs), sum(recordMs)];
  const throughput = {
    name: 'record: time of all batches of 20, recorder with its chain / bare inserts, a commit each',
    ratio: recordSumMs / bareSumMs,
    detail: `${rowsPerS(recordMs)} and ${rowsPerS(bareMs)} rows a second, on the disk`,
  };
  const middle = {
    name: 'record: the same of one batch, median',
    ratio: recordMedianMs / bareMedianMs,
    detail: `${recordMedianMs.toFixed(2)} and ${bareMedianMs.toFixed(2)} ms a batch; it grows where other programs keep the processor`,
  };
  return [throughput, middle];
}

function rowsPerS(batchesMs: readonly number[]): string {
  return ((1000 * ROWS * batchesMs.length) / sum(batchesMs)).toFixed(0);
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

async function took(run: () => Promise<void> | void): Promise<number> {
  const beganMs = performance.now();
  await run();
  return performance.now() - beganMs;
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

function openBare(folder: string) {
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
  return { write, close: () => void database.close() };
}

async function openRecorder(folder: string) {
  const recorder = await Recorder.open(folder, { durable: () => undefined, held: () => undefined });
  const recordingId = recorder.begin('sensor', 0, '');
  await recorder.settled();
  return {
    // Each batch waits for the disk, as live readings do; handed over at once they would share commits.
    write: (rows: readonly ReceivedReading[]): Promise<void> => {
      recorder.readings(recordingId, rows);
      return recorder.settled();
    },
    close: () => recorder.close(),
  };
}
