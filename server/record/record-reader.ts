/** Reads facts back out of the record. Every row is parsed on its way out of the database. */
import type Database from 'better-sqlite3';
import { z } from 'zod';
import { resultListSchema, sensorLabelListSchema } from '../../protocol/api.ts';
import type { GivenLabel, RehearsalResult } from '../../protocol/api.ts';
import { markSchema } from '../../protocol/mark.ts';
import type { Mark } from '../../protocol/mark.ts';
import {
  recordingSchema,
  sensorIdentitySchema,
  takenFromSchema,
} from '../../protocol/recording.ts';
import type { RecordedSensor, Recording, TakenFrom } from '../../protocol/recording.ts';
import { readingColumnsSchema } from '../../protocol/reading.ts';
import type { ReadingColumns } from '../../protocol/reading.ts';
import { seenAlertSchema } from '../../protocol/seen-alert.ts';
import type { SeenAlert } from '../../protocol/seen-alert.ts';
import { calibrationSchema, sensorLabelSchema } from '../../protocol/sensor-label.ts';
import type { SensorLabel } from '../../protocol/sensor-label.ts';
import { signOffSchema } from '../../protocol/sign-off.ts';
import type { SignOff } from '../../protocol/sign-off.ts';
import { sheetEntrySchema } from '../../protocol/sheet.ts';
import type { SheetEntry } from '../../protocol/sheet.ts';
import { takenBackSchema } from '../../protocol/typed-in.ts';
import type { TakenBack } from '../../protocol/typed-in.ts';

const recordingRow = z.object({
  id: z.int(),
  origin: z.string(),
  started_at_ms: z.int(),
  title: z.string(),
  ended_at_ms: z.int().nullable(),
});
const stretchRow = z.object({ fromS: z.number(), untilS: z.number().nullable() });
const takenFromRow = z.object({
  format: z.string(),
  origin: z.string(),
  recordingId: z.int(),
  startedAtMs: z.int(),
  title: z.string(),
  hash: z.string(),
  held: z.int(),
  softwareVersion: z.string(),
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

/**
 * What is known of a sensor; of one in a recording that was taken from elsewhere also what had been said of it
 * there, which nothing that is said here changes.
 */
export const keptSensorSchema = sensorIdentitySchema.extend({
  said: z
    .strictObject({
      label: sensorLabelSchema.nullable(),
      calibratedOn: z.string().max(10).nullable(),
    })
    .optional(),
});

const stampRow = z.object({
  channel: z.int(),
  boot: z.int(),
  sequence: z.int(),
  uptimeMs: z.int(),
  elapsedS: z.number(),
});
const highestRow = z.object({ channel: z.int(), boot: z.int(), highest: z.int() });
export type HighestRow = z.infer<typeof highestRow>;
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
  readonly #highestBefore: Database.Statement;
  readonly #lastRecordingId: Database.Statement;
  readonly #anyLink: Database.Statement;
  readonly #results: Database.Statement;
  readonly #labels: Database.Statement;
  readonly #labelAt: Database.Statement;
  readonly #takenBack: Database.Statement;
  readonly #seenAlerts: Database.Statement;
  readonly #marksTakenBack: Database.Statement;
  readonly #takenFrom: Database.Statement;
  readonly #anySensor: Database.Statement;
  readonly #signOffs: Database.Statement;
  readonly #calibrationAt: Database.Statement;
  readonly #recordingIds: Database.Statement;
  readonly #archivedJobs: Database.Statement;
  readonly #chainLength: Database.Statement;
  readonly #deleted: Database.Statement;

  constructor(database: Database.Database) {
    const recordings = `SELECT id, origin, started_at_ms, title,
      (SELECT ended_at_ms FROM recording_end WHERE recording_id = recording.id) AS ended_at_ms
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
      `SELECT id, kind, elapsed_s, text, made_by FROM mark WHERE recording_id = ? AND NOT EXISTS (
         SELECT 1 FROM mark_taken_back AS slip
         WHERE slip.recording_id = mark.recording_id AND slip.mark_id = mark.id
       ) ORDER BY id`,
    );
    this.#marksTakenBack = database.prepare(
      `SELECT mark.id, kind, elapsed_s, text, made_by, at_ms FROM mark_taken_back
       JOIN mark ON mark.id = mark_id
       WHERE mark_taken_back.recording_id = ? ORDER BY mark.id`,
    );
    this.#takenFrom = database.prepare(
      `SELECT format, origin, recording_id_there AS recordingId, started_at_ms AS startedAtMs, title,
         hash, held, software_version AS softwareVersion
       FROM taken_from WHERE recording_id = ?`,
    );
    this.#signOffs = database.prepare(
      `SELECT begin_mark AS beginMark, from_s AS fromS, last_s AS lastS, name, licence, remark, quoted,
         software_version AS softwareVersion, at_ms AS atMs
       FROM sign_off WHERE recording_id = ? ORDER BY id`,
    );
    this.#recordingIds = database.prepare('SELECT id FROM recording ORDER BY id').pluck();
    this.#archivedJobs = database
      .prepare(
        `SELECT begin_mark FROM job_archived WHERE archived = 1 AND id IN (
           SELECT MAX(id) FROM job_archived WHERE recording_id = ? GROUP BY begin_mark
         )`,
      )
      .pluck();
    this.#deleted = database.prepare(
      'SELECT from_s AS fromS, until_s AS untilS FROM tombstone WHERE recording_id = ? ORDER BY id',
    );
    this.#chainLength = database
      .prepare('SELECT COALESCE(MAX(number), 0) FROM chain_link WHERE recording_id = ?')
      .pluck();
    this.#anySensor = database.prepare(
      `SELECT 1 FROM sensor_label WHERE sensor_id = ?
       UNION ALL SELECT 1 FROM sensor WHERE json_extract(identity, '$.id') = ? LIMIT 1`,
    );
    this.#calibrationAt = database.prepare(
      `SELECT sensor_id AS sensorId, calibrated_on AS calibratedOn, given_at_ms AS givenAtMs
       FROM sensor_calibration WHERE sensor_id = ? AND given_at_ms <= ? ORDER BY id DESC LIMIT 1`,
    );
    this.#sheet = database.prepare(
      'SELECT elapsed_s, fields FROM sheet_entry WHERE recording_id = ? ORDER BY id',
    );
    this.#readings = database
      .prepare(
        `SELECT reading_index, channel, boot, sequence, elapsed_s, pressure_pa, temperature_c, condition
         FROM reading WHERE recording_id = ? AND reading_index > ? AND NOT EXISTS (
           SELECT 1 FROM reading_taken_back AS slip
           WHERE slip.recording_id = reading.recording_id
             AND slip.reading_index = reading.reading_index
         ) ORDER BY reading_index LIMIT ?`,
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
    this.#highestBefore = database.prepare(
      `SELECT channel, boot, MAX(sequence) AS highest FROM reading
       WHERE recording_id = ? AND reading_index <= ? GROUP BY channel, boot`,
    );
    this.#lastRecordingId = database
      // The number of one that was deleted for good is not given again, nor one of which something may be left.
      .prepare(
        `SELECT MAX((SELECT COALESCE(MAX(id), 0) FROM recording),
           (SELECT COALESCE(MAX(recording_id), 0) FROM tombstone),
           (SELECT COALESCE(MAX(recording_id), 0) FROM reading))`,
      )
      .pluck();
    this.#anyLink = database.prepare('SELECT 1 FROM chain_link LIMIT 1');
    this.#results = database.prepare(
      `SELECT recording_id AS recordingId, trainee, cause, sure_percent AS surePercent,
         elapsed_s AS elapsedS, scenario, seed, truth, told_s AS toldS,
         revealed_at_ms AS revealedAtMs
       FROM rehearsal_call AS call JOIN rehearsal_reveal AS reveal USING (recording_id)
       ORDER BY recording_id DESC`,
    );
    this.#takenBack = database.prepare(
      `SELECT reading_index AS "index", elapsed_s AS elapsedS, pressure_pa AS pressurePa,
         instead_pa AS insteadPa, at_ms AS atMs
       FROM reading_taken_back JOIN reading USING (recording_id, reading_index)
       WHERE recording_id = ? ORDER BY reading_index`,
    );
    this.#seenAlerts = database.prepare(
      `SELECT alert, until_s AS untilS, at_ms AS atMs FROM seen_alert
       WHERE recording_id = ? ORDER BY id`,
    );
    const label = `name, place, display_step_pa AS displayStepPa, given_at_ms AS givenAtMs
      FROM sensor_label`;
    this.#labels = database.prepare(
      `SELECT sensor_id AS sensorId, ${label}
       WHERE id IN (SELECT MAX(id) FROM sensor_label GROUP BY sensor_id) ORDER BY sensor_id`,
    );
    this.#labelAt = database.prepare(
      `SELECT ${label} WHERE sensor_id = ? AND given_at_ms <= ? ORDER BY id DESC LIMIT 1`,
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

  /** Neither a fact nor a hash. */
  isEmpty(): boolean {
    return this.lastRecordingId() === 0 && this.#anyLink.get() === undefined;
  }

  recordingIds(): number[] {
    return z.array(z.int()).parse(this.#recordingIds.all());
  }

  /** Numbers of the marks at which its archived jobs begin. */
  archivedJobs(recordingId: number): number[] {
    return z.array(z.int()).parse(this.#archivedJobs.all(recordingId));
  }

  /** Stretches of data time that were deleted for good. */
  deletedStretches(recordingId: number): { fromS: number; untilS: number | null }[] {
    return z.array(stretchRow).parse(this.#deleted.all(recordingId));
  }

  /** How many links its chain has. */
  chainLength(recordingId: number): number {
    return z.int().parse(this.#chainLength.get(recordingId));
  }

  lastRecordingId(): number {
    return z.int().parse(this.#lastRecordingId.get());
  }

  /** Those that hold. */
  marks(recordingId: number): Mark[] {
    return this.#marks.all(recordingId).map(asMark);
  }

  /** Those that were slips. */
  marksTakenBack(recordingId: number): Mark[] {
    return this.#marksTakenBack.all(recordingId).map(asMark);
  }

  /** The latest of a job last. */
  signOffs(recordingId: number): SignOff[] {
    return z.array(signOffSchema).parse(this.#signOffs.all(recordingId));
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

  /** Of each sensor's boots, the highest number among the readings that `latestStamps` leaves out. */
  highestBeforeStamps(recordingId: number): HighestRow[] {
    const untilIndex = this.lastIndex(recordingId) - LATEST;
    if (untilIndex <= 0) return [];
    return this.#highestBefore.all(recordingId, untilIndex).map((row) => highestRow.parse(row));
  }

  /** The latest data time of a reading, or null where there is none. */
  lastElapsedS(recordingId: number): number | null {
    return z.number().nullable().parse(this.#lastElapsed.get(recordingId));
  }

  /** Calls that were followed by a reveal, the latest first. */
  results(): RehearsalResult[] {
    return resultListSchema.parse({ results: this.#results.all() }).results;
  }

  /** The readings that were taken back, in the order in which they had been recorded. */
  takenBack(recordingId: number): TakenBack[] {
    return z.array(takenBackSchema).parse(this.#takenBack.all(recordingId));
  }

  /** The alerts that somebody has seen, in the order in which that was said. */
  seenAlerts(recordingId: number): SeenAlert[] {
    return z.array(seenAlertSchema).parse(this.#seenAlerts.all(recordingId));
  }

  /** Whether a sensor was ever heard, or anybody has said anything of it. */
  knowsSensor(sensorId: string): boolean {
    return this.#anySensor.get(sensorId, sensorId) !== undefined;
  }

  /** What was last said of each sensor. */
  labels(): GivenLabel[] {
    return sensorLabelListSchema.parse({ labels: this.#labels.all() }).labels;
  }

  /** Up to `limit` readings after the given index, in order. */
  readingsAfter(recordingId: number, afterIndex: number, limit: number): ReadingColumns {
    const rows = this.#readings.all(recordingId, afterIndex, limit);
    return readingColumnsSchema.parse(inColumns(rows, READING_COLUMNS));
  }

  #complete(row: unknown): Recording {
    const { ended_at_ms, started_at_ms, ...rest } = recordingRow.parse(row);
    const isHeard = rest.origin === 'sensor' || rest.origin === 'typed_in';
    const untilMs = ended_at_ms ?? Number.MAX_SAFE_INTEGER;
    const sensors: RecordedSensor[] = [];
    for (const sensor of z.array(sensorRow).parse(this.#sensors.all(rest.id))) {
      const { said, ...identity } = keptSensorSchema.parse(JSON.parse(sensor.identity));
      const label = isHeard ? this.#labelOf(identity.id, untilMs) : null;
      const calibratedOn = isHeard ? this.#calibrationOf(identity.id, untilMs) : null;
      sensors[sensor.channel] = { ...identity, label, calibratedOn, ...said };
    }
    return recordingSchema.parse({
      ...rest,
      startedAtMs: started_at_ms,
      sensors,
      takenFrom: this.#takenFromOf(rest.id),
      open: ended_at_ms === null,
    });
  }

  #labelOf(sensorId: string, untilMs: number): SensorLabel | null {
    return sensorLabelSchema.nullable().parse(this.#labelAt.get(sensorId, untilMs) ?? null);
  }

  #calibrationOf(sensorId: string, untilMs: number): string | null {
    const found = this.#calibrationAt.get(sensorId, untilMs);
    return found === undefined ? null : calibrationSchema.parse(found).calibratedOn;
  }

  #takenFromOf(recordingId: number): TakenFrom | null {
    const found = this.#takenFrom.get(recordingId);
    if (found === undefined) return null;
    const { held, ...rest } = takenFromRow.parse(found);
    return takenFromSchema.parse({ ...rest, held: held === 1 });
  }
}

function asMark(row: unknown): Mark {
  const { elapsed_s, made_by, ...rest } = markRow.parse(row);
  return markSchema.parse({ ...rest, elapsedS: elapsed_s, madeBy: made_by });
}

function inColumns(found: readonly unknown[], names: readonly string[]): Record<string, unknown[]> {
  const rows = z.array(z.array(z.unknown())).parse(found);
  return Object.fromEntries(names.map((name, place) => [name, rows.map((row) => row[place])]));
}
