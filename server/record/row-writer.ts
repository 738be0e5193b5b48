/** Writes facts as whole rows of their tables. */
import type Database from 'better-sqlite3';
import type { FactRow } from './chain.ts';
import { FACT_TABLES, type FactTableName } from './fact-tables.ts';

export class RowWriter {
  readonly #database: Database.Database;
  readonly #inserts = new Map<FactTableName, Database.Statement>();

  constructor(database: Database.Database) {
    this.#database = database;
  }

  /**
   * @param row in the order of the table's columns
   * @returns the number that the database gave it, where its own was null
   */
  add(kind: FactTableName, row: FactRow): number {
    return Number(this.#insert(kind).run(...row).lastInsertRowid);
  }

  #insert(kind: FactTableName): Database.Statement {
    const known = this.#inserts.get(kind);
    if (known !== undefined) return known;
    const { table, columns } = FACT_TABLES[kind];
    const places = columns.map(() => '?').join(', ');
    const insert = this.#database.prepare(
      `INSERT INTO ${table} (${columns.join(', ')}) VALUES (${places})`,
    );
    this.#inserts.set(kind, insert);
    return insert;
  }
}
