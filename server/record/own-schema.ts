/**
 * Whether a file's own rules are those of a record. What else stands in a schema is run as the file is read: a view in
 * the place of a table may never come to its end, a trigger may add what nobody recorded.
 */
import Database from 'better-sqlite3';
import { z } from 'zod';
import { MIGRATIONS } from './schema.ts';

const partRow = z.object({ type: z.string(), name: z.string(), sql: z.string().nullable() });
type Part = z.infer<typeof partRow>;

/** What the database makes for itself: it has no text. */
const OF_THE_DATABASE = /^sqlite_/u;

/** @returns the name of something that no record of this version has, or has otherwise; null: there is none */
export function foreignPart(database: Database.Database): string | null {
  const version = z.int().parse(database.pragma('user_version', { simple: true }));
  // That is refused for what it is.
  if (version > MIGRATIONS.length) return null;
  const own = new Map(partsOfRecord(version).map((part) => [key(part), part.sql]));
  const foreign = partsOf(database).find(
    (part) => !OF_THE_DATABASE.test(part.name) && own.get(key(part)) !== part.sql,
  );
  return foreign === undefined ? null : `${foreign.type} ${foreign.name}`.slice(0, 100);
}

function partsOf(database: Database.Database): Part[] {
  return z
    .array(partRow)
    .parse(database.prepare('SELECT type, name, sql FROM sqlite_schema').all());
}

function partsOfRecord(version: number): Part[] {
  const empty = new Database(':memory:');
  try {
    for (const migration of MIGRATIONS.slice(0, version)) empty.exec(migration);
    return partsOf(empty);
  } finally {
    empty.close();
  }
}

function key({ type, name }: Part): string {
  return `${type} ${name}`;
}
