/** A session leaves nothing behind, however it ends; the whole of it is in `tests/radio`. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { FromRadio } from '../../../server/sources/radio/messages.ts';
import type { SessionEnd } from '../../../server/sources/radio/session-end.ts';
import { SensorSession } from '../../../server/sources/radio/sensor-session.ts';
import { RADIO_TIMING } from '../../../server/sources/radio/timing.ts';
import { FakePeripheral } from '../../support/fake-peripheral.ts';

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

test.each(['connect', 'services'] as const)(
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

test.each([
  ['says nothing', null],
  ['says that nothing has changed', [false]],
  ['gives an error', [false, new Error('not permitted')]],
])(
  'a subscription of which the library %s is a refusal where a read is answered',
  async (_, told) => {
    const peripheral = new FakePeripheral();
    peripheral.service.reading.subscription = told;
    const { ended, reports } = session(peripheral, new AbortController().signal);
    await vi.advanceTimersByTimeAsync(EVERYTHING_MS);
    expect(await ended).toMatchObject({ reason: 'refused', delivered: false });
    expect(reports.at(-1)).toMatchObject({ phase: 'lost', problem: 'sensor_refuses' });
    expectNothingLeft(peripheral);
  },
);

test('a subscription is unanswered where no read is answered either', async () => {
  const peripheral = new FakePeripheral();
  peripheral.service.reading.mute = true;
  const { ended, reports } = session(peripheral, new AbortController().signal);
  await vi.advanceTimersByTimeAsync(EVERYTHING_MS);
  expect(await ended).toMatchObject({ reason: 'unanswered' });
  expect(reports.at(-1)).toMatchObject({ phase: 'lost', problem: 'sensor_lost' });
});

test('a link that is lost while a refusal is looked into is a lost link', async () => {
  const peripheral = new FakePeripheral();
  peripheral.service.reading.mute = true;
  const { ended } = session(peripheral, new AbortController().signal);
  await vi.advanceTimersByTimeAsync(RADIO_TIMING.answerMs * 1.5);
  peripheral.disconnect();
  expect(await ended).toMatchObject({ reason: 'disconnected' });
});

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
  const onHeard = (): void => undefined;
  const ended = new SensorSession({
    peripheral,
    timing,
    adapter,
    report,
    onSubscribed,
    onHeard,
  }).run();
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
