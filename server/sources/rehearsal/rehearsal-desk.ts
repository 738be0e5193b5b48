/** Runs one rehearsal at a time and brings its readings into the record like any sensor's. */
import type {
  RehearsalCard,
  Reveal,
  StartRehearsal,
  SteerRehearsal,
} from '../../../protocol/api.ts';
import { ProblemError } from '../../../protocol/problems.ts';
import type { SourceState } from '../../../protocol/source-state.ts';
import { Feed } from '../feed.ts';
import type { Ledger } from '../feed.ts';
import { listRehearsals } from './list-rehearsals.ts';
import { RehearsalSource } from './rehearsal-source.ts';
import { scenarioNamed } from './scenario-named.ts';

interface RehearsalDeskOptions {
  readonly ledger: Ledger;
  readonly wallClock: () => number;
  readonly onState: (state: SourceState) => void;
}

export class RehearsalDesk {
  readonly #options: RehearsalDeskOptions;
  #source: RehearsalSource | null = null;
  #feed: Feed | null = null;

  constructor(options: RehearsalDeskOptions) {
    this.#options = options;
  }

  list(): RehearsalCard[] {
    return listRehearsals();
  }

  /**
   * Ends the rehearsal that runs, if any, and begins another. Resolves with its recording's id.
   * @throws ProblemError `unknown_scenario`
   */
  async start(wish: StartRehearsal): Promise<number> {
    const source = new RehearsalSource({
      scenario: scenarioNamed(wish.name),
      seed: wish.seed,
      rate: wish.rate,
      helper: wish.helper,
    });
    await this.stop();
    const begun = new Promise<number>((resolve) => {
      this.#feed = this.#newFeed(wish.name, resolve);
      source.start(this.#feed);
    });
    this.#source = source;
    return begun;
  }

  async steer({ stop, ...wish }: SteerRehearsal): Promise<void> {
    if (!this.#source || !this.#feed) throw new ProblemError('no_rehearsal');
    if (stop) await this.stop();
    else this.#source.steer(wish);
  }

  /** What was really wrong. Whoever has seen it is no longer rehearsing: the rehearsal ends. */
  async reveal(): Promise<Reveal> {
    if (!this.#source) throw new ProblemError('no_rehearsal');
    await this.stop();
    return this.#source.reveal();
  }

  /** Ends the rehearsal that runs, if any; its cause can still be revealed. */
  async stop(): Promise<void> {
    await this.#source?.stop();
    this.#feed?.finish();
    this.#feed = null;
  }

  #newFeed(title: string, onBegin: (recordingId: number) => void): Feed {
    const { ledger, wallClock, onState } = this.#options;
    const feed: Feed = new Feed({
      ledger,
      origin: 'rehearsal',
      title,
      marksMadeBy: 'rehearsal',
      wallClock,
      unfinished: null,
      onBegin,
      onState: (state) => {
        onState(state);
        if (state.phase === 'finished') feed.finish();
      },
    });
    return feed;
  }
}
