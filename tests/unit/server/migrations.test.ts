/** A record of every version there was: each fact is there afterwards, a copy of it too, and the chain holds. */
import { existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { z } from 'zod';
import type { FactRow } from '../../../server/record/chain.ts';
import { ChainWriter } from '../../../server/record/chain-writer.ts';
import { FACT_TABLES, type FactTableName } from '../../../server/record/fact-tables.ts';
import { openForWriting, RECORD_FILE } from '../../../server/record/open-database.ts';
import { RecordReader } from '../../../server/record/record-reader.ts';
import { MIGRATIONS } from '../../../server/record/schema.ts';
import { ChainVerifier } from '../../../server/record/verify-chain.ts';

const IDENTITY = JSON.stringify({
  id: 'a',
  name: 'Roof',
  manufacturer: null,
  model: null,
  serial: '12',
  firmware: null,
});

/** Of every kind, with the recording that each belongs to (0: none) and what tells it apart there. */
const FACTS: Readonly<
  Record<FactTableName, readonly (readonly [number, number | null, FactRow])[]>
> = {
  begin: [
    [1, null, [1, 'sensor', 1234, '']],
    [2, null, [2, 'rehearsal', 1235, 'quay']],
  ],
  end: [[2, null, [2, 99]]],
  sensor: [
    [1, 1, [1, 1, 0, IDENTITY]],
    [2, 2, [2, 2, 0, IDENTITY]],
  ],
  reading: [
    [1, 1, [1, 1, 0, 7, 3, 3000, 3.1, 3, 100 / 3, null, 'ok']],
    [1, 2, [1, 2, 0, 7, 4, 4000, 4.1, 4, null, 20.25, 'over_range']],
    [2, 1, [2, 1, 0, 1, 0, 0, 0, 0, 12.5, 21, 'ok']],
  ],
  mark: [[1, 1, [1, 1, 'pump_on', 1.5, 'oil is fresh', 'hand']]],
  sheet: [[1, 1, [1, 1, 2, '{"targetPa":50}']]],
  call: [[2, null, [2, 'Ines', 'leak', 70, 812]]],
  reveal: [[2, null, [2, 'quay', 4_294_967_295, 'moisture', null, 1_700_000_000_000]]],
  label: [[0, 1, [1, 'a', 'Yard', 'system', null, 1300]]],
  take_back: [[1, 2, [1, 2, null, 1400]]],
  seen_alert: [[1, 1, [1, 1, '0/target', 812, 1500]]],
  mark_taken_back: [[1, 9, [1, 9, 1600]]],
  archived: [[2, 1, [1, 2, 0, 1, 1700]]],
  sign_off: [[1, 1, [1, 1, 0, 0, 812, 'R. Vane', 'L-7', 'dry', 'Tight and dry', '0.1.0', 1800]]],
  calibration: [[0, 1, [1, 'a', '2026-03-01', 1900]]],
  prepared: [[0, 1, [1, 1, 2, 0.5, 1950, '{"site":"Mill Yard"}']]],
  taken_from: [[2, null, [2, 'x', 'rehearsal', 4, 5, '', '', 1, '0.1.0', 2000]]],
  tombstone: [[1, 1, [1, 1, 9, 500, null, '', 0, 2100]]],
};
const kinds = Object.keys(FACTS).filter((kind): kind is FactTableName => kind in FACTS);

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'migrated-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const names = z.array(z.string());
function tablesOf(database: Database.Database): string[] {
  const all = database.prepare("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name");
  return names.parse(all.pluck().all());
}

function everything(database: Database.Database, tables = tablesOf(database)) {
  return tables.map((table) => [table, database.prepare(`SELECT * FROM ${table}`).raw().all()]);
}

/** With a fact in each table that there was. */
function writeVersion(version: number) {
  const database = new Database(join(folder, RECORD_FILE));
  for (const migration of MIGRATIONS.slice(0, version)) database.exec(migration);
  database.pragma(`user_version = ${version}`);
  const tables = tablesOf(database);
  const chain = tables.includes('chain_link') ? new ChainWriter(database) : null;
  for (const kind of kinds) {
    const { table, columns } = FACT_TABLES[kind];
    if (!tables.includes(table)) continue;
    const places = columns.map(() => '?').join(', ');
    const insert = database.prepare(
      `INSERT INTO ${table} (${columns.join(', ')}) VALUES (${places})`,
    );
    for (const [recordingId, key, row] of FACTS[kind]) {
      insert.run(...row);
      chain?.add(kind, recordingId, key, row);
    }
  }
  chain?.seal();
  const written = everything(database);
  database.close();
  return written;
}

test.each(MIGRATIONS.map((_, version) => version + 1))(
  'of version %i each fact stays, a copy is kept, and the chain holds',
  (version) => {
    const written = writeVersion(version);
    const tables = written.map(([table]) => String(table));
    const database = openForWriting(folder);
    const copy = join(folder, `${RECORD_FILE}.before-version-${MIGRATIONS.length}-from-${version}`);
    try {
      const kept = everything(database, tables).filter(([table]) => table !== 'chain_link');
      expect(kept).toEqual(written.filter(([table]) => table !== 'chain_link'));
      expect(database.pragma('user_version', { simple: true })).toBe(MIGRATIONS.length);
      const chains = [0, 1, 2].map((id) => {
        const steps = new ChainVerifier(database).verify(id);
        let step = steps.next();
        while (step.done !== true) step = steps.next();
        return step.value.verified;
      });
      const facts = kinds.flatMap((kind) =>
        tables.includes(FACT_TABLES[kind].table) ? FACTS[kind] : [],
      );
      expect(chains.map(({ broken }) => broken)).toEqual([null, null, null]);
      expect(chains.reduce((sum, one) => sum + one.facts, 0)).toBe(facts.length);
      const reader = new RecordReader(database);
      expect(reader.recordings(9)).toMatchObject([
        { id: 2, origin: 'rehearsal', open: false },
        { id: 1, origin: 'sensor', open: true, sensors: [{ name: 'Roof', serial: '12' }] },
      ]);
      expect(reader.marks(1)).toMatchObject([{ kind: 'pump_on', text: 'oil is fresh' }]);
      expect(reader.sheet(1)).toEqual([{ elapsedS: 2, fields: { targetPa: 50 } }]);
      expect(reader.readingsAfter(1, 0, 9).pressurePa[0]).toBe(100 / 3);
    } finally {
      database.close();
    }
    if (version === MIGRATIONS.length) {
      expect(existsSync(copy)).toBe(false);
      return;
    }
    const old = new Database(copy, { readonly: true });
    expect(everything(old)).toEqual(written);
    expect(old.pragma('user_version', { simple: true })).toBe(version);
    old.close();
  },
);

test('of no version at all, an empty file, comes a new record, and no copy', () => {
  new Database(join(folder, RECORD_FILE)).close();
  const database = openForWriting(folder);
  expect(database.pragma('user_version', { simple: true })).toBe(MIGRATIONS.length);
  database.close();
  expect(readdirSync(folder)).toEqual([RECORD_FILE]);
});
