/**
 * Publishes a record to a broker, for an office with more than one van. It reads from the record and not from the
 * stream: hours without a network cost nothing but a cursor that lags behind.
 */
import { setTimeout as setTimer } from 'node:timers';
import { setTimeout } from 'node:timers/promises';
import type { VanState } from '../../../protocol/van-messages.ts';
import { vanTopic } from '../../../protocol/van-topics.ts';
import type { BrokerAddress } from '../broker/broker-address.ts';
import { BrokerConnection, type Message } from '../broker/broker-connection.ts';
import { AskedByOffice } from './asked-by-office.ts';
import type { OfficeState } from '../../../protocol/office-state.ts';
import { Flight } from './flight.ts';
import { OfficeReach } from './office-reach.ts';
import { Outlooks } from './outlooks.ts';
import { type SenderWishes, VanSender } from './van-sender.ts';

/** Live readings go out together, ms. */
const PACE_MS = 1000;
/** What nobody told of (a sign-off, say) is found by going through the record so often, ms. */
const SWEEP_EVERY_MS = 60_000;
const INVENTORY_EVERY_MS = 6 * 3600_000;
const FIRST_WAIT_MS = 1000;
const LONGEST_WAIT_MS = 60_000;
const GOODBYE_WITHIN_MS = 2000;

export interface PublisherWishes extends SenderWishes {
  readonly address: BrokerAddress;
  readonly softwareVersion: string;
  readonly wallClock: () => number;
  readonly log: (line: string) => void;
  /** For the page. */
  readonly office: (state: OfficeState) => void;
}

export class Publisher {
  readonly #wishes: PublisherWishes;
  /** Recordings that changed, and whether in more than their readings. */
  readonly #changed = new Map<number, boolean>();
  readonly #outlooks: Outlooks;
  readonly #reach: OfficeReach;
  readonly #stopping = new AbortController();
  readonly #asked = new AskedByOffice();
  #connection: BrokerConnection | null = null;
  #running: Promise<void> = Promise.resolve();

  constructor(wishes: PublisherWishes) {
    this.#wishes = wishes;
    this.#outlooks = new Outlooks(wishes.record, wishes.wallClock);
    this.#reach = new OfficeReach(wishes);
  }

  start(): void {
    this.#running = this.#run();
  }

  /** Something of a recording is on the disk. */
  changed(recordingId: number, isReadingsAlone: boolean): void {
    this.#changed.set(recordingId, (this.#changed.get(recordingId) ?? false) || !isReadingsAlone);
  }

  /** Says goodbye to the broker; what it lacks goes out after the next start. */
  async close(): Promise<void> {
    this.#stopping.abort();
    // A network that is gone without a word answers nothing.
    const patience = setTimer(() => this.#connection?.abort(), GOODBYE_WITHIN_MS);
    await this.#running;
    clearTimeout(patience);
    this.#wishes.cursors.close();
  }

  async #run(): Promise<void> {
    let waitMs = FIRST_WAIT_MS;
    while (!this.#stopping.signal.aborted) {
      const beganMs = performance.now();
      try {
        await this.#connected();
      } catch (error) {
        const why = error instanceof Error ? error.message : String(error);
        this.#wishes.log(
          `Nothing goes to the office for now: ${why}. It is kept in the record and sent later.`,
        );
        this.#reach.missed();
      }
      const stoodLong = performance.now() - beganMs > LONGEST_WAIT_MS;
      waitMs = stoodLong ? FIRST_WAIT_MS : Math.min(2 * waitMs, LONGEST_WAIT_MS);
      // Many vans come back at once when a broker does.
      await this.#pause(waitMs * (0.5 + Math.random()));
    }
  }

  async #connected(): Promise<void> {
    const { van, address, softwareVersion, log } = this.#wishes;
    const connection = await BrokerConnection.open({
      address,
      clientId: `ebbline-van-${van}`,
      sessionS: 0,
      receiveMost: 20,
      will: stateOf(van, { online: false, softwareVersion }),
      topics: [vanTopic(van, 'asked')],
      received: ({ payload, acknowledge }) => {
        this.#asked.hear(payload);
        acknowledge();
      },
      stopping: this.#stopping.signal,
    });
    this.#connection = connection;
    try {
      await connection.publish(stateOf(van, { online: true, softwareVersion }));
      log(`Publishing to ${address.host}:${address.port} as van ${van}.`);
      await this.#serve(connection);
      await connection.publish(stateOf(van, { online: false, softwareVersion }));
      await connection.close();
    } finally {
      connection.abort();
      this.#connection = null;
    }
  }

  /** @throws Error with the reason where the connection ends */
  async #serve(connection: BrokerConnection): Promise<void> {
    const sender = new VanSender(this.#wishes, new Flight(connection));
    let inventoryMs = -Infinity;
    let sweptMs = -Infinity;
    while (!this.#stopping.signal.aborted) {
      if (connection.closedBecause !== null) throw new Error(connection.closedBecause);
      const nowMs = performance.now();
      if (nowMs - inventoryMs > INVENTORY_EVERY_MS) {
        await sender.inventory();
        inventoryMs = nowMs;
      }
      if (nowMs - sweptMs > SWEEP_EVERY_MS) {
        this.#sweep();
        sweptMs = nowMs;
      }
      for (const asked of this.#asked.taken()) {
        if (sender.sendAgain(asked)) this.changed(asked.recordingId, false);
      }
      await this.#sendChanged(sender);
      this.#reach.reached();
      await this.#outlooks.send(sender, this.#wishes.softwareVersion);
      await this.#pause(PACE_MS);
    }
  }

  /** The oldest first, so that an office sees what waited in its order; what is live follows. */
  async #sendChanged(sender: VanSender): Promise<void> {
    const changed = [...this.#changed].sort(([a], [b]) => a - b);
    for (const [recordingId, withFacts] of changed) {
      if (this.#stopping.signal.aborted) return;
      this.#changed.delete(recordingId);
      const sent = await sender.recording(recordingId, withFacts);
      if (sent !== null) this.#outlooks.want(sent);
    }
  }

  /** Finds what the broker lacks by the lengths of the chains. */
  #sweep(): void {
    const { record, cursors } = this.#wishes;
    const known = cursors.all().filter(({ deleted }) => !deleted);
    const lengths = new Map(known.map((one) => [one.recordingId, one.chainLength]));
    for (const id of new Set([...record.recordingIds(), ...lengths.keys()])) {
      if (record.chainLength(id) !== lengths.get(id)) this.changed(id, false);
    }
  }

  async #pause(ms: number): Promise<void> {
    try {
      await setTimeout(ms, undefined, { signal: this.#stopping.signal });
    } catch {
      // The bridge stops: nobody waits any more.
    }
  }
}

function stateOf(van: string, state: VanState): Message {
  const topic = vanTopic(van, 'state');
  return { topic, payload: JSON.stringify(state), retain: true, expiryS: null };
}
