/** One rehearsal from its first reading to its reveal: what runs, what was called, what was told. */
import type {
  Call,
  KeptReveal,
  NewCall,
  Reveal,
  StartRehearsal,
  SteerRehearsal,
} from '../../../protocol/api.ts';
import { ProblemError } from '../../../protocol/problems.ts';
import { titleOfScenario } from '../../../protocol/rehearsal-title.ts';
import type { SourceState } from '../../../protocol/source-state.ts';
import { isGenerated } from '../../../simulators/scenarios/generated/generated-scenario.ts';
import type { Scenario } from '../../../simulators/scenarios/scenario.ts';
import { Feed } from '../feed.ts';
import type { Ledger } from '../feed.ts';
import { RehearsalSource } from './rehearsal-source.ts';

/** Where a rehearsal's facts go. Calls and reveals resolve once they are kept. */
interface RehearsalLedger extends Ledger {
  call(recordingId: number, call: Call): Promise<void>;
  reveal(recordingId: number, reveal: KeptReveal): Promise<void>;
}

export interface RehearsalOptions {
  readonly ledger: RehearsalLedger;
  /** Resolves once everything that the ledger was given is kept. */
  readonly settled: () => Promise<void>;
  readonly wallClock: () => number;
  readonly onState: (state: SourceState) => void;
}

export class Rehearsal {
  readonly recordingId: number;
  readonly #options: RehearsalOptions;
  readonly #wish: StartRehearsal;
  readonly #source: RehearsalSource;
  readonly #feed: Feed;
  #called = false;
  #revealed: Promise<Reveal> | null = null;

  constructor(scenario: Scenario, wish: StartRehearsal, options: RehearsalOptions) {
    const { seed, rate, helper } = wish;
    const { ledger, settled, wallClock, onState } = options;
    this.#options = options;
    this.#wish = wish;
    this.#source = new RehearsalSource({ scenario, seed, rate, helper, room: settled });
    const feed: Feed = new Feed({
      ledger,
      origin: 'rehearsal',
      title: titleOfScenario({ name: wish.name, seed: isGenerated(wish.name) ? seed : null }),
      marksMadeBy: 'rehearsal',
      wallClock,
      unfinished: null,
      onState: (state) => {
        onState(state);
        if (state.phase === 'finished') feed.finish();
      },
    });
    this.#feed = feed;
    this.#source.start(feed);
    if (feed.recordingId === null) throw new Error('a rehearsal began without a reading');
    this.recordingId = feed.recordingId;
  }

  /** @throws ProblemError `no_rehearsal` after its end, `no_effect` */
  steer(wish: Omit<SteerRehearsal, 'stop'>): void {
    this.#source.steer(wish);
  }

  /** No more readings; it can still be called and revealed. */
  end(): void {
    // A rehearsal's source has stopped by the time it says so.
    void this.#source.stop();
    this.#feed.finish();
  }

  /** @throws ProblemError `already_called`, `already_revealed` */
  async call(said: NewCall): Promise<Call> {
    if (this.#called) throw new ProblemError('already_called');
    if (this.#revealed) throw new ProblemError('already_revealed');
    this.#called = true;
    const call = { ...said, elapsedS: this.#source.elapsedS };
    await this.#options.ledger.call(this.recordingId, call);
    return call;
  }

  /**
   * What was really wrong. Whoever has seen it is no longer rehearsing: the rehearsal ends.
   * @throws ProblemError `no_call` where nobody has made one and it was not asked for without
   */
  reveal(withoutCall: boolean): Promise<Reveal> {
    if (!this.#called && !withoutCall && !this.#revealed) throw new ProblemError('no_call');
    this.#revealed ??= this.#reveal();
    return this.#revealed;
  }

  async #reveal(): Promise<Reveal> {
    this.end();
    const reveal = this.#source.reveal();
    const { ledger, wallClock } = this.#options;
    await ledger.reveal(this.recordingId, {
      scenario: reveal.name,
      seed: this.#wish.seed,
      truth: reveal.cause,
      toldS: reveal.toldS,
      revealedAtMs: wallClock(),
    });
    return reveal;
  }
}
