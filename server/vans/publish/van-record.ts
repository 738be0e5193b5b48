/** What publishing needs of the record. */
import type { Mark } from '../../../protocol/mark.ts';
import type { ReadingColumns } from '../../../protocol/reading.ts';
import { isSimulated, type Recording } from '../../../protocol/recording.ts';
import type { SheetEntry } from '../../../protocol/sheet.ts';
import type { SignOff } from '../../../protocol/sign-off.ts';
import type { TakenBack } from '../../../protocol/typed-in.ts';

export interface VanRecord {
  recordingIds(): number[];
  recording(recordingId: number): Recording | null;
  marks(recordingId: number): Mark[];
  sheet(recordingId: number): SheetEntry[];
  signOffs(recordingId: number): SignOff[];
  takenBack(recordingId: number): TakenBack[];
  /** Stretches of data time that were deleted for good, also of a recording that is gone. */
  deletedStretches(recordingId: number): { fromS: number; untilS: number | null }[];
  /** How many links its chain has: whatever becomes a fact adds to it. */
  chainLength(recordingId: number): number;
  /** Of its last reading; 0 where there is none. */
  lastIndex(recordingId: number): number;
  readingsAfter(recordingId: number, afterIndex: number, limit: number): ReadingColumns;
}

/** What goes to the office at all. */
export function isPublished(recording: Recording, withRehearsals: boolean): boolean {
  return withRehearsals || !isSimulated(recording);
}
