/**
 * A van's record reaches the office's database whole, each reading once, whatever is killed on the way: a real broker
 * with TLS and passwords, a real database, bridge and collector as people start them.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { ReceivedReading } from '../../protocol/reading.ts';
import { openForReading } from '../../server/record/open-database.ts';
import { Recorder } from '../../server/record/recorder.ts';
import { type TestBroker, testBroker } from '../support/office/broker.ts';
import { type TestDatabase, testDatabase } from '../support/office/database.ts';
import { until } from '../support/office/debian-tools.ts';
import {
  type Program,
  startCollector,
  startDoomedCollector,
  startVan,
} from '../support/office/programs.ts';
import { recordJob } from '../support/written-job.ts';

/** Ten hours without a network, one reading a second. */
const HOURS_OF_READINGS = 36_000;
const BEGAN_MS = Date.UTC(2026, 10, 25, 6, 0, 0);
const UNKNOWN = { manufacturer: null, model: null, serial: null, firmware: null };

let broker: TestBroker;
let office: TestDatabase;
let van = '';
const running = new Set<Program>();

function keep(program: Program): Program {
  running.add(program);
  return program;
}

beforeAll(async () => {
  van = mkdtempSync(join(tmpdir(), 'van-'));
  [broker, office] = await Promise.all([
    testBroker({ users: ['office', 'van-7', 'van-8'] }),
    testDatabase(),
  ]);
  const recorder = await Recorder.open(van, { durable: () => undefined, held: () => undefined });
  const id = recorder.begin('sensor', BEGAN_MS, '');
  recorder.sensor(id, 0, { id: 's0', name: 'Gauge', ...UNKNOWN });
  const readings = Array.from({ length: HOURS_OF_READINGS }, (_, at) => reading(at));
  recorder.readings(id, readings);
  await recorder.mark(id, { kind: 'job_begun', elapsedS: 20_000.5, text: '' }, 'hand');
  await recorder.sheetEntry(id, {
    elapsedS: 3,
    fields: { site: 'Quay 4', people: 'A. Technician' },
  });
  recorder.end(id, BEGAN_MS + 3.6e7);
  await recordJob(recorder, { seed: 3, origin: 'typed_in', sensors: 2, every: 1 });
  await recordJob(recorder, { seed: 4, origin: 'rehearsal', sensors: 1, every: 1 });
  await recorder.close();
});

afterAll(async () => {
  await Promise.all([...running].map((program) => program.kill()));
  await Promise.all([broker.remove(), office.remove()]);
  rmSync(van, { recursive: true, force: true });
});

/** With digits to the last place. */
function reading(at: number): ReceivedReading {
  return {
    channel: 0,
    boot: 65_535,
    sequence: 4_294_931_295 + at,
    uptimeMs: at * 1000,
    arrivedS: at + 0.01,
    elapsedS: at * (1 + 1 / 3e5),
    pressurePa: at % 97 === 0 ? null : 101_325 * Math.exp(-at / 3000) + 1 / 3,
    temperatureC: 20 + at / 7e4,
    condition: at % 97 === 0 ? 'over_range' : 'ok',
  };
}

/** The record's own rows, past every reader of ours; rehearsals and slips left out. */
function inRecord(): unknown[] {
  const database = openForReading(van);
  try {
    return database
      .prepare(
        `SELECT recording_id, reading_index, channel, boot, sequence, elapsed_s, pressure_pa, temperature_c, condition
         FROM reading JOIN recording ON id = recording_id WHERE origin <> 'rehearsal'
           AND (recording_id, reading_index) NOT IN (SELECT recording_id, reading_index FROM reading_taken_back)
         ORDER BY recording_id, reading_index`,
      )
      .raw()
      .all();
  } finally {
    database.close();
  }
}

async function inOffice(): Promise<unknown[]> {
  const rows = await office.rows(
    `SELECT number, reading_index, channel, boot, sequence::text, elapsed_s, pressure_pa, temperature_c, condition
     FROM measured WHERE van = 'van-7' ORDER BY number, reading_index`,
  );
  return rows.map((row) => Object.values({ ...row, sequence: Number(row['sequence']) }));
}

const count = () => office.number('SELECT COUNT(*) FROM reading');

test('ten hours of readings arrive once each, though broker, bridge and collector are killed', async () => {
  const first = keep(startCollector(broker, office));
  await first.says('Collecting from');
  const bridge = keep(startVan(broker, { van: 'van-7', dataFolder: van }));
  await until('some readings arrived', async () => (await count()) > 3000);
  // What it had taken and not written yet is gone with it.
  await broker.kill();
  await broker.start();
  await until('more readings arrived', async () => (await count()) > 12_000);
  await bridge.kill();
  await first.stop();
  const again = keep(startVan(broker, { van: 'van-7', dataFolder: van }));
  const doomed = keep(startDoomedCollector(broker, office));
  await doomed.ended;
  const second = keep(startCollector(broker, office));
  const whole = inRecord();
  await until('all readings arrived', async () => (await count()) >= whole.length, 40_000);
  expect(await inOffice()).toEqual(whole);
  expect(whole.length).toBeGreaterThan(HOURS_OF_READINGS + 1000);
  expect(await count()).toBe(whole.length);
  await again.stop();
  await second.stop();
}, 90_000);
