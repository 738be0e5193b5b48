/** A technician as a source of readings: reads a sensor that has no radio, and types what it shows. */
import type { TypedReading } from '../../../protocol/api.ts';
import type { SourcePhase } from '../../../protocol/source-state.ts';
import type { Source, SourceListener } from '../source.ts';
import { unheardReading } from '../unheard-reading.ts';

const SENSOR_ID = 'typed-in';
const NAME = 'Typed in';
const UPTIME_WRAP_MS = 2 ** 32;

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
      id: SENSOR_ID,
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

  /** A reading of this moment; before the start and after the end it is nobody's. */
  type({ pressurePa, temperatureC }: TypedReading): void {
    const arrivedMs = this.#sinceStartMs();
    this.#listener?.reading({
      sensorId: SENSOR_ID,
      arrivedMs,
      bytes: unheardReading({
        boot: Math.floor(this.#startedMs / 1000) & 0xffff,
        sequence: this.#sequence,
        uptimeMs: Math.round(arrivedMs) % UPTIME_WRAP_MS,
        pressurePa,
        temperatureC,
      }),
    });
    this.#sequence += 1;
  }

  #sinceStartMs(): number {
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
    });
  }
}
