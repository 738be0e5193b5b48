/** Writes facts into an open database and says what the stream should tell of each. */
import type Database from 'better-sqlite3';
import { jobOf, jobsIn, WHOLE_JOB } from '../../protocol/job.ts';
import type { PreparedSheet } from '../../protocol/prepared-sheet.ts';
import type { SheetEntry } from '../../protocol/sheet.ts';
import type { RecordMessage } from '../../protocol/stream.ts';
import { alreadyMarked } from './already-marked.ts';
import type { FactRow } from './chain.ts';
import { ChainWriter } from './chain-writer.ts';
import { deleteJob, deletePrepared, preparedFor } from './delete-job.ts';
import { DeletedStretches } from './deleted-stretches.ts';
import { FACT_TABLES, type FactTableName, OF_NO_RECORDING } from './fact-tables.ts';
import { lastId } from './last-id.ts';
import { countOf } from './packed-readings.ts';
import { ReadingInserts } from './reading-inserts.ts';
import { fieldsTakenOver, whyNotKept, whyNotWaiting } from './prepared-rules.ts';
import { PreparedSheets } from './prepared-sheets.ts';
import { RecordReader } from './record-reader.ts';
import type { Declined, Fact, WrittenReadings } from './writer-messages.ts';

/** Readings are many, and have a way of their own. */
type OneByOne = Exclude<FactTableName, 'reading'>;
type FactOf<Kind extends Fact['kind']> = Extract<Fact, { kind: Kind }>;

export class FactWriter {
  readonly #reader: RecordReader;
  readonly #prepared: PreparedSheets;
  readonly #inserts: Readonly<Record<OneByOne, Database.Statement>>;
  readonly #readings: ReadingInserts;
  readonly #chain: ChainWriter;
  readonly #database: Database.Database;
  readonly #deleted: DeletedStretches;
  /** Last index given out, per recording: saves a query for each batch. */
  readonly #lastIndex = new Map<number, number>();
  /** Numbers up to which rows of another record are still to come, per kind. */
  readonly #reserved = new Map<FactTableName, number>();
  /** When somebody last pressed for a mark, per recording, ms by this computer's steady clock. */
  readonly #pressedMs = new Map<number, number>();

  constructor(database: Database.Database) {
    this.#database = database;
    this.#deleted = new DeletedStretches(database);
    this.#reader = new RecordReader(database);
    this.#prepared = new PreparedSheets(database);
    this.#chain = new ChainWriter(database);
    this.#readings = new ReadingInserts(database);
    const insert = (kind: OneByOne) => database.prepare(insertInto(kind));
    this.#inserts = {
      begin: insert('begin'),
      end: insert('end'),
      sensor: insert('sensor'),
      mark: insert('mark'),
      sheet: insert('sheet'),
      call: insert('call'),
      reveal: insert('reveal'),
      label: insert('label'),
      take_back: insert('take_back'),
      seen_alert: insert('seen_alert'),
      mark_taken_back: insert('mark_taken_back'),
      archived: insert('archived'),
      sign_off: insert('sign_off'),
      calibration: insert('calibration'),
      prepared: insert('prepared'),
      taken_from: insert('taken_from'),
      tombstone: insert('tombstone'),
    };
  }

  /** Forgets what was given out in a transaction that failed. */
  forget(): void {
    this.#lastIndex.clear();
    this.#deleted.forget();
    this.#chain.forget();
  }

  /** What is written meanwhile is numbered beyond the rows of a record that comes number for number. */
  reserve(kind: FactTableName, upTo: number): void {
    this.#reserved.set(kind, Math.max(upTo, this.#reserved.get(kind) ?? 0));
  }

  /** The last thing in a transaction: adds what it wrote to the chain. */
  seal(): void {
    this.#chain.seal();
  }

  /** @returns what the stream should say of it; null: nothing, the answer goes to who asked */
  write(fact: Fact): RecordMessage | WrittenReadings | Declined | null {
    switch (fact.kind) {
      case 'begin': {
        const { recordingId, origin, startedAtMs, title } = fact;
        this.#add('begin', recordingId, [recordingId, origin, startedAtMs, title]);
        return this.#recording(recordingId);
      }
      case 'end':
        this.#add('end', fact.recordingId, [fact.recordingId, fact.endedAtMs]);
        return this.#recording(fact.recordingId);
      case 'sensor': {
        const { recordingId, channel, identity } = fact;
        this.#addNext('sensor', recordingId, [recordingId, channel, JSON.stringify(identity)]);
        return this.#recording(recordingId);
      }
      case 'readings':
        return this.#writeReadings(fact);
      case 'mark':
        return this.#writeMark(fact);
      case 'sheet':
        return this.#writeEntry(fact.recordingId, fact.entry);
      case 'call': {
        const { recordingId, call } = fact;
        const { trainee, cause, surePercent, elapsedS } = call;
        this.#add('call', recordingId, [recordingId, trainee, cause, surePercent, elapsedS]);
        return null;
      }
      case 'reveal': {
        const { recordingId, reveal } = fact;
        const { scenario, seed, truth, toldS, revealedAtMs } = reveal;
        const row = [recordingId, scenario, seed, truth, toldS, revealedAtMs];
        this.#add('reveal', recordingId, row);
        return null;
      }
      case 'label': {
        const { sensorId, name, place, displayStepPa, givenAtMs } = fact.label;
        const row = [sensorId, name, place, displayStepPa, givenAtMs];
        this.#addNext('label', OF_NO_RECORDING, row);
        return null;
      }
      case 'take_back':
        return this.#writeTakenBack(fact);
      case 'take_mark_back': {
        const { recordingId, markId, atMs } = fact;
        const isNew = this.#add(
          'mark_taken_back',
          recordingId,
          [recordingId, markId, atMs],
          markId,
        );
        return isNew ? { type: 'mark_taken_back', recordingId, markId } : null;
      }
      case 'archive': {
        const { recordingId, beginMark, archived, atMs } = fact;
        this.#addNext('archived', recordingId, [recordingId, beginMark, archived ? 1 : 0, atMs]);
        return null;
      }
      case 'sign_off': {
        const { recordingId, signOff } = fact;
        const { beginMark, fromS, lastS, name, licence, remark, quoted } = signOff;
        const { softwareVersion, atMs } = signOff;
        const signed = [beginMark, fromS, lastS, name, licence, remark, quoted];
        const row = [recordingId, ...signed, softwareVersion, atMs];
        this.#addNext('sign_off', recordingId, row);
        return null;
      }
      case 'calibration': {
        const { sensorId, calibratedOn, givenAtMs } = fact.calibration;
        this.#addNext('calibration', OF_NO_RECORDING, [sensorId, calibratedOn, givenAtMs]);
        return null;
      }
      case 'prepared': {
        const { prepared } = fact.sheet;
        const last = this.#prepared.lastNumber();
        const declined = whyNotKept(this.#prepared.list(), prepared, last);
        if (declined === null) this.#writePrepared(fact.sheet);
        return declined;
      }
      case 'use_prepared':
        return this.#usePrepared(fact);
      case 'discard': {
        const declined = whyNotWaiting(this.#prepared.list(), fact.prepared);
        if (declined === null) this.#discard([fact.prepared], fact.atMs);
        return declined;
      }
      case 'taken_from':
        this.#writeTakenFrom(fact);
        return this.#recording(fact.recordingId);
      case 'delete':
        this.#delete(fact);
        return { type: 'job_deleted', recordingId: fact.recordingId };
      case 'seen_alert': {
        const { recordingId, seen } = fact;
        const row = [recordingId, seen.alert, seen.untilS, seen.atMs];
        this.#addNext('seen_alert', recordingId, row);
        return { type: 'seen_alert', recordingId, seen };
      }
    }
  }

  /** @returns whether it was not there yet: of some facts a recording has one at most */
  #add(kind: OneByOne, recordingId: number, row: FactRow, key: number | null = null): boolean {
    const kept = row.map(asKept);
    if (this.#inserts[kind].run(...kept).changes === 0) return false;
    this.#chain.add(kind, recordingId, key, kept);
    return true;
  }

  /** @returns the number that the database gave it */
  #addNext(kind: OneByOne, recordingId: number, row: FactRow): number {
    const kept = row.map(asKept);
    const id = Number(this.#inserts[kind].run(this.#nextId(kind), ...kept).lastInsertRowid);
    this.#chain.add(kind, recordingId, id, [id, ...kept]);
    return id;
  }

  /** Null: the database has it from its table. */
  #nextId(kind: OneByOne): number | null {
    const reserved = this.#reserved.get(kind);
    if (reserved === undefined) return null;
    return Math.max(reserved, lastId(this.#database, kind)) + 1;
  }

  #recording(recordingId: number): RecordMessage {
    const recording = this.#reader.recording(recordingId);
    if (!recording) throw new Error(`recording ${recordingId} was written and is not there`);
    return { type: 'recording', recording };
  }

  #writeReadings({ recordingId, packed: heard }: FactOf<'readings'>): WrittenReadings {
    // What a sensor gives late of a deleted job belongs to what was deleted for good.
    const packed = this.#deleted.without(recordingId, heard);
    const first = (this.#lastIndex.get(recordingId) ?? this.#lastGiven(recordingId)) + 1;
    const last = first + countOf(packed) - 1;
    this.#readings.write(recordingId, first, packed);
    if (last >= first) this.#chain.addReadings(recordingId, first, packed);
    this.#lastIndex.set(recordingId, last);
    return { type: 'written_readings', recordingId, firstIndex: first, packed };
  }

  /** Also of what was deleted: no number stands for two readings, whenever somebody looks. */
  #lastGiven(recordingId: number): number {
    const last = this.#reader.lastIndex(recordingId);
    return Math.max(last, this.#deleted.lastIndex(recordingId));
  }

  #writeMark({ recordingId, mark, madeBy }: FactOf<'mark'>): RecordMessage {
    const known =
      madeBy === 'hand'
        ? alreadyMarked(this.#reader.marks(recordingId), mark, this.#pressedAgoS(recordingId))
        : null;
    if (known !== null) return { type: 'mark', recordingId, mark: known };
    const { kind, elapsedS, text } = mark;
    const id = this.#addNext('mark', recordingId, [recordingId, kind, elapsedS, text, madeBy]);
    if (madeBy === 'hand' && kind !== 'note') this.#pressedMs.set(recordingId, performance.now());
    return { type: 'mark', recordingId, mark: { ...mark, id, madeBy } };
  }

  #writeEntry(recordingId: number, entry: SheetEntry): RecordMessage {
    const row = [recordingId, entry.elapsedS, JSON.stringify(entry.fields)];
    this.#addNext('sheet', recordingId, row);
    return { type: 'sheet', recordingId, entry };
  }

  #writePrepared({ prepared, usedIn, usedS, atMs, fields }: PreparedSheet): void {
    const row = [prepared, usedIn, usedS, atMs, JSON.stringify(fields)];
    this.#addNext('prepared', OF_NO_RECORDING, row);
  }

  /** Both or neither: that it was used, and what the job has of it. */
  #usePrepared(fact: FactOf<'use_prepared'>): RecordMessage | Declined {
    const { prepared, recordingId, elapsedS, atMs } = fact;
    const sheets = this.#prepared.list();
    const declined = whyNotWaiting(sheets, prepared);
    if (declined !== null) return declined;
    // Deleted since it was asked.
    if (this.#reader.recording(recordingId) === null) {
      return { type: 'declined', code: 'not_found', detail: `recording ${recordingId}` };
    }
    const whole = sheets.find((one) => one.prepared === prepared)?.fields ?? {};
    const said = this.#reader.sheet(recordingId);
    const fields = fieldsTakenOver(whole, elapsedS, this.#reader.marks(recordingId), said);
    this.#writePrepared({ prepared, fields: whole, usedIn: recordingId, usedS: elapsedS, atMs });
    return this.#writeEntry(recordingId, { elapsedS, fields });
  }

  #pressedAgoS(recordingId: number): number | null {
    const pressedMs = this.#pressedMs.get(recordingId);
    if (pressedMs === undefined) return null;
    if (this.#reader.recording(recordingId)?.origin !== 'rehearsal') return null;
    return (performance.now() - pressedMs) / 1000;
  }

  #writeTakenFrom({ recordingId, takenFrom, atMs }: FactOf<'taken_from'>): void {
    const { format, origin, recordingId: there, startedAtMs, title } = takenFrom;
    const { hash, held, softwareVersion } = takenFrom;
    const was = [origin, there, startedAtMs, title, hash, held ? 1 : 0];
    this.#add('taken_from', recordingId, [recordingId, format, ...was, softwareVersion, atMs]);
  }

  /** A job that is not there any more is gone already. */
  #delete({ recordingId, beginMark, atMs }: FactOf<'delete'>): void {
    const marks = this.#reader.marks(recordingId);
    const job = jobOf(marks, beginMark);
    if (job === null || this.#reader.recording(recordingId) === null) return;
    // What this commit wrote before stands in links of its own.
    this.#chain.seal();
    const isWhole = jobsIn(marks).length === 1;
    // What was prepared for it names the same customer.
    this.#discard(preparedFor(this.#database, recordingId, isWhole ? WHOLE_JOB : job), atMs);
    deleteJob(this.#database, this.#chain, { recordingId, job, isWhole }, atMs);
    this.#lastIndex.delete(recordingId);
    this.#deleted.forget();
  }

  #discard(prepared: readonly number[], atMs: number): void {
    this.#chain.seal();
    for (const number of prepared) deletePrepared(this.#database, this.#chain, number, atMs);
  }

  /** Once only: what was taken back stays so. */
  #writeTakenBack({ recordingId, takenBack }: FactOf<'take_back'>): RecordMessage | null {
    const { index, insteadPa, atMs } = takenBack;
    const isNew = this.#add('take_back', recordingId, [recordingId, index, insteadPa, atMs], index);
    return isNew ? { type: 'taken_back', recordingId, reading: takenBack } : null;
  }
}

/** The database keeps text as UTF-8, in which half a surrogate pair can't be written: what counts is what is kept. */
function asKept(value: FactRow[number]): FactRow[number] {
  return typeof value === 'string' ? value.toWellFormed() : value;
}

/** Of what a recording has once at most, a second one changes nothing. */
const ONCE: readonly OneByOne[] = [
  'end',
  'call',
  'reveal',
  'take_back',
  'mark_taken_back',
  'taken_from',
];

function insertInto(kind: OneByOne): string {
  const { table, columns } = FACT_TABLES[kind];
  const verb = ONCE.includes(kind) ? 'INSERT OR IGNORE' : 'INSERT';
  return `${verb} INTO ${table} (${columns.join(', ')}) VALUES (${columns.map(() => '?').join(', ')})`;
}
