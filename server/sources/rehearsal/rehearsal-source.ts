/**
 * A rehearsal as a source of readings: a simulated job at any speed, whose sensor sends the same
 * bytes as a real one. The cause stays here until it is revealed.
 */
import type { RehearsalAction, Reveal, SteerRehearsal } from '../../../protocol/api.ts';
import type { SourcePhase } from '../../../protocol/source-state.ts';
import { READING_INTERVAL_S, ScenarioRun } from '../../../simulators/scenarios/scenario-run.ts';
import type { ScenarioReading } from '../../../simulators/scenarios/scenario-run.ts';
import type { Scenario } from '../../../simulators/scenarios/scenario.ts';
import type { Source, SourceListener } from '../source.ts';
import { unheardReading } from '../unheard-reading.ts';
import { REAL_CLOCK } from './rehearsal-clock.ts';
import type { RehearsalClock } from './rehearsal-clock.ts';

const TICK_MS = 50;
/**
 * What one tick catches up at most, of real time. If the computer stood still for longer (asleep,
 * or overloaded), the rehearsal has waited and says so in a note, rather than send all at once.
 */
const LONGEST_CATCH_UP_MS = 1000;

const SENSOR_ID = 'rehearsal-sensor';
/** The simulated sensor was switched on so long before its first reading. */
const UPTIME_AT_START_MS = 45_000;

interface RehearsalOptions {
  readonly scenario: Scenario;
  /** 0 to 2³² − 1: the same seed gives the same rehearsal, reading by reading. */
  readonly seed: number;
  /** Data seconds per second. */
  readonly rate: number;
  /** Whether a helper works pump and valves at the right moments. */
  readonly helper: boolean;
  readonly clock?: RehearsalClock;
}

export class RehearsalSource implements Source {
  readonly id = 'rehearsal';
  readonly #scenario: Scenario;
  readonly #run: ScenarioRun;
  /** Any number does for the first boot of the sensor: a rehearsal has a recording of its own. */
  readonly #firstBoot: number;
  readonly #clock: RehearsalClock;
  #rate: number;
  #listener: SourceListener | null = null;
  #stopTicking: () => void = () => undefined;
  #phase: SourcePhase = 'starting';
  #sinceMs: number;
  #readingCount = 0;
  /** What the sensor's present boot began with. */
  #bootBegan = { restarts: 0, sequence: 0, elapsedS: -UPTIME_AT_START_MS / 1000 };
  #batteryPercent: number;
  #lastTickMs = 0;
  /** How far data time has come, ms; readings are sent up to here. */
  #dueMs = 0;
  #waiting = false;

  constructor({ scenario, seed, rate, helper, clock = REAL_CLOCK }: RehearsalOptions) {
    this.#scenario = scenario;
    this.#run = new ScenarioRun(scenario, seed, { helper });
    this.#firstBoot = seed & 0xffff;
    this.#batteryPercent = Math.round(scenario.radio.batteryPercent);
    this.#rate = rate;
    this.#clock = clock;
    this.#sinceMs = clock.wallMs();
  }

  /** Delivers the first reading at once, so that whatever is done afterwards has its place in time. */
  start(listener: SourceListener): void {
    this.#listener = listener;
    this.#lastTickMs = this.#clock.monotonicMs();
    listener.sensor({
      id: SENSOR_ID,
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

  /** Changes speed, pauses, goes on, works pump or valves; after the end it changes nothing. */
  steer({ rate, paused, action }: Omit<SteerRehearsal, 'stop'>): void {
    if (!this.#isRunning()) return;
    // What is due until now still goes by the old speed.
    this.#tick();
    if (!this.#isRunning()) return;
    if (rate !== undefined) this.#rate = rate;
    if (paused !== undefined) this.#enter(paused ? 'paused' : 'live');
    else if (rate !== undefined) this.#enter(this.#phase);
    if (action !== undefined) this.#act(action);
  }

  /** What was really wrong. */
  reveal(): Reveal {
    return this.#run.reveal();
  }

  #isRunning(): boolean {
    return this.#isSending() || this.#phase === 'paused';
  }

  /** Lost readings are sent too: they don't arrive. */
  #isSending(): boolean {
    return this.#phase === 'live' || this.#phase === 'lost';
  }

  #tick(): void {
    const nowMs = this.#clock.monotonicMs();
    const passedMs = nowMs - this.#lastTickMs;
    this.#lastTickMs = nowMs;
    if (!this.#isSending()) return;
    this.#noteWait(passedMs - LONGEST_CATCH_UP_MS);
    this.#dueMs += Math.min(passedMs, LONGEST_CATCH_UP_MS) * this.#rate;
    this.#deliverDue();
  }

  #deliverDue(): void {
    while (this.#isSending() && this.#readingCount * READING_INTERVAL_S * 1000 <= this.#dueMs)
      this.#deliver();
  }

  #deliver(): void {
    const moment = this.#run.next();
    const { elapsedS, heard, restarts } = moment;
    if (restarts > this.#bootBegan.restarts) {
      this.#bootBegan = { restarts, sequence: this.#readingCount, elapsedS };
    }
    this.#show(heard ? 'live' : 'lost', Math.round(moment.batteryPercent));
    if (heard) {
      this.#listener?.reading({
        sensorId: SENSOR_ID,
        bytes: this.#bytes(moment),
        arrivedMs: elapsedS * 1000,
      });
    }
    this.#readingCount += 1;
    if (moment.event) this.#mark(moment.event);
    if (this.#run.finished) this.#finish();
  }

  #bytes({ elapsedS, pressurePa, temperatureC }: ScenarioReading): Uint8Array {
    const { restarts, sequence, elapsedS: bootS } = this.#bootBegan;
    return unheardReading({
      boot: (this.#firstBoot + restarts) & 0xffff,
      sequence: this.#readingCount - sequence,
      uptimeMs: Math.round((elapsedS - bootS) * 1000),
      pressurePa,
      temperatureC,
    });
  }

  #act(action: RehearsalAction): void {
    const done = this.#run.act(action);
    if (done) this.#mark(done);
  }

  #mark(kind: NonNullable<ScenarioReading['event']>, text = ''): void {
    this.#listener?.mark({ kind, elapsedS: this.#run.elapsedS, text });
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
    if (this.#isRunning()) this.#enter('finished');
  }

  /** Says so only where something has changed: once a reading would be far too often. */
  #show(phase: SourcePhase, batteryPercent: number): void {
    if (phase === this.#phase && batteryPercent === this.#batteryPercent) return;
    this.#batteryPercent = batteryPercent;
    this.#enter(phase);
  }

  #enter(phase: SourcePhase): void {
    if (phase !== this.#phase) this.#sinceMs = this.#clock.wallMs();
    this.#phase = phase;
    this.#listener?.state({
      id: this.id,
      kind: 'rehearsal',
      name: this.#scenario.card.place,
      phase,
      sinceMs: this.#sinceMs,
      problem: null,
      batteryPercent: this.#batteryPercent,
      signalDbm: null,
      clockRate: this.#rate,
      sensors: [],
    });
  }
}
