/** A screen that does as it should, and how long each reading took to it from the moment at which it was due. */
import { StreamClient } from './stream-client.ts';
import { quantile } from '../bench/timings.ts';

export class WellBehavedScreen {
  readonly #client: StreamClient;
  readonly #recordingId: number;
  #read = 0;
  /** Data time and arrival of live readings; both clocks run alike, so their distance grows only by what delays. */
  readonly #offsetsMs: number[] = [];
  readonly indexes = new Set<number>();

  constructor(url: string, recordingId: number) {
    this.#client = new StreamClient(url);
    this.#recordingId = recordingId;
  }

  async follow(): Promise<void> {
    const client = this.#client;
    await client.until(() => client.heard.length > 0);
    client.send({ type: 'follow', recordingId: this.#recordingId, afterIndex: 0 });
    await client.until(() => {
      this.#take();
      return this.#offsetsMs.length > 0;
    });
    void client.until(() => {
      this.#take();
      return false;
    });
  }

  /** Each time that is asked, ms: of the readings since it was asked last, beyond the quickest of all. */
  delaysMs(): { readonly median: number; readonly p99: number; readonly most: number } {
    const quickest = Math.min(this.#quickestMs, ...this.#offsetsMs);
    this.#quickestMs = quickest;
    const sorted = this.#offsetsMs.map((ms) => ms - quickest).sort((a, b) => a - b);
    this.#offsetsMs.length = 0;
    return {
      median: quantile(sorted, 0.5),
      p99: quantile(sorted, 0.99),
      most: sorted.at(-1) ?? Infinity,
    };
  }
  #quickestMs = Infinity;

  get isConnected(): boolean {
    return this.#client.closeCode === null;
  }

  close(): void {
    this.#client.close();
  }

  #take(): void {
    const { heard } = this.#client;
    for (; this.#read < heard.length; this.#read += 1) {
      const message = heard[this.#read];
      if (message?.type === 'backfill' && !message.complete)
        this.#client.send({ type: 'more', recordingId: this.#recordingId });
      if (message?.type !== 'readings' && message?.type !== 'backfill') continue;
      for (const index of message.columns.index) this.indexes.add(index);
      if (message.type === 'backfill') continue;
      const nowMs = performance.now();
      for (const elapsedS of message.columns.elapsedS)
        this.#offsetsMs.push(nowMs - elapsedS * 1000);
    }
    heard.length = 0;
    this.#read = 0;
  }
}
