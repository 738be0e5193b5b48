/** What became of a backup's recordings when it was restored. */
import { z } from 'zod';
import { ORIGINS } from './recording.ts';

const OUTCOMES = [
  /** Into an empty record: with its numbers and its hashes. */
  'as_it_was',
  /** To those that were there: with a number of its own, and the fact of where it was taken from. */
  'added',
  /** Left out. */
  'there_already',
  /** Not restored: the detail says why. */
  'refused',
] as const;

const restoredRecordingSchema = z.strictObject({
  outcome: z.enum(OUTCOMES),
  /** Its number in the backup. */
  recordingIdThere: z.int().min(1),
  /** Its number in this record; null where it is not there. */
  recordingId: z.int().min(1).nullable(),
  origin: z.enum(ORIGINS),
  startedAtMs: z.int(),
  title: z.string(),
  /** Whether its chain of hashes holds in the backup. */
  held: z.boolean(),
  /** Why it was refused; empty otherwise. */
  detail: z.string(),
});
export type RestoredRecording = z.infer<typeof restoredRecordingSchema>;

/** Answers POST /api/restore. */
export const restoredSchema = z.strictObject({ recordings: z.array(restoredRecordingSchema) });
export type Restored = z.infer<typeof restoredSchema>;

/** POST /api/restore takes a file of up to this size. */
export const MOST_BACKUP_BYTES = 8 * 2 ** 30;

/** What a record's copy is, as HTTP says it. */
export const RECORD_MEDIA_TYPE = 'application/vnd.sqlite3';
