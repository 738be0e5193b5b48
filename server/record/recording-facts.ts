/** A recording's facts as they were recorded, also those that hold no more: for who takes all of them away. */
import type Database from 'better-sqlite3';
import { z } from 'zod';
import { type Call, callSchema, type KeptReveal, resultListSchema } from '../../protocol/api.ts';
import { markSchema } from '../../protocol/mark.ts';
import { type ReceivedColumns, receivedColumnsSchema } from '../../protocol/reading.ts';
import { READING_COLUMN_NAMES, recordedReadingSchema } from '../../protocol/recording-json.ts';
import type {
  ColumnValue,
  RecordedReading,
  RecordingJsonHead,
} from '../../protocol/recording-json.ts';

const AT_A_TIME = 5000;

const COLUMNS: Readonly<Record<keyof RecordedReading, string>> = {
  index: 'reading_index',
  channel: 'channel',
  boot: 'boot',
  sequence: 'sequence',
  uptimeMs: 'uptime_ms',
  arrivedS: 'arrived_s',
  elapsedS: 'elapsed_s',
  pressurePa: 'pressure_pa',
  temperatureC: 'temperature_c',
  condition: 'condition',
};

const columnRows = z.array(z.tuple([z.int(), z.union([z.string(), z.number(), z.null()])]));
const slipSchema = markSchema.extend({ atMs: z.int() });
const keptRevealSchema = resultListSchema.shape.results.element.pick({
  scenario: true,
  seed: true,
  truth: true,
  toldS: true,
  revealedAtMs: true,
});

export class RecordingFacts {
  readonly #database: Database.Database;
  readonly #columns = new Map<keyof RecordedReading, Database.Statement>();
  readonly #readings: Database.Statement;
  readonly #marksTakenBack: Database.Statement;
  readonly #call: Database.Statement;
  readonly #reveal: Database.Statement;

  constructor(database: Database.Database) {
    this.#database = database;
    this.#readings = database.prepare(
      `SELECT reading_index AS "index", channel, boot, sequence, uptime_ms AS uptimeMs,
         arrived_s AS arrivedS, elapsed_s AS elapsedS, pressure_pa AS pressurePa,
         temperature_c AS temperatureC, condition
       FROM reading WHERE recording_id = ? AND reading_index > ? ORDER BY reading_index LIMIT ?`,
    );
    this.#marksTakenBack = database.prepare(
      `SELECT mark.id, kind, elapsed_s AS elapsedS, text, made_by AS madeBy, at_ms AS atMs
       FROM mark_taken_back JOIN mark ON mark.id = mark_id
       WHERE mark_taken_back.recording_id = ? ORDER BY mark.id`,
    );
    this.#call = database.prepare(
      `SELECT trainee, cause, sure_percent AS surePercent, elapsed_s AS elapsedS FROM rehearsal_call
       WHERE recording_id = ?`,
    );
    this.#reveal = database.prepare(
      `SELECT scenario, seed, truth, told_s AS toldS, revealed_at_ms AS revealedAtMs
       FROM rehearsal_reveal WHERE recording_id = ?`,
    );
  }

  /** Up to `limit` readings after the given index, in order; those that were taken back among them. */
  readingsAfter(recordingId: number, afterIndex: number, limit: number): RecordedReading[] {
    return z.array(recordedReadingSchema).parse(this.#readings.all(recordingId, afterIndex, limit));
  }

  /** The same as columns. */
  columnsAfter(recordingId: number, afterIndex: number, limit: number): ReceivedColumns {
    const readings = this.readingsAfter(recordingId, afterIndex, limit);
    return receivedColumnsSchema.parse(
      Object.fromEntries(
        READING_COLUMN_NAMES.map((name) => [name, readings.map((reading) => reading[name])]),
      ),
    );
  }

  /** One thing that every reading has, up to a reading, a few thousand values at a time. */
  *column(
    recordingId: number,
    name: keyof RecordedReading,
    untilIndex: number,
  ): Generator<ColumnValue[]> {
    const statement = this.#columns.get(name) ?? this.#prepareColumn(name);
    for (let after = 0; ;) {
      const rows = columnRows.parse(statement.all(recordingId, after, untilIndex));
      const last = rows.at(-1);
      if (last === undefined) return;
      [after] = last;
      yield rows.map(([, value]) => value);
    }
  }

  #prepareColumn(name: keyof RecordedReading): Database.Statement {
    const statement = this.#database
      .prepare(
        `SELECT reading_index, ${COLUMNS[name]} FROM reading WHERE recording_id = ?
         AND reading_index > ? AND reading_index <= ? ORDER BY reading_index LIMIT ${AT_A_TIME}`,
      )
      .raw();
    this.#columns.set(name, statement);
    return statement;
  }

  marksTakenBack(recordingId: number): RecordingJsonHead['marksTakenBack'] {
    return z.array(slipSchema).parse(this.#marksTakenBack.all(recordingId));
  }

  /** What was said of a rehearsal's cause, and what it was. */
  rehearsed(recordingId: number): {
    readonly call: Call | null;
    readonly reveal: KeptReveal | null;
  } {
    return {
      call: callSchema.nullable().parse(this.#call.get(recordingId) ?? null),
      reveal: keptRevealSchema.nullable().parse(this.#reveal.get(recordingId) ?? null),
    };
  }
}
