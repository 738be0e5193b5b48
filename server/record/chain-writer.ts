/** Adds to the chain what a commit writes, within that same commit. */
import type Database from 'better-sqlite3';
import { z } from 'zod';
import { type FactRow, GatheredFacts, linkHash, NO_HASH } from './chain.ts';
import { FACT_TABLES, type FactTableName } from './fact-tables.ts';
import { bytesOf, countOf, type PackedReadings } from './packed-readings.ts';

interface Head {
  readonly number: number;
  readonly hash: Uint8Array;
}

const headRow = z.object({ number: z.int(), hash: z.instanceof(Uint8Array) });

/** A link that no row stands for yet. */
export interface NewLink extends Head {
  readonly recordingId: number;
  readonly facts: string;
}

const INSERT = 'INSERT INTO chain_link VALUES (?, ?, ?, ?)';

export class ChainWriter {
  readonly #keep: (link: NewLink) => void;
  readonly #head: Database.Statement;
  readonly #heads = new Map<number, Head>();
  readonly #gathered = new Map<number, GatheredFacts>();

  /** @param keep where its links go, if they are not written at once */
  constructor(database: Database.Database, keep?: (link: NewLink) => void) {
    const insert = database.prepare(INSERT);
    this.#keep =
      keep ??
      (({ recordingId, number, facts, hash }) => insert.run(recordingId, number, facts, hash));
    this.#head = database.prepare(
      'SELECT number, hash FROM chain_link WHERE recording_id = ? ORDER BY number DESC LIMIT 1',
    );
  }

  /** @param row in the order of the table's columns */
  add(kind: FactTableName, recordingId: number, key: number | null, row: FactRow): void {
    this.#of(recordingId).add(FACT_TABLES[kind].letter, key, row);
  }

  /** Neighbours, in order. */
  addReadings(recordingId: number, firstIndex: number, packed: PackedReadings): void {
    const lastIndex = firstIndex + countOf(packed) - 1;
    this.#of(recordingId).addReadings(firstIndex, lastIndex, bytesOf(packed));
  }

  /**
   * Before the commit: a link for each recording that something was written of.
   * @param laterMs wall clock, where the facts had been recorded before: it stands in the link
   */
  seal(laterMs: number | null = null): void {
    for (const [recordingId, gathered] of this.#gathered) {
      if (laterMs !== null) gathered.addedLater(laterMs);
      const before = this.#headOf(recordingId) ?? this.#anchor(recordingId, gathered);
      const { facts, parts } = gathered;
      const link = { number: before.number + 1, hash: linkHash(before.hash, facts, parts) };
      this.#keep({ ...link, recordingId, facts });
      this.#heads.set(recordingId, link);
    }
    this.#gathered.clear();
  }

  /** The commit failed: nothing of it is there. */
  forget(): void {
    this.#gathered.clear();
    this.#heads.clear();
  }

  #of(recordingId: number): GatheredFacts {
    let gathered = this.#gathered.get(recordingId);
    if (gathered === undefined) {
      gathered = new GatheredFacts();
      this.#gathered.set(recordingId, gathered);
    }
    return gathered;
  }

  #headOf(recordingId: number): Head | null {
    const known = this.#heads.get(recordingId);
    if (known !== undefined) return known;
    const row = this.#head.get(recordingId);
    return row === undefined ? null : headRow.parse(row);
  }

  /**
   * The chain of a recording goes on from the one before it, as far as that has come: so no recording can be
   * taken out or put in between unseen.
   */
  #anchor(recordingId: number, gathered: GatheredFacts): Head {
    const before = this.#headOf(recordingId - 1);
    if (before === null) return { number: 0, hash: NO_HASH };
    gathered.goesOnFrom(before.number);
    return { number: 0, hash: before.hash };
  }
}

/** Those that were kept back. */
export function insertLinks(database: Database.Database, links: readonly NewLink[]): void {
  const insert = database.prepare(INSERT);
  for (const { recordingId, number, facts, hash } of links)
    insert.run(recordingId, number, facts, hash);
}
