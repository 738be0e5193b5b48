/**
 * A copy of the whole record in one file, as it stood at one moment, while the bridge goes on recording. SQLite
 * writes it from a single view of the record, which no writing disturbs; it is looked through before it counts.
 */
import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  renameSync,
  rmSync,
  statSync,
} from 'node:fs';
import { dirname } from 'node:path';
import Database from 'better-sqlite3';
import { z } from 'zod';
import { ProblemError } from '../../protocol/problems.ts';
import { removeAllOrphans } from './half-taken.ts';
import { openForReading } from './open-database.ts';
import { verifyAll } from './verify-all.ts';

export const backupSchema = z.strictObject({
  file: z.string(),
  bytes: z.int(),
  recordings: z.int(),
  /** Those whose chain does not hold, in the record as in its copy; 0: what was said of sensors. */
  broken: z.array(z.int()),
});
export type Backup = z.infer<typeof backupSchema>;

/**
 * Keeps its thread until it is done: a bridge has it done aside.
 * @throws ProblemError `backup_failed`; no half a copy is left then
 */
export function makeBackup(dataFolder: string, file: string): Backup {
  if (existsSync(file)) {
    throw new ProblemError('backup_failed', `${file} is there already, and is not overwritten`);
  }
  const unfinished = `${file}.unfinished-${process.pid}`;
  const record = openForReading(dataFolder);
  try {
    mkdirSync(dirname(file), { recursive: true });
    record.prepare('VACUUM INTO ?').run(unfinished);
    leaveOutHalf(unfinished);
    const found = lookThrough(unfinished);
    toTheDisk(unfinished);
    renameSync(unfinished, file);
    toTheDisk(dirname(file));
    return { file, bytes: statSync(file).size, ...found };
  } catch (error) {
    if (error instanceof ProblemError) throw error;
    const message = error instanceof Error ? error.message : String(error);
    throw new ProblemError('backup_failed', `${file}: ${message}`, { cause: error });
  } finally {
    record.close();
    removeIfThere(unfinished);
    removeIfThere(`${unfinished}-journal`);
  }
}

/** Where not even the folder is one, there is nothing to remove. */
function removeIfThere(file: string): void {
  if (existsSync(file)) rmSync(file);
}

/** Of a recording that is being taken over meanwhile. */
function leaveOutHalf(file: string): void {
  const copy = new Database(file, { fileMustExist: true });
  try {
    copy.pragma('secure_delete = ON');
    removeAllOrphans(copy);
  } finally {
    copy.close();
  }
}

function lookThrough(file: string): Pick<Backup, 'recordings' | 'broken'> {
  const copy = new Database(file, { readonly: true, fileMustExist: true });
  try {
    const faults = z
      .array(z.string())
      .parse(copy.prepare('PRAGMA integrity_check(3)').pluck().all());
    if (faults.join() !== 'ok') {
      throw new ProblemError('backup_failed', `the copy is damaged: ${faults.join('; ')}`);
    }
    const all = verifyAll(copy);
    return {
      recordings: all.filter(({ recordingId }) => recordingId > 0).length,
      broken: all.filter(({ broken }) => broken !== null).map(({ recordingId }) => recordingId),
    };
  } finally {
    copy.close();
  }
}

/** What only stands in the operating system's memory is lost when the power goes. */
function toTheDisk(path: string): void {
  // Windows opens no folder as a file; there the name is as safe as the system makes it.
  if (process.platform === 'win32' && statSync(path).isDirectory()) return;
  const handle = openSync(path, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}
