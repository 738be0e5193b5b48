/**
 * The chain over the facts. Each commit adds to each recording that it touches a link: a hash of the link
 * before it and of the facts that were written. Whoever changes, adds or removes a fact afterwards breaks it.
 *
 * What it proves: that the facts are those from which the last hash was reckoned. A program that can write the
 * database can reckon all of it anew; so the last hash stands on the report, which is in other hands.
 *
 * Source of the hash: NIST, FIPS PUB 180-4, Secure Hash Standard, SHA-256.
 */
import { createHash } from 'node:crypto';

/** A fact as it stands in its table, column by column. */
export type FactRow = readonly (string | number | null)[];

/** Before the first link of a recording. */
export const NO_HASH = new Uint8Array(32);

/** One line a fact. JSON writes a number so that reading it gives the same number. */
export function factLine(letter: string, row: FactRow): string {
  return `${letter}${JSON.stringify(row)}\n`;
}

/** What a link is reckoned from: lines of facts, and readings as bytes. */
export type HashedPart = string | Uint8Array;

/**
 * @param before the hash of the link before it
 * @param parts its facts, in order
 */
export function linkHash(before: Uint8Array, facts: string, parts: readonly HashedPart[]): Buffer {
  const hash = createHash('sha256').update(before).update(`${facts}\n`);
  for (const part of parts) hash.update(part);
  return hash.digest();
}

/** Readings, reckoned from their packed bytes; those of older links are lines, as all else is. */
export const PACKED_READINGS = 'q';

/** Letters of what is no fact of the recording itself. */
export const GOES_ON_FROM = 'p';
export const ADDED_LATER = 'z';

/** The facts of a link as they are gathered: neighbouring readings become a span. */
export class GatheredFacts {
  readonly #parts: HashedPart[] = [];
  readonly #spans: { letter: string; first: number | null; last: number | null }[] = [];

  /** @param key null where a recording has one of it at most */
  add(letter: string, key: number | null, row: FactRow): void {
    this.#addSpan(letter, key, key, factLine(letter, row));
  }

  addReadings(firstIndex: number, lastIndex: number, bytes: Uint8Array): void {
    this.#addSpan(PACKED_READINGS, firstIndex, lastIndex, bytes);
  }

  #addSpan(letter: string, first: number | null, last: number | null, part: HashedPart): void {
    this.#parts.push(part);
    const latest = this.#spans.at(-1);
    if (latest?.letter === letter && first !== null && latest.last === first - 1)
      latest.last = last;
    else this.#spans.push({ letter, first, last });
  }

  /** Stands first: which link of the recording before it this one goes on from. */
  goesOnFrom(number: number): void {
    this.#spans.unshift({ letter: GOES_ON_FROM, first: number, last: number });
  }

  /** Stands first as well: the facts are older than the chain, or than this computer's knowledge of it. */
  addedLater(atMs: number): void {
    this.#spans.unshift({ letter: ADDED_LATER, first: atMs, last: atMs });
  }

  get parts(): readonly HashedPart[] {
    return this.#parts;
  }

  get facts(): string {
    return this.#spans.map(writeSpan).join('|');
  }
}

export interface FactSpan {
  readonly letter: string;
  /** Null where a recording has one of it at most. */
  readonly first: number | null;
  readonly last: number | null;
}

function writeSpan({ letter, first, last }: FactSpan): string {
  if (first === null) return letter;
  return first === last ? `${letter}${first}` : `${letter}${first}-${last}`;
}

const SPAN = /^([a-z])(?:(\d+)(?:-(\d+))?)?$/u;

/** @returns null where it is not the facts of a link */
export function readSpans(facts: string): FactSpan[] | null {
  const spans = facts.split('|').map((text) => {
    const found = SPAN.exec(text);
    if (found === null) return null;
    const first = found[2] === undefined ? null : Number(found[2]);
    return {
      letter: found[1] ?? '',
      first,
      last: found[3] === undefined ? first : Number(found[3]),
    };
  });
  return spans.every((span) => span !== null) ? spans : null;
}
