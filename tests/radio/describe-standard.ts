/** Sensors that speak Bluetooth's general pressure service and nothing of ours. */
import { afterEach, expect, it } from 'vitest';
import { READING_FIELDS } from '../../protocol/profile.ts';
import { decode } from '../../protocol/profile-codec.ts';
import { StandardSensor } from '../../simulators/sensor/standard-sensor.ts';
import type { StandardSensorOptions } from '../../simulators/sensor/standard-sensor.ts';
import { describeDay } from './radio-day.ts';

export function describeStandard(library: string): void {
  describeDay('the general pressure service', library, (day) => {
    let placed: StandardSensor[] = [];
    const place = (options: StandardSensorOptions = {}): StandardSensor => {
      const sensor = new StandardSensor(day.rig.air, options);
      placed.push(sensor);
      return sensor;
    };
    afterEach(() => {
      for (const { peripheral } of placed) peripheral.vanish();
      placed = [];
      day.rig.source.choose([]);
    });
    const stateOf = ({ id }: StandardSensor) =>
      day.rig.ear.states.at(-1)?.sensors.find(({ sensorId }) => sensorId === id);

    it('is offered and not connected with, until somebody chooses it', async () => {
      const { ear, source } = day.rig;
      const sensor = place({ name: 'Barometer' });
      await ear.until('an offer', () => stateOf(sensor)?.problem === 'sensor_not_chosen');
      expect(stateOf(sensor)).toMatchObject({ phase: 'found' });
      expect(ear.states.at(-1)?.name).not.toBe('Barometer');
      const ours = day.place({ name: 'Ours' });
      await ours.whenSubscribed();
      expect(sensor.peripheral.connected).toBe(false);
      source.choose([sensor.id]);
      await sensor.whenSubscribed();
      sensor.measure(101_325, 19);
      await ear.until('a reading', () =>
        ear.readings.some(({ sensorId }) => sensorId === sensor.id),
      );
      await ear.until('live', () => stateOf(sensor)?.phase === 'live');
      expect(stateOf(sensor)).toMatchObject({ problem: 'standard_sensor' });
    });

    it('brings its pressures and temperature, numbered and timed by the bridge', async () => {
      const { ear, source } = day.rig;
      const sensor = place({ name: 'General', serial: 'G-1' });
      source.choose([sensor.id]);
      sensor.measure(900, 23.5);
      await sensor.whenSubscribed();
      for (let i = 0; i < 30; i += 1) {
        sensor.measure(500.3 - i);
        await new Promise((done) => setTimeout(done, 5));
      }
      await day.readings(30);
      const values = valuesOf(ear.readings);
      expect(values.map(({ pressurePa }) => pressurePa)).toEqual(
        Array.from({ length: 30 }, (_, i) => Math.round((500.3 - i) * 10) / 10),
      );
      expect(values.map(({ sequence }) => sequence)).toEqual(values.map((_, i) => i));
      expect(new Set(values.map(({ temperatureC }) => temperatureC))).toEqual(new Set([23.5]));
      const uptimes = values.map(({ uptimeMs }) => uptimeMs);
      expect(uptimes).toEqual(uptimes.toSorted((a, b) => a - b));
      expect(ear.identities.at(-1)).toMatchObject({ name: 'General', serial: 'G-1' });
      expect(ear.readings.some(({ fetched }) => fetched)).toBe(false);
    });

    it('is asked for its pressure where it does not notify', async () => {
      const { ear, source } = day.rig;
      const sensor = place({ notifies: false, hasTemperature: false });
      sensor.measure(66.7);
      source.choose([sensor.id]);
      await ear.until('two readings', () => ear.readings.length >= 2);
      const values = valuesOf(ear.readings);
      expect(values.slice(0, 2)).toMatchObject([
        { pressurePa: 66.7, temperatureC: null },
        { pressurePa: 66.7, temperatureC: null },
      ]);
    });

    it('is asked for its pressure where it notifies too seldom', async () => {
      const { ear, source } = day.rig;
      const sensor = place();
      sensor.measure(55.5);
      source.choose([sensor.id]);
      await sensor.whenSubscribed();
      await ear.until('two readings', () => ear.readings.length >= 2);
      expect(valuesOf(ear.readings).slice(0, 2)).toMatchObject([
        { pressurePa: 55.5 },
        { pressurePa: 55.5 },
      ]);
    });

    it('goes on after a lost link as another boot: what was lost stays lost', async () => {
      const { ear, source } = day.rig;
      const sensor = place();
      source.choose([sensor.id]);
      await sensor.whenSubscribed();
      sensor.measure(10);
      await day.readings(1);
      sensor.controller.loseLinks();
      sensor.measure(11);
      await ear.phase('lost');
      await sensor.whenSubscribed();
      sensor.measure(12);
      await day.readings(2);
      const [before, after] = valuesOf(ear.readings);
      expect([before?.pressurePa, after?.pressurePa]).toEqual([10, 12]);
      expect(after?.boot).not.toBe(before?.boot);
    });
  });
}

function valuesOf(readings: readonly { readonly bytes: Uint8Array }[]) {
  return readings.map(({ bytes }) => {
    const decoded = decode(READING_FIELDS, bytes);
    if (!decoded.ok) throw new Error(decoded.detail);
    return decoded.values;
  });
}
