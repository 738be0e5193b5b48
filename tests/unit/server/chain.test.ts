/** The chain over the facts holds for whatever is recorded, and breaks at whatever is done to it afterwards. */
import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import fc from 'fast-check';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { FIRST_JOB } from '../../../protocol/job.ts';
import type { ReceivedReading } from '../../../protocol/reading.ts';
import type { TakenFrom } from '../../../protocol/recording.ts';
import type { SignOff } from '../../../protocol/sign-off.ts';
import type { Verified } from '../../../protocol/verified.ts';
import { FactWriter } from '../../../server/record/fact-writer.ts';
import { FACT_TABLES } from '../../../server/record/fact-tables.ts';
import { openForWriting, RECORD_FILE } from '../../../server/record/open-database.ts';
import { packReadings } from '../../../server/record/packed-readings.ts';
import { Recorder } from '../../../server/record/recorder.ts';
import { MIGRATIONS } from '../../../server/record/schema.ts';
import { ChainVerifier } from '../../../server/record/verify-chain.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'chain-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

const listener = { durable: () => undefined, held: () => undefined };

function reading(sequence: number): ReceivedReading {
  return {
    channel: 0,
    boot: 1,
    sequence,
    uptimeMs: sequence * 1000,
    arrivedS: sequence + 0.1,
    elapsedS: sequence,
    pressurePa: 100 / 3 + sequence,
    temperatureC: null,
    condition: 'ok',
  };
}

let recorded = '';
beforeAll(async () => {
  recorded = mkdtempSync(join(tmpdir(), 'chain-whole-'));
  await recordAllIn(recorded);
});
afterAll(() => {
  rmSync(recorded, { recursive: true, force: true });
});

/** Two recordings with a fact of every kind between them. */
function recordAll(): void {
  cpSync(recorded, folder, { recursive: true });
}

async function recordAllIn(dataFolder: string): Promise<void> {
  const recorder = await Recorder.open(dataFolder, listener);
  const id = recorder.begin('sensor', 1000, '');
  const unknown = { manufacturer: null, model: null, serial: null, firmware: null };
  recorder.sensor(id, 0, { id: 'a', name: 'Roof', ...unknown });
  for (let batch = 0; batch < 5; batch += 1) {
    recorder.readings(id, [reading(batch * 2), reading(batch * 2 + 1)]);
    await recorder.settled();
  }
  await recorder.mark(id, { kind: 'pump_on', elapsedS: 1.5, text: 'half \ud83d, nul \0' }, 'hand');
  await recorder.sheetEntry(id, { elapsedS: 2, fields: { targetPa: 50, site: 'Weir' } });
  recorder.takeBack(id, { index: 3, elapsedS: 2, pressurePa: 1, insteadPa: null, atMs: 5 });
  await recorder.seenAlert(id, { alert: '0/target', untilS: 9, atMs: 7 });
  await recorder.label({ sensorId: 'a', name: 'N', place: 'pump', displayStepPa: 1, givenAtMs: 9 });
  const rehearsal = recorder.begin('rehearsal', 2000, 'x');
  const call = { trainee: 'T', surePercent: 70, elapsedS: 8, cause: 'moisture' } as const;
  await recorder.call(rehearsal, call);
  recorder.takenFrom(rehearsal, TAKEN_FROM, 11);
  const slip = await recorder.mark(id, { kind: 'job_begun', elapsedS: 3, text: '' }, 'hand');
  await recorder.takeMarkBack(id, slip.id, 12);
  await recorder.signOff(id, SIGN_OFF);
  await recorder.archive(id, FIRST_JOB, true, 14);
  await recorder.calibration({ sensorId: 'a', calibratedOn: '2026-03-01', givenAtMs: 15 });
  recorder.end(rehearsal, 3000);
  recorder.end(id, 4000);
  await recorder.settled();
  await recorder.close();
}

const TAKEN_FROM: TakenFrom = {
  format: 'x',
  origin: 'sensor',
  recordingId: 4,
  startedAtMs: 5,
  title: '',
  hash: '',
  held: true,
  softwareVersion: '0',
};
const SIGN_OFF: SignOff = {
  beginMark: FIRST_JOB,
  fromS: 0,
  lastS: 9,
  name: 'N',
  licence: '',
  remark: '',
  quoted: '',
  softwareVersion: '0',
  atMs: 13,
};

function verify(recordingId: number, harm: (database: Database.Database) => void = () => {}) {
  const database = new Database(join(folder, RECORD_FILE));
  try {
    harm(database);
    return verified(database, recordingId);
  } finally {
    database.close();
  }
}

function verified(database: Database.Database, recordingId: number): Verified {
  const steps = new ChainVerifier(database).verify(recordingId);
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value.verified;
  }
}

/** As whoever has the file can, past all triggers. */
function without(database: Database.Database, sql: string): void {
  const triggers = database
    .prepare<[], { name: string }>("SELECT name FROM sqlite_master WHERE type = 'trigger'")
    .all();
  for (const { name } of triggers) database.exec(`DROP TRIGGER ${name}`);
  database.pragma('foreign_keys = OFF');
  database.exec(sql);
}

test('holds over facts of every kind', () => {
  recordAll();
  expect(verify(1)).toMatchObject({ broken: null, facts: 21, addedLater: 0 });
  expect(verify(2)).toMatchObject({ broken: null, facts: 4 });
  expect(verify(0)).toMatchObject({ broken: null, facts: 2 });
  expect(verify(1).hash).toMatch(/^[0-9a-f]{64}$/u);
});

test('a link is the hash that anybody can reckon', async () => {
  const recorder = await Recorder.open(folder, listener);
  recorder.begin('sensor', 1234, 'A');
  await recorder.settled();
  await recorder.close();
  const written = Buffer.concat([Buffer.alloc(32), Buffer.from('b\nb[1,"sensor",1234,"A"]\n')]);
  expect(verify(1).hash).toBe(createHash('sha256').update(written).digest('hex'));
});

test('so is one of readings: nine numbers each, eight bytes a number, the lowest first', async () => {
  const recorder = await Recorder.open(folder, listener);
  const id = recorder.begin('sensor', 1234, 'A');
  await recorder.settled();
  const unknown = { pressurePa: null, temperatureC: -0, condition: 'over_range' } as const;
  recorder.readings(id, [reading(0), { ...reading(1), ...unknown }]);
  await recorder.settled();
  await recorder.close();
  const rows = [
    [0, 1, 0, 0, 0.1, 0, 100 / 3, -Infinity, 0],
    [0, 1, 1, 1000, 1.1, 1, -Infinity, 0, 1],
  ].flat();
  const bytes = Buffer.alloc(rows.length * 8);
  rows.forEach((value, place) => bytes.writeDoubleLE(value, place * 8));
  const first = createHash('sha256')
    .update(Buffer.concat([Buffer.alloc(32), Buffer.from('b\nb[1,"sensor",1234,"A"]\n')]))
    .digest();
  const second = createHash('sha256').update(first).update('q1-2\n').update(bytes).digest('hex');
  expect(verify(1)).toMatchObject({ hash: second, broken: null });
});

describe('breaks where', () => {
  test.each([
    ['a pressure', 'UPDATE reading SET pressure_pa = 1 WHERE reading_index = 7', 'hash_differs'],
    [
      'the last digit of one',
      'UPDATE reading SET pressure_pa = pressure_pa * (1 + 3e-16)',
      'hash_differs',
    ],
    ['a mark', "UPDATE mark SET kind = 'isolated'", 'hash_differs'],
    ['what was entered', 'UPDATE sheet_entry SET elapsed_s = 3', 'hash_differs'],
    ['the beginning', 'UPDATE recording SET started_at_ms = 1001', 'hash_differs'],
    ['a reading that is gone', 'DELETE FROM reading WHERE reading_index = 4', 'fact_missing'],
    ['the last readings gone', 'DELETE FROM reading WHERE reading_index > 8', 'fact_missing'],
    [
      'a reading put in',
      `INSERT INTO reading SELECT recording_id, 99, channel, boot, 99, uptime_ms, arrived_s,
      elapsed_s, pressure_pa, temperature_c, condition FROM reading LIMIT 1`,
      'fact_outside',
    ],
    ['a mark put in', "INSERT INTO mark VALUES (9, 1, 'note', 1, '', 'hand')", 'fact_outside'],
    ['a link gone', 'DELETE FROM chain_link WHERE recording_id = 1 AND number = 3', 'link_missing'],
    [
      'the first link gone',
      'DELETE FROM chain_link WHERE recording_id = 1 AND number = 1',
      'link_missing',
    ],
    [
      'a link rewritten',
      "UPDATE chain_link SET facts = 'q3-4' WHERE recording_id = 1 AND facts = 'q5-6'",
      'hash_differs',
    ],
    [
      'nonsense in a link',
      "UPDATE chain_link SET facts = '?' WHERE recording_id = 1",
      'link_unreadable',
    ],
  ])('%s is changed', (_what, sql, what) => {
    recordAll();
    expect(verify(1, (database) => without(database, sql)).broken?.what).toBe(what);
  });

  test('the last link goes, the facts that it held stand outside', () => {
    recordAll();
    const cut =
      'DELETE FROM chain_link WHERE recording_id = 1 AND number = (SELECT MAX(number) FROM chain_link WHERE recording_id = 1)';
    expect(verify(1, (database) => without(database, cut)).broken?.what).toBe('fact_outside');
  });

  test('the recording before is another one', () => {
    recordAll();
    const cut = 'DELETE FROM chain_link WHERE recording_id = 1; DELETE FROM reading';
    expect(verify(2, (database) => without(database, cut)).broken?.what).toBe(
      'goes_on_from_nothing',
    );
  });
});

test('nobody who keeps to the rules can change or shorten it', () => {
  recordAll();
  for (const sql of ['UPDATE chain_link SET number = 9', 'DELETE FROM chain_link'])
    expect(() => verify(1, (database) => void database.exec(sql))).toThrow(/never/u);
});

test('every table of facts is in it', () => {
  recordAll();
  const database = new Database(join(folder, RECORD_FILE));
  const tables = database
    .prepare<[], { name: string }>("SELECT name FROM sqlite_master WHERE type = 'table'")
    .all()
    .map(({ name }) => name);
  database.close();
  const known = Object.values(FACT_TABLES).map(({ table }) => table);
  expect(tables.filter((name) => !known.some((table) => table === name))).toEqual(['chain_link']);
});

test.each([1, 2, 3, 4, 5])(
  'what version %i recorded is taken up, and that it came later shows',
  (version) => {
    const old = new Database(join(folder, RECORD_FILE));
    for (const migration of MIGRATIONS.slice(0, version)) old.exec(migration);
    old.pragma(`user_version = ${version}`);
    old.exec("INSERT INTO recording VALUES (1, 'sensor', 5, ''), (2, 'sensor', 6, '')");
    const insert = old.prepare(
      "INSERT INTO reading VALUES (1, ?, 0, 1, ?, 0, 0.5, ?, 20.5, NULL, 'ok')",
    );
    old.exec('BEGIN');
    for (let index = 1; index <= 12_345; index += 1) insert.run(index, index, index / 10);
    old.exec('COMMIT');
    old.exec("INSERT INTO mark VALUES (1, 2, 'note', 1, 'x', 'hand')");
    old.close();
    openForWriting(folder).close();
    expect(verify(1)).toMatchObject({ broken: null, facts: 12_346, addedLater: 12_346 });
    expect(verify(2)).toMatchObject({ broken: null, facts: 2, addedLater: 2 });
    const change = 'UPDATE reading SET elapsed_s = 0 WHERE reading_index = 7000';
    expect(verify(1, (database) => without(database, change)).broken?.what).toBe('hash_differs');
  },
);

test('whatever comes in whatever commits, it holds', () => {
  const fact = fc.oneof(
    fc.record({ kind: fc.constant('readings' as const), count: fc.integer({ min: 1, max: 40 }) }),
    fc.record({
      kind: fc.constant('mark' as const),
      text: fc.string({ unit: 'binary', maxLength: 200 }),
    }),
    fc.constant({ kind: 'begin' as const }),
  );
  const commits = fc.array(fc.array(fact, { maxLength: 6 }), { maxLength: 12 });
  fc.assert(
    fc.property(commits, (all) => {
      rmSync(folder, { recursive: true, force: true });
      const database = openForWriting(folder);
      const writer = new FactWriter(database);
      let last = 0;
      let sequence = 0;
      const begin = () =>
        writer.write({
          kind: 'begin',
          recordingId: (last += 1),
          origin: 'sensor',
          startedAtMs: 1,
          title: '',
        });
      const write = (one: (typeof all)[number][number]) => {
        const recordingId = 1 + (sequence % last);
        if (one.kind === 'begin') begin();
        else if (one.kind === 'mark') {
          const mark = { kind: 'note', elapsedS: 1, text: one.text } as const;
          writer.write({ kind: 'mark', recordingId, mark, madeBy: 'hand' });
        } else {
          const readings = Array.from({ length: one.count }, () => reading((sequence += 1)));
          writer.write({ kind: 'readings', recordingId, packed: packReadings(readings) });
        }
      };
      const commit = database.transaction((facts: readonly (typeof all)[number][number][]) => {
        if (last === 0) begin();
        facts.forEach(write);
        writer.seal();
      });
      for (const facts of all) commit(facts);
      for (let id = 1; id <= last; id += 1) expect(verified(database, id).broken).toBeNull();
      database.close();
    }),
    { numRuns: 60 },
  );
});
