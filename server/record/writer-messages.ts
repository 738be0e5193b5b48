/** What the recorder asks of the writer's thread, and what it answers. */
import type { Call, GivenLabel, KeptReveal } from '../../protocol/api.ts';
import type { MARK_AUTHORS, NewMark } from '../../protocol/mark.ts';
import type { ReceivedReading } from '../../protocol/reading.ts';
import type { Origin, SensorIdentity, TakenFrom } from '../../protocol/recording.ts';
import type { SeenAlert } from '../../protocol/seen-alert.ts';
import type { Calibration } from '../../protocol/sensor-label.ts';
import type { SignOff } from '../../protocol/sign-off.ts';
import type { SheetEntry } from '../../protocol/sheet.ts';
import type { TakenBack } from '../../protocol/typed-in.ts';
import type { RecordMessage } from '../../protocol/stream.ts';
import type { TakeOver } from './take-over.ts';

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
      readonly readings: readonly ReceivedReading[];
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
  | { readonly type: 'close' };

/** A fact that is durable, and what the stream should say of it; null: nothing. */
interface Written {
  readonly ticket: number;
  readonly message: RecordMessage | null;
}

export type FromWriter =
  | { readonly type: 'ready' }
  | { readonly type: 'durable'; readonly written: readonly Written[] }
  /** Null: all of it is durable. Else why nothing of it is there. */
  | { readonly type: 'taken_over'; readonly ticket: number; readonly failure: string | null }
  /** A commit failed for a reason outside (disk full, say); the facts are kept and tried again. */
  | { readonly type: 'held'; readonly detail: string; readonly waiting: number }
  | {
      readonly type: 'refused';
      readonly code: 'record_from_newer_version' | 'record_damaged' | 'data_folder_unwritable';
      readonly detail: string;
    }
  | { readonly type: 'closed' };
