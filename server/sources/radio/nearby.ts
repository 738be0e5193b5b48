/** Who has been heard in the searches and has no session yet: found, and lost again when no longer heard. */
import type { HostPeripheral } from './host-library.ts';
import type { FromRadio } from './messages.ts';
import { nameFromId } from './sensor-requests.ts';

interface Heard {
  readonly name: string;
  readonly atMs: number;
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

  heard({ id, advertisement }: HostPeripheral, nowMs: number): void {
    const known = this.#found.get(id);
    const name = advertisement.localName?.slice(0, 100) ?? known?.name ?? nameFromId(id);
    if (known === undefined && this.#found.size >= MOST) return;
    this.#found.set(id, { name, atMs: nowMs });
    if (known?.name !== name) this.#tell(id, name, 'found');
  }

  /** It is being connected: from now on its session tells. */
  taken(id: string): void {
    this.#found.delete(id);
  }

  /** Those not heard for so long are no longer found. */
  forget(nowMs: number): void {
    for (const [id, { name, atMs }] of this.#found) {
      if (nowMs - atMs < this.#limitMs) continue;
      this.#found.delete(id);
      this.#tell(id, name, 'lost');
    }
  }

  #tell(sensorId: string, name: string, phase: 'found' | 'lost'): void {
    const problem = phase === 'lost' ? 'sensor_lost' : null;
    this.#report({ type: 'session', sensorId, name, phase, problem });
  }
}
