/**
 * The stream: JSON text messages over one WebSocket.
 *
 * The bridge greets. The screen says which recording it follows and the last index that it has.
 * The bridge sends the missing part as columns, a chunk for each credit, then what happens live.
 * A screen that loses the connection says the same again and misses nothing.
 */
import { z } from 'zod';
import { markSchema } from './mark.ts';
import { officeStateSchema } from './office-state.ts';
import { readingColumnsSchema } from './reading.ts';
import { recordStateSchema } from './record-state.ts';
import { recordingSchema } from './recording.ts';
import { seenAlertSchema } from './seen-alert.ts';
import { sheetEntrySchema } from './sheet.ts';
import { sourceStateSchema } from './source-state.ts';
import { takenBackSchema } from './typed-in.ts';

/** Raised whenever a message changes its meaning; a screen of another version reloads itself. */
export const STREAM_VERSION = 8;

/** What the bridge runs on: where Bluetooth is switched on and allowed differs. */
const PLATFORMS = ['linux', 'macos', 'windows', 'other'] as const;
export type Platform = (typeof PLATFORMS)[number];

/** What a greeting of any version has: enough to see that it is another one. */
export const greetingSchema = z.looseObject({ type: z.literal('hello'), streamVersion: z.int() });

/** The bridge says at least this often that it is there; a screen that hears less calls it lost. */
export const TICK_INTERVAL_MS = 2000;

const recordingId = z.int().min(1);

export const serverMessageSchema = z.discriminatedUnion('type', [
  z.strictObject({
    type: z.literal('hello'),
    streamVersion: z.int(),
    softwareVersion: z.string(),
    platform: z.enum(PLATFORMS),
    /** Recordings that can still grow, the latest last; before them the latest that has ended, if any. */
    recordings: z.array(recordingSchema),
    sources: z.array(sourceStateSchema),
  }),
  /** A recording began, ended, heard another sensor, or one of its sensors was named. */
  z.strictObject({ type: z.literal('recording'), recording: recordingSchema }),
  z.strictObject({ type: z.literal('source'), source: sourceStateSchema }),
  /** Whether what is measured is being kept; follows each greeting, and comes with each change. */
  z.strictObject({ type: z.literal('record'), record: recordStateSchema }),
  /** Whether the office of several vans is reached; the same. */
  z.strictObject({ type: z.literal('office'), office: officeStateSchema }),
  /** Marks, sheet, what was taken back and what was seen of the followed recording, whole, before the first chunk. */
  z.strictObject({
    type: z.literal('facts'),
    recordingId,
    marks: z.array(markSchema),
    sheet: z.array(sheetEntrySchema),
    takenBack: z.array(takenBackSchema),
    seenAlerts: z.array(seenAlertSchema),
  }),
  /** A part of what the screen missed. `complete`: nothing is missing any more, live from here. */
  z.strictObject({
    type: z.literal('backfill'),
    recordingId,
    columns: readingColumnsSchema,
    complete: z.boolean(),
  }),
  z.strictObject({ type: z.literal('readings'), recordingId, columns: readingColumnsSchema }),
  z.strictObject({ type: z.literal('mark'), recordingId, mark: markSchema }),
  /** A mark was a slip and counts no more. */
  z.strictObject({ type: z.literal('mark_taken_back'), recordingId, markId: z.int().min(1) }),
  z.strictObject({ type: z.literal('sheet'), recordingId, entry: sheetEntrySchema }),
  /** A job of it was deleted for good. */
  z.strictObject({ type: z.literal('job_deleted'), recordingId }),
  /** A typed-in reading was a slip. */
  z.strictObject({ type: z.literal('taken_back'), recordingId, reading: takenBackSchema }),
  /** Somebody has seen an alert, on this page or on another. */
  z.strictObject({ type: z.literal('seen_alert'), recordingId, seen: seenAlertSchema }),
  /** Nothing new, but the bridge is there. */
  z.strictObject({ type: z.literal('tick') }),
]);
export type ServerMessage = z.infer<typeof serverMessageSchema>;

export const clientMessageSchema = z.discriminatedUnion('type', [
  /** Follow this recording; `afterIndex` is the last index that the screen has, 0 for none. */
  z.strictObject({ type: z.literal('follow'), recordingId, afterIndex: z.int().min(0) }),
  /** The last chunk is digested: send the next. */
  z.strictObject({ type: z.literal('more'), recordingId }),
]);
export type ClientMessage = z.infer<typeof clientMessageSchema>;

/** What the record says once it is safely on the disk; the stream passes it on as it is. */
export type RecordMessage = Extract<
  ServerMessage,
  {
    type:
      | 'recording'
      | 'readings'
      | 'mark'
      | 'mark_taken_back'
      | 'job_deleted'
      | 'sheet'
      | 'taken_back'
      | 'seen_alert';
  }
>;
