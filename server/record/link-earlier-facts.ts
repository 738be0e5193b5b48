/** Takes up into the chain what was recorded before there was one. */
import type Database from 'better-sqlite3';
import { z } from 'zod';
import { ChainWriter } from './chain-writer.ts';
import {
  FACT_KINDS,
  FACT_TABLES,
  type FactTableName,
  OF_NO_RECORDING,
  whereOf,
} from './fact-tables.ts';

/** Readings in a link: few links for a long recording, and none that fills the memory. */
const MOST_IN_A_LINK = 5000;

const factRow = z.array(z.union([z.string(), z.number(), z.null()]));

/** Within the transaction that made the chain's table. @param nowMs stands in each link: it came later */
export function linkEarlierFacts(database: Database.Database, nowMs: number): void {
  const ids = z
    .array(z.int())
    .parse(database.prepare('SELECT id FROM recording ORDER BY id').pluck().all());
  const chain = new ChainWriter(database);
  for (const recordingId of [OF_NO_RECORDING, ...ids])
    linkFactsOf(database, chain, recordingId, nowMs, () => false);
}

/** @param isLinked which facts the chain has already: what stands in its links goes before what is added */
export function linkFactsOf(
  database: Database.Database,
  chain: ChainWriter,
  recordingId: number,
  nowMs: number,
  isLinked: (kind: FactTableName, key: number | null) => boolean,
): void {
  let inLink = 0;
  for (const kind of FACT_KINDS) {
    for (const { key, row } of factsOf(database, kind, recordingId)) {
      if (isLinked(kind, key)) continue;
      chain.add(kind, recordingId, key, row);
      inLink += 1;
      if (inLink < MOST_IN_A_LINK) continue;
      chain.seal(nowMs);
      inLink = 0;
    }
  }
  chain.seal(nowMs);
}

/** In order, so many at a time: a day of readings is millions. */
function* factsOf(database: Database.Database, kind: FactTableName, recordingId: number) {
  const table = FACT_TABLES[kind];
  const { columns, key } = table;
  const from = `SELECT ${columns.join(', ')} FROM ${table.table} WHERE ${whereOf(table)}`;
  if (key === null) {
    for (const found of database.prepare(from).raw().all(recordingId)) {
      yield { key: null, row: factRow.parse(found) };
    }
    return;
  }
  const next = database.prepare(`${from} AND ${key} > ? ORDER BY ${key} LIMIT ${MOST_IN_A_LINK}`);
  const names: readonly string[] = columns;
  const place = names.indexOf(key);
  for (let after = 0; ;) {
    const rows = z.array(factRow).parse(next.raw().all(recordingId, after));
    for (const row of rows) {
      after = z.int().parse(row[place]);
      yield { key: after, row };
    }
    if (rows.length === 0) return;
  }
}
