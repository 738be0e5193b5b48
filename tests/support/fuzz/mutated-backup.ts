/** What becomes of a sound backup on a bad disk, on its way, or in the hands of somebody who knows SQLite. */
import { readFileSync, truncateSync, writeFileSync } from 'node:fs';
import Database from 'better-sqlite3';
import type { SchemaValues } from './from-schema.ts';

const PAGE_BYTES = 4096;

type Mutation = (file: string, values: SchemaValues) => void;

/** @returns what was done to it */
export function mutateBackup(file: string, values: SchemaValues): string {
  const [name, mutate] = values.of(Object.entries(MUTATIONS)) ?? ['nothing', () => undefined];
  mutate(file, values);
  return name;
}

const MUTATIONS: Readonly<Record<string, Mutation>> = {
  'bits flipped': (file, values) =>
    withBytes(file, (bytes) => {
      for (let left = 1 + values.below(12); left > 0; left -= 1) {
        const at = values.below(bytes.length);
        bytes[at] = (bytes[at] ?? 0) ^ (1 << values.below(8));
      }
    }),
  'bits flipped in a number of a reading': (file, values) =>
    withBytes(file, (bytes) => {
      // Most of the file is readings: their eight bytes are sound as any others.
      const page = values.below(bytes.length / PAGE_BYTES) * PAGE_BYTES;
      const at = page + PAGE_BYTES - 1 - values.below(600);
      bytes[at] = (bytes[at] ?? 0) ^ 1;
    }),
  'pages swapped': (file, values) =>
    withBytes(file, (bytes) => {
      const [a, b] = [pageOf(bytes, values), pageOf(bytes, values)];
      const kept = Buffer.from(a);
      b.copy(a);
      kept.copy(b);
    }),
  'a page written twice': (file, values) =>
    withBytes(file, (bytes) => pageOf(bytes, values).copy(pageOf(bytes, values))),
  'a page of nothing': (file, values) => withBytes(file, (bytes) => pageOf(bytes, values).fill(0)),
  cut: (file, values) => truncateSync(file, values.below(readFileSync(file).length)),
  'a view in the place of a table, without an end': withSql(
    `ALTER TABLE mark RENAME TO gone; CREATE VIEW mark AS
     WITH RECURSIVE n(v) AS (SELECT 1 UNION ALL SELECT v + 1 FROM n)
     SELECT v AS id, 1 AS recording_id, 'note' AS kind, 1.0 AS elapsed_s, '' AS text, 'hand' AS made_by FROM n`,
  ),
  'a trigger of its own': withSql(
    `CREATE TRIGGER planted AFTER INSERT ON recording BEGIN DELETE FROM reading; END`,
  ),
  'a rule of its own': withSchema(`sql = replace(sql, 'STRICT', '')`, `name = 'mark'`),
  'another type': (file, values) => {
    withSchema(`sql = replace(sql, 'STRICT', '')`, `name = 'reading'`)(file, values);
    withSql(`UPDATE reading SET pressure_pa = 'low' WHERE reading_index = 5`)(file, values);
  },
  // Of one: a record that was tormented for long has hundreds of notes, and the file would have gigabytes.
  'a huge cell': withSql(
    `UPDATE mark SET text = printf('%.*c', 40000000, 'x')
     WHERE id = (SELECT MIN(id) FROM mark WHERE kind = 'note')`,
  ),
  'a huge cell that is read as nothing': withSql(
    `UPDATE sheet_entry SET fields = fields || printf('%.*c', 40000000, ' ')
     WHERE id = (SELECT MIN(id) FROM sheet_entry)`,
  ),
  'a fact that can’t be': withSql(`UPDATE mark SET elapsed_s = 9e999 WHERE recording_id = 1`),
  'a reading altered': withSql(
    `UPDATE reading SET pressure_pa = pressure_pa / 2 WHERE reading_index = 7`,
  ),
  'a reading taken out': withSql(
    `DELETE FROM reading WHERE recording_id = 1 AND reading_index = 9`,
  ),
  'a reading added': withSql(
    `INSERT INTO reading SELECT recording_id, (SELECT MAX(reading_index) + 9 FROM reading), channel, boot, sequence, uptime_ms, arrived_s, 9.5, 1.0,
       temperature_c, condition FROM reading WHERE recording_id = 1 AND reading_index = 3`,
  ),
  'a chain cut': withSql(
    `DELETE FROM chain_link WHERE recording_id = 1 AND number = (SELECT MAX(number) FROM chain_link WHERE recording_id = 1)`,
  ),
  'links without facts': withSql(`DELETE FROM mark WHERE recording_id = 2`),
  'an earlier version said': withSql('PRAGMA user_version = 3'),
  'a later version said': withSql('PRAGMA user_version = 9999'),
};

function withBytes(file: string, change: (bytes: Buffer) => void): void {
  const bytes = readFileSync(file);
  change(bytes);
  writeFileSync(file, bytes);
}

function pageOf(bytes: Buffer, values: SchemaValues): Buffer {
  const at = values.below(bytes.length / PAGE_BYTES) * PAGE_BYTES;
  return bytes.subarray(at, at + PAGE_BYTES);
}

/** By somebody who takes the file's own rules out of the way first. */
function withSql(sql: string): Mutation {
  return (file) => {
    const database = new Database(file);
    const triggers = database
      .prepare<[], { name: string }>("SELECT name FROM sqlite_schema WHERE type = 'trigger'")
      .all();
    for (const { name } of triggers) database.exec(`DROP TRIGGER ${name}`);
    database.exec(sql);
    database.close();
  };
}

function withSchema(change: string, which: string): Mutation {
  return (file) => {
    const database = new Database(file);
    database.unsafeMode(true);
    database.pragma('writable_schema = ON');
    database.exec(`UPDATE sqlite_schema SET ${change} WHERE ${which}`);
    database.close();
  };
}
