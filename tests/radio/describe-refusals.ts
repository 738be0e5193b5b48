/** A sensor that answers with a no, or not at all. */
import { expect, it } from 'vitest';
import { ATT, ATT_ERROR, errorResponse } from '../../simulators/sensor/att-server.ts';
import type { SentReading, VirtualSensor } from '../../simulators/sensor/virtual-sensor.ts';
import { count, describeDay, hex } from './radio-day.ts';

export function describeRefusals(library: string): void {
  describeDay('refusal and silence', library, (day) => {
    it('tries again when the subscription is refused', async () => {
      const sensor = day.place();
      refuse(sensor, ATT.write);
      await day.rig.ear.phase('lost', 'sensor_refuses');
      sensor.peripheral.intercept = null;
      await sensor.whenSubscribed();
      sensor.measure(7);
      await day.readings(1);
    });

    it('restarts nothing for a sensor that refuses, and loses no reading of another', async () => {
      const { ear, source } = day.rig;
      const { pid } = source;
      const stubborn = day.place({ name: 'Stubborn' });
      const refusals = refuse(stubborn, ATT.write);
      await ear.until('six refusals', () => refusals.count >= 6);
      const willing = day.place({ name: 'Willing' });
      await willing.whenSubscribed();
      const sent: SentReading[] = [];
      while (refusals.count < 9) sent.push(...(await willing.play(count(20), 5)));
      await day.readings(sent.length);

      expect(hex(ear.readings)).toEqual(hex(sent));
      expect(sent.every(({ delivered }) => delivered)).toBe(true);
      expect(source.pid).toBe(pid);
      expect(ear.states.some(({ problem }) => problem === 'radio_restarted')).toBe(false);
      stubborn.peripheral.intercept = null;
      await stubborn.whenSubscribed();
      expect(willing.subscribed).toBe(true);
    });

    it('gives up a sensor that answers nothing and tries again', async () => {
      const sensor = day.place();
      sensor.peripheral.intercept = () => null;
      await day.rig.ear.phase('lost', 'sensor_lost');
      sensor.peripheral.intercept = null;
      await sensor.whenSubscribed();
      sensor.measure(7);
      await day.readings(1);
    });

    it('goes on hearing a sensor that no longer says how full its battery is', async () => {
      const { ear } = day.rig;
      const sensor = day.place();
      await sensor.whenSubscribed();
      let asked = false;
      sensor.peripheral.intercept = ([opcode]) => {
        if (opcode !== ATT.read) return undefined;
        asked = true;
        return null;
      };
      // Longer than the next look at the battery and the time for its answer.
      const sent = await sensor.play(count(300), 5);
      await day.readings(sent.length);
      expect(asked).toBe(true);
      expect(hex(ear.readings)).toEqual(hex(sent));
      expect(ear.states.at(-1)).toMatchObject({ phase: 'live', problem: null });
    });

    it('connects with a sensor that refuses every question', async () => {
      const { ear } = day.rig;
      const sensor = day.place({ name: 'Shy' });
      refuse(sensor, ATT.read);
      await sensor.whenSubscribed();
      sensor.measure(5);
      await day.readings(1);
      expect(ear.identities[0]).toMatchObject({ name: 'Shy', model: null, serial: null });
      expect(ear.states.at(-1)).toMatchObject({
        phase: 'live',
        problem: 'sensor_not_understood',
        batteryPercent: null,
      });
    });
  });
}

/** Lets a sensor answer every such request with an error, and counts how often it did. */
function refuse({ peripheral }: VirtualSensor, opcode: number): { readonly count: number } {
  const refusals = { count: 0 };
  peripheral.intercept = (request) => {
    if (request[0] !== opcode) return undefined;
    refusals.count += 1;
    return errorResponse(opcode, request.readUInt16LE(1), ATT_ERROR.unlikely);
  };
  return refusals;
}
