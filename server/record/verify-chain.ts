/** Reckons the chain of a recording anew from its facts, and says where the two part. */
import type Database from 'better-sqlite3';
import { z } from 'zod';
import type { ChainBreak, Verified } from '../../protocol/verified.ts';
import {
  ADDED_LATER,
  type FactRow,
  factLine,
  type FactSpan,
  GOES_ON_FROM,
  linkHash,
  NO_HASH,
  readSpans,
} from './chain.ts';
import { FACT_TABLES, type FactTable, whereOf } from './fact-tables.ts';
import { readLinkNumbers } from './link-numbers.ts';

export interface Found {
  readonly verified: Verified;
  /** The link that has it, where it is one of this recording that holds. */
  readonly hashAt: number | null;
}

const linkRow = z.object({ number: z.int(), facts: z.string(), hash: z.instanceof(Uint8Array) });
const tombstoneRow = z.object({ links: z.string(), facts: z.int() });
const factRow = z.array(z.union([z.string(), z.number(), z.null()]));
const BY_LETTER = new Map<string, FactTable>(
  Object.values(FACT_TABLES).map((table) => [table.letter, table]),
);

export class ChainVerifier {
  readonly #wantedHash: string | null;
  readonly #links: Database.Statement;
  readonly #link: Database.Statement;
  readonly #tombstones: Database.Statement;
  readonly #rows = new Map<string, Database.Statement>();
  readonly #counts = new Map<string, Database.Statement>();

  /** @param wantedHash hexadecimal: which link has it is told; null where none is looked for */
  constructor(database: Database.Database, wantedHash: string | null = null) {
    this.#wantedHash = wantedHash;
    this.#links = database.prepare(
      'SELECT number, facts, hash FROM chain_link WHERE recording_id = ? ORDER BY number',
    );
    this.#link = database.prepare(
      'SELECT number, facts, hash FROM chain_link WHERE recording_id = ? AND number = ?',
    );
    this.#tombstones = database.prepare(
      'SELECT links, facts FROM tombstone WHERE recording_id = ? ORDER BY id',
    );
    for (const table of BY_LETTER.values()) {
      const of = whereOf(table);
      const between = table.key === null ? '' : ` AND ${table.key} BETWEEN ? AND ?`;
      const order = table.key === null ? '' : ` ORDER BY ${table.key}`;
      const columns = table.columns.join(', ');
      this.#rows.set(
        table.letter,
        database
          .prepare(`SELECT ${columns} FROM ${table.table} WHERE ${of}${between}${order}`)
          .raw(),
      );
      this.#counts.set(
        table.letter,
        database.prepare(`SELECT COUNT(*) FROM ${table.table} WHERE ${of}`).pluck(),
      );
    }
  }

  /** Yields after each link, so that whoever verifies a day of readings can let others have their turn. */
  *verify(recordingId: number): Generator<void, Found> {
    let before: Uint8Array = NO_HASH;
    let links = 0;
    let addedLater = 0;
    let hashAt: number | null = null;
    const counted = new Map<string, number>();
    const tombstones = this.#tombstonesOf(recordingId);
    const told = (broken: ChainBreak | null): Found => ({
      verified: {
        recordingId,
        links,
        facts: [...counted.values()].reduce((sum, count) => sum + count, 0),
        addedLater,
        deleted: tombstones.facts,
        hash: links === 0 ? '' : hexOf(before),
        broken,
      },
      hashAt,
    });
    for (const row of this.#links.iterate(recordingId)) {
      const link = linkRow.parse(row);
      const broken = (what: ChainBreak['what']) =>
        told({ what, link: link.number, where: link.facts });
      if (link.number !== links + 1) return broken('link_missing');
      if (tombstones.standFor(link.number)) {
        // Of these facts nothing but the hash is left to go on from.
        before = link.hash;
        links = link.number;
        if (hexOf(before) === this.#wantedHash) hashAt = links;
        yield;
        continue;
      }
      const spans = readSpans(link.facts);
      if (spans === null) return broken('link_unreadable');
      const isLater = spans.some(({ letter }) => letter === ADDED_LATER);
      let lines = '';
      for (const span of spans) {
        if (span.letter === ADDED_LATER) continue;
        if (span.letter === GOES_ON_FROM) {
          const from = this.#hashOf(recordingId - 1, span.first ?? 0);
          if (from === null || links > 0) return broken('goes_on_from_nothing');
          before = from;
          continue;
        }
        const rows = this.#rowsOf(recordingId, span);
        if (rows === null) return broken('link_unreadable');
        if (rows.length !== lengthOf(span)) return broken('fact_missing');
        for (const fact of rows) lines += factLine(span.letter, fact);
        counted.set(span.letter, (counted.get(span.letter) ?? 0) + rows.length);
        if (isLater) addedLater += rows.length;
      }
      if (!linkHash(before, link.facts, lines).equals(link.hash)) return broken('hash_differs');
      before = link.hash;
      links = link.number;
      if (hexOf(before) === this.#wantedHash) hashAt = links;
      yield;
    }
    for (const [letter, statement] of this.#counts) {
      const there = z.int().parse(statement.get(recordingId));
      if (there === (counted.get(letter) ?? 0)) continue;
      return told({ what: 'fact_outside', link: null, where: BY_LETTER.get(letter)?.table ?? '' });
    }
    return told(null);
  }

  #tombstonesOf(recordingId: number) {
    const rows = z.array(tombstoneRow).parse(this.#tombstones.all(recordingId));
    const links = rows.map((row) => readLinkNumbers(row.links));
    return {
      facts: rows.reduce((sum, row) => sum + row.facts, 0),
      standFor: (number: number) => links.some((has) => has(number)),
    };
  }

  #hashOf(recordingId: number, number: number): Uint8Array | null {
    const row = this.#link.get(recordingId, number);
    return row === undefined ? null : linkRow.parse(row).hash;
  }

  #rowsOf(recordingId: number, { letter, first, last }: FactSpan): FactRow[] | null {
    const statement = this.#rows.get(letter);
    const table = BY_LETTER.get(letter);
    if (statement === undefined || table === undefined) return null;
    if ((table.key === null) !== (first === null)) return null;
    const rows =
      first === null ? statement.all(recordingId) : statement.all(recordingId, first, last);
    return z.array(factRow).parse(rows);
  }
}

function hexOf(hash: Uint8Array): string {
  return Buffer.from(hash).toString('hex');
}

function lengthOf({ first, last }: FactSpan): number {
  return first === null || last === null ? 1 : last - first + 1;
}
