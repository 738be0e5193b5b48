/** One radio of the bridge through several tests, as through a long day, and what they all need. */
import { afterAll, afterEach, beforeAll, describe } from 'vitest';
import { VirtualSensor } from '../../simulators/sensor/virtual-sensor.ts';
import type { VirtualSensorOptions } from '../../simulators/sensor/virtual-sensor.ts';
import { RadioRig } from '../support/radio-rig.ts';

export interface RadioDay {
  /** There from the first test on, not before. */
  readonly rig: RadioRig;
  /** A sensor in reach, measuring so seldom that only a test of silence sees it silent. */
  readonly place: (options?: VirtualSensorOptions) => VirtualSensor;
  /** Resolves when so many readings have been heard in this test. */
  readonly readings: (count: number) => Promise<void>;
}

export function describeDay(what: string, library: string, tests: (day: RadioDay) => void): void {
  describe(`${what}, on ${library}`, () => {
    let rig: RadioRig;
    let sensors: VirtualSensor[] = [];
    beforeAll(async () => {
      rig = await RadioRig.create({ library });
      rig.start();
    });
    afterEach(() => {
      for (const sensor of sensors) sensor.vanish();
      sensors = [];
      rig.air.acceptsConnections = true;
      rig.ear.clear();
    });
    afterAll(() => rig.close());

    tests({
      get rig() {
        return rig;
      },
      place: (options = {}) => {
        const capabilities = { intervalMs: 4000, ...options.capabilities };
        const sensor = new VirtualSensor(rig.air, { ...options, capabilities });
        sensors.push(sensor);
        return sensor;
      },
      readings: (count) =>
        rig.ear.until(`${count} readings`, () => rig.ear.readings.length >= count),
    });
  });
}

export function hex(items: readonly { readonly bytes: Uint8Array }[]): string[] {
  return items.map(({ bytes }) => toHex(bytes));
}

export function toHex(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString('hex');
}

export function count(length: number): number[] {
  return Array.from({ length }, (_, i) => 100 + i);
}

export function isNew(value: string, place: number, all: readonly string[]): boolean {
  return value !== all[place - 1];
}

export function signal(pid: number | undefined, name: NodeJS.Signals | 0): void {
  if (pid === undefined) throw new Error('there is no process');
  process.kill(pid, name);
}
