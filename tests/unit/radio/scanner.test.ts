import { EventEmitter } from 'node:events';
import { expect, test } from 'vitest';
import { Scanner } from '../../../server/sources/radio/scanner.ts';

const noop = (): void => undefined;

/** A sensor as it is found, with the little that makes it one. */
const peripheral = Object.assign(new EventEmitter(), {
  id: 'abcd',
  advertisement: {},
  connect: noop,
  cancelConnect: noop,
  disconnect: noop,
  updateRssi: noop,
  discoverServices: noop,
});

/** Finds its sensor in the same moment in which the search starts, and never again. */
class EagerHost extends EventEmitter {
  searching = false;
  startScanning(): void {
    this.searching = true;
    this.emit('scanStart');
    this.emit('discover', peripheral);
  }
  stopScanning(): void {
    this.searching = false;
    this.emit('scanStop');
  }
}

test('hears an advertisement that comes along with the start of the search', async () => {
  const host = new EagerHost();
  const { signal } = new AbortController();
  expect(await new Scanner(host, 1000).find(() => true, 1000, signal)).toBe(peripheral);
  expect(host.searching).toBe(false);
  expect(host.eventNames()).toEqual([]);
});

test('finds nobody where nobody is wanted, and stops searching', async () => {
  const host = new EagerHost();
  const { signal } = new AbortController();
  expect(await new Scanner(host, 1000).find(() => false, 10, signal)).toBeNull();
  expect(host.searching).toBe(false);
  expect(host.eventNames()).toEqual([]);
});

test('fails where the adapter does not obey, and leaves no listener', async () => {
  const host = new EventEmitter();
  const mute = Object.assign(host, { startScanning: noop, stopScanning: noop });
  const { signal } = new AbortController();
  await expect(new Scanner(mute, 10).find(() => true, 1000, signal)).rejects.toThrow('10 ms');
  expect(host.eventNames()).toEqual([]);
});
