/** Searches the air for sensors that speak our profile, or the standard service. */
import { ENVIRONMENTAL_SENSING_UUID, SERVICE_UUID } from '../../../protocol/profile.ts';
import { DeadlineError, eventWithin } from './deadline.ts';
import { hostUuid, isHostPeripheral } from './host-library.ts';
import type { HostLibrary, HostPeripheral } from './host-library.ts';

export class Scanner {
  readonly #host: HostLibrary;
  readonly #answerMs: number;

  constructor(host: HostLibrary, answerMs: number) {
    this.#host = host;
    this.#answerMs = answerMs;
  }

  /**
   * Searches for so long, or until a wanted sensor is heard; the search is over when this resolves,
   * as it must be before a connection. Short searches also outlive another program's stopping them.
   *
   * @throws DeadlineError where the adapter doesn't obey
   */
  async find(
    wanted: (peripheral: HostPeripheral) => boolean,
    searchMs: number,
    signal: AbortSignal,
  ): Promise<HostPeripheral | null> {
    const over = new AbortController();
    // Listens before the search begins: the first advertisement can come along with its start.
    const found = this.#heard(wanted, searchMs, AbortSignal.any([signal, over.signal]));
    found.catch(() => undefined);
    try {
      await this.#switch('scanStart', () => this.#start(), signal);
      return await found;
    } finally {
      over.abort(new Error('the search is over'));
      if (!signal.aborted) await this.#switch('scanStop', () => this.#host.stopScanning(), signal);
    }
  }

  /** Repeated advertisements are asked for, since a sensor may become wanted during the search. */
  #start(): void {
    this.#host.startScanning([SERVICE_UUID, ENVIRONMENTAL_SENSING_UUID].map(hostUuid), true);
  }

  async #heard(
    wanted: (peripheral: HostPeripheral) => boolean,
    limitMs: number,
    signal: AbortSignal,
  ): Promise<HostPeripheral | null> {
    try {
      return await eventWithin({
        what: 'sensor',
        emitter: this.#host,
        event: 'discover',
        limitMs,
        signal,
        begin: () => undefined,
        take: (found) => (isHostPeripheral(found) && wanted(found) ? found : undefined),
      });
    } catch (error) {
      if (error instanceof DeadlineError) return null;
      throw error;
    }
  }

  async #switch(event: string, begin: () => void, signal: AbortSignal): Promise<void> {
    const take = (): true => true;
    const limitMs = this.#answerMs;
    await eventWithin({ what: event, emitter: this.#host, event, limitMs, signal, begin, take });
  }
}
