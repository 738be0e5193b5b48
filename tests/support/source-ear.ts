/** Listens to a source of readings: keeps what it delivers, and lets a test wait for more. */
import type { NewMark } from '../../protocol/mark.ts';
import type { SensorIdentity } from '../../protocol/recording.ts';
import type { SourceState } from '../../protocol/source-state.ts';
import type { RawReading, SourceListener } from '../../server/sources/source.ts';

export class SourceEar implements SourceListener {
  readonly identities: SensorIdentity[] = [];
  readonly readings: RawReading[] = [];
  readonly states: SourceState[] = [];
  readonly marks: NewMark[] = [];
  readonly log: string[] = [];
  readonly order: string[] = [];
  readonly #waiting = new Set<() => void>();

  sensor(identity: SensorIdentity): void {
    this.identities.push(identity);
    this.#heard('sensor');
  }
  reading(raw: RawReading): void {
    this.readings.push(raw);
    this.#heard('reading');
  }
  mark(mark: NewMark): void {
    this.marks.push(mark);
    this.#heard('mark');
  }
  state(state: SourceState): void {
    this.states.push(state);
    this.#heard('state');
  }
  logged(text: string): void {
    this.log.push(text);
    this.#heard('log');
  }

  /** Forgets what it has heard. */
  clear(): void {
    for (const list of [
      this.identities,
      this.readings,
      this.states,
      this.marks,
      this.log,
      this.order,
    ]) {
      list.length = 0;
    }
  }

  /** Resolves when the condition holds, looked at whenever something is delivered. */
  until(what: string, holds: () => boolean, limitMs = 20_000): Promise<void> {
    return new Promise((resolve, reject) => {
      const look = (): void => {
        if (!holds()) return;
        clearTimeout(timer);
        this.#waiting.delete(look);
        resolve();
      };
      const timer = setTimeout(() => {
        this.#waiting.delete(look);
        const phases = this.states.map(({ phase, problem }) => `${phase} ${problem ?? ''}`);
        reject(new Error(`no ${what}: ${[...phases, ...this.log].join('\n')}`));
      }, limitMs);
      this.#waiting.add(look);
      look();
    });
  }

  /** The next state that is in this phase, counted from this call. */
  phase(phase: SourceState['phase'], problem?: SourceState['problem']): Promise<void> {
    const from = this.states.length;
    return this.until(`${phase} ${problem ?? ''}`, () =>
      this.states
        .slice(from)
        .some(
          (state) => state.phase === phase && (problem === undefined || state.problem === problem),
        ),
    );
  }

  #heard(what: string): void {
    this.order.push(what);
    for (const look of [...this.#waiting]) look();
  }
}
