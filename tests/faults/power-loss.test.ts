/**
 * The power goes, and the disk keeps only a part of what was being written. What is lost is what the cut took
 * away; what is there is right, and the chain over it whole.
 */
import {
  cpSync,
  existsSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest';
import { FactWriter } from '../../server/record/fact-writer.ts';
import { openForWriting, RECORD_FILE } from '../../server/record/open-database.ts';
import { packReadings } from '../../server/record/packed-readings.ts';
import { SeededRandom } from '../../simulators/physics/seeded-random.ts';
import { inspect } from './inspect-record.ts';
import { invented } from './invented-reading.ts';

const IN_A_COMMIT = 8;
/** Commits that stand in the database file, and in its log alone. */
const [MOVED, LOGGED] = [150, 60];
const ALL = (MOVED + LOGGED) * IN_A_COMMIT;

const root = mkdtempSync(join(tmpdir(), 'power-'));
/** As it stood when the power went; and the database file once all of the log had been moved into it. */
const [before, folder] = [join(root, 'before'), join(root, 'folder')];
const file = join(folder, RECORD_FILE);
const log = `${file}-wal`;
let movedOn: Buffer;
/** How long the log was after each commit. */
const logBytes: number[] = [];

beforeAll(() => {
  const live = join(root, 'live');
  const database = openForWriting(live);
  database.pragma('synchronous = OFF');
  database.pragma('wal_autocheckpoint = 0');
  const facts = new FactWriter(database);
  const commit = database.transaction((first: number) => {
    if (first === 1)
      facts.write({ kind: 'begin', recordingId: 1, origin: 'sensor', startedAtMs: 0, title: '' });
    const readings = Array.from({ length: IN_A_COMMIT }, (_, at) => invented(first + at));
    facts.write({ kind: 'readings', recordingId: 1, packed: packReadings(readings) });
    facts.seal();
  });
  for (let one = 0; one < MOVED + LOGGED; one += 1) {
    commit(one * IN_A_COMMIT + 1);
    if (one === MOVED - 1) database.pragma('wal_checkpoint(TRUNCATE)');
    if (one >= MOVED) logBytes.push(statSync(join(live, `${RECORD_FILE}-wal`)).size);
  }
  cpSync(live, before, { recursive: true });
  database.pragma('wal_checkpoint(TRUNCATE)');
  movedOn = readFileSync(join(live, RECORD_FILE));
  database.close();
});
afterAll(() => rmSync(root, { recursive: true, force: true }));
beforeEach(restore);

/** Without the shared memory, which is in no file after a power cut. */
function restore(): void {
  rmSync(folder, { recursive: true, force: true });
  cpSync(before, folder, { recursive: true });
  rmSync(`${file}-shm`, { force: true });
}

/** How many readings must be there if the log is right up to this byte. */
function keptBy(bytes: number): number {
  return (MOVED + logBytes.filter((length) => length <= bytes).length) * IN_A_COMMIT;
}

const random = new SeededRandom(11);
const upTo = (limit: number) => Math.floor(random.uniform() * limit);
const noise = (length: number) => Buffer.from(Array.from({ length }, () => upTo(256)));

test('nothing is lost that was whole', () => {
  expect(inspect(folder)).toMatchObject({ readings: ALL, harm: [] });
});

test('the log is cut at any byte: the commits before it are there', () => {
  const whole = readFileSync(log);
  const found = Array.from({ length: 25 }, () => {
    restore();
    const bytes = upTo(whole.length);
    writeFileSync(log, whole.subarray(0, bytes));
    const { readings, harm } = inspect(folder);
    return { bytes, lost: keptBy(bytes) - readings, harm };
  });
  expect(found.filter(({ lost, harm }) => lost !== 0 || harm.length > 0)).toEqual([]);
});

test.each([
  ['noise', noise],
  ['noughts', (length: number) => Buffer.alloc(length)],
])(
  'a page of the log is torn, %s in its place: the commits before it are there',
  (_what, other) => {
    const whole = readFileSync(log);
    const found = Array.from({ length: 15 }, () => {
      restore();
      const torn = Buffer.from(whole);
      // At the end mostly, as it is when the power goes; and anywhere.
      const at = random.uniform() < 0.6 ? whole.length - 1 - upTo(4000) : upTo(whole.length);
      other(512).copy(torn, at);
      writeFileSync(log, torn);
      const { readings, harm } = inspect(folder);
      const same = torn.findIndex((byte, place) => byte !== whole[place]);
      return { at, lost: keptBy(same === -1 ? whole.length : same) - readings, harm };
    });
    expect(found.filter(({ lost, harm }) => lost !== 0 || harm.length > 0)).toEqual([]);
  },
);

test('the log is gone: what had been moved into the database is there', () => {
  rmSync(log);
  expect(inspect(folder)).toMatchObject({ readings: MOVED * IN_A_COMMIT, harm: [] });
});

test('the shared memory has noise in it', () => {
  writeFileSync(`${file}-shm`, noise(32_768));
  expect(inspect(folder)).toMatchObject({ readings: ALL, harm: [] });
});

test('while the log was being moved pages were half written, the last one among them: the log has them', () => {
  const earlier = readFileSync(file);
  for (let round = 0; round < 10; round += 1) {
    restore();
    const mixed = Buffer.alloc(movedOn.length);
    earlier.copy(mixed);
    for (let at = 0; at < movedOn.length; at += 512)
      if (random.uniform() < 0.5) movedOn.copy(mixed, at, at, at + 512);
    noise(700).copy(mixed, mixed.length - 700);
    writeFileSync(file, mixed);
    expect(inspect(folder)).toMatchObject({ readings: ALL, harm: [] });
  }
  expect(existsSync(log)).toBe(false);
});
