/** A sensor that comes into reach and goes out of it. */
import { expect, it } from 'vitest';
import { describeDay, hex, isNew } from './radio-day.ts';

export function describeLoss(library: string): void {
  describeDay('loss and return', library, (day) => {
    it('says that a sensor is lost and goes on when it is back, restarted or not', async () => {
      const { ear } = day.rig;
      const sensor = day.place();
      await sensor.whenSubscribed();
      const before = sensor.measure(500);
      await day.readings(1);
      const lost = ear.phase('lost', 'sensor_lost');
      sensor.vanish();
      await lost;
      expect(sensor.measure(480).delivered).toBe(false);
      sensor.comeBack();
      await sensor.whenSubscribed();
      const after = sensor.measure(450);
      await day.readings(2);
      sensor.reboot();
      await sensor.whenSubscribed();
      const afterReboot = sensor.measure(400);
      await day.readings(3);
      expect(hex(ear.readings)).toEqual(hex([before, after, afterReboot]));
      expect(ear.identities).toHaveLength(1);
    });

    it('gives up a connection that never comes and tries again', async () => {
      const { ear, air, adapter } = day.rig;
      air.acceptsConnections = false;
      const attempts = adapter.connectionAttempts;
      const sensor = day.place();
      await ear.until('second attempt', () => adapter.connectionAttempts >= attempts + 2);
      air.acceptsConnections = true;
      await sensor.whenSubscribed();
      sensor.measure(7);
      await day.readings(1);
    });

    it('does not let a sensor that left while connecting stand in the way of another', async () => {
      const { ear, air, adapter } = day.rig;
      air.acceptsConnections = false;
      const attempts = adapter.connectionAttempts;
      const gone = day.place({ name: 'Gone' });
      const failed = ear.phase('lost', 'sensor_lost');
      await ear.until('attempt', () => adapter.connectionAttempts > attempts);
      gone.vanish();
      air.acceptsConnections = true;
      await failed;
      const here = day.place({ name: 'Here' });
      await here.whenSubscribed();
      here.measure(7);
      await day.readings(1);
      const ofHere = ear.states.filter(({ name }) => name === 'Here').map(({ phase }) => phase);
      expect(ofHere.filter(isNew)).toEqual(['found', 'connecting', 'live']);
    });

    it('calls a connected sensor that sends nothing stale, then connects anew', async () => {
      const { ear } = day.rig;
      const sensor = day.place({ capabilities: { intervalMs: 100 } });
      await sensor.whenSubscribed();
      const stale = ear.phase('stale', 'sensor_silent');
      const lost = ear.phase('lost', 'sensor_silent');
      sensor.measure(9);
      await stale;
      expect(sensor.subscribed).toBe(true);
      await lost;
      await sensor.whenSubscribed();
      sensor.measure(8);
      await day.readings(2);
      expect(ear.states.at(-1)).toMatchObject({ phase: 'live', problem: null });
    });
  });
}
