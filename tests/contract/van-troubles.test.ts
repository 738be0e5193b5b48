/** What goes wrong between a van and its office: said in words that help, and nothing counts as sent that nobody keeps. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import type { Mark } from '../../protocol/mark.ts';
import type { OfficeState } from '../../protocol/office-state.ts';
import type { VanReadings } from '../../protocol/van-messages.ts';
import { columnsFromReadings } from '../../protocol/reading.ts';
import { recordingTopic } from '../../protocol/van-topics.ts';
import { brokerAddress } from '../../server/vans/broker/broker-address.ts';
import { BrokerConnection } from '../../server/vans/broker/broker-connection.ts';
import { Batch } from '../../server/vans/office/batch.ts';
import { Collector } from '../../server/vans/office/collector.ts';
import { inTransaction, openDatabase } from '../../server/vans/office/office-database.ts';
import type { VanMessage } from '../../server/vans/office/understood.ts';
import { CursorFile } from '../../server/vans/publish/cursor-file.ts';
import { Publisher } from '../../server/vans/publish/publisher.ts';
import type { VanRecord } from '../../server/vans/publish/van-record.ts';
import { ACCESS, type TestBroker, testBroker } from '../support/office/broker.ts';
import { type TestDatabase, testDatabase } from '../support/office/database.ts';
import { until } from '../support/office/debian-tools.ts';
import { VAN_RECORDING, vanOfReadings } from '../support/office/van-of-readings.ts';
import { recordedReading } from '../support/recorded-readings.ts';

const KEY = { recordingId: VAN_RECORDING.id, startedAtMs: VAN_RECORDING.startedAtMs };

let broker: TestBroker;
let office: TestDatabase;
let folder = '';
let said: string[] = [];
/** What a page is told of the office. */
let told: OfficeState[] = [];
let clockAheadMs = 0;
let toClose: { close(): Promise<void> }[] = [];

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'troubles-'));
  [broker, office] = await Promise.all([
    testBroker({ users: ['office', 'van-1', 'van-2', 'van-3', 'van-4'] }),
    testDatabase(),
  ]);
  const client = await openDatabase(office.url, () => undefined);
  await client.end();
});

afterEach(async () => {
  await Promise.all(toClose.map((one) => one.close()));
  toClose = [];
  said = [];
  told = [];
  clockAheadMs = 0;
});

afterAll(async () => {
  await Promise.all([broker.remove(), office.remove()]);
  rmSync(folder, { recursive: true, force: true });
});

const recordOf = (readings: number, marks: readonly Mark[] = []) =>
  vanOfReadings(
    Array.from({ length: readings }, (_, at) => recordedReading(at)),
    marks,
  );

function address(user: string, changes: { password?: string; authority?: string } = {}) {
  return brokerAddress('--publish', {
    url: broker.url,
    loginFile: broker.loginFile(user, changes.password),
    authorityFile: changes.authority === '' ? undefined : broker.authorityFile,
    withoutTls: false,
  });
}

function publish(van: string, record: VanRecord, at = address(van)): CursorFile {
  const cursors = new CursorFile(mkdtempSync(join(folder, 'data-')), van);
  const publisher = new Publisher({
    ...{ record, cursors, van, withRehearsals: false, withPeople: false },
    ...{ address: at, softwareVersion: '0', wallClock: () => Date.now() + clockAheadMs },
    log: (line) => said.push(line),
    office: (state) => told.push(state),
  });
  publisher.start();
  toClose.push(publisher);
  return cursors;
}

async function says(words: RegExp): Promise<void> {
  await until(`${String(words)} in ${said.join('\n')}`, () =>
    said.some((line) => words.test(line)),
  );
}

test('a wrong password, and a certificate that nobody vouches for', async () => {
  publish('van-1', recordOf(1), address('van-1', { password: 'another' }));
  await says(/refuses the user name or password: see --broker-login.*kept in the record/u);
  publish('van-1', recordOf(1), address('van-1', { authority: '' }));
  await says(/can't show a certificate that is trusted for 127\.0\.0\.1.*see --broker-ca/u);
});

test('the access list of the README is the one that is tested', () => {
  const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
  expect(readme.replaceAll(/^ {3}/gmu, '')).toContain(ACCESS);
});

test('a van can’t write in the place of another one', async () => {
  publish('van-1', recordOf(1), address('van-2'));
  await says(/does not allow writing to ebbline\/1\/van-1\/.*access list/u);
});

test('what the broker would keep for nobody does not count as sent; once somebody collects it is', async () => {
  const cursors = publish('van-3', recordOf(700));
  await says(/for nobody/u);
  expect(cursors.of(KEY)).toMatchObject({ lastIndex: 0, factsVersion: 0 });
  expect(told).toEqual([]);
  clockAheadMs = 45_000;
  await until('a page is told', () => told.length > 0);
  expect(told).toEqual([{ kind: 'unreached', sinceMs: expect.any(Number), waiting: 700 }]);
  const collector = new Collector({
    address: address('office'),
    database: office.url,
    log: () => undefined,
  });
  collector.start();
  toClose.push(collector);
  const arrived = `SELECT last_index FROM recording WHERE van = 'van-3'`;
  await until('all of it arrived', async () => (await office.number(arrived)) === 700);
  expect(cursors.of(KEY)).toMatchObject({ lastIndex: 700 });
  await until('a page is told', () => told.at(-1)?.kind === 'reached');
  await until('its outlook arrived', async () => (await office.rows('TABLE outlook')).length === 1);

  // A value that the database can't hold is told of, and is in nobody's way.
  const spoilt: Mark = { id: 1, kind: 'note', elapsedS: 1, text: 'a\u0000b', madeBy: 'hand' };
  publish('van-4', recordOf(3, [spoilt]));
  const other = `SELECT last_index FROM recording WHERE van = 'van-4'`;
  await until('its readings arrived', async () => (await office.number(other)) === 3);
  expect((await office.rows('TABLE refused_message'))[0]).toMatchObject({
    topic: recordingTopic('van-4', KEY, 'facts'),
  });
});

test('what one van says is never lost because another one talks nonsense', async () => {
  const collector = new Collector({
    address: address('office'),
    database: office.url,
    log: (line) => said.push(line),
  });
  collector.start();
  toClose.push(collector);
  await says(/Collecting/u);
  const van = await BrokerConnection.open({
    ...{ address: address('van-2'), clientId: 'nonsense', sessionS: 0, receiveMost: 20 },
    ...{
      will: null,
      topics: [],
      received: () => undefined,
      stopping: new AbortController().signal,
    },
  });
  const topic = recordingTopic('van-2', KEY, 'readings');
  for (const payload of ['{', '{"recordingId":"five"}'])
    await van.publish({ topic, payload, retain: false, expiryS: null });
  await says(/readings was not taken: .*JSON/u);
  await says(/readings was not taken: .*recordingId/su);
  await van.close();
});

describe('the sequence of a recording', () => {
  let client: pg.Client;
  beforeAll(async () => {
    client = new pg.Client({ connectionString: office.url });
    await client.connect();
  });
  afterAll(() => client.end());

  function readings(van: string, after: number, last: number): VanMessage {
    const all = Array.from({ length: last - after }, (_, at) => recordedReading(after + at));
    const body: VanReadings = {
      ...KEY,
      after,
      simulated: false,
      columns: columnsFromReadings(all),
    };
    return { kind: 'readings', van, body };
  }

  async function take(...messages: readonly VanMessage[]) {
    const batch = new Batch(client);
    await inTransaction(client, () => batch.take(messages));
    return batch.outcome;
  }

  async function numbers(van: string): Promise<unknown[]> {
    const rows = await office.rows(
      'SELECT reading_index FROM measured WHERE van = $1 ORDER BY reading_index',
      [van],
    );
    return rows.map((row) => row['reading_index']);
  }

  test('repeats and overlaps bring nothing twice, within a batch and after it', async () => {
    const [one, two] = [readings('repeats', 0, 3), readings('repeats', 3, 5)];
    expect(await take(one, one, two)).toMatchObject({ readings: 5, repeats: 1 });
    expect(await take(two, readings('repeats', 1, 7), one)).toMatchObject({
      readings: 2,
      repeats: 2,
    });
    expect(await numbers('repeats')).toEqual([1, 2, 3, 4, 5, 6, 7]);
  });

  test('after a gap nothing is taken, and what is missing is asked for', async () => {
    await take(readings('gaps', 0, 3));
    const { asked, readings: taken } = await take(readings('gaps', 5, 6));
    expect(taken).toBe(0);
    expect(asked).toEqual([{ van: 'gaps', asked: { ...KEY, afterIndex: 3, factsVersion: 0 } }]);
    await take(readings('gaps', 3, 6));
    expect(await numbers('gaps')).toEqual([1, 2, 3, 4, 5, 6]);
  });

  test('an inventory shows what never came', async () => {
    await take(readings('stock', 0, 3));
    const has = { ...KEY, lastIndex: 3, factsVersion: 0, deleted: false };
    const never = { ...has, recordingId: 6, lastIndex: 9, factsVersion: 2 };
    const compare = (...recordings: (typeof has)[]) =>
      take({ kind: 'inventory', van: 'stock', body: { recordings } });
    expect((await compare(has)).asked).toEqual([]);
    expect((await compare(has, never, { ...has, lastIndex: 4 })).asked).toEqual([
      {
        van: 'stock',
        asked: { recordingId: 6, startedAtMs: KEY.startedAtMs, afterIndex: 0, factsVersion: 0 },
      },
      { van: 'stock', asked: { ...KEY, afterIndex: 3, factsVersion: 0 } },
    ]);
    await compare({ ...has, deleted: true });
    expect(await numbers('stock')).toEqual([]);
    // Nothing of it comes back.
    expect(await take(readings('stock', 0, 3))).toMatchObject({ readings: 0 });
  });
});
