/** A sensor as whoever looks at it from outside has it: one link, one question at a time, each with a limit. */
import { connect, disconnect } from '../../sources/radio/connection.ts';
import { eventWithin, type Emitter } from '../../sources/radio/deadline.ts';
import {
  hostUuid,
  isHostService,
  type HostLibrary,
  type HostPeripheral,
  type HostService,
} from '../../sources/radio/host-library.ts';
import { listenForErrors, sayCode } from './att-errors.ts';
import { isWritableCharacteristic, type WritableCharacteristic } from './characteristic.ts';
import type { Patience } from './patience.ts';

/** The sensor answers no; the code is null where the system doesn't show it. */
export class RefusedError extends Error {
  override readonly name = 'RefusedError';
  readonly code: number | null;
  constructor(code: number | null) {
    super(sayCode(code));
    this.code = code;
  }
}

export class LinkLostError extends Error {
  override readonly name = 'LinkLostError';
}

interface Question<T> {
  readonly what: string;
  readonly emitter: Emitter;
  readonly event: string;
  readonly begin: () => void;
  readonly take: (...values: unknown[]) => T | undefined;
}

/** @param uuid of the characteristic, as the profile writes it */
export type OnPushed = (uuid: string, bytes: Uint8Array) => void;

export class Peer {
  readonly #library: HostLibrary;
  readonly #peripheral: HostPeripheral;
  readonly #patience: Patience;
  readonly #onPushed: OnPushed;
  #services: readonly HostService[] = [];
  #characteristics = new Map<string, WritableCharacteristic>();
  #link = new AbortController();
  #connected = false;
  #unlisten: (() => void)[] = [];

  constructor(
    library: HostLibrary,
    peripheral: HostPeripheral,
    patience: Patience,
    onPushed: OnPushed,
  ) {
    this.#library = library;
    this.#peripheral = peripheral;
    this.#patience = patience;
    this.#onPushed = onPushed;
  }

  get connected(): boolean {
    return this.#connected;
  }

  /** Connects and finds out what is there: what was found over an earlier link is void. */
  async connect(): Promise<void> {
    const { connectMs } = this.#patience;
    this.#link = new AbortController();
    const onDisconnect = (): void => this.#lost();
    this.#peripheral.on('disconnect', onDisconnect);
    this.#unlisten = [() => this.#peripheral.removeListener('disconnect', onDisconnect)];
    await connect(this.#peripheral, connectMs, this.#link.signal);
    this.#connected = true;
    await this.#discover();
  }

  async disconnect(): Promise<void> {
    await this.#cancelAttempt();
    await disconnect(this.#peripheral, this.#patience.answerMs);
    this.#lost();
  }

  hasService(uuid: string): boolean {
    return this.#services.some((service) => service.uuid === hostUuid(uuid));
  }

  /** Null where there is no such characteristic. */
  propertiesOf(uuid: string): readonly string[] | null {
    return this.#characteristics.get(hostUuid(uuid))?.properties ?? null;
  }

  /** @throws RefusedError */
  async read(uuid: string): Promise<Uint8Array> {
    const characteristic = this.#characteristic(uuid);
    return await this.#ask({
      what: `value of ${uuid}`,
      emitter: characteristic,
      event: 'data',
      begin: () => characteristic.read(),
      take: (bytes, isNotification) => {
        if (isNotification === true) return undefined;
        // On Linux a refusal comes as an empty value as well, after its code was seen.
        if (!(bytes instanceof Uint8Array) || bytes.length === 0) throw new RefusedError(null);
        return Uint8Array.from(bytes);
      },
    });
  }

  /** @throws RefusedError */
  async write(uuid: string, bytes: Uint8Array): Promise<void> {
    const characteristic = this.#characteristic(uuid);
    await this.#ask({
      what: `answer to a write to ${uuid}`,
      emitter: characteristic,
      event: 'write',
      begin: () => characteristic.write(Buffer.from(bytes), false),
      take: throwRefusal,
    });
  }

  /** @throws RefusedError */
  async subscribe(uuid: string, on: boolean): Promise<void> {
    const characteristic = this.#characteristic(uuid);
    await this.#ask({
      what: `answer to a subscription to ${uuid}`,
      emitter: characteristic,
      event: 'notify',
      begin: () => (on ? characteristic.subscribe() : characteristic.unsubscribe()),
      take: (_state, error) => throwRefusal(error),
    });
  }

  #characteristic(uuid: string): WritableCharacteristic {
    const found = this.#characteristics.get(hostUuid(uuid));
    if (found === undefined) throw new Error(`${uuid} was used without having been found`);
    return found;
  }

  async #discover(): Promise<void> {
    this.#services = await this.#ask({
      what: 'services',
      emitter: this.#peripheral,
      event: 'servicesDiscover',
      begin: () => this.#peripheral.discoverServices([]),
      take: (list) => (Array.isArray(list) ? list : []).filter(isHostService),
    });
    this.#characteristics = new Map();
    for (const service of this.#services) {
      const found = await this.#ask({
        what: `characteristics of ${service.uuid}`,
        emitter: service,
        event: 'characteristicsDiscover',
        begin: () => service.discoverCharacteristics([]),
        take: (list) => (Array.isArray(list) ? list : []).filter(isWritableCharacteristic),
      });
      for (const characteristic of found) this.#hear(characteristic);
    }
  }

  #hear(characteristic: WritableCharacteristic): void {
    this.#characteristics.set(characteristic.uuid, characteristic);
    const onData = (bytes: unknown, isNotification: unknown): void => {
      if (isNotification !== true || !(bytes instanceof Uint8Array)) return;
      this.#onPushed(characteristic.uuid, Uint8Array.from(bytes));
    };
    characteristic.on('data', onData);
    this.#unlisten.push(() => characteristic.removeListener('data', onData));
  }

  /**
   * The end of an attempt that is given up comes as the failure of a connection. Who doesn't wait for it
   * takes it for that of the next attempt, which then stays pending in the adapter for ever.
   */
  async #cancelAttempt(): Promise<void> {
    if (this.#peripheral.state !== 'connecting') return;
    await eventWithin({
      what: 'end of the attempt',
      emitter: this.#peripheral,
      event: 'connect',
      limitMs: this.#patience.answerMs,
      signal: new AbortController().signal,
      begin: () => this.#peripheral.cancelConnect(),
      // The library says so at once, and again when it is true.
      take: () => (this.#peripheral.state === 'connecting' ? undefined : true),
    }).catch(() => false);
  }

  async #ask<T>(question: Question<T>): Promise<T> {
    const asked = new AbortController();
    const signal = AbortSignal.any([asked.signal, this.#link.signal]);
    const stop = listenForErrors(this.#library, (code) => {
      // The end of a list is told by an error as well; the library goes on with what it has.
      if (question.event.endsWith('Discover')) return;
      asked.abort(new RefusedError(code));
    });
    try {
      return await eventWithin({ ...question, limitMs: this.#patience.answerMs, signal });
    } finally {
      stop?.();
    }
  }

  #lost(): void {
    this.#connected = false;
    for (const unlisten of this.#unlisten.splice(0)) unlisten();
    this.#link.abort(new LinkLostError('the link was lost'));
  }
}

function throwRefusal(error: unknown): true {
  if (error instanceof Error) throw new RefusedError(null);
  return true;
}
