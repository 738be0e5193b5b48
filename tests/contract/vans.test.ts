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
import { brokerAddress } from '../../server/vans/broker/broker-address.ts';
import { runBridge } from '../support/running-bridge.ts';
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

const facts = () => office.number('SELECT COUNT(*) FROM recording WHERE facts_version > 0');

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
  await until('all readings arrived', async () => (await count()) >= whole.length, 60_000);
  expect(await inOffice()).toEqual(whole);
  expect(whole.length).toBeGreaterThan(HOURS_OF_READINGS + 1000);
  expect(await count()).toBe(whole.length);
  await until('all facts arrived', async () => (await facts()) === 2);
  await again.stop();
  await second.stop();
}, 180_000);

test('facts are there without names, and no rehearsal is', async () => {
  const recordings = await office.rows(
    'SELECT number, origin, simulated, running, sign_offs FROM recording ORDER BY number',
  );
  const common = { simulated: false, running: false, sign_offs: [] };
  expect(recordings).toEqual([
    { number: 1, origin: 'sensor', ...common },
    { number: 2, origin: 'typed_in', ...common },
  ]);
  expect(await office.rows('SELECT fields FROM sheet_entry WHERE elapsed_s = 3')).toEqual([
    { fields: { site: 'Quay 4' } },
  ]);
  expect(
    await office.rows(
      'SELECT from_s, until_s FROM job JOIN recording ON id = recording_id WHERE number = 1 ORDER BY from_s',
    ),
  ).toEqual([
    { from_s: 0, until_s: 20_000.5 },
    { from_s: 20_000.5, until_s: null },
  ]);
});

test('what an office has lost is asked for again, and what is deleted for good goes there too', async () => {
  const collector = keep(startCollector(broker, office));
  await collector.says('Collecting from');
  // As an old copy of its database has it.
  await office.rows('DELETE FROM reading WHERE reading_index > 700');
  await office.rows('UPDATE recording SET last_index = 700, facts_version = 1');
  await office.rows('UPDATE recording SET title = $1', ['an older one']);
  const publish = {
    address: brokerAddress('--publish', {
      url: broker.url,
      loginFile: broker.loginFile('van-7'),
      authorityFile: broker.authorityFile,
      withoutTls: false,
    }),
    van: 'van-7',
    withRehearsals: false,
    withPeople: false,
  };
  const bridge = await runBridge({ dataFolder: van, publish });
  try {
    const whole = inRecord();
    await until('it is whole again', async () => (await count()) >= whole.length);
    expect(await inOffice()).toEqual(whole);
    const older = () =>
      office.number('SELECT COUNT(*) FROM recording WHERE title = $1', ['an older one']);
    await until('its facts are the latest', async () => (await older()) === 0);

    await deleteJob(bridge.url, '1/jobs/0');
    const left = whole.length - 20_001;
    await until('the first job is gone', async () => (await count()) === left);
    expect(await inOffice()).toEqual(inRecord());
    await deleteJob(bridge.url, '2/jobs/0');
    const deleted = 'SELECT COUNT(*) FROM recording WHERE deleted_at IS NOT NULL AND number = 2';
    await until('the recording is gone', async () => (await office.number(deleted)) === 1);
    expect(await inOffice()).toEqual(inRecord());
    expect(await office.number('SELECT COUNT(*) FROM mark WHERE kind <> $1', ['job_begun'])).toBe(
      0,
    );
  } finally {
    await bridge.stop();
    await collector.stop();
  }
}, 120_000);

async function deleteJob(url: string, job: string): Promise<void> {
  const said = { archive: { archived: true }, delete: { forGood: true } };
  for (const [wish, body] of Object.entries(said)) {
    const answer = await fetch(`${url}api/recordings/${job}/${wish}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    expect(answer.ok, await answer.text()).toBe(true);
  }
}
