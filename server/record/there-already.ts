/** Whether a recording of another record is in this one. */
import type Database from 'better-sqlite3';
import { z } from 'zod';

const beginRow = z.object({ origin: z.string(), started_at_ms: z.int(), title: z.string() });

/**
 * @param hash of its last link; null where the chain was made long after the facts, and differs from copy to copy
 * @returns its number here, or null
 */
export function thereAlready(
  there: Database.Database,
  here: Database.Database,
  recordingIdThere: number,
  hash: string | null,
): number | null {
  return hash === null
    ? byFacts(there, here, recordingIdThere)
    : byHash(there, here, recordingIdThere, hash);
}

/** What it was here may have been gone on with since: then the hash is of an earlier link. */
function byHash(
  there: Database.Database,
  here: Database.Database,
  recordingIdThere: number,
  hash: string,
): number | null {
  if (hash === '') return null;
  const taken = here
    // What a file says of its hash is no proof of what is in it.
    .prepare("SELECT recording_id FROM taken_from WHERE hash = ? AND format = 'backup'")
    .pluck()
    .get(hash);
  if (taken !== undefined) return z.int().parse(taken);
  const count = there
    .prepare('SELECT MAX(number) FROM chain_link WHERE recording_id = ?')
    .pluck()
    .get(recordingIdThere);
  const same = here.prepare(
    `SELECT recording_id FROM chain_link WHERE recording_id IN (SELECT id FROM recording)
     AND number = ? AND hash = ?`,
  );
  return z
    .int()
    .nullable()
    .parse(same.pluck().get(count, Buffer.from(hash, 'hex')) ?? null);
}

/** Begun at the same millisecond, as the same, with as many readings. */
function byFacts(
  there: Database.Database,
  here: Database.Database,
  recordingIdThere: number,
): number | null {
  const { origin, started_at_ms, title } = beginRow.parse(
    there.prepare('SELECT * FROM recording WHERE id = ?').get(recordingIdThere),
  );
  const count = 'SELECT COUNT(*) FROM reading WHERE recording_id = ?';
  const readings = there.prepare(count).pluck().get(recordingIdThere);
  const alike = here
    .prepare('SELECT id FROM recording WHERE origin = ? AND started_at_ms = ? AND title = ?')
    .pluck()
    .all(origin, started_at_ms, title);
  const same = z
    .array(z.int())
    .parse(alike)
    .find((id) => here.prepare(count).pluck().get(id) === readings);
  return same ?? null;
}
