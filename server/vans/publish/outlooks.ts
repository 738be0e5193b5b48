/** Which recordings' outlooks are due: each running one at a slow pace, and once more when it has ended. */
import type { Recording } from '../../../protocol/recording.ts';
import { Outlook } from './outlook.ts';
import type { VanRecord } from './van-record.ts';
import type { VanSender } from './van-sender.ts';

const EVERY_MS = 30_000;
/** Of a recording that ended while there was no network, its last state is drawn if it is not older. */
const RECENT_MS = 48 * 3600_000;

export class Outlooks {
  readonly #record: VanRecord;
  readonly #wallClock: () => number;
  readonly #wanted = new Map<number, Recording>();
  readonly #running = new Map<number, Outlook>();
  #drawnMs = -Infinity;

  constructor(record: VanRecord, wallClock: () => number) {
    this.#record = record;
    this.#wallClock = wallClock;
  }

  /** Something new of it went out. */
  want(recording: Recording): void {
    const isRecent = this.#wallClock() - recording.startedAtMs < RECENT_MS;
    if (recording.open || isRecent) this.#wanted.set(recording.id, recording);
  }

  /** Draws and sends those that are due. */
  async send(sender: VanSender, softwareVersion: string): Promise<void> {
    const nowMs = performance.now();
    const isDue = nowMs - this.#drawnMs >= EVERY_MS;
    if (isDue) this.#drawnMs = nowMs;
    for (const [id, recording] of this.#wanted) {
      if (recording.open && !isDue) continue;
      this.#wanted.delete(id);
      const outlook = this.#running.get(id) ?? new Outlook(this.#record);
      if (recording.open) this.#running.set(id, outlook);
      else this.#running.delete(id);
      const drawn = await outlook.draw(recording);
      const by = { drawnAtMs: this.#wallClock(), softwareVersion };
      if (drawn.channels.length > 0) await sender.outlook(recording, drawn, by);
    }
  }
}
