/**
 * `npm run --silent verify-record`: reckons the chain over the record's facts anew, one JSON object a line for
 * each recording.
 */
import type Database from 'better-sqlite3';
import { z } from 'zod';
import { ProblemError, PROBLEMS } from '../../protocol/problems.ts';
import { OF_NO_RECORDING } from '../record/fact-tables.ts';
import { isDamage, openForReading } from '../record/open-database.ts';
import { damagedFolders } from '../record/salvage/set-aside.ts';
import { ChainVerifier, type Found } from '../record/verify-chain.ts';
import {
  readVerifyOptions,
  VERIFY_HELP,
  type VerifyOptions,
  VerifyUsageError,
} from './verify-record-options.ts';

/**
 * @param argv what follows the command's name
 * @param write takes one line of standard output
 * @returns the exit status: 0, or 1 where a recording does not hold or can't be looked at
 */
export function run(argv: readonly string[], write: (line: string) => void): number {
  try {
    const options = readVerifyOptions(argv);
    if (options === null) {
      write(VERIFY_HELP);
      return 0;
    }
    tellOfDamage(options.dataFolder);
    return verify(options, write);
  } catch (error) {
    console.error(whatToDo(error));
    return 1;
  }
}

function whatToDo(error: unknown): string {
  if (error instanceof VerifyUsageError) return `${error.message}; see --help`;
  if (error instanceof ProblemError) return `${error.message} ${PROBLEMS[error.code].remedy}`;
  throw error;
}

/** What stands in a salvaged record is what could be read: the rest lies elsewhere. */
function tellOfDamage(dataFolder: string): void {
  for (const folder of damagedFolders(dataFolder))
    console.error(`${PROBLEMS.record_salvaged.meaning} They lie in ${folder}`);
}

function verify(options: VerifyOptions, write: (line: string) => void): number {
  const database = openForReading(options.dataFolder);
  try {
    // One state of the record, however long it takes, while the bridge goes on writing.
    database.exec('BEGIN');
    const known = recordingsOf(database);
    const wanted = options.recordingId === null ? known : [options.recordingId];
    const unknown = wanted.find((id) => !known.includes(id));
    if (unknown !== undefined) throw new ProblemError('not_found', `recording ${unknown}`);
    const verifier = new ChainVerifier(database, options.hash);
    let holds = true;
    let isFound = options.hash === null;
    for (const id of wanted) {
      const { verified, hashAt } = toTheEnd(verifier.verify(id));
      isFound ||= hashAt !== null;
      // After the hash on the report the record may have grown; before it nothing may have changed.
      if (options.hash === null) write(JSON.stringify(verified));
      else if (hashAt !== null) write(JSON.stringify({ ...verified, hashAtLink: hashAt }));
      holds &&= verified.broken === null;
    }
    if (!isFound)
      console.error('no recording leads to this hash: it is of another record, or altered');
    return holds && isFound ? 0 : 1;
  } catch (error) {
    // Met only where it is read: a start does not look through a large record.
    if (!isDamage(error)) throw error;
    throw new ProblemError('record_damaged', error.message, { cause: error });
  } finally {
    database.close();
  }
}

function recordingsOf(database: Database.Database): number[] {
  const ids = database
    .prepare('SELECT id FROM recording UNION SELECT recording_id FROM tombstone ORDER BY 1')
    .pluck()
    .all();
  return [...new Set([OF_NO_RECORDING, ...z.array(z.int()).parse(ids)])];
}

function toTheEnd(steps: Generator<void, Found>): Found {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}
