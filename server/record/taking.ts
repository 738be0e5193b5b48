/** What is to be taken over from another record, and how it is written. */
import type { Origin, TakenFrom } from '../../protocol/recording.ts';
import type { ReadingRun } from './reading-runs.ts';

export interface TakeOver {
  /** The other record's database. */
  readonly file: string;
  readonly recordingIdThere: number;
  readonly recordingId: number;
  /**
   * Null: into an empty record, as it was, number for number and link for link. Else it gets numbers of its own,
   * links that say when it was added, and the fact of where it was taken from.
   */
  readonly taken: (TakenFrom & { readonly atMs: number }) | null;
  /** What it is called here; null: as it was there. */
  readonly named: { readonly origin: Origin; readonly title: string } | null;
}

/** What is written of a recording, in this order but for its readings. */
export interface Taking {
  /** A slice; many of them go before all else. */
  readings(runs: readonly ReadingRun[]): void;
  begin(): void;
  rest(): void;
}
