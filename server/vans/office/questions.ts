/** Asks vans for what is missing, and the same of a van only now and then: the answer may be under way. */
import { vanTopic } from '../../../protocol/van-topics.ts';
import type { BrokerConnection } from '../broker/broker-connection.ts';
import type { AskedOfVan } from './batch.ts';

const ASK_AGAIN_MS = 30_000;

export class Questions {
  readonly #askedMs = new Map<string, number>();

  async ask(connection: BrokerConnection, all: readonly AskedOfVan[]): Promise<void> {
    const nowMs = performance.now();
    for (const [key, atMs] of this.#askedMs)
      if (nowMs - atMs > ASK_AGAIN_MS) this.#askedMs.delete(key);
    for (const { van, asked } of all) {
      const key = `${van} ${asked.recordingId} ${asked.startedAtMs}`;
      if (this.#askedMs.has(key)) continue;
      this.#askedMs.set(key, nowMs);
      await connection.publish({
        topic: vanTopic(van, 'asked'),
        payload: JSON.stringify(asked),
        retain: false,
        expiryS: null,
      });
    }
  }
}
