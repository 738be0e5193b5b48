/** Who has been heard in the searches and has no session yet: found, and lost again when no longer heard. */
import type { HostPeripheral } from './host-library.ts';
import type { FromRadio, SessionReport } from './messages.ts';
import { nameFromId } from './sensor-requests.ts';

type Problem = 'sensor_not_chosen' | null;

interface Heard {
  readonly name: string;
  readonly atMs: number;
  readonly problem: Problem;
}

/** An attacker can send from ever new addresses: no more than these are remembered. */
const MOST = 64;

export class Nearby {
  readonly #found = new Map<string, Heard>();
  readonly #limitMs: number;
  readonly #report: (message: FromRadio) => void;

  constructor(limitMs: number, report: (message: FromRadio) => void) {
    this.#limitMs = limitMs;
    this.#report = report;
  }

  /** @param problem why it is not going to be connected, if it is not */
  heard({ id, advertisement }: HostPeripheral, nowMs: number, problem: Problem = null): void {
    const known = this.#found.get(id);
    const name = advertisement.localName?.slice(0, 100) ?? known?.name ?? nameFromId(id);
    if (known === undefined && this.#found.size >= MOST) return;
    this.#found.set(id, { name, atMs: nowMs, problem });
    if (known?.name !== name || known.problem !== problem) this.#tell(id, name, 'found', problem);
  }

  /** It is being connected: from now on its session tells. */
  taken(id: string): void {
    this.#found.delete(id);
  }

  /** Those not heard for so long are no longer found. */
  forget(nowMs: number): void {
    for (const [id, { name, atMs, problem }] of this.#found) {
      if (nowMs - atMs < this.#limitMs) continue;
      this.#found.delete(id);
      // Nobody misses one that wasn't chosen.
      this.#tell(id, name, 'lost', problem ?? 'sensor_lost');
    }
  }

  #tell(
    sensorId: string,
    name: string,
    phase: 'found' | 'lost',
    problem: SessionReport['problem'],
  ): void {
    this.#report({ type: 'session', sensorId, name, phase, problem });
  }
}
