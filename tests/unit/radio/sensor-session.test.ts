/** A session leaves nothing behind, however it ends; the whole of it is in `tests/radio`. */
import { EventEmitter } from 'node:events';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { CAPABILITIES_UUID, READING_UUID, SERVICE_UUID } from '../../../protocol/profile.ts';
import { hostUuid } from '../../../server/sources/radio/host-library.ts';
import type { FromRadio } from '../../../server/sources/radio/messages.ts';
import { runSession } from '../../../server/sources/radio/sensor-session.ts';
import type { SessionEnd } from '../../../server/sources/radio/sensor-session.ts';
import { RADIO_TIMING } from '../../../server/sources/radio/timing.ts';

class FakeCharacteristic extends EventEmitter {
  readonly uuid: string;
  constructor(uuid: string) {
    super();
    this.uuid = hostUuid(uuid);
  }
  read(): void {
    this.emit('data', Buffer.alloc(0), false);
  }
  subscribe(): void {
    this.emit('notify', true);
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
class FakePeripheral extends EventEmitter {
  readonly id = 'abcd';
  readonly rssi = -50;
  readonly advertisement = { localName: 'Fake' };
  readonly service = new FakeService();
  state = 'disconnected';
  mute = '';
  connect(): void {
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

beforeEach(() => vi.useFakeTimers());
afterEach(() => vi.useRealTimers());

const EVERYTHING_MS = 10 * 60_000;

test.each<[string, SessionEnd['reason'], (p: FakePeripheral, adapter: AbortController) => void]>([
  ['by a lost link', 'disconnected', (peripheral) => peripheral.disconnect()],
  ['by an adapter that goes off', 'disconnected', (_, adapter) => adapter.abort(new Error('off'))],
  ['by silence', 'silent', () => undefined],
])('a session that ends %s', async (_, reason, end) => {
  const peripheral = new FakePeripheral();
  const adapter = new AbortController();
  const { ended, reports, subscribed } = session(peripheral, adapter.signal);
  await subscribed;
  peripheral.service.reading.emit('data', Buffer.from([1, 2]), true);
  end(peripheral, adapter);
  await vi.advanceTimersByTimeAsync(EVERYTHING_MS);
  expect(await ended).toMatchObject({ reason, delivered: true });
  expect(reports.filter(({ type }) => type === 'reading')).toHaveLength(1);
  expectNothingLeft(peripheral);
});

test.each(['connect', 'services'])(
  'a session whose request is never answered: %s',
  async (mute) => {
    const peripheral = new FakePeripheral();
    peripheral.mute = mute;
    const { ended } = session(peripheral, new AbortController().signal);
    await vi.advanceTimersByTimeAsync(EVERYTHING_MS);
    expect(await ended).toMatchObject({ reason: 'unanswered', delivered: false });
    expectNothingLeft(peripheral);
  },
);

test('a notification after the end is not delivered', async () => {
  const peripheral = new FakePeripheral();
  const { ended, reports, subscribed } = session(peripheral, new AbortController().signal);
  await subscribed;
  peripheral.disconnect();
  await ended;
  const before = reports.length;
  peripheral.service.reading.emit('data', Buffer.from([1]), true);
  expect(reports).toHaveLength(before);
});

function session(peripheral: FakePeripheral, adapter: AbortSignal) {
  const reports: FromRadio[] = [];
  let onSubscribed = (): void => undefined;
  const subscribed = new Promise<void>((resolve) => {
    onSubscribed = () => {
      resolve();
    };
  });
  const report = (message: FromRadio): void => {
    reports.push(message);
  };
  const timing = RADIO_TIMING;
  const ended = runSession({ peripheral, timing, adapter, report, onSubscribed });
  return { ended, reports, subscribed };
}

function expectNothingLeft(peripheral: FakePeripheral): void {
  const { state, service } = peripheral;
  expect(state).toBe('disconnected');
  expect(vi.getTimerCount()).toBe(0);
  for (const emitter of [peripheral, service, service.reading, service.capabilities]) {
    expect(emitter.eventNames()).toEqual([]);
  }
}
