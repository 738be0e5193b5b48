/** Options of the `verify-record` command. */
import { DATA_FOLDER } from './data-folder.ts';
import { HELP_FLAG, parseOptions, TEXT } from './parse-options.ts';

export interface VerifyOptions {
  readonly dataFolder: string;
  /** Null: all of them. */
  readonly recordingId: number | null;
  /** As it stands on a report; null where none is looked for. */
  readonly hash: string | null;
}

/** What is wrong with the command line, in one sentence. */
export class VerifyUsageError extends Error {
  override readonly name = 'VerifyUsageError';
}

/** Of SHA-256, hexadecimal; a report sets it in groups. */
const HASH = /^[0-9a-f]{64}$/u;

export const VERIFY_HELP = `npm run --silent verify-record -- [--data FOLDER] [--recording N] [--hash HASH]

Reckons the hashes over the record's facts anew and compares them with those that were written as the facts
came. One JSON object a line for each recording; the exit status is 0 where all hold, else 1.

  --data FOLDER   where the record is kept (${DATA_FOLDER})
  --recording N   that one alone (0: what was said of sensors)
  --hash HASH     as it stands on a report: finds the recording and the link that it is of
  --help          this text

It may run while the bridge records.

What it proves: the facts are those that were recorded; or somebody reckoned all hashes anew as well. Nobody can
do that to a hash on a report in other hands: a record that leads to it has not been altered since.
What it can't prove: that a sensor measured rightly or stood where it was said to, that what was typed in is
true, or what the facts were before the chain took them up ("addedLater").`;

/**
 * @returns the options, or null where help was asked for
 * @throws VerifyUsageError saying which option is wrong and what it should be
 */
export function readVerifyOptions(argv: readonly string[]): VerifyOptions | null {
  const values = parseOptions(
    argv,
    { data: TEXT, recording: TEXT, hash: TEXT, help: HELP_FLAG },
    (message, cause) => new VerifyUsageError(message, { cause }),
  );
  if (values.help) return null;
  return {
    dataFolder: values.data ?? DATA_FOLDER,
    recordingId: values.recording === undefined ? null : readNumber(values.recording),
    hash: values.hash === undefined ? null : readHash(values.hash),
  };
}

function readNumber(text: string): number {
  if (/^\d{1,15}$/u.test(text)) return Number(text);
  throw new VerifyUsageError(
    `--recording is "${text}", but a recording has a whole number, as its report says`,
  );
}

function readHash(text: string): string {
  const hash = text.replaceAll(/\s/gu, '').toLowerCase();
  if (HASH.test(hash)) return hash;
  throw new VerifyUsageError(`--hash is "${text}", but a hash is 64 digits from 0 to f`);
}
