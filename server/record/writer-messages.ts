/** What the recorder asks of the writer's thread, and what it answers. */
import type { Call, GivenLabel, KeptReveal } from '../../protocol/api.ts';
import type { MARK_AUTHORS, NewMark } from '../../protocol/mark.ts';
import type { Origin, SensorIdentity, TakenFrom } from '../../protocol/recording.ts';
import type { PreparedSheet } from '../../protocol/prepared-sheet.ts';
import type { SeenAlert } from '../../protocol/seen-alert.ts';
import type { Calibration } from '../../protocol/sensor-label.ts';
import type { SignOff } from '../../protocol/sign-off.ts';
import type { SheetEntry } from '../../protocol/sheet.ts';
import type { TakenBack } from '../../protocol/typed-in.ts';
import type { RecordMessage } from '../../protocol/stream.ts';
import type { SetAside } from './salvage/set-aside.ts';
import type { PackedReadings } from './packed-readings.ts';
import type { TakeOver } from './taking.ts';

/** A fact to be written. Facts are written in the order in which they are sent. */
export type Fact =
  | {
      readonly kind: 'begin';
      readonly recordingId: number;
      readonly origin: Origin;
      readonly startedAtMs: number;
      readonly title: string;
    }
  | { readonly kind: 'end'; readonly recordingId: number; readonly endedAtMs: number }
  | {
      readonly kind: 'sensor';
      readonly recordingId: number;
      readonly channel: number;
      readonly identity: SensorIdentity;
    }
  | {
      readonly kind: 'readings';
      readonly recordingId: number;
      readonly packed: PackedReadings;
    }
  | {
      readonly kind: 'mark';
      readonly recordingId: number;
      readonly mark: NewMark;
      readonly madeBy: (typeof MARK_AUTHORS)[number];
    }
  | { readonly kind: 'sheet'; readonly recordingId: number; readonly entry: SheetEntry }
  | { readonly kind: 'call'; readonly recordingId: number; readonly call: Call }
  | { readonly kind: 'reveal'; readonly recordingId: number; readonly reveal: KeptReveal }
  | { readonly kind: 'label'; readonly label: GivenLabel }
  | { readonly kind: 'take_back'; readonly recordingId: number; readonly takenBack: TakenBack }
  | {
      readonly kind: 'take_mark_back';
      readonly recordingId: number;
      readonly markId: number;
      readonly atMs: number;
    }
  | {
      readonly kind: 'archive';
      readonly recordingId: number;
      readonly beginMark: number;
      readonly archived: boolean;
      readonly atMs: number;
    }
  | { readonly kind: 'sign_off'; readonly recordingId: number; readonly signOff: SignOff }
  | { readonly kind: 'calibration'; readonly calibration: Calibration }
  | { readonly kind: 'prepared'; readonly sheet: PreparedSheet }
  /** A recording takes a prepared sheet over: what the job does not say yet is entered on its sheet. */
  | {
      readonly kind: 'use_prepared';
      readonly prepared: number;
      readonly recordingId: number;
      readonly elapsedS: number;
      readonly atMs: number;
    }
  /** A prepared sheet goes for good, and a tombstone stands for it. */
  | { readonly kind: 'discard'; readonly prepared: number; readonly atMs: number }
  | {
      readonly kind: 'taken_from';
      readonly recordingId: number;
      readonly takenFrom: TakenFrom;
      readonly atMs: number;
    }
  /** A job's facts go for good, and a tombstone stands for them. */
  | {
      readonly kind: 'delete';
      readonly recordingId: number;
      readonly beginMark: number;
      readonly atMs: number;
    }
  | { readonly kind: 'seen_alert'; readonly recordingId: number; readonly seen: SeenAlert };

export type ToWriter =
  | { readonly type: 'write'; readonly ticket: number; readonly fact: Fact }
  /** A recording of another record, as a whole. */
  | { readonly type: 'take_over'; readonly ticket: number; readonly wish: TakeOver }
  | { readonly type: 'close' }
  /** Nobody reads any more: the last one to close the file empties its log. */
  | { readonly type: 'release' };

/** Readings that were given their place, still packed. */
export interface WrittenReadings {
  readonly type: 'written_readings';
  readonly recordingId: number;
  readonly firstIndex: number;
  readonly packed: PackedReadings;
}

/** Nothing was written: what the fact rests on had changed when its turn came. */
export interface Declined {
  readonly type: 'declined';
  readonly code: 'not_found' | 'sheet_used' | 'too_many_prepared';
  readonly detail: string;
}

/** A fact that is durable, and what the stream should say of it; null: nothing. */
interface Written {
  readonly ticket: number;
  readonly message: RecordMessage | WrittenReadings | Declined | null;
}

export type FromWriter =
  /** Null: all of it is durable. Else why nothing of it is there. */
  | { readonly type: 'taken_over'; readonly ticket: number; readonly failure: string | null }
  | {
      readonly type: 'ready';
      readonly setAside: SetAside | null;
      /** The recording that was being taken over when the last writer was ended, and of which nothing is left. */
      readonly halfRemoved: number | null;
    }
  /** Before it is ready: it reads through a damaged record. */
  | { readonly type: 'mending' }
  | {
      readonly type: 'durable';
      readonly written: readonly Written[];
      /** How many of what was handed over are among it, whether they had been there before or not. */
      readonly readings: number;
    }
  | ({ readonly type: 'held' } & Held)
  /** What had been held is durable. */
  | { readonly type: 'relieved' }
  /** The file turned out to be damaged; facts go to a file beside it until the next start. */
  | ({ readonly type: 'damaged' } & Damaged)
  | {
      readonly type: 'refused';
      readonly code:
        | 'record_from_newer_version'
        | 'record_not_salvaged'
        | 'record_in_use'
        | 'data_folder_unwritable';
      readonly detail: string;
    }
  /** Told to close: nothing waits any more, and whoever reads may let go of the file. */
  | { readonly type: 'all_written' };

/** The file turned out to be damaged. */
export interface Damaged {
  readonly sinceMs: number;
  readonly detail: string;
  /** Where facts go until the next start. */
  readonly file: string;
}

/** A commit failed for a reason outside (disk full, say); it is tried again each second. */
export interface Held {
  /** Wall clock, ms: since when nothing is written. */
  readonly sinceMs: number;
  readonly detail: string;
  /** Readings that are kept in memory meanwhile. */
  readonly waiting: number;
  /** Readings for which there was no room in memory either. */
  readonly refused: number;
}
