/** `npm run --silent backup-record`: a copy of the whole record in one file, also while the bridge records. */
import { existsSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { ProblemError, PROBLEMS } from '../../protocol/problems.ts';
import { backupName } from '../http/file-name.ts';
import { makeBackup } from '../record/backup.ts';
import { DATA_FOLDER } from './data-folder.ts';
import { HELP_FLAG, parseOptions, TEXT } from './parse-options.ts';

class BackupUsageError extends Error {
  override readonly name = 'BackupUsageError';
}

const HELP = `npm run --silent backup-record -- [--data FOLDER] [--to FILE]

Copies the whole record into one file, as it stands at one moment. The bridge may go on recording. The copy is
looked through before it counts; where anything fails, none is left. One JSON object says what came of it.

  --data FOLDER   where the record is kept (${DATA_FOLDER})
  --to FILE       where the copy goes; in a folder it gets a name with the time
                  (otherwise: the folder "backups" beside the record)
  --help          this text

restore-record brings its recordings back, here or on another computer.`;

/** @returns the exit status: 0, or 1 where there is no copy, or one of a record whose hashes don't hold */
export function run(argv: readonly string[], write: (line: string) => void): number {
  try {
    const refuse = (message: string, cause: unknown) => new BackupUsageError(message, { cause });
    const values = parseOptions(argv, { data: TEXT, to: TEXT, help: HELP_FLAG }, refuse);
    if (values.help) {
      write(HELP);
      return 0;
    }
    const dataFolder = values.data ?? DATA_FOLDER;
    const backup = makeBackup(dataFolder, placeFor(values.to ?? join(dataFolder, 'backups/')));
    write(JSON.stringify(backup));
    if (backup.broken.length === 0) return 0;
    console.error(
      `The copy is whole, but in the record itself hashes don't hold: ${backup.broken.join(', ')}. ` +
        'verify-record says where.',
    );
    return 1;
  } catch (error) {
    if (error instanceof BackupUsageError) console.error(`${error.message}; see --help`);
    else if (error instanceof ProblemError) {
      console.error(`${error.message} ${PROBLEMS[error.code].remedy}`);
    } else throw error;
    return 1;
  }
}

function placeFor(to: string): string {
  const isFolder = /[/\\]$/u.test(to) || (existsSync(to) && statSync(to).isDirectory());
  return resolve(isFolder ? join(to, backupName(Date.now())) : to);
}
