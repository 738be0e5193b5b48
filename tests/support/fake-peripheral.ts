/** A sensor as the host library shows it, for what the library alone can't be brought to do. */
import { EventEmitter } from 'node:events';
import { CAPABILITIES_UUID, READING_UUID, SERVICE_UUID } from '../../protocol/profile.ts';
import { hostUuid } from '../../server/sources/radio/host-library.ts';

class FakeCharacteristic extends EventEmitter {
  readonly uuid: string;
  /** What the library tells of a subscription; null where it tells nothing. */
  subscription: readonly unknown[] | null = [true];
  /** Empty, as where a sensor refuses to show it. */
  value: Uint8Array = Buffer.alloc(0);
  /** No request is answered. */
  mute = false;
  constructor(uuid: string) {
    super();
    this.uuid = hostUuid(uuid);
  }
  read(): void {
    if (!this.mute) this.emit('data', this.value, false);
  }
  write(): void {
    if (!this.mute) this.emit('write');
  }
  subscribe(): void {
    if (!this.mute && this.subscription !== null) this.emit('notify', ...this.subscription);
  }
}

class FakeService extends EventEmitter {
  readonly uuid = hostUuid(SERVICE_UUID);
  readonly reading = new FakeCharacteristic(READING_UUID);
  readonly capabilities = new FakeCharacteristic(CAPABILITIES_UUID);
  discoverCharacteristics(): void {
    this.emit('characteristicsDiscover', [this.reading, this.capabilities]);
  }
}

/** Answers everything at once; `mute` names the request that it leaves open. */
export class FakePeripheral extends EventEmitter {
  readonly id: string;
  readonly rssi = -50;
  readonly advertisement = { localName: 'Fake' };
  readonly service = new FakeService();
  state = 'disconnected';
  mute: 'connect' | 'services' | null = null;
  /** How often a connection was asked for. */
  attempts = 0;
  constructor(id = 'abcd') {
    super();
    this.id = id;
  }
  connect(): void {
    this.attempts += 1;
    this.state = 'connecting';
    if (this.mute === 'connect') return;
    this.state = 'connected';
    this.emit('connect', undefined);
  }
  cancelConnect(): void {
    this.state = 'disconnected';
  }
  disconnect(): void {
    this.state = 'disconnected';
    this.emit('disconnect', 'asked to');
  }
  updateRssi(): void {
    this.emit('rssiUpdate', -51);
  }
  discoverServices(): void {
    if (this.mute !== 'services') this.emit('servicesDiscover', [this.service]);
  }
}
