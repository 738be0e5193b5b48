/**
 * A rehearsal as a source of readings: a simulated job at any speed, whose sensor sends the same
 * bytes as a real one. The cause stays here until it is revealed.
 */
import { REHEARSAL_SENSOR_ID } from '../../../protocol/recording.ts';
import type { RehearsalAction, Reveal, SteerRehearsal } from '../../../protocol/api.ts';
import type { MarkKind } from '../../../protocol/mark.ts';
import { ProblemError } from '../../../protocol/problems.ts';
import type { SourcePhase } from '../../../protocol/source-state.ts';
import { READING_INTERVAL_S, ScenarioRun } from '../../../simulators/scenarios/scenario-run.ts';
import type { Scenario } from '../../../simulators/scenarios/scenario.ts';
import type { Source, SourceListener } from '../source.ts';
import { REAL_CLOCK } from './rehearsal-clock.ts';
import type { RehearsalClock } from './rehearsal-clock.ts';
import { RehearsalState } from './rehearsal-state.ts';
import { SimulatedSensor } from './simulated-sensor.ts';

/** Ten times a second looks like going on; twice as often cost the page a fifth more work at the highest speed. */
const TICK_MS = 100;
/**
 * What one tick catches up at most, of real time. If the computer stood still for longer (asleep,
 * or overloaded), the rehearsal has waited and says so in a note, rather than send all at once.
 */
const LONGEST_CATCH_UP_MS = 1000;
/** A jump where nobody does anything, s. */
const JUMP_S = 600;
/** How far a jump comes in one tick: some 40 ms of computing, so that everything else has its turn. */
const JUMP_READINGS_A_TICK = 120;

interface RehearsalOptions {
  readonly scenario: Scenario;
  /** 0 to 2³² − 1: the same seed gives the same rehearsal, reading by reading. */
  readonly seed: number;
  /** Data seconds per second. */
  readonly rate: number;
  /** Whether a helper works pump and valves at the right moments. */
  readonly helper: boolean;
  readonly clock?: RehearsalClock;
  /** Resolves when what was delivered so far has been dealt with: a jump goes no faster than that. */
  readonly room?: () => Promise<void>;
}

interface Jump {
  /** Data time where it ends, unless the helper does something before. */
  readonly untilS: number;
  readonly thenPaused: boolean;
}

export class RehearsalSource implements Source {
  readonly id = 'rehearsal';
  readonly #run: ScenarioRun;
  readonly #sensor: SimulatedSensor;
  readonly #helper: boolean;
  readonly #clock: RehearsalClock;
  readonly #room: () => Promise<void>;
  readonly #state: RehearsalState;
  #listener: SourceListener | null = null;
  #stopTicking: () => void = () => undefined;
  #readingCount = 0;
  #lastTickMs = 0;
  /** How far data time has come, ms; readings are sent up to here. */
  #dueMs = 0;
  #waiting = false;
  #jump: Jump | null = null;
  /** What a jump delivered last is still being dealt with. */
  #crowded = false;

  constructor(options: RehearsalOptions) {
    const { scenario, seed, rate, helper, clock = REAL_CLOCK } = options;
    this.#run = new ScenarioRun(scenario, seed, { helper });
    this.#sensor = new SimulatedSensor(seed & 0xffff);
    this.#helper = helper;
    this.#clock = clock;
    this.#room = options.room ?? (() => Promise.resolve());
    this.#state = new RehearsalState({
      name: scenario.card.place,
      rate,
      batteryPercent: scenario.radio.batteryPercent,
      wallMs: () => clock.wallMs(),
    });
  }

  /** Delivers the first reading at once, so that whatever is done afterwards has its place in time. */
  start(listener: SourceListener): void {
    this.#listener = listener;
    this.#lastTickMs = this.#clock.monotonicMs();
    listener.sensor({
      id: REHEARSAL_SENSOR_ID,
      name: 'Simulated sensor',
      manufacturer: null,
      model: null,
      serial: null,
      firmware: null,
    });
    this.#enter('live');
    this.#deliverDue();
    this.#stopTicking = this.#clock.every(TICK_MS, () => this.#tick());
  }

  stop(): Promise<void> {
    this.#finish();
    this.#listener = null;
    return Promise.resolve();
  }

  /** Data time of the latest reading. */
  get elapsedS(): number {
    return this.#run.elapsedS;
  }

  /**
   * Works pump or valves, changes speed, pauses, goes on, jumps.
   * @throws ProblemError `no_rehearsal` after the end; `no_effect` where the action changes nothing,
   * and then nothing else is done either
   */
  steer({ rate, paused, action, jump }: Omit<SteerRehearsal, 'stop'>): void {
    // What is due until now still goes by the old speed, and may be the last of it.
    this.#tick();
    if (!this.#state.running) throw new ProblemError('no_rehearsal');
    if (action !== undefined) this.#act(action);
    if (rate !== undefined) this.#state.rate = rate;
    if (paused !== undefined) this.#pause(paused);
    else if (rate !== undefined) this.#tell();
    if (jump) this.#beginJump();
  }

  /** What was really wrong. */
  reveal(): Reveal {
    return this.#run.reveal();
  }

  #tick(): void {
    const nowMs = this.#clock.monotonicMs();
    const passedMs = nowMs - this.#lastTickMs;
    this.#lastTickMs = nowMs;
    if (!this.#state.sending) return;
    if (this.#jump) {
      this.#goOnJumping();
      return;
    }
    this.#noteWait(passedMs - LONGEST_CATCH_UP_MS);
    this.#dueMs += Math.min(passedMs, LONGEST_CATCH_UP_MS) * this.#state.rate;
    this.#deliverDue();
  }

  #deliverDue(): void {
    while (this.#state.sending && this.#readingCount * READING_INTERVAL_S * 1000 <= this.#dueMs)
      this.#deliver();
  }

  /** @returns what the helper did on seeing the reading, if anything */
  #deliver(): MarkKind | null {
    const moment = this.#run.next();
    const { elapsedS, heard, event } = moment;
    if (this.#state.hear(heard, moment.batteryPercent)) this.#tell();
    const bytes = this.#sensor.send(moment);
    if (heard) {
      this.#listener?.reading({ sensorId: REHEARSAL_SENSOR_ID, bytes, arrivedMs: elapsedS * 1000 });
    }
    this.#readingCount += 1;
    if (event) this.#mark(event);
    if (this.#run.finished) this.#finish();
    return event;
  }

  #act(action: RehearsalAction): void {
    const done = this.#run.act(action);
    if (!done) throw new ProblemError('no_effect', action);
    // Whoever does something wants to see what comes of it.
    this.#land();
    this.#mark(done);
  }

  #pause(paused: boolean): void {
    this.#land();
    this.#enter(paused ? 'paused' : 'live');
  }

  /** A second one while the first is under way adds nothing. */
  #beginJump(): void {
    if (this.#jump) return;
    const thenPaused = !this.#state.sending;
    this.#jump = { untilS: this.#helper ? Infinity : this.elapsedS + JUMP_S, thenPaused };
    if (thenPaused) this.#enter('live');
  }

  #goOnJumping(): void {
    if (this.#crowded) return;
    for (let left = JUMP_READINGS_A_TICK; left > 0 && this.#jump; left -= 1) {
      const { untilS } = this.#jump;
      if (this.#deliver() !== null || this.elapsedS >= untilS) this.#land();
    }
    this.#crowded = true;
    void this.#room().then(() => {
      this.#crowded = false;
    });
  }

  /** A jump is over: time goes on from here as it did before. */
  #land(): void {
    const jump = this.#jump;
    if (!jump) return;
    this.#jump = null;
    this.#dueMs = this.elapsedS * 1000;
    if (jump.thenPaused) this.#enter('paused');
  }

  #mark(kind: MarkKind, text = ''): void {
    this.#listener?.mark({ kind, elapsedS: this.elapsedS, text });
  }

  /** One note for each standstill, not one for each tick of an overloaded computer. */
  #noteWait(lostMs: number): void {
    const waited = lostMs > 0;
    if (waited && !this.#waiting) {
      this.#mark(
        'note',
        `The computer stood still: the rehearsal waited for ${(lostMs / 1000).toFixed(1)} s.`,
      );
    }
    this.#waiting = waited;
  }

  #finish(): void {
    this.#stopTicking();
    this.#jump = null;
    if (this.#state.running) this.#enter('finished');
  }

  #enter(phase: SourcePhase): void {
    this.#state.enter(phase);
    this.#tell();
  }

  #tell(): void {
    this.#listener?.state(this.#state.told(this.id));
  }
}
