/** What the API needs of the record; the record itself is another room. */
import type { Mark, NewMark } from '../../protocol/mark.ts';
import type { Reading, ReadingColumns, ReceivedColumns } from '../../protocol/reading.ts';
import type {
  ColumnValue,
  RecordedReading,
  RecordingJsonHead,
} from '../../protocol/recording-json.ts';
import type { Recording } from '../../protocol/recording.ts';
import type { NewSeenAlert, SeenAlert } from '../../protocol/seen-alert.ts';
import type { SheetEntry } from '../../protocol/sheet.ts';
import type { SignOff } from '../../protocol/sign-off.ts';
import type { TakenBack } from '../../protocol/typed-in.ts';
import type { Verified } from '../../protocol/verified.ts';

export interface RecordAccess {
  recordings(limit: number): Recording[];
  recording(recordingId: number): Recording | null;
  marks(recordingId: number): Mark[];
  sheet(recordingId: number): SheetEntry[];
  takenBack(recordingId: number): TakenBack[];
  seenAlerts(recordingId: number): SeenAlert[];
  lastIndex(recordingId: number): number;
  /** Data time of the last reading, s; null: there is none. */
  lastElapsedS(recordingId: number): number | null;
  readingsAfter(recordingId: number, afterIndex: number, limit: number): ReadingColumns;
  /** All, a part at a time, with room between for readings that arrive. */
  readingChunks(recordingId: number): AsyncIterable<readonly Reading[]>;
  verified(recordingId: number): Promise<Verified>;
  /** Facts that hold no more among them. */
  readonly facts: FactAccess;
  addMark(recordingId: number, mark: NewMark): Promise<Mark>;
  /** Resolves once it is durable that it was a slip. */
  takeMarkBack(recordingId: number, markId: number): Promise<void>;
  signOffs(recordingId: number): SignOff[];
  marksTakenBack(recordingId: number): Mark[];
  addSheetEntry(recordingId: number, entry: SheetEntry): Promise<SheetEntry>;
  addSeenAlert(recordingId: number, seen: NewSeenAlert): Promise<SeenAlert>;
}

/** Facts as they were recorded, also those that hold no more. */
interface FactAccess {
  readingsAfter(recordingId: number, afterIndex: number, limit: number): RecordedReading[];
  /** The same as columns. */
  columnsAfter(recordingId: number, afterIndex: number, limit: number): ReceivedColumns;
  /** One thing that every reading has, up to a reading, in parts. */
  column(
    recordingId: number,
    name: keyof RecordedReading,
    untilIndex: number,
  ): Iterable<readonly ColumnValue[]>;
  marksTakenBack(recordingId: number): RecordingJsonHead['marksTakenBack'];
}
