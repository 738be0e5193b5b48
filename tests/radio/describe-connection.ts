/** What a radio does while all is well. */
import { expect, it } from 'vitest';
import { PROFILE_VERSION, SERVICE_UUID } from '../../protocol/profile.ts';
import { count, describeDay, hex, isNew, toHex } from './radio-day.ts';

export function describeConnection(library: string): void {
  describeDay('finding, connecting and hearing', library, (day) => {
    it('finds a sensor, says who it is, and passes every reading on unchanged and in order', async () => {
      const { ear, air } = day.rig;
      const sensor = day.place({ name: 'Cellar', serial: 'S-77', batteryPercent: 64 });
      await sensor.whenSubscribed();
      const pressures = Array.from({ length: 300 }, (_, i) => Math.round(1e5 / (i + 40)) / 10);
      const sent = await sensor.play(pressures, 1);
      await day.readings(sent.length);

      expect(sent.every(({ delivered }) => delivered)).toBe(true);
      expect(hex(ear.readings)).toEqual(hex(sent));
      expect(ear.readings.every(({ sensorId }) => sensorId === sensor.id)).toBe(true);
      expect(ear.order.indexOf('sensor')).toBeLessThan(ear.order.indexOf('reading'));
      expect(ear.identities).toEqual([
        {
          id: sensor.id,
          name: 'Cellar',
          manufacturer: 'Nobody in particular',
          model: 'Virtual sensor, first model',
          serial: 'S-77',
          firmware: '1.0.0',
        },
      ]);
      expect(ear.states.at(-1)).toMatchObject({
        kind: 'radio',
        name: 'Cellar',
        phase: 'live',
        problem: null,
        batteryPercent: 64,
        signalDbm: air.signalDbm,
        clockRate: 1,
      });
      expect(ear.states.map(({ phase }) => phase).filter(isNew)).toEqual([
        'starting',
        'searching',
        'found',
        'connecting',
        'live',
      ]);
    });

    it('looks at battery and signal again while connected', async () => {
      const { ear, air } = day.rig;
      const sensor = day.place({ largestMtu: 185 });
      await sensor.whenSubscribed();
      sensor.measure(20);
      sensor.batteryPercent = 12;
      air.signalDbm = -81;
      await ear.until('both', () => {
        const state = ear.states.at(-1);
        return state?.batteryPercent === 12 && state.signalDbm === -81;
      });
    });

    it('hears two sensors at once, and one when the other is gone', async () => {
      const { ear } = day.rig;
      const one = day.place({ name: 'One' });
      const two = day.place({ name: 'Two' });
      await Promise.all([one.whenSubscribed(), two.whenSubscribed()]);
      const sent = await Promise.all([one.play(count(40), 3), two.play(count(40), 3)]);
      await day.readings(80);
      for (const [place, { id }] of [one, two].entries()) {
        const heard = ear.readings.filter(({ sensorId }) => sensorId === id);
        expect(hex(heard)).toEqual(hex(sent[place] ?? []));
      }
      one.vanish();
      const more = await two.play(count(20), 3);
      await day.readings(100);
      expect(hex(ear.readings.slice(80))).toEqual(hex(more));
      await ear.until('the other', () => ear.states.at(-1)?.name === 'Two');
      expect(ear.states.at(-1)).toMatchObject({ phase: 'live', problem: null });
      const phaseOf = ({ id }: { id: string }) =>
        ear.states.at(-1)?.sensors.find(({ sensorId }) => sensorId === id)?.phase;
      expect([phaseOf(one), phaseOf(two)]).toEqual(['lost', 'live']);
      one.comeBack();
      await one.whenSubscribed();
    });

    it('connects with sensors of our profile and with nobody else', async () => {
      const other = day.place({ name: 'Other', advertises: SERVICE_UUID.replace('0001', '0009') });
      const sensor = day.place({ name: 'Ours' });
      await sensor.whenSubscribed();
      sensor.measure(1);
      await day.readings(1);
      expect(day.rig.ear.identities.map(({ name }) => name)).toEqual(['Ours']);
      expect(other.peripheral.connected).toBe(false);
    });

    it('passes on what it does not understand, and survives it', async () => {
      const sensor = day.place();
      await sensor.whenSubscribed();
      const sent = [Uint8Array.of(), Uint8Array.of(0xff), new Uint8Array(20).fill(0xee)];
      for (const bytes of sent) expect(sensor.send(bytes)).toBe(true);
      const sound = sensor.measure(5);
      await day.readings(4);
      expect(hex(day.rig.ear.readings)).toEqual([...sent.map(toHex), toHex(sound.bytes)]);
    });

    it('refuses a sensor that speaks another version of the profile, and says so', async () => {
      const { ear } = day.rig;
      const sensor = day.place({ capabilities: { majorVersion: PROFILE_VERSION.major + 1 } });
      await ear.phase('lost', 'sensor_not_understood');
      sensor.measure(5);
      await ear.phase('connecting');
      await ear.phase('lost', 'sensor_not_understood');
      expect(ear.readings).toEqual([]);
      expect(sensor.subscribed).toBe(false);
    });

    it('says of a sensor that a computer plays that it is simulated, and in its name', async () => {
      const { ear } = day.rig;
      const sensor = day.place({ name: 'Class', capabilities: { principle: 'simulated' } });
      await sensor.whenSubscribed();
      sensor.measure(5);
      await day.readings(1);
      expect(ear.states.at(-1)).toMatchObject({ phase: 'live', problem: 'simulated_sensor' });
      expect(ear.identities.map(({ name }) => name)).toEqual(['Class, simulated']);
    });

    it('leaves nothing behind in the host library over a dozen connections', async () => {
      const { ear } = day.rig;
      const sensor = day.place();
      for (let connection = 1; connection <= 12; connection += 1) {
        await sensor.whenSubscribed();
        sensor.measure(connection);
        await day.readings(connection);
        sensor.controller.loseLinks();
      }
      // Node itself warns where more than ten listeners wait for the same event of one object.
      expect(ear.log.filter((text) => /MaxListeners|memory leak/i.test(text))).toEqual([]);
    });

    it('searches on when another program stops the search', async () => {
      day.rig.adapter.stopScanFromOutside();
      await day.place().whenSubscribed();
    });
  });
}
