/** The record as a whole: copied, and recordings taken over from a copy or from a file that holds a whole one. */
import { join } from 'node:path';
import { ProblemError } from '../../protocol/problems.ts';
import type { Origin, Recording, TakenFrom } from '../../protocol/recording.ts';
import { recordingJsonHeadSchema } from '../../protocol/recording-json.ts';
import type { Restored, RestoredRecording } from '../../protocol/restored.ts';
import { type Backup, backupSchema } from './backup.ts';
import { done, type FILE_FORMATS } from './aside.ts';
import { type Prepared, type PreparedRecording, preparedSchema } from './prepare.ts';
import { RECORD_FILE } from './open-database.ts';
import type { Recorder } from './recorder.ts';
import { newWorkFolder, removeWorkFolder } from './work-folder.ts';

const BACKUP = 'backup';

export class Restorer {
  readonly #recorder: Recorder;
  readonly #wallClock: () => number;
  #readBefore: Promise<unknown> = Promise.resolve();

  constructor(recorder: Recorder, wallClock: () => number) {
    this.#recorder = recorder;
    this.#wallClock = wallClock;
  }

  /**
   * A copy of the record, in a folder of its own until it is removed.
   * @throws ProblemError `backup_failed`
   */
  async backup(): Promise<Backup & { readonly atMs: number; readonly remove: () => void }> {
    const { dataFolder } = this.#recorder;
    const folder = newWorkFolder(dataFolder);
    const remove = () => removeWorkFolder(folder);
    try {
      const atMs = this.#wallClock();
      const job = { type: 'backup', dataFolder, file: join(folder, RECORD_FILE) } as const;
      return { ...(await done(job, backupSchema)), atMs, remove };
    } catch (error) {
      remove();
      throw error;
    }
  }

  /**
   * Adds a backup's recordings to the record; what is here already is left out. Of each recording comes all or
   * nothing.
   * @param write puts the backup under the name that it is given
   * @throws ProblemError `bad_backup`, `record_from_newer_version`
   */
  async restore(write: (file: string) => Promise<void>): Promise<Restored> {
    return this.#inWorkFolder(async (workFolder) => {
      await write(join(workFolder, RECORD_FILE));
      const { dataFolder } = this.#recorder;
      const prepared = await done({ type: 'prepare', dataFolder, workFolder }, preparedSchema);
      const recordings = this.#recorder.isEmpty
        ? await this.#asItWas(prepared)
        : await Promise.all(prepared.recordings.map((one) => this.#added(prepared.file, one)));
      return { recordings };
    });
  }

  /**
   * A recording of its own, with all facts that stand in the file; one file after the other, since each takes a
   * thread and many times its size in memory.
   * @param name of the file
   * @throws ProblemError `bad_readings_file`; nothing was recorded then
   */
  async readIn(
    name: string,
    format: (typeof FILE_FORMATS)[number],
    text: string,
  ): Promise<Recording> {
    const read = this.#readBefore.then(() => this.#readIn(name, format, text));
    this.#readBefore = read.catch(() => undefined);
    return read;
  }

  async #readIn(
    name: string,
    format: (typeof FILE_FORMATS)[number],
    text: string,
  ): Promise<Recording> {
    return this.#inWorkFolder(async (workFolder) => {
      const head = await done(
        { type: 'read_file', format, text, workFolder },
        recordingJsonHeadSchema,
      );
      const { recording, softwareVersion, verified } = head;
      const recordingId = this.#recorder.nextNumber();
      const failure = await this.#recorder.takeOver({
        file: join(workFolder, RECORD_FILE),
        recordingIdThere: 1,
        recordingId,
        taken: {
          ...takenFrom(recording),
          format,
          hash: verified?.hash ?? '',
          // What the file says of itself anybody can write: only a backup's chain is reckoned anew.
          held: false,
          softwareVersion,
          atMs: this.#wallClock(),
        },
        named: { origin: 'import', title: name },
      });
      if (failure !== null) throw new ProblemError('bad_readings_file', failure);
      const taken = this.#recorder.reader.recording(recordingId);
      if (taken === null) throw new Error(`recording ${recordingId} is durable and is not there`);
      return taken;
    });
  }

  async #asItWas({ file, numbers, recordings }: Prepared): Promise<RestoredRecording[]> {
    const unreadable = recordings.find((one) => one.unreadable !== null);
    if (unreadable !== undefined) {
      // Its facts would be in everybody's way, and without it the hashes of the next would lead nowhere.
      return Promise.all(recordings.map((one) => this.#added(file, one)));
    }
    this.#recorder.reserveNumbers(numbers.at(-1) ?? 0);
    const failures = new Map(
      await Promise.all(
        numbers.map(async (number): Promise<[number, string | null]> => {
          const wish = { file, recordingIdThere: number, recordingId: number };
          return [number, await this.#recorder.takeOver({ ...wish, taken: null, named: null })];
        }),
      ),
    );
    return recordings.map((one) =>
      told(one, 'as_it_was', one.recording.id, failures.get(one.recording.id) ?? null),
    );
  }

  async #added(file: string, one: PreparedRecording): Promise<RestoredRecording> {
    const { recording, hash, held, hereAs, unreadable } = one;
    if (hereAs !== null) return told(one, 'there_already', hereAs, null);
    if (unreadable !== null) return told(one, 'added', 0, unreadable);
    const recordingId = this.#recorder.nextNumber();
    const failure = await this.#recorder.takeOver({
      file,
      recordingIdThere: recording.id,
      recordingId,
      taken: {
        ...takenFrom(recording),
        format: BACKUP,
        hash,
        held,
        softwareVersion: '',
        atMs: this.#wallClock(),
      },
      named: null,
    });
    return told(one, 'added', recordingId, failure);
  }

  async #inWorkFolder<T>(work: (folder: string) => Promise<T>): Promise<T> {
    const folder = newWorkFolder(this.#recorder.dataFolder);
    try {
      return await work(folder);
    } finally {
      removeWorkFolder(folder);
    }
  }
}

/** A rehearsal stays one, and what was typed in was typed in, however often it was taken along. */
function takenFrom(
  recording: Recording,
): Omit<TakenFrom, 'format' | 'hash' | 'held' | 'softwareVersion'> {
  const origin: Origin = recording.takenFrom?.origin ?? recording.origin;
  const { id, startedAtMs, title } = recording;
  return { origin, recordingId: id, startedAtMs, title };
}

function told(
  { recording, held }: PreparedRecording,
  outcome: RestoredRecording['outcome'],
  recordingId: number,
  failure: string | null,
): RestoredRecording {
  const { id, origin, startedAtMs, title } = recording;
  return {
    outcome: failure === null ? outcome : 'refused',
    recordingIdThere: id,
    recordingId: failure === null ? recordingId : null,
    origin,
    startedAtMs,
    title,
    held,
    detail: failure ?? '',
  };
}
