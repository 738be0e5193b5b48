/** How many readings a recording had, as its numbers tell: they are given out one after another. */
import type Database from 'better-sqlite3';
import { z } from 'zod';
import { readSpans } from '../chain.ts';
import { isOfReadings } from '../fact-tables.ts';
import { readLinkNumbers } from '../link-numbers.ts';

const linkRow = z.object({ number: z.int(), facts: z.string() });
const tombstoneRow = z.object({ links: z.string(), facts: z.int() });

/**
 * Of the numbers up to the last one, without those that were deleted for good: these nobody has lost.
 * @param last the highest number that is there or told of
 */
export function readingsGiven(
  database: Database.Database,
  recordingId: number,
  last: number,
): number {
  const tombstones = z
    .array(tombstoneRow)
    .parse(
      database
        .prepare('SELECT links, facts FROM tombstone WHERE recording_id = ?')
        .all(recordingId),
    );
  if (tombstones.length === 0) return last;
  const links = z
    .array(linkRow)
    .parse(
      database
        .prepare('SELECT number, facts FROM chain_link WHERE recording_id = ? ORDER BY number')
        .all(recordingId),
    );
  // Without all links nobody can say which were deleted: no more than the tombstones say.
  const isWhole = links.every(({ number }, at) => number === at + 1) && links.length > 0;
  if (!isWhole) return Math.max(0, last - tombstones.reduce((sum, { facts }) => sum + facts, 0));
  const hasGone = tombstones.map((row) => readLinkNumbers(row.links));
  const gone = new Uint8Array(last + 1);
  const paint = (goes: boolean): void => {
    for (const { number, facts } of links) {
      if (hasGone.some((has) => has(number)) !== goes) continue;
      for (const span of (readSpans(facts) ?? []).filter(isOfReadings))
        gone.fill(goes ? 1 : 0, span.first ?? 0, (span.last ?? 0) + 1);
    }
  };
  // What shared a link with what went was taken up anew in a later one, and is not gone.
  paint(true);
  paint(false);
  return last - gone.reduce((sum, one) => sum + one, 0);
}
