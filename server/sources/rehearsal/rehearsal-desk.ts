/** Runs one rehearsal at a time and brings its readings into the record like any sensor's. */
import type {
  Call,
  NewCall,
  RehearsalCard,
  Reveal,
  RevealWish,
  StartRehearsal,
  SteerRehearsal,
} from '../../../protocol/api.ts';
import { ProblemError } from '../../../protocol/problems.ts';
import { listRehearsals } from './list-rehearsals.ts';
import { Rehearsal } from './rehearsal.ts';
import type { RehearsalOptions } from './rehearsal.ts';
import { scenarioNamed } from './scenario-named.ts';

export class RehearsalDesk {
  readonly #options: RehearsalOptions;
  /** The latest one, also after its end: its cause can still be called and revealed. */
  #latest: Rehearsal | null = null;

  constructor(options: RehearsalOptions) {
    this.#options = options;
  }

  list(): RehearsalCard[] {
    return listRehearsals();
  }

  /**
   * Ends the rehearsal that runs, if any, and begins another.
   * @returns its recording's id
   * @throws ProblemError `unknown_scenario`; the one that runs then goes on
   */
  start(wish: StartRehearsal): number {
    const scenario = scenarioNamed(wish.name, wish.seed);
    this.stop();
    this.#latest = new Rehearsal(scenario, wish, this.#options);
    return this.#latest.recordingId;
  }

  /** @throws ProblemError `no_rehearsal` where none runs, `no_effect` */
  steer({ stop, ...wish }: SteerRehearsal): void {
    this.#present().steer(wish);
    if (stop) this.stop();
  }

  /** @throws ProblemError `no_rehearsal` before the first, `already_called`, `already_revealed` */
  call(call: NewCall): Promise<Call> {
    return this.#present().call(call);
  }

  /** @throws ProblemError `no_rehearsal` before the first, `no_call` */
  reveal({ withoutCall }: RevealWish): Promise<Reveal> {
    return this.#present().reveal(withoutCall === true);
  }

  /** Ends the rehearsal that runs, if any. */
  stop(): void {
    this.#latest?.end();
  }

  #present(): Rehearsal {
    if (!this.#latest) throw new ProblemError('no_rehearsal');
    return this.#latest;
  }
}
