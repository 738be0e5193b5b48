/** Whether the office is reached, for the page: the terminal says why not, and nobody looks there. */
import type { OfficeState } from '../../../protocol/office-state.ts';
import type { CursorFile } from './cursor-file.ts';
import { isPublished, type VanRecord } from './van-record.ts';

/** A network that is back after some seconds is nothing to read about, ms. */
const TOLD_AFTER_MS = 30_000;

export interface ReachWishes {
  readonly record: Pick<VanRecord, 'recordingIds' | 'recording' | 'lastIndex'>;
  readonly cursors: Pick<CursorFile, 'all'>;
  readonly withRehearsals: boolean;
  readonly wallClock: () => number;
  readonly office: (state: OfficeState) => void;
}

export class OfficeReach {
  readonly #wishes: ReachWishes;
  #reachedMs: number;
  #told: OfficeState['kind'] = 'untold';

  constructor(wishes: ReachWishes) {
    this.#wishes = wishes;
    this.#reachedMs = wishes.wallClock();
  }

  /** All that waited is there. */
  reached(): void {
    this.#reachedMs = this.#wishes.wallClock();
    if (this.#told !== 'reached') this.#tell({ kind: 'reached' });
  }

  /** It was tried, and nothing came of it. */
  missed(): void {
    const sinceMs = this.#reachedMs;
    if (this.#wishes.wallClock() - sinceMs < TOLD_AFTER_MS) return;
    this.#tell({ kind: 'unreached', sinceMs, waiting: this.#waiting() });
  }

  #tell(state: OfficeState): void {
    this.#told = state.kind;
    this.#wishes.office(state);
  }

  #waiting(): number {
    const { record, cursors, withRehearsals } = this.#wishes;
    const sent = new Map(cursors.all().map((one) => [keyOf(one), one.lastIndex]));
    return record
      .recordingIds()
      .flatMap((id) => record.recording(id) ?? [])
      .filter((recording) => isPublished(recording, withRehearsals))
      .map(({ id, startedAtMs }) => {
        const lastSent = sent.get(keyOf({ recordingId: id, startedAtMs })) ?? 0;
        return Math.max(0, record.lastIndex(id) - lastSent);
      })
      .reduce((sum, count) => sum + count, 0);
  }
}

function keyOf({ recordingId, startedAtMs }: { recordingId: number; startedAtMs: number }): string {
  return `${recordingId} ${startedAtMs}`;
}
