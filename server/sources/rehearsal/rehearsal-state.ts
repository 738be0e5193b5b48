/** What a rehearsal says of itself: its phase, speed and the sensor's battery. */
import type { SourcePhase, SourceState } from '../../../protocol/source-state.ts';

interface RehearsalStateOptions {
  readonly name: string;
  readonly rate: number;
  readonly batteryPercent: number;
  readonly wallMs: () => number;
}

export class RehearsalState {
  /** Data seconds per second. */
  rate: number;
  readonly #name: string;
  readonly #wallMs: () => number;
  #phase: SourcePhase = 'starting';
  #sinceMs: number;
  #batteryPercent: number;

  constructor({ name, rate, batteryPercent, wallMs }: RehearsalStateOptions) {
    this.rate = rate;
    this.#name = name;
    this.#batteryPercent = Math.round(batteryPercent);
    this.#wallMs = wallMs;
    this.#sinceMs = wallMs();
  }

  get phase(): SourcePhase {
    return this.#phase;
  }

  /** Lost readings are sent too: they don't arrive. */
  get sending(): boolean {
    return this.#phase === 'live' || this.#phase === 'lost';
  }

  get running(): boolean {
    return this.sending || this.#phase === 'paused';
  }

  enter(phase: SourcePhase): void {
    if (phase !== this.#phase) this.#sinceMs = this.#wallMs();
    this.#phase = phase;
  }

  /** @returns whether that is news */
  hear(heard: boolean, batteryPercent: number): boolean {
    const phase = heard ? 'live' : 'lost';
    const percent = Math.round(batteryPercent);
    if (phase === this.#phase && percent === this.#batteryPercent) return false;
    this.#batteryPercent = percent;
    this.enter(phase);
    return true;
  }

  told(id: string): SourceState {
    return {
      id,
      kind: 'rehearsal',
      name: this.#name,
      phase: this.#phase,
      sinceMs: this.#sinceMs,
      problem: null,
      batteryPercent: this.#batteryPercent,
      signalDbm: null,
      clockRate: this.rate,
      sensors: [],
    };
  }
}
