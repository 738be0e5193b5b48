/** Readings that a lost link has cost, or the air, and how they are fetched. */
import { expect, it, vi } from 'vitest';

import { decodeRequest } from '../../protocol/record-access.ts';
import { ATT, ATT_ERROR, errorResponse } from '../../simulators/sensor/att-server.ts';
import type { SentReading, VirtualSensor } from '../../simulators/sensor/virtual-sensor.ts';
import { count, describeDay, hex } from './radio-day.ts';

export function describeBackfill(library: string): void {
  describeDay('fetching what was missed', library, (day) => {
    const stateOf = ({ id }: VirtualSensor) =>
      day.rig.ear.states.at(-1)?.sensors.find(({ sensorId }) => sensorId === id);

    it('fetches what was measured while the sensor was out of reach, each reading once', async () => {
      const { ear } = day.rig;
      const sensor = day.place();
      await sensor.whenSubscribed();
      const before = await sensor.play(count(5), 2);
      await day.readings(5);
      sensor.vanish();
      const away = count(200).map((pressurePa) => sensor.measure(pressurePa));
      expect(away.some(({ delivered }) => delivered)).toBe(false);
      const fetching = ear.phase('backfilling');
      const heardAgain = sensor.nextSubscription();
      sensor.comeBack();
      await heardAgain;
      const after = [sensor.measure(9)];
      await fetching;
      await day.readings(206);
      expect(sorted(ear.readings)).toEqual(sorted([...before, ...away, ...after]));
      expect(ear.readings.filter(({ fetched }) => fetched)).toHaveLength(200);
      await ear.until('all fetched', () => ear.states.at(-1)?.phase === 'live');
      expect(stateOf(sensor)).not.toHaveProperty('missedReadings');
    });

    it('fetches a reading that the air has swallowed, though the link held', async () => {
      const { ear } = day.rig;
      const sensor = day.place();
      await sensor.whenSubscribed();
      const sent = [sensor.measure(1)];
      const swallowed = vi.spyOn(sensor.peripheral, 'notify').mockReturnValueOnce(true);
      sent.push(sensor.measure(2));
      swallowed.mockRestore();
      sent.push(sensor.measure(3));
      await day.readings(3);
      expect(sorted(ear.readings)).toEqual(sorted(sent));
    });

    it('goes on fetching in the next connection where a report was cut short', async () => {
      const { ear } = day.rig;
      const sensor = day.place({ reportPauseMs: 5 });
      const sent = await leaveAndReturn(sensor, 100);
      await ear.until('some', () => ear.readings.some(({ fetched }) => fetched));
      const again = sensor.nextSubscription();
      sensor.controller.loseLinks();
      await again;
      sent.push(sensor.measure(9));
      await day.readings(sent.length);
      expect(sorted(ear.readings)).toEqual(sorted(sent));
    });

    it('survives links that are lost in the midst of being asked, and is whole in the end', async () => {
      const { ear } = day.rig;
      const sensor = day.place();
      let lost = 0;
      sensor.peripheral.intercept = (request) => {
        if (!isAccess(request) || lost >= 10) return undefined;
        lost += 1;
        sensor.controller.loseLinks();
        return null;
      };
      const sent = await leaveAndReturn(sensor, 30);
      while (lost < 10) {
        await sensor.nextSubscription();
        sent.push(sensor.measure(9));
      }
      const heard = () => new Set(hex(ear.readings));
      await ear.until('whole', () => heard().size >= sent.length);
      expect([...heard()].sort()).toEqual(sorted(sent));
    });

    it('leaves as a gap what the sensor has forgotten, and asks for it once', async () => {
      const { ear } = day.rig;
      const sensor = day.place({ capabilities: { bufferDepth: 30 } });
      const requests = requestsTo(sensor);
      const sent = await leaveAndReturn(sensor, 100);
      await day.readings(2 + 29);
      // The latest reading takes the place of one of the thirty.
      expect(sorted(ear.readings)).toEqual(sorted([...sent.slice(0, 1), ...sent.slice(-30)]));
      const more = await sensor.play(count(10), 5);
      await day.readings(31 + more.length);
      expect(requests).toHaveLength(1);
      expect(stateOf(sensor)).not.toHaveProperty('missedReadings');
    });

    it('asks a sensor that keeps none for nothing', async () => {
      const { ear } = day.rig;
      const sensor = day.place({ capabilities: { bufferDepth: 0 } });
      const sent = await leaveAndReturn(sensor, 20);
      const more = await sensor.play(count(10), 5);
      await day.readings(2 + more.length);
      const heard = [...sent.filter(({ delivered }) => delivered), ...more];
      expect(sorted(ear.readings)).toEqual(sorted(heard));
      expect(ear.states.some(({ phase }) => phase === 'backfilling')).toBe(false);
    });

    it('asks a restarted sensor for what it has measured since, and for nothing from before', async () => {
      const sensor = day.place();
      const requests = requestsTo(sensor);
      await sensor.whenSubscribed();
      const sent = [sensor.measure(1), sensor.measure(2)];
      await day.readings(2);
      sensor.vanish();
      sensor.reboot();
      sensor.vanish();
      sent.push(...count(20).map((pressurePa) => sensor.measure(pressurePa)));
      const heardAgain = sensor.nextSubscription();
      sensor.comeBack();
      await heardAgain;
      sent.push(...(await sensor.play(count(5), 5)));
      await day.readings(27);
      expect(sorted(day.rig.ear.readings)).toEqual(sorted(sent));
      expect(requests).toHaveLength(1);
    });

    it('loses no live reading of a sensor that refuses to be asked, and stops asking', async () => {
      const { ear } = day.rig;
      const sensor = day.place();
      const refused = refuseAccess(sensor);
      const sent = await leaveAndReturn(sensor, 20);
      await ear.until('three refusals', () => refused.count >= 3);
      const more = await sensor.play(count(40), 25);
      await day.readings(2 + more.length);
      const heard = [...sent.filter(({ delivered }) => delivered), ...more];
      expect(sorted(ear.readings)).toEqual(sorted(heard));
      expect(refused.count).toBe(3);
      expect(stateOf(sensor)?.missedReadings).toBe(20);
    });

    it('fetches from two sensors at once, and from each its own', async () => {
      const { ear } = day.rig;
      const [one, two] = [day.place({ name: 'One' }), day.place({ name: 'Two' })];
      const sent = await Promise.all([leaveAndReturn(one, 60), leaveAndReturn(two, 80)]);
      await day.readings(62 + 82);
      for (const [place, { id }] of [one, two].entries()) {
        const own = ear.readings.filter(({ sensorId }) => sensorId === id);
        expect(sorted(own)).toEqual(sorted(sent[place] ?? []));
      }
    });
  });

  /** One reading, then so many that nobody hears, then one more; resolves when that has been sent. */
  async function leaveAndReturn(sensor: VirtualSensor, missed: number): Promise<SentReading[]> {
    await sensor.whenSubscribed();
    const sent = [sensor.measure(500)];
    await new Promise((done) => setTimeout(done, 50));
    sensor.vanish();
    sent.push(...count(missed).map((pressurePa) => sensor.measure(pressurePa)));
    const heardAgain = sensor.nextSubscription();
    sensor.comeBack();
    await heardAgain;
    sent.push(sensor.measure(9));
    return sent;
  }
}

/** Every byte of every reading, in whatever order they came. */
function sorted(readings: readonly { readonly bytes: Uint8Array }[]): string[] {
  return hex(readings).sort();
}

/** What the sensor is asked at its Record Access Control Point. */
function requestsTo(sensor: VirtualSensor): Uint8Array[] {
  const requests: Uint8Array[] = [];
  sensor.peripheral.intercept = (request) => {
    if (isAccess(request)) requests.push(request.subarray(3));
    return undefined;
  };
  return requests;
}

function refuseAccess(sensor: VirtualSensor): { count: number } {
  const refused = { count: 0 };
  sensor.peripheral.intercept = (request) => {
    if (!isAccess(request)) return undefined;
    refused.count += 1;
    return errorResponse(ATT.write, request.readUInt16LE(1), ATT_ERROR.unlikely);
  };
  return refused;
}

/** A write of more than two bytes that makes sense there: configurations are shorter. */
function isAccess(request: Buffer): boolean {
  return request[0] === ATT.write && request.length > 5 && decodeRequest(request.subarray(3)).ok;
}
