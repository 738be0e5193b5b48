/**
 * The chain over what was saved: of each recording it is kept as far as it leads to facts that are there and
 * unchanged; what comes after is taken up anew and says that it was added later.
 */
import type Database from 'better-sqlite3';
import { z } from 'zod';
import type { Verified } from '../../../protocol/verified.ts';
import { type FactSpan, readSpans } from '../chain.ts';
import { ChainWriter } from '../chain-writer.ts';
import { FACT_TABLES, type FactTableName, isOfReadings } from '../fact-tables.ts';
import { readLinkNumbers } from '../link-numbers.ts';
import { linkFactsOf } from '../link-earlier-facts.ts';
import { ChainVerifier } from '../verify-chain.ts';

const linkRow = z.object({ number: z.int(), facts: z.string() });

export class ChainMender {
  readonly #database: Database.Database;
  readonly #verifier: ChainVerifier;
  readonly #writer: ChainWriter;
  readonly #nowMs: number;

  /** @param nowMs wall clock: stands in each link that is added */
  constructor(database: Database.Database, nowMs: number) {
    this.#database = database;
    this.#verifier = new ChainVerifier(database);
    this.#writer = new ChainWriter(database);
    this.#nowMs = nowMs;
  }

  /**
   * In the order of their numbers, since the chain of one goes on from the one before it.
   * @param whereBroken may add to its facts what there is to say of it
   */
  mend(recordingId: number, whereBroken: () => void): void {
    const { broken, links } = this.#verified(recordingId);
    if (broken === null) return;
    whereBroken();
    this.#database
      .prepare('DELETE FROM chain_link WHERE recording_id = ? AND number > ?')
      .run(recordingId, links);
    const linked = this.#spansOf(recordingId);
    linkFactsOf(this.#database, this.#writer, recordingId, this.#nowMs, (kind, key) =>
      linked.some((span) => covers(span, kind, key)),
    );
  }

  #verified(recordingId: number): Verified {
    const steps = this.#verifier.verify(recordingId);
    for (;;) {
      const step = steps.next();
      if (step.done === true) return step.value.verified;
    }
  }

  /** Neighbouring readings as one: a long recording has a link for each quarter of a second. */
  #spansOf(recordingId: number): FactSpan[] {
    const spans: FactSpan[] = [];
    for (const { letter, first, last } of toldSpans(this.#database, recordingId)) {
      const latest = spans.at(-1);
      if (latest?.letter === letter && first !== null && latest.last === first - 1)
        spans.splice(-1, 1, { letter, first: latest.first, last });
      else spans.push({ letter, first, last });
    }
    return spans;
  }
}

/** What the links of a recording that are there say that it has, but for what was deleted for good. */
export function* toldSpans(database: Database.Database, recordingId: number): Generator<FactSpan> {
  const links = database.prepare(
    'SELECT number, facts FROM chain_link WHERE recording_id = ? ORDER BY number',
  );
  const deleted = z
    .array(z.string())
    .parse(
      database
        .prepare('SELECT links FROM tombstone WHERE recording_id = ?')
        .pluck()
        .all(recordingId),
    )
    .map(readLinkNumbers);
  for (const { number, facts } of z.array(linkRow).parse(links.all(recordingId))) {
    if (!deleted.some((has) => has(number))) yield* readSpans(facts) ?? [];
  }
}

export function isOfKind(span: FactSpan, kind: FactTableName): boolean {
  return kind === 'reading' ? isOfReadings(span) : span.letter === FACT_TABLES[kind].letter;
}

function covers(span: FactSpan, kind: FactTableName, key: number | null): boolean {
  if (!isOfKind(span, kind)) return false;
  if (key === null || span.first === null || span.last === null) return true;
  return key >= span.first && key <= span.last;
}
