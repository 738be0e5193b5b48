/** Serves a sensor on this computer's own Bluetooth adapter, by one of the peripheral's libraries. */
import type {
  CharacteristicDefinition,
  PeripheralHost,
  ServiceDefinition,
} from '../service-definition.ts';
import { readArguments, subscribeArguments, writeArguments } from './callback-arguments.ts';
import { mayStopAdvertising, packetsWaiting, sendOrFail } from './library-faults.ts';
import { libraryUuid, type PeripheralLibrary } from './peripheral-library.ts';

export type AdapterEvent =
  | { readonly kind: 'advertising' }
  | { readonly kind: 'connected'; readonly central: string }
  | { readonly kind: 'disconnected' }
  /** The adapter's state is another than on: `poweredOff`, `unauthorized`, `unsupported` … */
  | { readonly kind: 'unavailable'; readonly state: string }
  | { readonly kind: 'failed'; readonly detail: string };

export interface AdapterHostOptions {
  readonly library: PeripheralLibrary;
  readonly name: string;
  readonly advertisedService: string;
  readonly services: readonly ServiceDefinition[];
  readonly onEvent: (event: AdapterEvent) => void;
}

/** So many packets may wait before a stored reading does: what a small controller has buffers for. */
const MOST_WAITING = 4;
/** Between two looks at the packets that wait; and between two stored readings where they can't be seen. */
const ROOM_MS = 10;
/** A confirmation that never comes must not hold up the next answer: 5 s, as section 8 of the profile has it. */
const CONFIRMATION_MS = 5000;
/** What the end of a link may take when the sensor is switched off. */
const FAREWELL_MS = 500;

export class AdapterHost implements PeripheralHost {
  readonly #options: AdapterHostOptions;
  /** Who listens to which characteristic, and how to send there. */
  readonly #listening = new Map<string, (data: Buffer) => void>();
  #indications: (() => void)[] = [];
  #confirmation: NodeJS.Timeout | undefined;
  #connected = false;
  #stopped = false;

  constructor(options: AdapterHostOptions) {
    this.#options = options;
  }

  /** Advertises as soon as the adapter is on; what becomes of it comes as events. */
  start(): void {
    const { library } = this.#options;
    library.on('accept', (central) => this.#accept(String(central)));
    library.on('disconnect', () => this.#disconnected());
    library.on('advertisingStart', (error) => this.#advertisingStarted(error));
    library.on('servicesSetError', (error) => this.#failed('services', error));
    // The libraries begin when somebody listens to their state, and may throw where there is no adapter.
    library.on('stateChange', (state) => this.#onState(String(state)));
  }

  /** Ends the link and advertises no more. */
  async stop(): Promise<void> {
    this.#stopped = true;
    const { library } = this.#options;
    sendOrFail(() => library.stopAdvertising());
    if (!this.#connected) return;
    await new Promise<void>((resolve) => {
      setTimeout(resolve, FAREWELL_MS);
      library.on('disconnect', () => resolve());
      this.disconnect();
    });
  }

  /** As where the sensor starts anew. */
  disconnect(): void {
    const { library } = this.#options;
    sendOrFail(() => library.disconnect());
  }

  notify(uuid: string, value: Uint8Array): boolean {
    const send = this.#listening.get(uuid);
    if (send === undefined || this.#stopped) return false;
    return sendOrFail(() => send(Buffer.from(value)));
  }

  indicate(uuid: string, value: Uint8Array): boolean {
    const send = this.#listening.get(uuid);
    if (send === undefined || this.#stopped) return false;
    this.#indications.push(() => void sendOrFail(() => send(Buffer.from(value))));
    if (this.#indications.length === 1) this.#sendIndication();
    return true;
  }

  whenRoom(call: () => void): void {
    const look = (): void => {
      if (this.#listening.size === 0 || this.#stopped) return;
      if ((packetsWaiting(this.#options.library) ?? 0) < MOST_WAITING) call();
      else setTimeout(look, ROOM_MS);
    };
    if (packetsWaiting(this.#options.library) === null) setTimeout(look, ROOM_MS);
    else setImmediate(look);
  }

  #onState(state: string): void {
    if (this.#stopped) return;
    if (state === 'poweredOn') {
      this.#setServices();
      this.#advertise();
      return;
    }
    // No library tells of the links that an adapter takes with it when it goes off.
    this.#disconnected();
    this.#options.onEvent({ kind: 'unavailable', state });
  }

  #advertise(): void {
    const { library, name, advertisedService } = this.#options;
    if (this.#stopped || library.state !== 'poweredOn') return;
    library.startAdvertising(name, [libraryUuid(advertisedService)]);
  }

  #advertisingStarted(error: unknown): void {
    if (error instanceof Error) this.#failed('advertising', error);
    else this.#options.onEvent({ kind: 'advertising' });
  }

  #accept(central: string): void {
    this.#connected = true;
    const { library, onEvent } = this.#options;
    if (mayStopAdvertising()) library.stopAdvertising();
    onEvent({ kind: 'connected', central });
  }

  #disconnected(): void {
    const wasConnected = this.#connected;
    this.#connected = false;
    this.#indications = [];
    clearTimeout(this.#confirmation);
    this.#forget();
    if (!wasConnected) return;
    this.#options.onEvent({ kind: 'disconnected' });
    // Not at once: the library itself goes on with this event after us, and would cross ours.
    setImmediate(() => this.#advertise());
  }

  /** Tells each characteristic that was listened to that nobody listens any more. */
  #forget(): void {
    const ended = [...this.#listening.keys()];
    this.#listening.clear();
    for (const { characteristics } of this.#options.services) {
      for (const { uuid, subscription } of characteristics) {
        if (ended.includes(uuid)) subscription?.(false);
      }
    }
  }

  #setServices(): void {
    const { library, services } = this.#options;
    library.setServices(
      services.map(({ uuid, characteristics }) => {
        const built = characteristics.map((it) => this.#characteristic(it));
        return new library.PrimaryService({ uuid: libraryUuid(uuid), characteristics: built });
      }),
    );
  }

  #characteristic({
    uuid,
    properties,
    read,
    write,
    subscription,
  }: CharacteristicDefinition): object {
    return new this.#options.library.Characteristic({
      uuid: libraryUuid(uuid),
      properties,
      onReadRequest: (...values) => {
        const { offset, answer } = readArguments(values);
        const value = read?.() ?? 0;
        if (typeof value === 'number') answer(value);
        else answer(0, Buffer.from(value.subarray(offset)));
      },
      onWriteRequest: (...values) => {
        const { data, answer } = writeArguments(values);
        answer(write?.(Uint8Array.from(data)) ?? 0);
      },
      onSubscribe: (...values) => {
        this.#listening.set(uuid, subscribeArguments(values));
        subscription?.(true);
      },
      onUnsubscribe: () => {
        if (this.#listening.delete(uuid)) subscription?.(false);
      },
      onIndicate: () => this.#confirmed(),
    });
  }

  #sendIndication(): void {
    this.#indications[0]?.();
    this.#confirmation = setTimeout(() => this.#confirmed(), CONFIRMATION_MS);
  }

  #confirmed(): void {
    clearTimeout(this.#confirmation);
    this.#indications.shift();
    if (this.#indications.length > 0) this.#sendIndication();
  }

  #failed(what: string, error: unknown): void {
    const detail = error instanceof Error ? error.message : String(error);
    this.#options.onEvent({ kind: 'failed', detail: `${what}: ${detail}` });
  }
}
