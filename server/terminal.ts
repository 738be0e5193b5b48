/** What the bridge says on the terminal while it runs. */
import { PROBLEMS } from '../protocol/problems.ts';
import type { RecordState } from '../protocol/record-state.ts';
import type { SourceState } from '../protocol/source-state.ts';
import { sayRecord } from '../web/words/say-record.ts';
import { speechOf } from '../web/words/speech-of.ts';

/** A terminal's words are English. */
const ENGLISH = speechOf('en', { pressure: 'micron', temperature: '°C' });

export class Terminal {
  readonly #write: (line: string) => void;
  #lastLog = '';
  #recordKind: RecordState['kind'] = 'kept';
  #recordSaid: string | undefined;
  readonly #lastProblem = new Map<string, string | null>();

  constructor(write: (line: string) => void) {
    this.#write = write;
  }

  /** For whoever looks into it; a thing that is tried again and again is said once. */
  log(line: string): void {
    if (line !== this.#lastLog) this.#write(line);
    this.#lastLog = line;
  }

  /** Nothing else is said for a while. */
  mending(): void {
    const { meaning } = PROBLEMS.record_damaged;
    this.#write(`${meaning} What can be read is being saved: minutes, where it is large.`);
  }

  /** What was being restored when the bridge was ended. */
  halfRestored(recordingId: number): void {
    this.#write(
      `Ebbline was ended while it restored recording ${recordingId}: nothing of that one was kept. ` +
        'Restore the same backup again; what is there already is left out.',
    );
  }

  /** In plain words, whether what is measured is being kept; what is tried again each second is said once. */
  record(state: RecordState): void {
    const words = sayRecord(state, ENGLISH);
    if (state.kind === this.#recordKind && words?.meaning === this.#recordSaid) return;
    const raw = 'detail' in state ? ` (${state.detail})` : '';
    if (words !== null) this.#write(`${words.meaning} ${words.remedy} ${words.detail}${raw}`);
    else if (this.#recordKind === 'held' || this.#recordKind === 'stalled')
      this.#write('Everything that waited is written now.');
    this.#recordKind = state.kind;
    this.#recordSaid = words?.meaning;
  }

  /** In plain words, when a source's problem begins. */
  state({ id, problem }: SourceState): void {
    if (problem === (this.#lastProblem.get(id) ?? null)) return;
    this.#lastProblem.set(id, problem);
    if (problem) this.#write(`${PROBLEMS[problem].meaning} ${PROBLEMS[problem].remedy}`);
  }
}
