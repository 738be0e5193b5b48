/** Reads files in, one after the other, and brings each into the record like any sensor's readings. */
import type { TakenFrom } from '../../../protocol/recording.ts';
import type { SourceState } from '../../../protocol/source-state.ts';
import { Feed } from '../feed.ts';
import type { Ledger } from '../feed.ts';
import { GatheringLedger } from './gathering-ledger.ts';
import { ImportSource } from './import-source.ts';
import { ReadingsFile } from './readings-file.ts';

interface ImportDeskOptions {
  readonly ledger: Ledger;
  /** Takes down what a recording was where its file comes from. */
  readonly takenFrom: (recordingId: number, takenFrom: TakenFrom, atMs: number) => void;
  /** Resolves once everything that the ledger was given is kept. */
  readonly settled: () => Promise<void>;
  readonly wallClock: () => number;
  readonly onState: (state: SourceState) => void;
}

export class ImportDesk {
  readonly #options: ImportDeskOptions;
  #source: ImportSource | null = null;
  #before: Promise<unknown> = Promise.resolve();

  constructor(options: ImportDeskOptions) {
    this.#options = options;
  }

  /**
   * Resolves with the recording's id once the file has been delivered whole. The same file again
   * makes another recording.
   * @param remark how it was read, as a note at its first reading; empty: nothing to note
   * @throws ProblemError `bad_readings_file`; nothing has been recorded then
   */
  read(name: string, text: string, remark = ''): Promise<number> {
    const reading = this.#before.then(() => this.#read(name, text, remark));
    this.#before = reading.catch(() => undefined);
    return reading;
  }

  /** A file that is only half read in stays open; the next start of the bridge says so in it. */
  async stop(): Promise<void> {
    await this.#source?.stop();
  }

  async #read(name: string, text: string, remark: string): Promise<number> {
    const file = await ReadingsFile.check(name, text);
    const { ledger, takenFrom, settled, wallClock, onState } = this.#options;
    const gathering = new GatheringLedger(ledger);
    const room = async (): Promise<void> => {
      gathering.flush();
      await settled();
    };
    return new Promise((resolve) => {
      const feed: Feed = new Feed({
        ledger: gathering,
        origin: 'import',
        title: file.name,
        marksMadeBy: 'import',
        zeroMs: 0,
        // A file is one recording, whatever silence is in it.
        longestSilenceS: Number.POSITIVE_INFINITY,
        wallClock,
        unfinished: null,
        // Before its first reading: at no moment does it look like a job.
        onBegin: (recordingId) => {
          if (file.isRehearsed) takenFrom(recordingId, rehearsedAt(wallClock()), wallClock());
        },
        onState: (state) => {
          onState(state);
          if (state.phase === 'finished' && remark !== '') {
            feed.mark({ kind: 'note', elapsedS: file.firstS(), text: remark });
          }
          const recordingId = state.phase === 'finished' ? feed.finish() : null;
          if (recordingId !== null) resolve(recordingId);
        },
      });
      this.#source = new ImportSource({ file, room, wallClock });
      this.#source.start(feed);
    });
  }
}

/** All else that a recording was plain CSV does not say. */
function rehearsedAt(startedAtMs: number): TakenFrom {
  const unknown = { recordingId: 0, title: '', hash: '', held: false, softwareVersion: '' };
  return { ...unknown, format: 'plain-csv', origin: 'rehearsal', startedAtMs };
}
