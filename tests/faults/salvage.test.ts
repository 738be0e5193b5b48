/** A damaged record is set aside whole; a new one has all that stands in readable pages, and says what is missing. */
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { FactWriter } from '../../server/record/fact-writer.ts';
import { openForWriting, RECORD_FILE } from '../../server/record/open-database.ts';
import { openRecord } from '../../server/record/open-record.ts';
import { packReadings } from '../../server/record/packed-readings.ts';
import { RecordReader } from '../../server/record/record-reader.ts';
import { ChainVerifier } from '../../server/record/verify-chain.ts';
import { SeededRandom } from '../../simulators/physics/seeded-random.ts';
import { invented } from './invented-reading.ts';

const NOW_MS = Date.UTC(2026, 2, 1, 17, 3, 11);
const ASIDE = 'record.damaged-2026-03-01T17-03-11';
const PAGE_BYTES = 4096;
const READINGS = [6000, 4000, 50];
const MARKS = 40;
const ALL_READINGS = 10_050;

const original = mkdtempSync(join(tmpdir(), 'whole-'));
let folder = '';
let file = '';
beforeAll(() => {
  const database = openForWriting(original);
  database.pragma('synchronous = OFF');
  const facts = new FactWriter(database);
  const commit = database.transaction((writes: readonly Parameters<FactWriter['write']>[0][]) => {
    for (const fact of writes) facts.write(fact);
    facts.seal();
  });
  const unknown = { manufacturer: null, model: null, serial: null, firmware: null };
  READINGS.forEach((count, place) => {
    const recordingId = place + 1;
    const origin = place === 2 ? 'rehearsal' : 'sensor';
    commit([{ kind: 'begin', recordingId, origin, startedAtMs: 1000 + place, title: '' }]);
    for (let channel = 0; channel < 8; channel += 1) {
      const id = place === 2 ? 'rehearsal-sensor' : `sensor-${channel}`;
      const identity = { id, name: `Sensor ${channel}`, ...unknown };
      commit([{ kind: 'sensor', recordingId, channel, identity }]);
    }
    for (let first = 1; first <= count; first += 50) {
      const readings = Array.from({ length: 50 }, (_, at) => invented(first + at));
      commit([{ kind: 'readings', recordingId, packed: packReadings(readings) }]);
    }
  });
  for (let at = 0; at < MARKS; at += 1) {
    const mark = { kind: 'note', elapsedS: at + 0.5, text: `Note ${at}` } as const;
    commit([{ kind: 'mark', recordingId: 1, mark, madeBy: 'hand' }]);
  }
  // Longer than a page: it goes on in others.
  const entry = { elapsedS: 2, fields: { site: 'Weir', equipment: 'x'.repeat(200) } };
  commit([{ kind: 'sheet', recordingId: 1, entry }]);
  const label = {
    sensorId: 'a',
    name: 'N',
    place: 'pump',
    displayStepPa: 1,
    givenAtMs: 9,
  } as const;
  commit([{ kind: 'label', label }]);
  const takenBack = { index: 3, elapsedS: 2, pressurePa: 1, insteadPa: null, atMs: 5 };
  commit([{ kind: 'take_back', recordingId: 1, takenBack }]);
  commit([{ kind: 'seen_alert', recordingId: 2, seen: { alert: 'a', untilS: 9, atMs: 7 } }]);
  commit([{ kind: 'end', recordingId: 1, endedAtMs: 9000 }]);
  database.close();
});
afterAll(() => rmSync(original, { recursive: true, force: true }));
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'damaged-'));
  cpSync(original, folder, { recursive: true });
  file = join(folder, RECORD_FILE);
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const pageRow = z.object({
  name: z.string(),
  path: z.string(),
  pageno: z.int(),
  pagetype: z.string(),
  ncell: z.int(),
});

/** Which page has rows of which table. */
function pages(table?: string) {
  const database = new Database(join(original, RECORD_FILE), { readonly: true });
  const found = z.array(pageRow).parse(database.prepare('SELECT * FROM dbstat').all());
  database.close();
  return found.filter(({ name }) => table === undefined || name === table);
}

const random = new SeededRandom(4);
function overwrite(pageno: number, bytes = PAGE_BYTES): void {
  const all = readFileSync(file);
  for (let at = 0; at < bytes; at += 1)
    all[(pageno - 1) * PAGE_BYTES + at] = Math.floor(random.uniform() * 256);
  writeFileSync(file, all);
}

/** Opens it as the writer does, and looks at what is there. */
function mended() {
  // The database may move what stands in its log into the file before it gives up.
  const hasLog = existsSync(`${file}-wal`);
  const damaged = existsSync(file) && !hasLog ? readFileSync(file) : null;
  const { database, setAside, unlock } = openRecord(folder, NOW_MS);
  const reader = new RecordReader(database);
  const verifier = new ChainVerifier(database);
  const verified = (recordingId: number) => {
    const steps = verifier.verify(recordingId);
    for (;;) {
      const step = steps.next();
      if (step.done === true) return step.value.verified;
    }
  };
  const recordings = reader.recordings(10).reverse();
  const columns = recordings.map(({ id }) => reader.readingsAfter(id, 0, 5000));
  // Nothing is there that was never measured.
  for (const { index, pressurePa, condition } of columns)
    index.forEach((at, row) => {
      const { pressurePa: was, condition: wasSo } = invented(at);
      expect([pressurePa[row], condition[row]]).toEqual([was, wasSo]);
    });
  const found = {
    setAside,
    recordings,
    chains: [0, ...recordings.map(({ id }) => id)].map(verified),
    readings: recordings.map(({ id }) =>
      z
        .int()
        .parse(
          database.prepare('SELECT COUNT(*) FROM reading WHERE recording_id = ?').pluck().get(id),
        ),
    ),
    marks: recordings.map(({ id }) => reader.marks(id).map(({ text }) => text)),
    sheet: reader.sheet(1),
    labels: reader.labels(),
    integrity: database.pragma('integrity_check', { simple: true }),
  };
  database.close();
  unlock();
  expect(found.integrity).toBe('ok');
  expect(found.chains.map(({ broken }) => broken)).toEqual(found.chains.map(() => null));
  if (setAside !== null) expect(readdirSync(folder)).toContain(ASIDE);
  if (setAside !== null && damaged !== null)
    expect(readFileSync(join(folder, ASIDE, RECORD_FILE)).equals(damaged)).toBe(true);
  return found;
}

const sum = (counts: readonly number[]) => counts.reduce((total, count) => total + count, 0);
const notesOf = (marks: readonly string[]) => marks.filter((text) => text.startsWith('Salvaged'));

test('what is whole is left as it is', () => {
  expect(mended()).toMatchObject({ setAside: null, readings: READINGS });
  expect(readdirSync(folder)).toEqual(['record.lock', RECORD_FILE]);
});

test('a page in the middle of the readings: all others are saved, and what is missing is said', () => {
  const leaves = pages('reading').filter(({ pagetype }) => pagetype === 'leaf');
  const hit = leaves[Math.floor(leaves.length / 4)];
  if (hit === undefined) throw new Error('no such page');
  overwrite(hit.pageno);
  const found = mended();
  const lost = hit.ncell;
  expect(lost).toBeGreaterThan(20);
  expect(sum(found.readings)).toBe(ALL_READINGS - lost);
  expect(found.setAside).toMatchObject({
    readings: { saved: ALL_READINGS - lost, atLeast: ALL_READINGS },
  });
  expect(found.setAside?.otherFacts.saved).toBe(found.setAside?.otherFacts.atLeast);
  expect(found.marks[0]).toHaveLength(MARKS + 1);
  expect(notesOf(found.marks[0] ?? [])).toEqual([
    expect.stringContaining(`${6000 - lost} of at least 6000 readings`),
  ]);
  expect(notesOf(found.marks[0] ?? [])[0]).toContain(ASIDE);
  expect(found.sheet).toMatchObject([{ fields: { site: 'Weir' } }]);
  // As far as it leads to whole facts the chain is the old one.
  expect(found.chains[1]?.addedLater).toBeGreaterThan(0);
  expect(found.chains[1]?.addedLater).toBeLessThan(6000);
});

test('the file’s header: all is saved, and the chain is whole', () => {
  overwrite(1, 100);
  const found = mended();
  expect(found.readings).toEqual(READINGS);
  expect(found.setAside?.readings).toEqual({ saved: ALL_READINGS, atLeast: ALL_READINGS });
  expect(found.chains.map(({ addedLater }) => addedLater)).toEqual([0, 0, 0, 0]);
  expect(found.marks.flatMap(notesOf)).toEqual([]);
  expect(found.recordings.map(({ open }) => open)).toEqual([false, true, true]);
});

test('the whole first page, and with it the list of tables', () => {
  overwrite(1);
  expect(mended()).toMatchObject({ readings: READINGS, labels: [{ name: 'N' }] });
});

test('half of the file is gone: the other half is saved', () => {
  const { length } = readFileSync(file);
  const kept = Math.floor(length / 2 / PAGE_BYTES);
  truncateSync(file, length / 2);
  const there = pages('reading').filter(({ pageno }) => pageno <= kept);
  const found = mended();
  expect(sum(found.readings)).toBe(sum(there.map(({ ncell }) => ncell)));
  expect(sum(found.readings)).toBeGreaterThan(ALL_READINGS / 3);
  expect(found.setAside?.readings.atLeast).toBeGreaterThanOrEqual(sum(found.readings));
});

test('the marks’ only page: all else is saved', () => {
  const root = pages('mark')[0];
  overwrite(root?.pageno ?? 0);
  const found = mended();
  expect(found.readings).toEqual(READINGS);
  expect(found.sheet).toHaveLength(1);
  expect(found.setAside?.otherFacts).toMatchObject({
    saved: (found.setAside?.otherFacts.atLeast ?? 0) - MARKS,
  });
  expect(found.marks[0]).toEqual([expect.stringContaining('6000 of at least 6000 readings')]);
});

test('the root of the readings: what it leads to is found without it', () => {
  const root = pages('reading').find(({ path }) => path === '/');
  expect(root?.pagetype).toBe('internal');
  overwrite(root?.pageno ?? 0);
  const lost = root?.ncell ?? 0;
  expect(sum(mended().readings)).toBe(ALL_READINGS - lost);
});

test('how the recordings began: a rehearsal stays one, and of the others none is a proof of a job', () => {
  overwrite(pages('recording')[0]?.pageno ?? 0);
  const found = mended();
  expect(found.recordings.map(({ origin }) => origin)).toEqual(['import', 'import', 'rehearsal']);
  expect(found.readings).toEqual(READINGS);
});

test('who the sensors were: each reading still has one', () => {
  overwrite(pages('sensor')[0]?.pageno ?? 0);
  expect(mended().recordings.map(({ sensors }) => sensors.length)).toEqual([8, 8, 8]);
});

test('pages at random, again and again: it opens each time, with no wrong reading', () => {
  const last = Math.max(...pages().map(({ pageno }) => pageno));
  for (let round = 0; round < 4; round += 1) {
    for (let hits = 0; hits < 5; hits += 1)
      overwrite(
        1 + Math.floor(random.uniform() * last),
        1 + Math.floor(random.uniform() * PAGE_BYTES),
      );
    const found = mended();
    expect(sum(found.readings)).toBeGreaterThan(ALL_READINGS / 2);
    rmSync(folder, { recursive: true });
    cpSync(original, folder, { recursive: true });
  }
});

describe('the log', () => {
  /** Some facts stand in the log alone, as after a cut of the power. */
  function withLog(): void {
    const database = openForWriting(folder);
    const facts = new FactWriter(database);
    database.transaction(() => {
      const packed = packReadings(Array.from({ length: 50 }, (_, at) => invented(51 + at)));
      facts.write({ kind: 'readings', recordingId: 3, packed });
      facts.seal();
    })();
    const apart = `${folder}-apart`;
    mkdirSync(apart);
    for (const part of ['', '-wal']) cpSync(`${file}${part}`, join(apart, `${RECORD_FILE}${part}`));
    database.close();
    rmSync(folder, { recursive: true });
    renameSync(apart, folder);
  }

  test('is read too where the header is gone', () => {
    withLog();
    overwrite(1, 100);
    expect(mended().readings).toEqual([6000, 4000, 100]);
  });

  test('is all there is: what it has is saved, and nothing deletes it', () => {
    withLog();
    rmSync(file);
    const found = mended();
    expect(found.readings.at(-1)).toBeGreaterThanOrEqual(50);
    expect(readdirSync(join(folder, ASIDE))).toEqual([`${RECORD_FILE}-wal`]);
  });
});

test('the power goes while the files are being moved: the next start ends that', () => {
  overwrite(1, 100);
  mended();
  renameSync(file, `${file}.salvaged`);
  writeFileSync(`${file}-wal`, 'left behind');
  const found = mended();
  expect(found.readings).toEqual(READINGS);
  expect(readdirSync(folder).filter((name) => name.startsWith('record.damaged'))).toHaveLength(2);
});
