/** How the record is doing: whether what is measured is being kept. */
import { z } from 'zod';

const count = z.int().min(0);

export const recordStateSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('kept') }),
  /** The disk refuses; it is tried again each second. */
  z.strictObject({
    kind: z.literal('held'),
    /** Wall clock, ms: since when nothing is written. */
    sinceMs: z.number(),
    /** What the operating system or the database says, in English: for the terminal alone. */
    detail: z.string(),
    /** Readings that wait in memory. */
    waiting: count,
    /** Readings for which there was no room in memory either. */
    refused: count,
  }),
  /** The disk neither takes nor refuses: it hangs, or something large is being written. */
  z.strictObject({
    kind: z.literal('stalled'),
    /** Wall clock, ms: since when the record does not answer. */
    sinceMs: z.number(),
    waiting: count,
    refused: count,
  }),
  /** Found while it was written: what comes is kept beside it, and shown after the next start. */
  z.strictObject({
    kind: z.literal('damaged'),
    sinceMs: z.number(),
    detail: z.string(),
    file: z.string(),
  }),
  /** Found at the start: a new record has what could be read. */
  z.strictObject({
    kind: z.literal('salvaged'),
    /** Where the damaged files lie. */
    folder: z.string(),
    readings: z.strictObject({ saved: count, atLeast: count }),
    otherFacts: z.strictObject({ saved: count, atLeast: count }),
  }),
]);
export type RecordState = z.infer<typeof recordStateSchema>;
