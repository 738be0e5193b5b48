/** Reads facts back out of the record. Every row is parsed on its way out of the database. */
import type Database from 'better-sqlite3';
import { z } from 'zod';
import { resultListSchema } from '../../protocol/api.ts';
import type { RehearsalResult } from '../../protocol/api.ts';
import { markSchema } from '../../protocol/mark.ts';
import type { Mark } from '../../protocol/mark.ts';
import { readingColumnsSchema } from '../../protocol/reading.ts';
import type { ReadingColumns } from '../../protocol/reading.ts';
import { recordingSchema, sensorIdentitySchema } from '../../protocol/recording.ts';
import type { Recording } from '../../protocol/recording.ts';
import { sheetEntrySchema } from '../../protocol/sheet.ts';
import type { SheetEntry } from '../../protocol/sheet.ts';

const recordingRow = z.object({
  id: z.int(),
  origin: z.string(),
  started_at_ms: z.int(),
  title: z.string(),
  ended: z.int(),
});
const sensorRow = z.object({ channel: z.int(), identity: z.string() });
const markRow = z.object({
  id: z.int(),
  kind: z.string(),
  elapsed_s: z.number(),
  text: z.string(),
  made_by: z.string(),
});
const sheetRow = z.object({ elapsed_s: z.number(), fields: z.string() });
/** A whole chunk at a time: rows as arrays in the order of the columns below. */
const READING_COLUMNS = [
  'index',
  'channel',
  'boot',
  'sequence',
  'elapsedS',
  'pressurePa',
  'temperatureC',
  'condition',
] as const;

const stampRow = z.object({
  channel: z.int(),
  boot: z.int(),
  sequence: z.int(),
  uptimeMs: z.int(),
  elapsedS: z.number(),
});
export type StampRow = z.infer<typeof stampRow>;
/** An hour of eight sensors, one reading a second each, or of one at 8 Hz; sensors rarely keep more. */
const LATEST = 30_000;

export class RecordReader {
  readonly #recordings: Database.Statement;
  readonly #openRecordings: Database.Statement;
  readonly #recording: Database.Statement;
  readonly #sensors: Database.Statement;
  readonly #marks: Database.Statement;
  readonly #sheet: Database.Statement;
  readonly #readings: Database.Statement;
  readonly #lastIndex: Database.Statement;
  readonly #lastElapsed: Database.Statement;
  readonly #stamps: Database.Statement;
  readonly #lastRecordingId: Database.Statement;
  readonly #results: Database.Statement;

  constructor(database: Database.Database) {
    const recordings = `SELECT id, origin, started_at_ms, title,
      EXISTS (SELECT 1 FROM recording_end WHERE recording_id = recording.id) AS ended
      FROM recording`;
    this.#recordings = database.prepare(`${recordings} ORDER BY id DESC LIMIT ?`);
    this.#openRecordings = database.prepare(
      `${recordings} WHERE id NOT IN (SELECT recording_id FROM recording_end) ORDER BY id`,
    );
    this.#recording = database.prepare(`${recordings} WHERE id = ?`);
    this.#sensors = database.prepare(
      'SELECT channel, identity FROM sensor WHERE recording_id = ? ORDER BY channel, id',
    );
    this.#marks = database.prepare(
      'SELECT id, kind, elapsed_s, text, made_by FROM mark WHERE recording_id = ? ORDER BY id',
    );
    this.#sheet = database.prepare(
      'SELECT elapsed_s, fields FROM sheet_entry WHERE recording_id = ? ORDER BY id',
    );
    this.#readings = database
      .prepare(
        `SELECT reading_index, channel, boot, sequence, elapsed_s, pressure_pa, temperature_c, condition
         FROM reading WHERE recording_id = ? AND reading_index > ? ORDER BY reading_index LIMIT ?`,
      )
      .raw();
    this.#lastIndex = database
      .prepare('SELECT COALESCE(MAX(reading_index), 0) FROM reading WHERE recording_id = ?')
      .pluck();
    this.#lastElapsed = database
      // The last one taken may have been fetched, and lie before others.
      .prepare(
        `SELECT MAX(elapsed_s) FROM (SELECT elapsed_s FROM reading WHERE recording_id = ?
         ORDER BY reading_index DESC LIMIT ${LATEST})`,
      )
      .pluck();
    this.#stamps = database.prepare(
      `SELECT channel, boot, sequence, uptime_ms AS uptimeMs, elapsed_s AS elapsedS FROM reading
       WHERE recording_id = ? ORDER BY reading_index DESC LIMIT ${LATEST}`,
    );
    this.#lastRecordingId = database.prepare('SELECT COALESCE(MAX(id), 0) FROM recording').pluck();
    this.#results = database.prepare(
      `SELECT recording_id AS recordingId, trainee, cause, sure_percent AS surePercent,
         elapsed_s AS elapsedS, scenario, seed, truth, told_s AS toldS,
         revealed_at_ms AS revealedAtMs
       FROM rehearsal_call AS call JOIN rehearsal_reveal AS reveal USING (recording_id)
       ORDER BY recording_id DESC`,
    );
  }

  /** The latest recordings first. */
  recordings(limit: number): Recording[] {
    return this.#recordings.all(limit).map((row) => this.#complete(row));
  }

  /** Those that can still grow, the latest last, however many have ended since one began. */
  openRecordings(): Recording[] {
    return this.#openRecordings.all().map((row) => this.#complete(row));
  }

  recording(recordingId: number): Recording | null {
    const row = this.#recording.get(recordingId);
    return row === undefined ? null : this.#complete(row);
  }

  lastRecordingId(): number {
    return z.int().parse(this.#lastRecordingId.get());
  }

  marks(recordingId: number): Mark[] {
    return this.#marks.all(recordingId).map((row) => {
      const { elapsed_s, made_by, ...rest } = markRow.parse(row);
      return markSchema.parse({ ...rest, elapsedS: elapsed_s, madeBy: made_by });
    });
  }

  sheet(recordingId: number): SheetEntry[] {
    return this.#sheet.all(recordingId).map((row) => {
      const { elapsed_s, fields } = sheetRow.parse(row);
      const entered: unknown = JSON.parse(fields);
      return sheetEntrySchema.parse({ elapsedS: elapsed_s, fields: entered });
    });
  }

  /** The index of the last reading, 0 where there is none. */
  lastIndex(recordingId: number): number {
    return z.int().parse(this.#lastIndex.get(recordingId));
  }

  /** The places of the latest readings taken, the latest first. */
  latestStamps(recordingId: number): StampRow[] {
    return this.#stamps.all(recordingId).map((row) => stampRow.parse(row));
  }

  /** The latest data time of a reading, or null where there is none. */
  lastElapsedS(recordingId: number): number | null {
    return z
      .number()
      .optional()
      .transform((value) => value ?? null)
      .parse(this.#lastElapsed.get(recordingId));
  }

  /** Calls that were followed by a reveal, the latest first. */
  results(): RehearsalResult[] {
    return resultListSchema.parse({ results: this.#results.all() }).results;
  }

  /** Up to `limit` readings after the given index, in order. */
  readingsAfter(recordingId: number, afterIndex: number, limit: number): ReadingColumns {
    const rows = z
      .array(z.array(z.unknown()))
      .parse(this.#readings.all(recordingId, afterIndex, limit));
    return readingColumnsSchema.parse(
      Object.fromEntries(
        READING_COLUMNS.map((name, place) => [name, rows.map((row) => row[place])]),
      ),
    );
  }

  #complete(row: unknown): Recording {
    const { ended, started_at_ms, ...rest } = recordingRow.parse(row);
    const sensors: unknown[] = [];
    for (const sensor of z.array(sensorRow).parse(this.#sensors.all(rest.id))) {
      sensors[sensor.channel] = sensorIdentitySchema.parse(JSON.parse(sensor.identity));
    }
    return recordingSchema.parse({
      ...rest,
      startedAtMs: started_at_ms,
      sensors,
      open: ended === 0,
    });
  }
}
