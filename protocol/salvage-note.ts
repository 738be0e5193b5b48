/**
 * What the bridge notes in a recording of which a damaged file had lost something. The note is a fact like any other:
 * it goes with the recording into copies and files, and whoever reports on the recording finds it again.
 */
import type { Mark } from './mark.ts';

/** How many were saved, and how many there had been at least: what nothing tells of any more is in neither. */
export interface SavedShare {
  readonly saved: number;
  readonly atLeast: number;
}

export interface SalvageNote {
  readonly readings: SavedShare;
  /** Marks, entries, sensors and the rest. */
  readonly otherFacts: SavedShare;
}

const NOTE =
  /^Salvaged from a damaged file: (\d+) of at least (\d+) readings, (\d+) of at least (\d+) other entries\. /u;

/** @param lies where the damaged files are */
export function writeSalvageNote({ readings, otherFacts }: SalvageNote, lies: string): string {
  return (
    `Salvaged from a damaged file: ${readings.saved} of at least ${readings.atLeast} readings, ` +
    `${otherFacts.saved} of at least ${otherFacts.atLeast} other entries. The file lies in ${lies}.`
  );
}

/**
 * Each time that something was lost, the latest last. A hand may note the same words: that is no such note.
 * @param marks of the whole recording: what was lost may be missing from any job of it
 */
export function salvagesOf(marks: readonly Mark[]): SalvageNote[] {
  const notes = marks.filter(({ kind, madeBy }) => kind === 'note' && madeBy === 'bridge');
  // Each job has the note of the same salvage.
  const texts = new Set(notes.toSorted((a, b) => a.id - b.id).map(({ text }) => text));
  return [...texts].flatMap((text) => {
    const found = NOTE.exec(text);
    if (found === null) return [];
    const [readings = 0, ofReadings = 0, others = 0, ofOthers = 0] = found.slice(1).map(Number);
    return [
      {
        readings: { saved: readings, atLeast: ofReadings },
        otherFacts: { saved: others, atLeast: ofOthers },
      },
    ];
  });
}
