/** What the bridge says on the terminal while it runs. */
import { PROBLEMS } from '../protocol/problems.ts';
import type { SourceState } from '../protocol/source-state.ts';

export class Terminal {
  readonly #write: (line: string) => void;
  #lastLog = '';
  readonly #lastProblem = new Map<string, string | null>();

  constructor(write: (line: string) => void) {
    this.#write = write;
  }

  /** For whoever looks into it; a thing that is tried again and again is said once. */
  log(line: string): void {
    if (line !== this.#lastLog) this.#write(line);
    this.#lastLog = line;
  }

  /** In plain words, when a source's problem begins. */
  state({ id, problem }: SourceState): void {
    if (problem === (this.#lastProblem.get(id) ?? null)) return;
    this.#lastProblem.set(id, problem);
    if (problem) this.#write(`${PROBLEMS[problem].meaning} ${PROBLEMS[problem].remedy}`);
  }
}
