/** The highest number that a row of a table has, of those that the database numbers itself. */
import type Database from 'better-sqlite3';
import { z } from 'zod';
import { FACT_KINDS, FACT_TABLES, type FactTableName } from './fact-tables.ts';

export const NUMBERED_KINDS = FACT_KINDS.filter((kind) => FACT_TABLES[kind].key === 'id');

/** 0 where there is none. */
export function lastId(database: Database.Database, kind: FactTableName): number {
  const sql = `SELECT COALESCE(MAX(id), 0) FROM ${FACT_TABLES[kind].table}`;
  return z.int().parse(database.prepare(sql).pluck().get());
}
