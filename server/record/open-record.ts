/** Opens the record for its writer, and where it is damaged makes a new one of what can be read. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type Database from 'better-sqlite3';
import { ProblemError } from '../../protocol/problems.ts';
import { FactWriter } from './fact-writer.ts';
import { HalfTaken } from './half-taken.ts';
import { lockFolder } from './folder-lock.ts';
import { asProblem, openForWriting, RECORD_FILE } from './open-database.ts';
import { finishSettingAside, hasOnlyLog, type SetAside, setAside } from './salvage/set-aside.ts';
import { UnwrittenFacts } from './unwritten-facts.ts';

export interface OpenRecord {
  readonly database: Database.Database;
  readonly facts: FactWriter;
  /** Null where nothing was damaged. */
  readonly setAside: SetAside | null;
  readonly half: HalfTaken;
  /** The recording of which half had been taken over, and which is gone again; null: there was none. */
  readonly halfRemoved: number | null;
  /** Once the database is closed. */
  readonly unlock: () => void;
}

/**
 * @param nowMs wall clock
 * @param onMending called before a damaged record is read through, which may take minutes
 */
export function openRecord(
  dataFolder: string,
  nowMs: number,
  onMending: () => void = () => undefined,
): OpenRecord {
  const unlock = lock(dataFolder);
  try {
    return { ...open(dataFolder, nowMs, onMending), unlock };
  } catch (error) {
    unlock();
    throw error;
  }
}

function lock(dataFolder: string): () => void {
  try {
    mkdirSync(dataFolder, { recursive: true });
    return lockFolder(dataFolder);
  } catch (error) {
    throw asProblem(error, dataFolder);
  }
}

function open(
  dataFolder: string,
  nowMs: number,
  onMending: () => void,
): Omit<OpenRecord, 'unlock'> {
  const unwritten = new UnwrittenFacts(dataFolder);
  const { database, aside } = openOrMend(dataFolder, nowMs, onMending, unwritten.exists);
  const half = new HalfTaken(dataFolder);
  const halfRemoved = removed(database, half);
  const facts = new FactWriter(database);
  if (unwritten.exists) {
    const late = unwritten.read();
    database.transaction(() => {
      for (const fact of late) facts.write(fact);
      facts.seal();
    })();
    unwritten.setAside(nowMs);
  }
  return { database, facts, setAside: aside, half, halfRemoved };
}

/** Where there is no room even for that it stays where nobody sees it, until the next recording is taken over. */
function removed(database: Database.Database, half: HalfTaken): number | null {
  try {
    const steps = half.remove(database);
    for (;;) {
      const step = steps.next();
      if (step.done === true) return step.value;
    }
  } catch {
    return null;
  }
}

function openOrMend(dataFolder: string, nowMs: number, onMending: () => void, suspicious: boolean) {
  const file = join(dataFolder, RECORD_FILE);
  try {
    finishSettingAside(dataFolder, nowMs);
    if (!hasOnlyLog(dataFolder))
      return { database: openForWriting(dataFolder, suspicious), aside: null };
  } catch (error) {
    const problem = asProblem(error, file);
    if (problem.code !== 'record_damaged') throw problem;
  }
  onMending();
  const aside = mend(dataFolder, nowMs, file);
  return { database: openForWriting(dataFolder), aside };
}

function mend(dataFolder: string, nowMs: number, file: string): SetAside {
  try {
    return setAside(dataFolder, nowMs);
  } catch (error) {
    const { detail } = asProblem(error, file);
    throw new ProblemError('record_not_salvaged', detail, { cause: error });
  }
}
