/**
 * Deletes a job for good: its facts go, a tombstone stands for them, and the hashes of the chain stay. So what is
 * left can still be verified, and that something was deleted can't be hidden.
 */
import type Database from 'better-sqlite3';
import { z } from 'zod';
import { type FactRow, type FactSpan, PACKED_READINGS, readSpans } from './chain.ts';
import { type Job, WHOLE_JOB } from '../../protocol/job.ts';
import type { ChainWriter } from './chain-writer.ts';
import {
  FACT_TABLES,
  type FactTableName,
  kindOfLetter,
  OF_NO_RECORDING,
  whereOf,
} from './fact-tables.ts';
import { writeLinkNumbers } from './link-numbers.ts';
import { type Doomed, whatGoes, type Which } from './what-goes.ts';

interface Fact {
  readonly kind: FactTableName;
  readonly row: FactRow;
}

interface Harmed {
  /** Numbers of the links that lose a fact, ascending. */
  readonly links: readonly number[];
  /** What shares a link with what goes. */
  readonly staying: readonly Fact[];
}

const linkRow = z.object({ number: z.int(), facts: z.string() });
const factRow = z.array(z.union([z.string(), z.number(), z.null()]));

/** Within a transaction that has written nothing of this recording yet. */
export function deleteJob(
  database: Database.Database,
  chain: ChainWriter,
  doomed: Doomed,
  atMs: number,
): void {
  deleteFacts(database, chain, doomed, whatGoes(doomed), atMs);
}

/** A prepared sheet is no recording's: its tombstone has the sheet's number in the place of a mark's. */
export function deletePrepared(
  database: Database.Database,
  chain: ChainWriter,
  prepared: number,
  atMs: number,
): void {
  const job = { ...WHOLE_JOB, beginMark: prepared };
  const going = new Map<FactTableName, Which>([
    ['prepared', { sql: 'prepared = ?', values: [prepared] }],
  ]);
  const doomed = { recordingId: OF_NO_RECORDING, job, isWhole: false };
  deleteFacts(database, chain, doomed, going, atMs);
}

/** The prepared sheets that a job has taken over. */
export function preparedFor(database: Database.Database, recordingId: number, job: Job): number[] {
  const used = database.prepare(
    'SELECT DISTINCT prepared FROM prepared_sheet WHERE used_in = ? AND used_s >= ? AND used_s < ?',
  );
  const untilS = job.untilS ?? Number.MAX_VALUE;
  return z.array(z.int()).parse(used.pluck().all(recordingId, job.fromS, untilS));
}

function deleteFacts(
  database: Database.Database,
  chain: ChainWriter,
  doomed: Doomed,
  going: ReadonlyMap<FactTableName, Which>,
  atMs: number,
): void {
  const { links, staying } = harmed(database, doomed, going);
  let facts = 0;
  for (const [kind, { sql, values }] of going) {
    const count = `SELECT COUNT(*) FROM ${FACT_TABLES[kind].table} WHERE ${sql}`;
    facts += z.int().parse(
      database
        .prepare(count)
        .pluck()
        .get(...values),
    );
  }
  setTombstone(database, chain, doomed, [writeLinkNumbers(links), facts, atMs]);
  for (const [kind, { sql, values }] of going) {
    database.prepare(`DELETE FROM ${FACT_TABLES[kind].table} WHERE ${sql}`).run(...values);
  }
  // What shared a link with it is taken up anew: what it was before, the chain can tell no more.
  for (const { kind, row } of staying) {
    chain.add(kind, doomed.recordingId, keyOf(kind, row), row);
  }
  chain.seal(atMs);
}

function setTombstone(
  database: Database.Database,
  chain: ChainWriter,
  { recordingId, job, isWhole }: Doomed,
  said: FactRow,
): void {
  const { table, columns } = FACT_TABLES.tombstone;
  const span = isWhole ? [0, null] : [job.fromS, job.untilS];
  const row = [recordingId, job.beginMark, ...span, ...said];
  const insert = `INSERT INTO ${table} (${columns.join(', ')}) VALUES (${columns.map(() => '?').join(', ')})`;
  const id = Number(database.prepare(insert).run(null, ...row).lastInsertRowid);
  chain.add('tombstone', recordingId, id, [id, ...row]);
  chain.seal();
}

function harmed(
  database: Database.Database,
  { recordingId, isWhole }: Doomed,
  going: ReadonlyMap<FactTableName, Which>,
): Harmed {
  const links: number[] = [];
  const staying: Fact[] = [];
  const all = database
    .prepare('SELECT number, facts FROM chain_link WHERE recording_id = ? ORDER BY number')
    .all(recordingId);
  const rowsOf = rowsReader(database, recordingId);
  for (const { number, facts } of z.array(linkRow).parse(all)) {
    const spans = (readSpans(facts) ?? []).flatMap((span) => {
      const kind = kindOfSpan(span);
      return kind === null ? [] : [{ kind, span }];
    });
    const found = spans.flatMap(({ kind, span }) => {
      const which = going.get(kind) ?? null;
      return rowsOf(kind, span, which).map((one) => ({ kind, ...one }));
    });
    if (!isWhole && found.every(({ goes }) => !goes)) continue;
    links.push(number);
    staying.push(...found.filter(({ goes }) => !goes));
  }
  return { links, staying };
}

/** Null where it is no fact: where the link goes on from, or that it came later. */
function kindOfSpan({ letter }: FactSpan): FactTableName | null {
  return letter === PACKED_READINGS ? 'reading' : kindOfLetter(letter);
}

/** The facts of a span, and whether each of them goes. */
function rowsReader(database: Database.Database, recordingId: number) {
  const statements = new Map<string, Database.Statement>();
  return (kind: FactTableName, { first, last }: FactSpan, which: Which | null) => {
    const table = FACT_TABLES[kind];
    const goes = which === null ? '0' : `(${which.sql})`;
    const between =
      table.key === null ? '' : ` AND ${table.key} BETWEEN ? AND ? ORDER BY ${table.key}`;
    const sql = `SELECT ${goes}, ${table.columns.join(', ')} FROM ${table.table} WHERE ${whereOf(table)}${between}`;
    const statement = statements.get(sql) ?? database.prepare(sql).raw();
    statements.set(sql, statement);
    const span = table.key === null ? [] : [first, last];
    const rows = statement.all(...(which?.values ?? []), recordingId, ...span);
    return z
      .array(factRow)
      .parse(rows)
      .map(([isGoing, ...row]) => ({ goes: isGoing === 1, row }));
  };
}

function keyOf(kind: FactTableName, row: FactRow): number | null {
  const { key, columns } = FACT_TABLES[kind];
  const names: readonly string[] = columns;
  return key === null ? null : z.int().parse(row[names.indexOf(key)]);
}
