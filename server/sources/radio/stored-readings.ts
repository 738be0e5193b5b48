/** Asks a sensor for readings that it has kept, by the Record Access Control Point. */
import { RECORD_ACCESS_UUID, STORED_READINGS_UUID } from '../../../protocol/profile.ts';
import { decodeAnswer, encodeRequest, type AccessAnswer } from '../../../protocol/record-access.ts';
import type { Stretch } from '../number-set.ts';
import { DeadlineError, eventWithin } from './deadline.ts';
import { hostUuid, type HostCharacteristic } from './host-library.ts';
import type { Link } from './link.ts';
import { monotonicMs } from './monotonic-clock.ts';
import { subscribe, type Characteristics } from './sensor-requests.ts';

/** One connection's way to what the sensor keeps. */
export class StoredReadings {
  readonly #link: Link;
  readonly #control: HostCharacteristic;
  readonly #stored: HostCharacteristic;
  readonly #take: (bytes: Uint8Array) => void;
  #subscribed = false;
  #heardMs = 0;
  readonly #onStored = (bytes: unknown, isNotification: unknown): void => {
    if (isNotification !== true || !(bytes instanceof Uint8Array)) return;
    this.#heardMs = monotonicMs();
    this.#take(bytes);
  };

  private constructor(
    link: Link,
    control: HostCharacteristic,
    stored: HostCharacteristic,
    take: (bytes: Uint8Array) => void,
  ) {
    this.#link = link;
    this.#control = control;
    this.#stored = stored;
    this.#take = take;
    stored.on('data', this.#onStored);
  }

  /**
   * @param take gets each reading as it comes
   * @returns null where the sensor keeps none
   */
  static of(
    link: Link,
    found: Characteristics,
    take: (bytes: Uint8Array) => void,
  ): StoredReadings | null {
    const control = found.get(hostUuid(RECORD_ACCESS_UUID));
    const stored = found.get(hostUuid(STORED_READINGS_UUID));
    if (control === undefined || stored === undefined) return null;
    return new StoredReadings(link, control, stored, take);
  }

  close(): void {
    this.#stored.removeListener('data', this.#onStored);
  }

  /**
   * @param stretch numbers as the sensor counts them
   * @returns true where the sensor has sent all that it still has of it
   * @throws what ended it: a refusal, a lost link, or a deadline
   */
  async fetch({ from, to }: Stretch): Promise<boolean> {
    if (!this.#subscribed) {
      await subscribe(this.#link, this.#stored);
      await subscribe(this.#link, this.#control);
      this.#subscribed = true;
    }
    const selection = { operator: 'within', from, to } as const;
    const answer = await this.#ask(encodeRequest({ opCode: 'report', selection }));
    return answer.outcome === 'success' || answer.outcome === 'noRecords';
  }

  /** Lest the next request meet a report that is still under way. Nobody waits for what comes of it. */
  #abort(): void {
    this.#control.write(Buffer.from(encodeRequest({ opCode: 'abort' })), false);
  }

  /** A report may take minutes: the limit is on the silence between two readings. */
  async #ask(request: Uint8Array): Promise<Extract<AccessAnswer, { opCode: 'response' }>> {
    const { limitMs, signal, onAnswer } = this.#link;
    let begin = () => this.#control.write(Buffer.from(request), false);
    this.#heardMs = monotonicMs();
    for (;;) {
      try {
        const answer = await eventWithin({
          what: 'answer of the record access control point',
          emitter: this.#control,
          event: 'data',
          limitMs,
          signal,
          begin,
          take: endOfReport,
        });
        onAnswer();
        return answer;
      } catch (error) {
        const isSilent = monotonicMs() - this.#heardMs >= limitMs;
        if (error instanceof DeadlineError && isSilent) this.#abort();
        if (!(error instanceof DeadlineError) || isSilent) throw error;
        begin = () => undefined;
      }
    }
  }
}

function endOfReport(bytes: unknown, isNotification: unknown) {
  if (isNotification !== true || !(bytes instanceof Uint8Array)) return undefined;
  const answer = decodeAnswer(bytes);
  const isOurs = answer?.opCode === 'response' && answer.to === 'report';
  return isOurs ? answer : undefined;
}
