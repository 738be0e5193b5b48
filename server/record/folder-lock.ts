/**
 * One bridge a data folder: two would give their recordings the same numbers. The lock is the operating system's,
 * on a file of its own, and goes with the process however that ends.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { ProblemError } from '../../protocol/problems.ts';

const LOCK_FILE = 'record.lock';
/** Where the bridge that has the lock shows its page. */
const ADDRESS_FILE = 'record.address';

/**
 * @returns what gives it back
 * @throws ProblemError where another one has it, naming its address
 */
export function lockFolder(dataFolder: string): () => void {
  const database = new Database(join(dataFolder, LOCK_FILE), { timeout: 0 });
  try {
    database.exec('BEGIN EXCLUSIVE');
    return () => void database.close();
  } catch (error) {
    database.close();
    const isTaken = error instanceof Error && 'code' in error && error.code === 'SQLITE_BUSY';
    if (!isTaken) throw error;
    throw new ProblemError('record_in_use', addressIn(dataFolder), { cause: error });
  }
}

/** For the message of whoever is started in vain. */
export function tellAddress(dataFolder: string, address: string): void {
  writeFileSync(join(dataFolder, ADDRESS_FILE), address);
}

function addressIn(dataFolder: string): string {
  try {
    return `${dataFolder}, ${readFileSync(join(dataFolder, ADDRESS_FILE), 'utf8')}`;
  } catch {
    // It has only just begun.
    return dataFolder;
  }
}
