/** Writes facts into an open database and says what the stream should tell of each. */
import type Database from 'better-sqlite3';
import type { ReceivedReading } from '../../protocol/reading.ts';
import { columnsFromReadings } from '../../protocol/reading.ts';
import type { RecordMessage } from '../../protocol/stream.ts';
import { alreadyMarked } from './already-marked.ts';
import { RecordReader } from './record-reader.ts';
import type { Fact } from './writer-messages.ts';

type FactOf<Kind extends Fact['kind']> = Extract<Fact, { kind: Kind }>;

export class FactWriter {
  readonly #reader: RecordReader;
  readonly #begin: Database.Statement;
  readonly #end: Database.Statement;
  readonly #sensor: Database.Statement;
  readonly #reading: Database.Statement;
  readonly #mark: Database.Statement;
  readonly #sheet: Database.Statement;
  readonly #call: Database.Statement;
  readonly #reveal: Database.Statement;
  readonly #label: Database.Statement;
  readonly #takeBack: Database.Statement;
  readonly #seenAlert: Database.Statement;
  /** Last index given out, per recording: saves a query for each batch. */
  readonly #lastIndex = new Map<number, number>();
  /** When somebody last pressed for a mark, per recording, ms by this computer's steady clock. */
  readonly #pressedMs = new Map<number, number>();

  constructor(database: Database.Database) {
    this.#reader = new RecordReader(database);
    this.#begin = database.prepare('INSERT INTO recording VALUES (?, ?, ?, ?)');
    this.#end = database.prepare('INSERT OR IGNORE INTO recording_end VALUES (?, ?)');
    this.#sensor = database.prepare(
      'INSERT INTO sensor (recording_id, channel, identity) VALUES (?, ?, ?)',
    );
    this.#reading = database.prepare(
      'INSERT INTO reading VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)',
    );
    this.#mark = database.prepare(
      'INSERT INTO mark (recording_id, kind, elapsed_s, text, made_by) VALUES (?, ?, ?, ?, ?)',
    );
    this.#sheet = database.prepare(
      'INSERT INTO sheet_entry (recording_id, elapsed_s, fields) VALUES (?, ?, ?)',
    );
    this.#call = database.prepare('INSERT OR IGNORE INTO rehearsal_call VALUES (?, ?, ?, ?, ?)');
    this.#reveal = database.prepare(
      'INSERT OR IGNORE INTO rehearsal_reveal VALUES (?, ?, ?, ?, ?, ?)',
    );
    this.#label = database.prepare(
      `INSERT INTO sensor_label (sensor_id, name, place, display_step_pa, given_at_ms)
       VALUES (?, ?, ?, ?, ?)`,
    );
    this.#takeBack = database.prepare(
      'INSERT OR IGNORE INTO reading_taken_back VALUES (?, ?, ?, ?)',
    );
    this.#seenAlert = database.prepare(
      'INSERT INTO seen_alert (recording_id, alert, until_s, at_ms) VALUES (?, ?, ?, ?)',
    );
  }

  /** Forgets what was given out in a transaction that failed. */
  forget(): void {
    this.#lastIndex.clear();
  }

  /** @returns what the stream should say of it; null: nothing, the answer goes to who asked */
  write(fact: Fact): RecordMessage | null {
    switch (fact.kind) {
      case 'begin':
        this.#begin.run(fact.recordingId, fact.origin, fact.startedAtMs, fact.title);
        return this.#recording(fact.recordingId);
      case 'end':
        this.#end.run(fact.recordingId, fact.endedAtMs);
        return this.#recording(fact.recordingId);
      case 'sensor':
        this.#sensor.run(fact.recordingId, fact.channel, JSON.stringify(fact.identity));
        return this.#recording(fact.recordingId);
      case 'readings':
        return this.#writeReadings(fact);
      case 'mark':
        return this.#writeMark(fact);
      case 'sheet':
        this.#sheet.run(fact.recordingId, fact.entry.elapsedS, JSON.stringify(fact.entry.fields));
        return { type: 'sheet', recordingId: fact.recordingId, entry: fact.entry };
      case 'call':
        this.#writeCall(fact);
        return null;
      case 'reveal':
        this.#writeReveal(fact);
        return null;
      case 'label':
        this.#writeLabel(fact);
        return null;
      case 'take_back':
        return this.#writeTakenBack(fact);
      case 'seen_alert': {
        const { recordingId, seen } = fact;
        this.#seenAlert.run(recordingId, seen.alert, seen.untilS, seen.atMs);
        return { type: 'seen_alert', recordingId, seen };
      }
    }
  }

  #recording(recordingId: number): RecordMessage {
    const recording = this.#reader.recording(recordingId);
    if (!recording) throw new Error(`recording ${recordingId} was written and is not there`);
    return { type: 'recording', recording };
  }

  #writeReadings({ recordingId, readings }: FactOf<'readings'>): RecordMessage {
    const first = (this.#lastIndex.get(recordingId) ?? this.#reader.lastIndex(recordingId)) + 1;
    const indexed = readings.map((reading, position) => ({ ...reading, index: first + position }));
    for (const reading of indexed) this.#writeReading(recordingId, reading);
    this.#lastIndex.set(recordingId, first + readings.length - 1);
    return { type: 'readings', recordingId, columns: columnsFromReadings(indexed) };
  }

  #writeReading(recordingId: number, reading: ReceivedReading & { readonly index: number }): void {
    this.#reading.run(
      recordingId,
      reading.index,
      reading.channel,
      reading.boot,
      reading.sequence,
      reading.uptimeMs,
      reading.arrivedS,
      reading.elapsedS,
      reading.pressurePa,
      reading.temperatureC,
      reading.condition,
    );
  }

  #writeMark({ recordingId, mark, madeBy }: FactOf<'mark'>): RecordMessage {
    const known =
      madeBy === 'hand'
        ? alreadyMarked(this.#reader.marks(recordingId), mark, this.#pressedAgoS(recordingId))
        : null;
    if (known !== null) return { type: 'mark', recordingId, mark: known };
    const { lastInsertRowid } = this.#mark.run(
      recordingId,
      mark.kind,
      mark.elapsedS,
      mark.text,
      madeBy,
    );
    if (madeBy === 'hand' && mark.kind !== 'note')
      this.#pressedMs.set(recordingId, performance.now());
    return {
      type: 'mark',
      recordingId,
      mark: { ...mark, id: Number(lastInsertRowid), madeBy },
    };
  }

  #pressedAgoS(recordingId: number): number | null {
    const pressedMs = this.#pressedMs.get(recordingId);
    if (pressedMs === undefined) return null;
    if (this.#reader.recording(recordingId)?.origin !== 'rehearsal') return null;
    return (performance.now() - pressedMs) / 1000;
  }

  #writeCall({ recordingId, call }: FactOf<'call'>): void {
    this.#call.run(recordingId, call.trainee, call.cause, call.surePercent, call.elapsedS);
  }

  #writeReveal({ recordingId, reveal }: FactOf<'reveal'>): void {
    const { scenario, seed, truth, toldS, revealedAtMs } = reveal;
    this.#reveal.run(recordingId, scenario, seed, truth, toldS, revealedAtMs);
  }

  #writeLabel({ label }: FactOf<'label'>): void {
    const { sensorId, name, place, displayStepPa, givenAtMs } = label;
    this.#label.run(sensorId, name, place, displayStepPa, givenAtMs);
  }

  /** Once only: what was taken back stays so. */
  #writeTakenBack({ recordingId, takenBack }: FactOf<'take_back'>): RecordMessage | null {
    const { index, insteadPa, atMs } = takenBack;
    const { changes } = this.#takeBack.run(recordingId, index, insteadPa, atMs);
    return changes === 0 ? null : { type: 'taken_back', recordingId, reading: takenBack };
  }
}
