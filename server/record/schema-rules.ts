/** What the database itself refuses, whatever the program above may try. */

/** A correction is a new fact. */
export function neverRewritten(...tables: readonly string[]): string {
  return tables
    .map(
      (table) => `
    CREATE TRIGGER ${table}_is_never_rewritten BEFORE UPDATE ON ${table}
    BEGIN SELECT RAISE(ABORT, 'a recorded fact is never rewritten'); END;`,
    )
    .join('');
}

/**
 * A fact goes only where a tombstone stands for it.
 * @param recordingId of the row to be deleted, as SQL; null: no tombstone can be for it
 * @param elapsedS its data time, as SQL; null: it goes with the whole recording, or with a job in it
 */
export function goesOnlyByTombstone(
  table: string,
  recordingId: string | null,
  elapsedS: string | null = null,
): string {
  const within =
    elapsedS === null
      ? ''
      : `AND ${elapsedS} >= from_s AND (until_s IS NULL OR ${elapsedS} < until_s)`;
  const unless =
    recordingId === null
      ? ''
      : `WHEN NOT EXISTS (SELECT 1 FROM tombstone WHERE recording_id = ${recordingId} ${within})`;
  return `
    CREATE TRIGGER ${table}_goes_only_by_tombstone BEFORE DELETE ON ${table} ${unless}
    BEGIN SELECT RAISE(ABORT, 'a recorded fact is never deleted without a tombstone'); END;`;
}
