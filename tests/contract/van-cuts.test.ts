/**
 * A network that breaks off amid what is sent, several times and at any byte, between vans and broker and between
 * broker and office: each reading reaches the database once, and none is missing.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type BrokerAddress, brokerAddress } from '../../server/vans/broker/broker-address.ts';
import { Collector } from '../../server/vans/office/collector.ts';
import { openDatabase } from '../../server/vans/office/office-database.ts';
import { CursorFile } from '../../server/vans/publish/cursor-file.ts';
import { Publisher } from '../../server/vans/publish/publisher.ts';
import { SeededRandom } from '../../simulators/physics/seeded-random.ts';
import { type TestBroker, testBroker } from '../support/office/broker.ts';
import { type CuttingProxy, cuttingProxy } from '../support/office/cutting-proxy.ts';
import { type TestDatabase, testDatabase } from '../support/office/database.ts';
import { until } from '../support/office/debian-tools.ts';
import { vanOfReadings } from '../support/office/van-of-readings.ts';
import { recordedReading } from '../support/recorded-readings.ts';

const VANS = ['van-1', 'van-2', 'van-3', 'van-4', 'van-5', 'van-6'] as const;
/** Forty full messages, of some 25 kB each. */
const READINGS = 20_000;
const CUTS_OF_A_VAN = 3;
const CUTS_OF_THE_OFFICE = 2;
/** Amid the first messages, or the last: what a connection carries before it is cut. */
const LEAST_BYTES = 6000;
const MOST_BYTES = 400_000;
/** Whoever was cut waits before it comes back, twice as long each time. */
const PATIENCE_MS = 120_000;

const ALL = Array.from({ length: READINGS }, (_, at) =>
  recordedReading(at, { pressurePa: 100 + Math.sin(at) }),
);
const RECORD = vanOfReadings(ALL);

let broker: TestBroker;
let office: TestDatabase;
let folder = '';
const random = new SeededRandom(41);
const toClose: { close(): Promise<void> }[] = [];
const proxies: CuttingProxy[] = [];

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'cuts-'));
  [broker, office] = await Promise.all([
    testBroker({ users: ['office', ...VANS] }),
    testDatabase(),
  ]);
  const client = await openDatabase(office.url, () => undefined);
  await client.end();
});
afterAll(async () => {
  await Promise.all(toClose.map((one) => one.close()));
  await Promise.all(proxies.map((one) => one.remove()));
  await Promise.all([broker.remove(), office.remove()]);
  rmSync(folder, { recursive: true, force: true });
});

/** Of a way that is cut so many times. */
async function throughCuts(user: string, cuts: number): Promise<BrokerAddress> {
  const after = Array.from({ length: cuts }, () =>
    Math.round(LEAST_BYTES + (MOST_BYTES - LEAST_BYTES) * random.uniform() ** 2),
  );
  const proxy = await cuttingProxy(broker.port, after);
  proxies.push(proxy);
  return brokerAddress('--publish', {
    url: `mqtts://127.0.0.1:${proxy.port}`,
    loginFile: broker.loginFile(user),
    authorityFile: broker.authorityFile,
    withoutTls: false,
  });
}

function rowsOf(van: string): Promise<Record<string, unknown>[]> {
  return office.rows(
    `SELECT reading_index, elapsed_s, pressure_pa FROM measured WHERE van = $1 ORDER BY reading_index`,
    [van],
  );
}

test(
  'cut at any byte, each reading arrives once',
  async () => {
    const log = (): void => undefined;
    const atOffice = await throughCuts('office', CUTS_OF_THE_OFFICE);
    const collector = new Collector({ address: atOffice, database: office.url, log });
    collector.start();
    toClose.push(collector);
    for (const van of VANS) {
      const address = await throughCuts(van, CUTS_OF_A_VAN);
      const cursors = new CursorFile(mkdtempSync(join(folder, 'data-')), van);
      const publisher = new Publisher({
        ...{ record: RECORD, cursors, van, withRehearsals: false, withPeople: false },
        ...{ address, softwareVersion: '0', wallClock: Date.now, log, office: log },
      });
      publisher.start();
      toClose.push(publisher);
    }
    const arrived = () => office.number('SELECT COUNT(*) FROM measured');
    const whole = VANS.length * READINGS;
    await until('all arrived', async () => (await arrived()) >= whole, PATIENCE_MS - 20_000);
    const expected = ALL.map(({ elapsedS, pressurePa }, at) => ({
      reading_index: at + 1,
      elapsed_s: elapsedS,
      pressure_pa: pressurePa,
    }));
    for (const van of VANS) expect(await rowsOf(van), van).toEqual(expected);
    expect(await office.number('SELECT COUNT(*) FROM reading')).toBe(whole);
    // A busy machine sends more at once, so that all has arrived before each way was cut as often as it might have been.
    for (const one of proxies) expect(one.cuts()).toBeGreaterThan(0);
  },
  PATIENCE_MS,
);
