/** A recording of another record for an empty one: number for number, link for link. */
import type Database from 'better-sqlite3';
import { z } from 'zod';
import { FACT_KINDS, type FactTableName } from './fact-tables.ts';
import { factsOf } from './facts-of.ts';
import { lastId, NUMBERED_KINDS } from './last-id.ts';
import { ReadingInserts } from './reading-inserts.ts';
import type { ReadingRun } from './reading-runs.ts';
import { RowWriter } from './row-writer.ts';
import type { Taking } from './taking.ts';

export class TakenAsItWas implements Taking {
  readonly #source: Database.Database;
  readonly #database: Database.Database;
  readonly #id: number;
  readonly #rows: RowWriter;
  readonly #readings: ReadingInserts;

  /**
   * @param reserve is told up to which number rows of the other record are to come, before anything else is written
   * @throws Error where there are readings of no recording: nothing would ever show or remove them
   */
  constructor(
    source: Database.Database,
    database: Database.Database,
    id: number,
    reserve: (kind: FactTableName, upTo: number) => void,
  ) {
    this.#source = source;
    this.#database = database;
    this.#id = id;
    this.#rows = new RowWriter(database);
    this.#readings = new ReadingInserts(database);
    for (const kind of NUMBERED_KINDS) reserve(kind, lastId(source, kind));
    const isThere = 'SELECT EXISTS (SELECT 1 FROM recording WHERE id = ?)';
    const hasAny = 'SELECT EXISTS (SELECT 1 FROM reading WHERE recording_id = ?)';
    const asked = (sql: string) => source.prepare(sql).pluck().get(id) === 1;
    if (!asked(isThere) && asked(hasAny)) throw new Error(`${id}: readings without a recording`);
  }

  readings(runs: readonly ReadingRun[]): void {
    for (const { firstIndex, packed } of runs) this.#readings.write(this.#id, firstIndex, packed);
  }

  begin(): void {
    for (const { row } of factsOf(this.#source, 'begin', this.#id)) this.#rows.add('begin', row);
  }

  rest(): void {
    for (const kind of FACT_KINDS) {
      if (kind === 'begin' || kind === 'reading') continue;
      for (const { row } of factsOf(this.#source, kind, this.#id)) this.#rows.add(kind, row);
    }
    const link = this.#database.prepare('INSERT INTO chain_link VALUES (?, ?, ?, ?)');
    const links = 'SELECT * FROM chain_link WHERE recording_id = ? ORDER BY number';
    for (const row of this.#source.prepare(links).raw().iterate(this.#id))
      link.run(...z.array(z.unknown()).parse(row));
  }
}
