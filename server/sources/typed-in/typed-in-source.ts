/** A technician as a source of readings: reads a sensor that has no radio, and types what it shows. */
import { LONGEST_AGO_S, TYPED_IN_SENSOR_ID } from '../../../protocol/typed-in.ts';
import type { TypedReading } from '../../../protocol/typed-in.ts';
import type { SourcePhase } from '../../../protocol/source-state.ts';
import type { Source, SourceListener } from '../source.ts';
import { unheardReading } from '../unheard-reading.ts';

const NAME = 'Typed in';
const UPTIME_WRAP_MS = 2 ** 32;
/** Its uptime when it starts, so that what was read before that has one too. */
const UPTIME_AT_START_MS = LONGEST_AGO_S * 1000;

export class TypedInSource implements Source {
  readonly id = 'typed-in';
  /**
   * Between two numbers the laptop may well be shut, and the monotonic clock of some systems stands
   * still while it sleeps. So it is the wall clock that counts, as long as it goes forward.
   */
  readonly #wallClock: () => number;
  readonly #startedMs: number;
  #lastWallMs: number;
  /** What the wall clock was set back by since the start. */
  #setBackMs = 0;
  #sequence = 0;
  #listener: SourceListener | null = null;

  /** @param wallClock milliseconds since 1970 UTC */
  constructor(wallClock: () => number) {
    this.#wallClock = wallClock;
    this.#startedMs = wallClock();
    this.#lastWallMs = this.#startedMs;
  }

  start(listener: SourceListener): void {
    this.#listener = listener;
    listener.sensor({
      id: TYPED_IN_SENSOR_ID,
      name: NAME,
      manufacturer: null,
      model: null,
      serial: null,
      firmware: null,
    });
    this.#enter('live');
  }

  stop(): Promise<void> {
    this.#enter('finished');
    this.#listener = null;
    return Promise.resolve();
  }

  /**
   * A reading; before the start and after the end it is nobody's.
   * @param readMs when it was read off, on this source's clock; it counts as having arrived then
   */
  type(
    { pressurePa, temperatureC }: Pick<TypedReading, 'pressurePa' | 'temperatureC'>,
    readMs = this.nowMs(),
  ): void {
    this.#listener?.reading({
      sensorId: TYPED_IN_SENSOR_ID,
      arrivedMs: readMs,
      bytes: unheardReading({
        boot: Math.floor(this.#startedMs / 1000) & 0xffff,
        sequence: this.#sequence,
        uptimeMs: Math.round(UPTIME_AT_START_MS + readMs) % UPTIME_WRAP_MS,
        pressurePa,
        temperatureC,
      }),
    });
    this.#sequence += 1;
  }

  /** Milliseconds since the source was made. */
  nowMs(): number {
    const wallMs = this.#wallClock();
    this.#setBackMs += Math.max(0, this.#lastWallMs - wallMs);
    this.#lastWallMs = wallMs;
    return wallMs - this.#startedMs + this.#setBackMs;
  }

  #enter(phase: SourcePhase): void {
    this.#listener?.state({
      id: this.id,
      kind: 'typed_in',
      name: NAME,
      phase,
      sinceMs: this.#wallClock(),
      problem: null,
      batteryPercent: null,
      signalDbm: null,
      clockRate: 1,
      sensors: [],
    });
  }
}
