/** Sends what the broker lacks of a record over one connection: from where the cursors stand, each step kept once it is there. */
import { setTimeout } from 'node:timers/promises';
import { isSimulated, type Recording } from '../../../protocol/recording.ts';
import {
  MOST_IN_INVENTORY,
  MOST_READINGS,
  type VanAsked,
  type VanFacts,
  type VanInventory,
  type VanOutlook,
  type VanReadings,
} from '../../../protocol/van-messages.ts';
import { type RecordingKey, recordingTopic, vanTopic } from '../../../protocol/van-topics.ts';
import type { Message } from '../broker/broker-connection.ts';
import type { CursorFile } from './cursor-file.ts';
import { factsOf, hashOf } from './facts-of.ts';
import type { Flight } from './flight.ts';
import type { DrawnOutlook } from './outlook.ts';
import { isPublished, type VanRecord } from './van-record.ts';

/** After a full message, ms: what waited for hours is sent at 12 500 readings a second at most. */
const BETWEEN_FULL_MS = 40;
/** Nobody is misled by an old outlook for longer, s. */
const OUTLOOK_EXPIRES_S = 7 * 86_400;

export interface SenderWishes {
  readonly record: VanRecord;
  readonly cursors: CursorFile;
  readonly van: string;
  readonly withRehearsals: boolean;
  readonly withPeople: boolean;
}

export class VanSender {
  readonly #wishes: SenderWishes;
  readonly #flight: Flight;

  constructor(wishes: SenderWishes, flight: Flight) {
    this.#wishes = wishes;
    this.#flight = flight;
  }

  /** What was sent so far: whoever lacks some of it asks. */
  async inventory(): Promise<void> {
    const { cursors, van } = this.#wishes;
    const all = cursors.all().map((cursor) => ({
      recordingId: cursor.recordingId,
      startedAtMs: cursor.startedAtMs,
      lastIndex: cursor.lastIndex,
      factsVersion: cursor.factsVersion,
      deleted: cursor.deleted,
    }));
    for (let at = 0; at < all.length; at += MOST_IN_INVENTORY) {
      const inventory: VanInventory = { recordings: all.slice(at, at + MOST_IN_INVENTORY) };
      await this.#send(vanTopic(van, 'inventory'), inventory, () => undefined);
    }
    await this.#flight.landed();
  }

  /**
   * Sends what the broker lacks of a recording.
   * @param withFacts false: nothing but readings can have come
   * @returns the recording where something of it went out and it is still there
   */
  async recording(recordingId: number, withFacts: boolean): Promise<Recording | null> {
    const { record, cursors } = this.#wishes;
    // Before it is read: what comes meanwhile makes it longer, and is looked at again.
    const chainLength = record.chainLength(recordingId);
    const recording = record.recording(recordingId);
    if (recording === null) {
      await this.#deleted(recordingId);
      return null;
    }
    if (!isPublished(recording, this.#wishes.withRehearsals)) return null;
    const key = { recordingId, startedAtMs: recording.startedAtMs };
    const sentFacts = withFacts && (await this.#facts(recording, key));
    const sentReadings = await this.#readings(recording, key);
    await this.#flight.landed();
    if (withFacts) cursors.change(key, { chainLength });
    return sentFacts || sentReadings ? recording : null;
  }

  async outlook(
    recording: Recording,
    drawn: DrawnOutlook,
    by: Pick<VanOutlook, 'drawnAtMs' | 'softwareVersion'>,
  ): Promise<void> {
    const key = { recordingId: recording.id, startedAtMs: recording.startedAtMs };
    const outlook: VanOutlook = { ...key, simulated: isSimulated(recording), ...drawn, ...by };
    const topic = recordingTopic(this.#wishes.van, key, 'outlook');
    await this.#sendRetained(topic, JSON.stringify(outlook), OUTLOOK_EXPIRES_S);
    await this.#flight.landed();
  }

  /** The office lacks something: from there on it is sent again. */
  sendAgain({ afterIndex, factsVersion, ...key }: VanAsked): boolean {
    const { cursors } = this.#wishes;
    const cursor = cursors.find(key);
    if (cursor === null) return false;
    cursors.change(key, {
      lastIndex: Math.min(cursor.lastIndex, afterIndex),
      factsHash: factsVersion < cursor.factsVersion ? '' : cursor.factsHash,
      deleted: false,
      // If the connection ends before it went out, the next one finds it.
      chainLength: 0,
    });
    return true;
  }

  async #facts(recording: Recording, key: RecordingKey): Promise<boolean> {
    const { record, cursors, van, withPeople } = this.#wishes;
    const facts = factsOf(record, recording, withPeople);
    const factsHash = hashOf(facts);
    const cursor = cursors.of(key);
    if (factsHash === cursor.factsHash) return false;
    // As long as the chain, so that it rises even if the cursors are lost; and always above the one before.
    const version = Math.max(cursor.factsVersion + 1, record.chainLength(recording.id));
    const message: VanFacts = { version, ...facts };
    await this.#send(recordingTopic(van, key, 'facts'), message, () =>
      cursors.change(key, { factsVersion: version, factsHash }),
    );
    return true;
  }

  async #readings(recording: Recording, key: RecordingKey): Promise<boolean> {
    const { record, cursors, van } = this.#wishes;
    const from = cursors.of(key).lastIndex;
    let after = from;
    for (;;) {
      const columns = record.readingsAfter(recording.id, after, MOST_READINGS);
      const last = columns.index.at(-1);
      if (last === undefined) return after > from;
      const message: VanReadings = { ...key, after, simulated: isSimulated(recording), columns };
      await this.#send(recordingTopic(van, key, 'readings'), message, () =>
        cursors.change(key, { lastIndex: last }),
      );
      after = last;
      if (columns.index.length < MOST_READINGS) return true;
      await setTimeout(BETWEEN_FULL_MS);
    }
  }

  /** Said only where the record says so: one that is missing for another reason is no deletion. */
  async #deleted(recordingId: number): Promise<void> {
    const { record, cursors, van } = this.#wishes;
    if (record.deletedStretches(recordingId).length === 0) return;
    const doomed = cursors.all().filter((one) => one.recordingId === recordingId && !one.deleted);
    for (const { startedAtMs } of doomed) {
      const key = { recordingId, startedAtMs };
      // A broker forgets what it retains where an empty message takes its place.
      await this.#sendRetained(recordingTopic(van, key, 'outlook'), '', null);
      await this.#send(recordingTopic(van, key, 'deleted'), key, () =>
        cursors.change(key, { deleted: true }),
      );
    }
    await this.#flight.landed();
  }

  #send(topic: string, body: object, taken: () => void): Promise<void> {
    const message = { topic, payload: JSON.stringify(body), retain: false, expiryS: null };
    return this.#flight.send(message, taken);
  }

  #sendRetained(topic: string, payload: string, expiryS: Message['expiryS']): Promise<void> {
    return this.#flight.send({ topic, payload, retain: true, expiryS }, () => undefined);
  }
}
