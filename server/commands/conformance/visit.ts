/**
 * One examination of one sensor: the link, and what has come over it so far. Checks ask it for what they
 * stand on, and where that isn't there they are not tried.
 */
import {
  CAPABILITIES_FIELDS,
  CAPABILITIES_UUID,
  READING_FIELDS,
  READING_UUID,
  RECORD_ACCESS_UUID,
  STORED_READINGS_UUID,
} from '../../../protocol/profile.ts';
import { decode, type Values } from '../../../protocol/profile-codec.ts';
import { hostUuid, type HostLibrary } from '../../sources/radio/host-library.ts';
import { NotTriedError } from './check-errors.ts';
import type { Found } from './find-sensor.ts';
import type { Patience } from './patience.ts';
import { LinkLostError, Peer } from './peer.ts';

export type Reading = Values<typeof READING_FIELDS>;
export type Capabilities = Values<typeof CAPABILITIES_FIELDS>;

export interface Heard {
  readonly bytes: Uint8Array;
  readonly arrivedMs: number;
  /** Null where the bytes are no reading. */
  readonly reading: Reading | null;
}

export class Visit {
  readonly found: Found;
  readonly peer: Peer;
  readonly library: HostLibrary;
  readonly patience: Patience;
  /** Notifications of Reading, in order. */
  readonly live: Heard[] = [];
  /** Of Stored readings. */
  readonly stored: Uint8Array[] = [];
  /** Indications of the control point. */
  readonly answers: Uint8Array[] = [];
  /** Whether stored readings and answers of the control point are subscribed to on this link. */
  accessConfigured = false;
  readonly #waiting = new Set<() => void>();
  #failedLinks = 0;
  #capabilitiesBytes: Uint8Array | null = null;
  #firstCapabilities: Uint8Array | null = null;

  constructor(library: HostLibrary, found: Found, patience: Patience) {
    this.library = library;
    this.found = found;
    this.patience = patience;
    this.peer = new Peer(library, found.peripheral, patience, (uuid, bytes) => {
      this.#pushed(uuid, bytes);
    });
  }

  /** Connects where there is no link. Twice in vain, or once where that was to be feared, is enough. */
  async link(): Promise<void> {
    if (this.peer.connected) return;
    if (this.#failedLinks >= 2) throw new NotTriedError('there is no link');
    this.accessConfigured = false;
    try {
      await this.peer.connect();
      this.#failedLinks = 0;
    } catch (error) {
      await this.peer.disconnect();
      this.#failedLinks += 1;
      const detail = error instanceof Error ? error.message : String(error);
      const isFeared = this.#failedLinks > 1;
      if (isFeared) throw new NotTriedError(`there is no link: ${detail}`);
      throw new LinkLostError(detail);
    }
  }

  /** The sensor isn't heard any more: that it can't be connected with is no news then. */
  fearForLink(): void {
    this.#failedLinks = 1;
  }

  /** A link, and this characteristic on it. */
  async need(uuid: string, name: string, property?: string): Promise<void> {
    await this.link();
    const properties = this.peer.propertiesOf(uuid);
    if (properties === null) throw new NotTriedError(`there is no ${name}`);
    if (property !== undefined && !properties.includes(property)) {
      throw new NotTriedError(`${name} lacks the property ${property}`);
    }
  }

  async capabilitiesBytes(): Promise<Uint8Array> {
    await this.need(CAPABILITIES_UUID, 'Capabilities', 'read');
    this.#capabilitiesBytes ??= await this.peer.read(CAPABILITIES_UUID);
    this.#firstCapabilities ??= this.#capabilitiesBytes;
    return this.#capabilitiesBytes;
  }

  /** As they were when they were read for the first time. */
  async firstCapabilities(): Promise<Uint8Array> {
    return this.#firstCapabilities ?? (await this.capabilitiesBytes());
  }

  /** @param anew whether it is read again */
  async capabilities(anew = false): Promise<Capabilities> {
    if (anew) this.#capabilitiesBytes = null;
    const decoded = decode(CAPABILITIES_FIELDS, await this.capabilitiesBytes());
    if (!decoded.ok) throw new NotTriedError(`Capabilities can't be read: ${decoded.detail}`);
    return decoded.values;
  }

  /** The interval that it claims, kept to what makes sense where it claims none. */
  async intervalMs(): Promise<number> {
    const claimed = await this.capabilities().then(
      ({ intervalMs }) => intervalMs,
      (error: unknown) => {
        if (error instanceof NotTriedError) return 1000;
        throw error;
      },
    );
    return claimed === 0 ? 1000 : claimed;
  }

  /** What it has notified and can be read; at least `count` of them. */
  readings(count: number): Reading[] {
    const readings = this.live.flatMap(({ reading }) => (reading === null ? [] : [reading]));
    if (readings.length < count) {
      throw new NotTriedError(`only ${readings.length} sound readings were notified`);
    }
    return readings;
  }

  /** Resolves to whether it holds in time, looked at whenever something comes. */
  until(holds: () => boolean, limitMs: number): Promise<boolean> {
    return new Promise((resolve) => {
      const look = (): void => {
        if (holds()) settle(true);
      };
      const settle = (held: boolean): void => {
        clearTimeout(timer);
        this.#waiting.delete(look);
        resolve(held);
      };
      const timer = setTimeout(() => settle(false), limitMs);
      this.#waiting.add(look);
      look();
    });
  }

  #pushed(uuid: string, bytes: Uint8Array): void {
    if (uuid === hostUuid(READING_UUID)) {
      const decoded = bytes.length === 17 ? decode(READING_FIELDS, bytes) : null;
      const reading = decoded?.ok === true ? decoded.values : null;
      this.live.push({ bytes, arrivedMs: performance.now(), reading });
    }
    if (uuid === hostUuid(STORED_READINGS_UUID)) this.stored.push(bytes);
    if (uuid === hostUuid(RECORD_ACCESS_UUID)) this.answers.push(bytes);
    for (const look of [...this.#waiting]) look();
  }
}
