/** Which failures are taken for the host library’s own, and which for a sensor’s. */
import { EventEmitter } from 'node:events';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { Central } from '../../../server/sources/radio/central.ts';
import { CAPABILITIES_FIELDS } from '../../../protocol/profile.ts';
import { encode } from '../../../protocol/profile-codec.ts';
import { RADIO_TIMING } from '../../../server/sources/radio/timing.ts';
import { INVENTED_CAPABILITIES } from '../../../simulators/sensor/sensor-services.ts';
import { FakePeripheral } from '../../support/fake-peripheral.ts';

/** Switched on at once, and hears whoever is in reach over and over while it searches. */
class FakeHost extends EventEmitter {
  readonly inReach: FakePeripheral[] = [];
  #hearing: NodeJS.Timeout | undefined;
  startScanning(): void {
    this.emit('scanStart');
    this.#hearing = setInterval(() => {
      for (const peripheral of this.inReach) this.emit('discover', peripheral);
    }, 100);
  }
  stopScanning(): void {
    clearInterval(this.#hearing);
    this.emit('scanStop');
  }
}

beforeEach(() => vi.useFakeTimers());
afterEach(() => vi.useRealTimers());

const MINUTE_MS = 60_000;

/** What a sensor says of itself that measures once a minute. */
const SLOW = { ...INVENTED_CAPABILITIES, intervalMs: MINUTE_MS };

function begin(...inReach: FakePeripheral[]) {
  const host = new FakeHost();
  host.inReach.push(...inReach);
  const central = new Central({ host, timing: RADIO_TIMING, report: () => undefined });
  let why: string | null = null;
  void central.ended.then((end) => {
    why = end.why;
  });
  host.emit('stateChange', 'poweredOn');
  return { central, why: () => why };
}

function refusing(id: string): FakePeripheral {
  const peripheral = new FakePeripheral(id);
  peripheral.service.reading.subscription = null;
  return peripheral;
}

function mute(id: string): FakePeripheral {
  const peripheral = new FakePeripheral(id);
  peripheral.mute = 'services';
  return peripheral;
}

test('a sensor that refuses for an hour is asked about once a minute and ends nothing', async () => {
  const sensor = refusing('a');
  const { central, why } = begin(sensor);
  await vi.advanceTimersByTimeAsync(60 * MINUTE_MS);
  expect(why()).toBeNull();
  expect(sensor.attempts).toBeGreaterThan(40);
  expect(sensor.attempts).toBeLessThan(130);
  await central.stop();
});

test('a host library that has come to hold too much memory is replaced', async () => {
  const host = new FakeHost();
  let heapBytes = 50e6;
  const report = () => undefined;
  const central = new Central({ host, timing: RADIO_TIMING, report, heapBytes: () => heapBytes });
  let why = '';
  void central.ended.then((end) => {
    why = `${end.why}: ${end.detail}`;
  });
  host.emit('stateChange', 'poweredOn');
  await vi.advanceTimersByTimeAsync(10 * MINUTE_MS);
  expect(why).toBe('');
  heapBytes = 300e6;
  await vi.advanceTimersByTimeAsync(MINUTE_MS);
  expect(why).toBe('unresponsive: the host library holds too much memory');
});

test.each(['connect', 'services'] as const)(
  'a host library that gets no answer to %s from anybody is given up at the fifth time',
  async (request) => {
    const sensor = new FakePeripheral();
    sensor.mute = request;
    const { why } = begin(sensor);
    while (why() === null && sensor.attempts < 10) await vi.advanceTimersByTimeAsync(100);
    expect(why()).toBe('unresponsive');
    expect(sensor.attempts).toBe(5);
  },
);

test('a sensor that answers nothing does not end the connection with one that is heard seldom', async () => {
  const [bad, good] = [mute('a'), new FakePeripheral('b')];
  good.service.capabilities.value = encode(CAPABILITIES_FIELDS, SLOW);
  const { central, why } = begin(bad, good);
  for (let reading = 1; reading <= 5; reading += 1) {
    await vi.advanceTimersByTimeAsync(4 * SLOW.intervalMs);
    good.service.reading.emit('data', Buffer.from([1]), true);
  }
  expect(bad.attempts).toBeGreaterThan(25);
  expect(good.attempts).toBe(1);
  expect(why()).toBeNull();
  await central.stop();
});

test('a sensor that answers some questions and leaves one open ends nothing', async () => {
  const sensor = new FakePeripheral('a');
  sensor.service.capabilities.mute = true;
  const { central, why } = begin(sensor);
  await vi.advanceTimersByTimeAsync(10 * MINUTE_MS);
  expect(sensor.attempts).toBeGreaterThan(10);
  expect(why()).toBeNull();
  await central.stop();
});
