/**
 * Collects what all vans publish into the office's database. A message is acknowledged to the broker only once it is
 * committed: whatever is killed in between comes again, and is known by its numbers.
 */
import { setTimeout } from 'node:timers/promises';
import type pg from 'pg';
import { ALL_VANS } from '../../../protocol/van-topics.ts';
import type { BrokerAddress } from '../broker/broker-address.ts';
import { BrokerConnection } from '../broker/broker-connection.ts';
import { Batch, type BatchOutcome } from './batch.ts';
import { DatabaseError, inTransaction, openDatabase } from './office-database.ts';
import { putRefused } from './put-refused.ts';
import { Questions } from './questions.ts';
import { understood, type VanMessage } from './understood.ts';

/** How long the broker keeps what comes while no collector runs, s. */
const SESSION_S = 30 * 86_400;
/** As many messages wait here at most; the broker keeps the rest. */
const WAITING_MOST = 2000;
/** Of a transaction: where the disk is slow it grows to this, so that as many vans are kept up with. */
const BATCH_BYTES = 4e6;
/** Messages that come close together share a transaction, ms. */
const GATHER_MS = 20;
const WAIT_MS = 2000;
/** Of what the database says: a value that it can't hold. All else may pass. */
const BAD_VALUE = /^2[23]/u;

export interface CollectorWishes {
  readonly address: BrokerAddress;
  /** Undefined: as the environment says. */
  readonly database: string | undefined;
  readonly log: (line: string) => void;
  /** For tests: a batch is committed, and the broker not told yet. */
  readonly committed?: (outcome: BatchOutcome) => void;
}

interface Waiting {
  readonly topic: string;
  readonly payload: Buffer;
  readonly acknowledge: () => void;
}

export class Collector {
  readonly #wishes: CollectorWishes;
  readonly #stopping = new AbortController();
  readonly #questions = new Questions();
  #waiting: Waiting[] = [];
  #running: Promise<void> = Promise.resolve();

  constructor(wishes: CollectorWishes) {
    this.#wishes = wishes;
  }

  start(): void {
    this.#running = this.#run();
  }

  async close(): Promise<void> {
    this.#stopping.abort();
    await this.#running;
  }

  /** Broker and database both have to be there; where one goes, both are opened anew. */
  async #run(): Promise<void> {
    while (!this.#stopping.signal.aborted) {
      try {
        await this.#collect();
      } catch (error) {
        const why = error instanceof Error ? error.message : String(error);
        this.#wishes.log(`Nothing is collected for now: ${why}. The broker keeps it meanwhile.`);
      }
      await this.#pause(WAIT_MS);
    }
  }

  async #collect(): Promise<void> {
    const lost = new AbortController();
    const client = await openDatabase(this.#wishes.database, () => lost.abort());
    try {
      this.#waiting = [];
      const { address } = this.#wishes;
      const connection = await BrokerConnection.open({
        address,
        clientId: 'ebbline-collector',
        sessionS: SESSION_S,
        receiveMost: WAITING_MOST,
        will: null,
        topics: [ALL_VANS],
        received: (message) => this.#waiting.push(message),
        stopping: this.#stopping.signal,
      });
      try {
        this.#wishes.log(`Collecting from ${address.host}:${address.port}.`);
        while (!this.#stopping.signal.aborted) {
          if (connection.closedBecause !== null) throw new Error(connection.closedBecause);
          if (lost.signal.aborted)
            throw new DatabaseError('the connection to the database is lost');
          const batch = this.#nextBatch();
          if (batch.length > 0) await this.#take(client, connection, batch);
          if (this.#waiting.length === 0) await this.#pause(GATHER_MS);
        }
        await connection.close();
      } finally {
        connection.abort();
      }
    } finally {
      await client.end().catch(() => undefined);
    }
  }

  #nextBatch(): Waiting[] {
    let bytes = 0;
    const end = this.#waiting.findIndex(({ payload }) => (bytes += payload.length) > BATCH_BYTES);
    return this.#waiting.splice(0, end === -1 ? this.#waiting.length : Math.max(1, end));
  }

  async #take(
    client: pg.Client,
    connection: BrokerConnection,
    batch: readonly Waiting[],
  ): Promise<void> {
    try {
      const outcome = await this.#commit(client, batch);
      this.#wishes.committed?.(outcome);
      for (const { acknowledge } of batch) acknowledge();
      await this.#questions.ask(connection, outcome.asked);
    } catch (error) {
      const [only] = batch;
      if (!isBadValue(error) || only === undefined) throw error;
      // One of them can't be kept, and must not be in the way of all the others for ever.
      if (batch.length > 1) for (const one of batch) await this.#take(client, connection, [one]);
      else {
        await this.#refuse(client, only.topic, String(error));
        only.acknowledge();
      }
    }
  }

  async #commit(client: pg.Client, batch: readonly Waiting[]): Promise<BatchOutcome> {
    const messages: VanMessage[] = [];
    for (const { topic, payload } of batch) {
      const message = understood(topic, payload);
      if (message === 'nothing') continue;
      if (message.kind === 'refused') await this.#refuse(client, topic, message.reason);
      else messages.push(message);
    }
    const work = new Batch(client);
    await inTransaction(client, () => work.take(messages));
    return work.outcome;
  }

  async #refuse(client: pg.Client, topic: string, reason: string): Promise<void> {
    this.#wishes.log(`A message to ${topic} was not taken: ${reason}`);
    await putRefused(client, topic, reason);
  }

  async #pause(ms: number): Promise<void> {
    try {
      await setTimeout(ms, undefined, { signal: this.#stopping.signal });
    } catch {
      // It stops: nobody waits any more.
    }
  }
}

function isBadValue(error: unknown): boolean {
  const code =
    typeof error === 'object' && error !== null && 'code' in error ? String(error.code) : '';
  return BAD_VALUE.test(code);
}
