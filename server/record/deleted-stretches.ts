/** What of a recording was deleted for good: nothing comes back into it, and no number is given out again. */
import type Database from 'better-sqlite3';
import { z } from 'zod';
import { readSpans } from './chain.ts';
import { isOfReadings } from './fact-tables.ts';
import { type PackedReadings, whereElapsed } from './packed-readings.ts';

const stretchRow = z
  .object({ from_s: z.number(), until_s: z.number().nullable() })
  .transform(({ from_s: fromS, until_s: untilS }) => ({ fromS, untilS }));
type Stretch = z.infer<typeof stretchRow>;

export class DeletedStretches {
  readonly #stretches: Database.Statement;
  readonly #links: Database.Statement;
  /** Per recording, asked once: most have none, and then a batch costs a look into this map. */
  readonly #known = new Map<number, readonly Stretch[]>();

  constructor(database: Database.Database) {
    this.#stretches = database.prepare(
      'SELECT from_s, until_s FROM tombstone WHERE recording_id = ?',
    );
    this.#links = database.prepare('SELECT facts FROM chain_link WHERE recording_id = ?').pluck();
  }

  /** Something was deleted, or a deletion failed. */
  forget(): void {
    this.#known.clear();
  }

  /** The readings that lie in nothing that was deleted. */
  without(recordingId: number, packed: PackedReadings): PackedReadings {
    const stretches = this.#of(recordingId);
    if (stretches.length === 0) return packed;
    return whereElapsed(
      packed,
      (elapsedS) =>
        !stretches.some(
          ({ fromS, untilS }) => elapsedS >= fromS && (untilS === null || elapsedS < untilS),
        ),
    );
  }

  /**
   * The highest number that a reading ever had, as the links tell that outlive it; 0 where nothing was deleted. Numbers
   * rise, but for what was taken up anew: so all links are looked through.
   */
  lastIndex(recordingId: number): number {
    if (this.#of(recordingId).length === 0) return 0;
    let last = 0;
    for (const facts of this.#links.iterate(recordingId)) {
      for (const span of readSpans(z.string().parse(facts)) ?? []) {
        if (isOfReadings(span)) last = Math.max(last, span.last ?? 0);
      }
    }
    return last;
  }

  #of(recordingId: number): readonly Stretch[] {
    const known = this.#known.get(recordingId);
    if (known !== undefined) return known;
    const found = z.array(stretchRow).parse(this.#stretches.all(recordingId));
    this.#known.set(recordingId, found);
    return found;
  }
}
