/**
 * The record's one writer, seen from the bridge: hands facts to the writer's thread and tells, once
 * they are durable, what the stream may say.
 */
import { Worker } from 'node:worker_threads';
import type Database from 'better-sqlite3';
import type { Call, GivenLabel, KeptReveal } from '../../protocol/api.ts';
import type { Mark, NewMark } from '../../protocol/mark.ts';
import type { PreparedSheet, UsePreparedSheet } from '../../protocol/prepared-sheet.ts';
import { ProblemError } from '../../protocol/problems.ts';
import type { ReceivedReading } from '../../protocol/reading.ts';
import type { Origin, SensorIdentity, TakenFrom } from '../../protocol/recording.ts';
import type { SeenAlert } from '../../protocol/seen-alert.ts';
import type { Calibration } from '../../protocol/sensor-label.ts';
import type { SheetEntry } from '../../protocol/sheet.ts';
import type { SignOff } from '../../protocol/sign-off.ts';
import type { TakenBack } from '../../protocol/typed-in.ts';
import type { RecordMessage } from '../../protocol/stream.ts';
import { setImmediate } from 'node:timers/promises';
import type { Verified } from '../../protocol/verified.ts';
import { tellAddress } from './folder-lock.ts';
import { openForReading } from './open-database.ts';
import { columnsFromPacked, packReadings } from './packed-readings.ts';
import { PreparedSheets } from './prepared-sheets.ts';
import { RecordReader } from './record-reader.ts';
import type { SetAside } from './salvage/set-aside.ts';
import { RecordingFacts } from './recording-facts.ts';
import type { TakeOver } from './taking.ts';
import { ChainVerifier } from './verify-chain.ts';
import { removeForgottenWork } from './work-folder.ts';
import { type Stalled, WriterSilence } from './writer-silence.ts';
import type {
  Damaged,
  Declined,
  Fact,
  FromWriter,
  Held,
  ToWriter,
  WrittenReadings,
} from './writer-messages.ts';

export interface RecorderListener {
  /** This much is on the disk. */
  durable(message: RecordMessage): void;
  /** The disk refuses for now; what could not be written is kept in memory and tried again each second. */
  held(held: Held): void;
  /** The disk neither takes nor refuses anything; said each second. */
  stalled?(stalled: Stalled): void;
  /** What had been held is on the disk, or the disk goes on. */
  relieved?(): void;
  /** The file is damaged: what can be read of it is being saved, before the record is open. */
  mending?(): void;
  /** The file is damaged: facts go to a file beside it, and into the record at the next start. */
  damaged?(damaged: Damaged): void;
}

type Opened = Pick<Extract<FromWriter, { type: 'ready' }>, 'setAside' | 'halfRemoved'>;

const SAYS_HOW_IT_IS: ReadonlySet<FromWriter['type']> = new Set(['held', 'damaged', 'relieved']);
const LISTENED_FOR_EVERY_MS = 1000;
/** Worked at a time, ms: a link of a file that was read in holds as many facts as two thousand of a sensor's. */
const VERIFYING_AT_A_TIME_MS = 20;

export class Recorder {
  readonly reader: RecordReader;
  /** What became of a damaged record when this one was opened; null where there was none. */
  readonly setAside: SetAside | null;
  /** The recording that was being restored when the last bridge was ended: nothing of it is here. */
  readonly halfRemoved: number | null;
  readonly facts: RecordingFacts;
  readonly preparedSheets: PreparedSheets;
  readonly dataFolder: string;
  readonly #worker: Worker;
  readonly #listener: RecorderListener;
  readonly #answers = new Map<number, (message: RecordMessage | Declined | null) => void>();
  readonly #takings = new Map<number, (failure: string | null) => void>();
  #waiting: { readonly ticket: number; readonly resolve: () => void }[] = [];
  readonly #stillDatabase: Database.Database;
  readonly #verifier: ChainVerifier;
  #verifying: Promise<unknown> = Promise.resolve();
  readonly #closeReader: () => void;
  readonly #silence = new WriterSilence();
  readonly #listening: NodeJS.Timeout;
  #isStalled = false;
  #ticket = 0;
  #taking = 0;
  #durableTicket = 0;
  #lastRecordingId: number;
  #lastPrepared: number;

  /**
   * Opens the record in a folder, which is created where it is missing.
   * @throws ProblemError where the folder can't be written or the record can't be read.
   */
  static async open(dataFolder: string, listener: RecorderListener): Promise<Recorder> {
    const worker = new Worker(new URL('./writer-thread.mjs', import.meta.url), {
      workerData: { dataFolder },
      // Options of the process that started this one (a test runner's, say) are not the thread's.
      execArgv: [],
    });
    const opened = await ready(worker, listener);
    removeForgottenWork(dataFolder);
    return new Recorder(worker, dataFolder, listener, opened);
  }

  private constructor(
    worker: Worker,
    dataFolder: string,
    listener: RecorderListener,
    { setAside, halfRemoved }: Opened,
  ) {
    this.setAside = setAside;
    this.halfRemoved = halfRemoved;
    const database = openForReading(dataFolder);
    this.dataFolder = dataFolder;
    this.reader = new RecordReader(database);
    this.facts = new RecordingFacts(database);
    this.preparedSheets = new PreparedSheets(database);
    // Of its own: while it goes through the links, what it sees of the record stands still.
    this.#stillDatabase = openForReading(dataFolder);
    this.#verifier = new ChainVerifier(this.#stillDatabase);
    this.#closeReader = () => {
      this.#stillDatabase.close();
      database.close();
    };
    this.#worker = worker;
    this.#listener = listener;
    this.#lastRecordingId = this.reader.lastRecordingId();
    this.#lastPrepared = this.preparedSheets.lastNumber();
    worker.on('message', (message: FromWriter) => {
      this.#hear(message);
    });
    this.#listening = setInterval(() => this.#listen(), LISTENED_FOR_EVERY_MS);
  }

  /** Where the page of this record is, for a second bridge that is started on it. */
  tellAddress(address: string): void {
    tellAddress(this.dataFolder, address);
  }

  /** Begins a recording; its id can be used at once, facts are written in order. */
  begin(origin: Origin, startedAtMs: number, title: string): number {
    this.#lastRecordingId += 1;
    const recordingId = this.#lastRecordingId;
    this.#write({ kind: 'begin', recordingId, origin, startedAtMs, title });
    return recordingId;
  }

  end(recordingId: number, endedAtMs: number): void {
    this.#write({ kind: 'end', recordingId, endedAtMs });
  }

  sensor(recordingId: number, channel: number, identity: SensorIdentity): void {
    this.#write({ kind: 'sensor', recordingId, channel, identity });
  }

  readings(recordingId: number, readings: readonly ReceivedReading[]): void {
    // Where the writer has not been heard for hours there is no more room.
    if (!this.#silence.mayHandOver(readings.length)) return;
    this.#write({ kind: 'readings', recordingId, packed: packReadings(readings) });
  }

  /** Resolves once the mark is durable: the one that is there already where two pressed at once. */
  async mark(recordingId: number, mark: NewMark, madeBy: Mark['madeBy']): Promise<Mark> {
    const message = await this.#written({ kind: 'mark', recordingId, mark, madeBy });
    if (message?.type !== 'mark') throw new Error('a mark was answered by something else');
    return message.mark;
  }

  /** Resolves once the entry is durable. */
  async sheetEntry(recordingId: number, entry: SheetEntry): Promise<SheetEntry> {
    await this.#written({ kind: 'sheet', recordingId, entry });
    return entry;
  }

  /** Resolves once it is durable; a second one of the same recording changes nothing. */
  async call(recordingId: number, call: Call): Promise<void> {
    await this.#written({ kind: 'call', recordingId, call });
  }

  /** The same of a reveal. */
  async reveal(recordingId: number, reveal: KeptReveal): Promise<void> {
    await this.#written({ kind: 'reveal', recordingId, reveal });
  }

  /** Resolves once what a technician says of a sensor is durable. */
  async label(label: GivenLabel): Promise<void> {
    await this.#written({ kind: 'label', label });
  }

  /** Resolves once the day of a sensor's last calibration is durable. */
  async calibration(calibration: Calibration): Promise<void> {
    await this.#written({ kind: 'calibration', calibration });
  }

  /**
   * Resolves once a job sheet that is filled in beforehand is durable.
   * @param prepared null: it is a new one
   * @throws ProblemError `not_found`, `sheet_used`, `too_many_prepared`
   */
  async prepare(
    prepared: number | null,
    sheet: Omit<PreparedSheet, 'prepared'>,
  ): Promise<PreparedSheet> {
    const lastNumber = this.preparedSheets.lastNumber();
    if (prepared !== null && prepared > lastNumber)
      throw new ProblemError('not_found', `prepared sheet ${prepared}`);
    // A backup that was restored since may have brought some.
    if (prepared === null) this.#lastPrepared = Math.max(this.#lastPrepared, lastNumber) + 1;
    const kept = { ...sheet, prepared: prepared ?? this.#lastPrepared };
    await this.#written({ kind: 'prepared', sheet: kept });
    return kept;
  }

  /**
   * Resolves once it is durable that a recording has taken a prepared sheet over.
   * @returns what was entered of it on the job's sheet: what that said already stays
   * @throws ProblemError `not_found`, `sheet_used`
   */
  async usePrepared(
    prepared: number,
    { recordingId, elapsedS }: UsePreparedSheet,
    atMs: number,
  ): Promise<SheetEntry> {
    const wish = { prepared, recordingId, elapsedS, atMs };
    const message = await this.#written({ kind: 'use_prepared', ...wish });
    if (message?.type !== 'sheet') throw new Error('an entry was answered by something else');
    return message.entry;
  }

  /**
   * Resolves once a prepared sheet is gone for good.
   * @throws ProblemError `not_found`, `sheet_used`
   */
  async discardPrepared(prepared: number, atMs: number): Promise<void> {
    await this.#written({ kind: 'discard', prepared, atMs });
  }

  /** Resolves once it is durable that a mark was a slip. It stays, and counts no more. */
  async takeMarkBack(recordingId: number, markId: number, atMs: number): Promise<void> {
    await this.#written({ kind: 'take_mark_back', recordingId, markId, atMs });
  }

  /** Resolves once it is durable that a job was put away, or taken out again. */
  async archive(
    recordingId: number,
    beginMark: number,
    archived: boolean,
    atMs: number,
  ): Promise<void> {
    await this.#written({ kind: 'archive', recordingId, beginMark, archived, atMs });
  }

  /** Resolves once the sign-off is durable. */
  async signOff(recordingId: number, signOff: SignOff): Promise<SignOff> {
    await this.#written({ kind: 'sign_off', recordingId, signOff });
    return signOff;
  }

  /** Resolves once the facts of a job are gone for good. */
  async deleteJob(recordingId: number, beginMark: number, atMs: number): Promise<void> {
    await this.#written({ kind: 'delete', recordingId, beginMark, atMs });
  }

  /** What a recording was in the record from which it was taken. */
  takenFrom(recordingId: number, takenFrom: TakenFrom, atMs: number): void {
    this.#write({ kind: 'taken_from', recordingId, takenFrom, atMs });
  }

  /** A typed-in reading was a slip. It stays in the record, and nobody is given it any more. */
  takeBack(recordingId: number, takenBack: TakenBack): void {
    this.#write({ kind: 'take_back', recordingId, takenBack });
  }

  /** Resolves once it is durable that an alert was seen. */
  async seenAlert(recordingId: number, seen: SeenAlert): Promise<SeenAlert> {
    await this.#written({ kind: 'seen_alert', recordingId, seen });
    return seen;
  }

  /** Whether nothing was ever recorded, nor is about to be. */
  get isEmpty(): boolean {
    return (
      this.#ticket + this.#taking === 0 && this.#lastRecordingId === 0 && this.reader.isEmpty()
    );
  }

  /** A number for a recording that comes from elsewhere. */
  nextNumber(): number {
    this.#lastRecordingId += 1;
    return this.#lastRecordingId;
  }

  /** Numbers up to this one are given out elsewhere. */
  reserveNumbers(upTo: number): void {
    this.#lastRecordingId = Math.max(this.#lastRecordingId, upTo);
  }

  /**
   * Takes a recording over from another record, after what was handed over before.
   * @returns null once all of it is durable and told; else why nothing of it is there
   */
  async takeOver(wish: TakeOver): Promise<string | null> {
    this.#taking += 1;
    const ticket = this.#taking;
    const failure = await new Promise<string | null>((resolve) => {
      this.#takings.set(ticket, resolve);
      this.#send({ type: 'take_over', ticket, wish });
    });
    const recording = failure === null ? this.reader.recording(wish.recordingId) : null;
    if (recording !== null) this.#listener.durable({ type: 'recording', recording });
    return failure;
  }

  /** Reckons the chain over its facts anew, one after the other, with room between for readings that arrive. */
  async verified(recordingId: number): Promise<Verified> {
    const found = this.#verifying.then(() => this.#verify(recordingId));
    this.#verifying = found.catch(() => undefined);
    return found;
  }

  async #verify(recordingId: number): Promise<Verified> {
    const steps = this.#verifier.verify(recordingId);
    // All of it as of one moment: what comes meanwhile is in no link that is looked at.
    this.#stillDatabase.exec('BEGIN');
    try {
      for (let since = performance.now(); ;) {
        const step = steps.next();
        if (step.done === true) return step.value.verified;
        if (performance.now() - since < VERIFYING_AT_A_TIME_MS) continue;
        await setImmediate();
        since = performance.now();
      }
    } finally {
      this.#stillDatabase.exec('COMMIT');
    }
  }

  /** Resolves once everything handed over so far is durable. */
  settled(): Promise<void> {
    const ticket = this.#ticket;
    if (ticket <= this.#durableTicket) return Promise.resolve();
    return new Promise((resolve) => this.#waiting.push({ ticket, resolve }));
  }

  /**
   * Writes what is waiting and frees the files: the writer last, or the log would stay beside a record that is not
   * whole without it.
   */
  async close(): Promise<void> {
    const ended = new Promise<void>((resolve) => this.#worker.once('exit', () => resolve()));
    this.#send({ type: 'close' });
    await ended;
    clearInterval(this.#listening);
  }

  /** @throws ProblemError where the fact was declined */
  async #written(fact: Fact): Promise<RecordMessage | null> {
    const answer = await new Promise<RecordMessage | Declined | null>((resolve) =>
      this.#answers.set(this.#write(fact), resolve),
    );
    if (answer?.type === 'declined') throw new ProblemError(answer.code, answer.detail);
    return answer;
  }

  #write(fact: Fact): number {
    this.#ticket += 1;
    if (fact.kind !== 'readings') this.#silence.mayHandOver(0);
    this.#send({ type: 'write', ticket: this.#ticket, fact });
    return this.#ticket;
  }

  #send(message: ToWriter): void {
    this.#worker.postMessage(message);
  }

  /** What it can't say itself. */
  #listen(): void {
    const stalled = this.#silence.stalled();
    if (stalled === null) return;
    this.#isStalled = true;
    this.#listener.stalled?.(stalled);
  }

  #hear(message: FromWriter): void {
    this.#hearAll(message);
    const readings = message.type === 'durable' ? message.readings : 0;
    // To a damaged record nothing is written before the next start, and that was said.
    const isAllAnswered = message.type === 'damaged' || this.#durableTicket === this.#ticket;
    this.#silence.heard(readings, isAllAnswered);
    if (!this.#isStalled) return;
    this.#isStalled = false;
    // Those say themselves how it goes on.
    if (!SAYS_HOW_IT_IS.has(message.type)) this.#listener.relieved?.();
  }

  #hearAll(message: FromWriter): void {
    if (message.type === 'held') this.#listener.held(message);
    if (message.type === 'all_written') {
      this.#closeReader();
      this.#send({ type: 'release' });
    }
    if (message.type === 'relieved') this.#listener.relieved?.();
    if (message.type === 'damaged') this.#listener.damaged?.(message);
    if (message.type === 'taken_over') {
      this.#takings.get(message.ticket)?.(message.failure);
      this.#takings.delete(message.ticket);
    }
    if (message.type !== 'durable') return;
    for (const { ticket, message: written } of message.written) {
      const said = written?.type === 'written_readings' ? unpacked(written) : written;
      if (said !== null && said.type !== 'declined') this.#listener.durable(said);
      this.#answers.get(ticket)?.(said);
      this.#answers.delete(ticket);
      this.#durableTicket = ticket;
    }
    const settled = this.#waiting.filter(({ ticket }) => ticket <= this.#durableTicket);
    this.#waiting = this.#waiting.filter(({ ticket }) => ticket > this.#durableTicket);
    for (const { resolve } of settled) resolve();
  }
}

function unpacked({ recordingId, firstIndex, packed }: WrittenReadings): RecordMessage {
  return { type: 'readings', recordingId, columns: columnsFromPacked(packed, firstIndex) };
}

function ready(worker: Worker, listener: RecorderListener): Promise<Opened> {
  return new Promise((resolve, reject) => {
    worker.once('error', reject);
    worker.on('message', function hear(message: FromWriter) {
      if (message.type === 'mending') {
        listener.mending?.();
        return;
      }
      worker.off('message', hear);
      worker.off('error', reject);
      if (message.type === 'ready') resolve(message);
      else if (message.type === 'refused') reject(new ProblemError(message.code, message.detail));
      else reject(new Error(`the writer began with "${message.type}"`));
    });
  });
}
