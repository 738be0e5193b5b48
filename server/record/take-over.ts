/**
 * Takes a recording over from another record, in slices between which others may write. Until the last of them there
 * are readings without a recording, which nobody sees (half-taken.ts); the last one brings the recording itself, all
 * that is no reading, and the links. So all of it is there afterwards, or nothing.
 * The other record has been looked through before (prepare.ts), and is only read.
 */
import Database from 'better-sqlite3';
import type { FactTableName } from './fact-tables.ts';
import { type ReadingRun, readingSlices } from './reading-runs.ts';
import { TakenAsItWas } from './taken-as-it-was.ts';
import { TakenLater } from './taken-later.ts';
import type { TakeOver } from './taking.ts';

/** Who else has to know of it. */
export interface TakingOver {
  /** Before the first slice that nobody sees is written. */
  readonly half: (recordingId: number) => void;
  /** There is none such any more. */
  readonly whole: () => void;
  /** Rows up to this number are to come. */
  readonly reserve: (kind: FactTableName, upTo: number) => void;
}

/** Yields after each slice. Where it fails or is left off, somebody has to remove what is there. */
export function* takeOver(
  database: Database.Database,
  wish: TakeOver,
  told: TakingOver,
): Generator<void, void> {
  const source = new Database(wish.file, { readonly: true, fileMustExist: true });
  try {
    const taking =
      wish.taken === null
        ? new TakenAsItWas(source, database, wish.recordingIdThere, told.reserve)
        : new TakenLater(source, database, wish, wish.taken);
    const slices = readingSlices(source, wish.recordingIdThere);
    const nextSlice = (): readonly ReadingRun[] => {
      const next = slices.next();
      return next.done === true ? [] : next.value;
    };
    let slice = nextSlice();
    let isHalf = false;
    for (let next = nextSlice(); next.length > 0; next = nextSlice()) {
      if (!isHalf) told.half(wish.recordingId);
      isHalf = true;
      writeUnseen(database, () => taking.readings(slice));
      slice = next;
      yield;
    }
    database.transaction(() => {
      taking.begin();
      taking.readings(slice);
      taking.rest();
    })();
    if (isHalf) told.whole();
  } finally {
    source.close();
  }
}

/** Their recording is not there yet, on which the database would insist. */
function writeUnseen(database: Database.Database, write: () => void): void {
  database.pragma('foreign_keys = OFF');
  try {
    database.transaction(write)();
  } finally {
    database.pragma('foreign_keys = ON');
  }
}
