/** One connected screen: what it follows, how far it is, and how much may wait for it. */
import type { Mark } from '../../protocol/mark.ts';
import type { ReadingColumns } from '../../protocol/reading.ts';
import type { SeenAlert } from '../../protocol/seen-alert.ts';
import type { SheetEntry } from '../../protocol/sheet.ts';
import type { TakenBack } from '../../protocol/typed-in.ts';
import type { ClientMessage, RecordMessage, ServerMessage } from '../../protocol/stream.ts';

/** What the stream needs of the record. */
export interface RecordView {
  marks(recordingId: number): Mark[];
  sheet(recordingId: number): SheetEntry[];
  takenBack(recordingId: number): TakenBack[];
  seenAlerts(recordingId: number): SeenAlert[];
  readingsAfter(recordingId: number, afterIndex: number, limit: number): ReadingColumns;
}

/** What the stream needs of a socket. */
export interface Outlet {
  send(message: ServerMessage): void;
  /** Bytes that wait because the other side reads too slowly. */
  waitingBytes(): number;
  /** Drops the connection; the screen comes back and resumes where it was. */
  drop(): void;
}

const CHUNK = 5000;

/** A minute of eight sensors at 10 Hz is about 0.5 MB; who is further behind resumes instead. */
const MOST_WAITING_BYTES = 4 * 1024 * 1024;

export class Subscriber {
  readonly #record: RecordView;
  readonly #outlet: Outlet;
  #following: number | null = null;
  #sentIndex = 0;
  #live = false;

  constructor(record: RecordView, outlet: Outlet) {
    this.#record = record;
    this.#outlet = outlet;
  }

  hear(message: ClientMessage): void {
    if (message.type === 'follow') {
      this.#following = message.recordingId;
      this.#sentIndex = message.afterIndex;
      this.#live = false;
      this.#send({
        type: 'facts',
        recordingId: message.recordingId,
        marks: this.#record.marks(message.recordingId),
        sheet: this.#record.sheet(message.recordingId),
        takenBack: this.#record.takenBack(message.recordingId),
        seenAlerts: this.#record.seenAlerts(message.recordingId),
      });
      // Two ahead: while the screen takes one in, the next is on its way.
      this.#sendChunk(message.recordingId);
      this.#sendChunk(message.recordingId);
    } else if (message.recordingId === this.#following) {
      this.#sendChunk(message.recordingId);
    }
  }

  /** Something is safely on the disk. */
  publish(message: RecordMessage): void {
    if (message.type === 'recording') this.#send(message);
    else if (message.recordingId !== this.#following) return;
    else if (message.type === 'readings') this.#sendNew(message);
    else this.#send(message);
  }

  tell(message: ServerMessage): void {
    this.#send(message);
  }

  #sendChunk(recordingId: number): void {
    if (this.#live) return;
    const columns = this.#record.readingsAfter(recordingId, this.#sentIndex, CHUNK);
    this.#live = columns.index.length < CHUNK;
    this.#sentIndex = columns.index.at(-1) ?? this.#sentIndex;
    this.#send({ type: 'backfill', recordingId, columns, complete: this.#live });
  }

  /** While it catches up, a screen gets what is new from the record, in its turn. */
  #sendNew(message: Extract<RecordMessage, { type: 'readings' }>): void {
    if (!this.#live) return;
    const { columns } = message;
    const last = columns.index.at(-1);
    if (last === undefined || last <= this.#sentIndex) return;
    const first = columns.index.findIndex((index) => index > this.#sentIndex);
    this.#sentIndex = last;
    // The message itself where all of it is new: it is written once for all screens.
    this.#send(first === 0 ? message : { ...message, columns: rowsFrom(columns, first) });
  }

  #send(message: ServerMessage): void {
    if (this.#outlet.waitingBytes() > MOST_WAITING_BYTES) this.#outlet.drop();
    else this.#outlet.send(message);
  }
}

function rowsFrom(columns: ReadingColumns, first: number): ReadingColumns {
  return {
    index: columns.index.slice(first),
    channel: columns.channel.slice(first),
    boot: columns.boot.slice(first),
    sequence: columns.sequence.slice(first),
    elapsedS: columns.elapsedS.slice(first),
    pressurePa: columns.pressurePa.slice(first),
    temperatureC: columns.temperatureC.slice(first),
    condition: columns.condition.slice(first),
  };
}
