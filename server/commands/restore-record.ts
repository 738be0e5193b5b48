/** `npm run --silent restore-record`: adds a backup's recordings to the record, by the bridge where it runs. */
import { type IncomingMessage, request } from 'node:http';
import { copyFileSync, createReadStream, existsSync, statSync } from 'node:fs';
import { resolve } from 'node:path';
import { text } from 'node:stream/consumers';
import { pipeline } from 'node:stream/promises';
import { apiErrorSchema, healthSchema } from '../../protocol/api.ts';
import { ProblemError, PROBLEMS } from '../../protocol/problems.ts';
import { RECORD_MEDIA_TYPE, type Restored, restoredSchema } from '../../protocol/restored.ts';
import { Recorder } from '../record/recorder.ts';
import { Restorer } from '../record/restorer.ts';
import { DATA_FOLDER } from './data-folder.ts';
import { HELP_FLAG, parseOptions, TEXT } from './parse-options.ts';

class RestoreUsageError extends Error {
  override readonly name = 'RestoreUsageError';
}

const DEFAULT_PORT = '4180';

const HELP = `npm run --silent restore-record -- --from BACKUP [--data FOLDER] [--port N]

Adds the recordings of a backup to the record. Into an empty record they come with their numbers and hashes; to
others each comes with a number of its own and the fact of where it was taken from. What is there already is left
out. Of each recording comes all or nothing. One JSON object a line for each recording; the exit status is 0
where none was refused, else 1.

  --from BACKUP   a file that backup-record or the page has written; also one of an older version
  --data FOLDER   where the record is kept (${DATA_FOLDER})
  --port N        where the bridge answers, if it runs on this record (${DEFAULT_PORT}): then it does the work
  --help          this text

Names and places of sensors come along with their recordings, and into an empty record as they were.`;

export async function run(argv: readonly string[], write: (line: string) => void): Promise<number> {
  try {
    const refuse = (message: string, cause: unknown) => new RestoreUsageError(message, { cause });
    const options = { data: TEXT, from: TEXT, port: TEXT, help: HELP_FLAG };
    const {
      data = DATA_FOLDER,
      from,
      port = DEFAULT_PORT,
      help,
    } = parseOptions(argv, options, refuse);
    if (help) {
      write(HELP);
      return 0;
    }
    const { recordings } = await restore(data, fileOf(from), port);
    for (const recording of recordings) write(JSON.stringify(recording));
    return recordings.every(({ outcome }) => outcome !== 'refused') ? 0 : 1;
  } catch (error) {
    if (error instanceof RestoreUsageError) console.error(`${error.message}; see --help`);
    else if (error instanceof ProblemError) {
      console.error(`${error.message} ${PROBLEMS[error.code].remedy}`);
    } else throw error;
    return 1;
  }
}

function fileOf(from: string | undefined): string {
  if (from === undefined) throw new RestoreUsageError('--from is missing: which backup?');
  if (existsSync(from) && statSync(from).isFile()) return from;
  throw new RestoreUsageError(`--from is "${from}", but there is no such file`);
}

/** Two writers on one record would lay their numbers over each other: where the bridge runs, it writes. */
async function restore(dataFolder: string, from: string, port: string): Promise<Restored> {
  const bridge = `http://127.0.0.1:${port}/`;
  if (await isBridgeOf(bridge, dataFolder)) return byBridge(bridge, from);
  const recorder = await Recorder.open(dataFolder, {
    durable: () => undefined,
    held: ({ detail }) => console.error(new ProblemError('write_failed', detail).message),
  });
  try {
    const restorer = new Restorer(recorder, Date.now);
    return await restorer.restore((file) => {
      copyFileSync(from, file);
      // Of a record that was copied by hand, what it had not taken up yet.
      if (existsSync(`${from}-wal`)) copyFileSync(`${from}-wal`, `${file}-wal`);
      return Promise.resolve();
    });
  } finally {
    await recorder.close();
  }
}

async function isBridgeOf(bridge: string, dataFolder: string): Promise<boolean> {
  try {
    const answer = await fetch(`${bridge}api/health`, { signal: AbortSignal.timeout(1000) });
    const health = healthSchema.safeParse(await answer.json());
    return health.success && resolve(health.data.dataFolder) === resolve(dataFolder);
  } catch {
    return false;
  }
}

async function byBridge(bridge: string, from: string): Promise<Restored> {
  const headers = { 'content-type': RECORD_MEDIA_TYPE };
  const sent = request(`${bridge}api/restore`, { method: 'POST', headers });
  const answered = new Promise<IncomingMessage>((resolve, reject) => {
    sent.once('response', resolve).once('error', reject);
  });
  // Where the bridge has refused it midway, its answer says more than the broken pipe.
  const [answer] = await Promise.all([
    answered,
    pipeline(createReadStream(from), sent).catch(() => undefined),
  ]);
  const json: unknown = JSON.parse(await text(answer));
  if (answer.statusCode === 200) return restoredSchema.parse(json);
  const { code, detail } = apiErrorSchema.parse(json);
  throw new ProblemError(code, detail);
}
