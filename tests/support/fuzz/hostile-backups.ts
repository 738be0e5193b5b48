/**
 * Backups that were harmed, restored to a record: each is refused in words, or of each recording in it all or nothing
 * comes, and what is said to hold has the very facts of the sound one. What the record had before stays as it was.
 */
import { createHash } from 'node:crypto';
import { copyFileSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type Database from 'better-sqlite3';
import { z } from 'zod';
import { ProblemError } from '../../../protocol/problems.ts';
import { makeBackup } from '../../../server/record/backup.ts';
import { FACT_KINDS } from '../../../server/record/fact-tables.ts';
import { removeAllOrphans } from '../../../server/record/half-taken.ts';
import { factsOf } from '../../../server/record/facts-of.ts';
import {
  openForReading,
  openForWriting,
  RECORD_FILE,
} from '../../../server/record/open-database.ts';
import { type PreparedRecording, prepareRecord } from '../../../server/record/prepare.ts';
import { Recorder } from '../../../server/record/recorder.ts';
import { takeOver } from '../../../server/record/take-over.ts';
import { verifyAll } from '../../../server/record/verify-all.ts';
import { recordJob } from '../written-job.ts';
import type { SchemaValues } from './from-schema.ts';
import { mutateBackup } from './mutated-backup.ts';

const NOT_TOLD = { half: () => undefined, whole: () => undefined, reserve: () => undefined };
const LISTENER = { durable: () => undefined, held: () => undefined };

export interface RestoredBackups {
  /** Files that were refused, and recordings of others by what became of them. */
  readonly said: Record<'refused' | 'unreadable' | 'there' | 'whole' | 'doubtful', number>;
  readonly faults: string[];
}

export class HostileBackups {
  readonly #folder = mkdtempSync(join(tmpdir(), 'harmed-'));
  readonly #sound = new Map<number, string>();
  #before = '';

  static async make(): Promise<HostileBackups> {
    const backups = new HostileBackups();
    await backups.#record('there', 5);
    await backups.#record('here', 10);
    makeBackup(backups.#path('there'), backups.#path('sound.sqlite'));
    const there = openForReading(backups.#path('there'));
    for (const id of [1, 2]) backups.#sound.set(id, factsHash(there, id));
    there.close();
    const here = openForReading(backups.#path('here'));
    backups.#before = recordHash(here);
    here.close();
    return backups;
  }

  restore(count: number, values: SchemaValues): RestoredBackups {
    const said = { refused: 0, unreadable: 0, there: 0, whole: 0, doubtful: 0 };
    const faults: string[] = [];
    const here = openForWriting(this.#path('here'));
    // A recording comes after its readings, and within a transaction nobody can say that this is right.
    here.pragma('foreign_keys = OFF');
    for (let left = count; left > 0; left -= 1) {
      const work = this.#path('work');
      rmSync(work, { recursive: true, force: true });
      mkdirSync(work);
      const file = join(work, RECORD_FILE);
      copyFileSync(this.#path('sound.sqlite'), file);
      const how = mutateBackup(file, values);
      // Taken back afterwards: each meets the same record, and nothing waits for the disk.
      here.exec('BEGIN');
      try {
        this.#restore(here, work, said);
      } catch (error) {
        faults.push(`${how}: ${error instanceof Error ? (error.stack ?? '') : String(error)}`);
      }
      here.exec('ROLLBACK');
    }
    here.close();
    return { said, faults };
  }

  remove(): void {
    rmSync(this.#folder, { recursive: true, force: true });
  }

  #restore(here: Database.Database, work: string, said: RestoredBackups['said']): void {
    let prepared;
    try {
      prepared = prepareRecord(this.#path('here'), work);
    } catch (error) {
      const isSaid = error instanceof ProblemError && error.code !== 'bad_readings_file';
      if (!isSaid) throw error;
      said.refused += 1;
      return;
    }
    prepared.recordings.forEach((one, place) => {
      said[this.#added(here, prepared.file, one, 100 + place)] += 1;
    });
    if (recordHash(here) !== this.#before) throw new Error('what was there was changed');
    const broken = verifyAll(here).find((found) => found.broken !== null);
    if (broken !== undefined) throw new Error(`the chain broke: ${JSON.stringify(broken)}`);
  }

  #added(
    database: Database.Database,
    file: string,
    { recording, hash, held, hereAs, unreadable }: PreparedRecording,
    recordingId: number,
  ): keyof RestoredBackups['said'] {
    if (hereAs !== null) return 'there';
    if (unreadable !== null) return 'unreadable';
    const { id, origin, startedAtMs, title } = recording;
    const from = { format: 'backup', softwareVersion: '', recordingId: id, atMs: 1 } as const;
    const taken = { ...from, origin, startedAtMs, title, hash, held };
    const before = factsHash(database, recordingId);
    try {
      const wish = { file, recordingIdThere: id, recordingId, taken, named: null };
      const slices = takeOver(database, wish, NOT_TOLD);
      while (slices.next().done !== true);
    } catch {
      removeAllOrphans(database);
      // The bridge says why; nothing of it may stand there.
      if (factsHash(database, recordingId) !== before) throw new Error('half a recording came');
      return 'unreadable';
    }
    const is = openForReading(join(file, '..'));
    const found = factsHash(is, id);
    is.close();
    if (held && found !== this.#sound.get(id)) throw new Error(`${id} is said to hold, altered`);
    return held ? 'whole' : 'doubtful';
  }

  async #record(name: string, seed: number): Promise<void> {
    const recorder = await Recorder.open(this.#path(name), LISTENER);
    await recordJob(recorder, { seed, origin: 'sensor', sensors: 1, every: 40 });
    await recordJob(recorder, { seed: seed + 21, origin: 'rehearsal', sensors: 1, every: 60 });
    await recorder.close();
  }

  #path(name: string): string {
    return join(this.#folder, name);
  }
}

function factsHash(database: Database.Database, recordingId: number): string {
  const hash = createHash('sha256');
  for (const kind of FACT_KINDS) {
    for (const { row } of factsOf(database, kind, recordingId))
      hash.update(`${kind} ${JSON.stringify(row)}\n`);
  }
  return hash.digest('hex');
}

const partsRow = z.array(z.string().nullable());

/** Of what was here first, and of the rules of its file. */
function recordHash(database: Database.Database): string {
  const rules = partsRow.parse(database.prepare('SELECT sql FROM sqlite_schema').pluck().all());
  return [factsHash(database, 1), factsHash(database, 2), rules.join()].join();
}
