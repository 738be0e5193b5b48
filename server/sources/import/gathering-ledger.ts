/**
 * Hands readings on in batches: a file's come by the thousand, and each on its own would be a message
 * to the writer and one to every screen.
 */
import type { Mark, NewMark } from '../../../protocol/mark.ts';
import type { ReceivedReading } from '../../../protocol/reading.ts';
import type { Origin, SensorIdentity } from '../../../protocol/recording.ts';
import type { Ledger } from '../feed.ts';

export class GatheringLedger implements Ledger {
  readonly #ledger: Ledger;
  #recordingId = 0;
  #gathered: ReceivedReading[] = [];

  constructor(ledger: Ledger) {
    this.#ledger = ledger;
  }

  begin(origin: Origin, startedAtMs: number, title: string): number {
    this.flush();
    return this.#ledger.begin(origin, startedAtMs, title);
  }

  end(recordingId: number, endedAtMs: number): void {
    this.flush();
    this.#ledger.end(recordingId, endedAtMs);
  }

  sensor(recordingId: number, channel: number, identity: SensorIdentity): void {
    this.flush();
    this.#ledger.sensor(recordingId, channel, identity);
  }

  readings(recordingId: number, readings: readonly ReceivedReading[]): void {
    if (recordingId !== this.#recordingId) this.flush();
    this.#recordingId = recordingId;
    this.#gathered.push(...readings);
  }

  mark(recordingId: number, mark: NewMark, madeBy: Mark['madeBy']): Promise<Mark> {
    this.flush();
    return this.#ledger.mark(recordingId, mark, madeBy);
  }

  /** Hands on what has been gathered, before any other fact and whenever its owner asks. */
  flush(): void {
    if (this.#gathered.length === 0) return;
    this.#ledger.readings(this.#recordingId, this.#gathered);
    this.#gathered = [];
  }
}
