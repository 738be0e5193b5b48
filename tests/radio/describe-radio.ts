/** What the radio must do with either host library, shown on the library's own, whole stack. */
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { PROFILE_VERSION, SERVICE_UUID } from '../../protocol/profile.ts';
import { ATT, ATT_ERROR, errorResponse } from '../../simulators/sensor/att-server.ts';
import { VirtualSensor } from '../../simulators/sensor/virtual-sensor.ts';
import type { VirtualSensorOptions } from '../../simulators/sensor/virtual-sensor.ts';
import { RadioRig } from '../support/radio-rig.ts';

export function describeRadio(library: string): void {
  describe(`one radio through a long day, on ${library}`, () => {
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

    /** A sensor in reach, measuring so seldom that only a test of silence sees it silent. */
    const place = (options: VirtualSensorOptions = {}): VirtualSensor => {
      const capabilities = { intervalMs: 4000, ...options.capabilities };
      const sensor = new VirtualSensor(rig.air, { ...options, capabilities });
      sensors.push(sensor);
      return sensor;
    };
    const readings = (count: number): Promise<void> =>
      rig.ear.until(`${count} readings`, () => rig.ear.readings.length >= count);

    it('finds a sensor, says who it is, and passes every reading on unchanged and in order', async () => {
      const { ear, air } = rig;
      const sensor = place({ name: 'Cellar', serial: 'S-77', batteryPercent: 64 });
      await sensor.whenSubscribed();
      const pressures = Array.from({ length: 300 }, (_, i) => Math.round(1e5 / (i + 40)) / 10);
      const sent = await sensor.play(pressures, 1);
      await readings(sent.length);

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
        'connecting',
        'live',
      ]);
    });

    it('looks at battery and signal again while connected', async () => {
      const { ear, air } = rig;
      const sensor = place({ largestMtu: 185 });
      await sensor.whenSubscribed();
      sensor.measure(20);
      sensor.batteryPercent = 12;
      air.signalDbm = -81;
      await ear.until('both', () => {
        const state = ear.states.at(-1);
        return state?.batteryPercent === 12 && state.signalDbm === -81;
      });
    });

    it('says that a sensor is lost and goes on when it is back, restarted or not', async () => {
      const { ear } = rig;
      const sensor = place();
      await sensor.whenSubscribed();
      const before = sensor.measure(500);
      await readings(1);
      const lost = ear.phase('lost', 'sensor_lost');
      sensor.vanish();
      await lost;
      expect(sensor.measure(480).delivered).toBe(false);
      sensor.comeBack();
      await sensor.whenSubscribed();
      const after = sensor.measure(450);
      await readings(2);
      sensor.reboot();
      await sensor.whenSubscribed();
      const afterReboot = sensor.measure(400);
      await readings(3);
      expect(hex(ear.readings)).toEqual(hex([before, after, afterReboot]));
      expect(ear.identities).toHaveLength(1);
    });

    it('gives up a connection that never comes and tries again', async () => {
      const { ear, air, adapter } = rig;
      air.acceptsConnections = false;
      const attempts = adapter.connectionAttempts;
      const sensor = place();
      await ear.until('second attempt', () => adapter.connectionAttempts >= attempts + 2);
      air.acceptsConnections = true;
      await sensor.whenSubscribed();
      sensor.measure(7);
      await readings(1);
    });

    it('does not let a sensor that left while connecting stand in the way of another', async () => {
      const { ear, air, adapter } = rig;
      air.acceptsConnections = false;
      const attempts = adapter.connectionAttempts;
      const gone = place({ name: 'Gone' });
      const failed = ear.phase('lost', 'sensor_lost');
      await ear.until('attempt', () => adapter.connectionAttempts > attempts);
      gone.vanish();
      air.acceptsConnections = true;
      await failed;
      const here = place({ name: 'Here' });
      await here.whenSubscribed();
      here.measure(7);
      await readings(1);
      const ofHere = ear.states.filter(({ name }) => name === 'Here').map(({ phase }) => phase);
      expect(ofHere.filter(isNew)).toEqual(['connecting', 'live']);
    });

    it('tries again when the subscription is refused', async () => {
      const sensor = place();
      sensor.peripheral.intercept = (request) =>
        request[0] === ATT.write
          ? errorResponse(ATT.write, request.readUInt16LE(1), ATT_ERROR.writeNotPermitted)
          : undefined;
      await rig.ear.phase('lost', 'sensor_refuses');
      sensor.peripheral.intercept = null;
      await sensor.whenSubscribed();
      sensor.measure(7);
      await readings(1);
    });

    it('gives up a sensor that answers nothing and tries again', async () => {
      const sensor = place();
      sensor.peripheral.intercept = () => null;
      await rig.ear.phase('lost', 'sensor_lost');
      sensor.peripheral.intercept = null;
      await sensor.whenSubscribed();
      sensor.measure(7);
      await readings(1);
    });

    it('calls a connected sensor that sends nothing stale, then connects anew', async () => {
      const { ear } = rig;
      const sensor = place({ capabilities: { intervalMs: 100 } });
      await sensor.whenSubscribed();
      const stale = ear.phase('stale', 'sensor_silent');
      const lost = ear.phase('lost', 'sensor_silent');
      sensor.measure(9);
      await stale;
      expect(sensor.subscribed).toBe(true);
      await lost;
      await sensor.whenSubscribed();
      sensor.measure(8);
      await readings(2);
      expect(ear.states.at(-1)).toMatchObject({ phase: 'live', problem: null });
    });

    it('hears two sensors at once, and one when the other is gone', async () => {
      const { ear } = rig;
      const one = place({ name: 'One' });
      const two = place({ name: 'Two' });
      await Promise.all([one.whenSubscribed(), two.whenSubscribed()]);
      const sent = await Promise.all([one.play(count(40), 3), two.play(count(40), 3)]);
      await readings(80);
      for (const [place, { id }] of [one, two].entries()) {
        const heard = ear.readings.filter(({ sensorId }) => sensorId === id);
        expect(hex(heard)).toEqual(hex(sent[place] ?? []));
      }
      one.vanish();
      const more = await two.play(count(20), 3);
      await readings(100);
      expect(hex(ear.readings.slice(80))).toEqual(hex(more));
      await ear.until('the other', () => ear.states.at(-1)?.name === 'Two');
      expect(ear.states.at(-1)).toMatchObject({ phase: 'live', problem: null });
      one.comeBack();
      await one.whenSubscribed();
    });

    it('passes on what it does not understand, and survives it', async () => {
      const sensor = place();
      await sensor.whenSubscribed();
      const sent = [Uint8Array.of(), Uint8Array.of(0xff), new Uint8Array(20).fill(0xee)];
      for (const bytes of sent) expect(sensor.send(bytes)).toBe(true);
      const sound = sensor.measure(5);
      await readings(4);
      expect(hex(rig.ear.readings)).toEqual([...sent.map(toHex), toHex(sound.bytes)]);
    });

    it('connects with a sensor that refuses every question', async () => {
      const { ear } = rig;
      const sensor = place({ name: 'Shy' });
      sensor.peripheral.intercept = (request) =>
        request[0] === ATT.read
          ? errorResponse(ATT.read, request.readUInt16LE(1), ATT_ERROR.unlikely)
          : undefined;
      await sensor.whenSubscribed();
      sensor.measure(5);
      await readings(1);
      expect(ear.identities[0]).toMatchObject({ name: 'Shy', model: null, serial: null });
      expect(ear.states.at(-1)).toMatchObject({
        phase: 'live',
        problem: 'sensor_not_understood',
        batteryPercent: null,
      });
    });

    it('says so when a sensor speaks another version of the profile', async () => {
      const sensor = place({ capabilities: { majorVersion: PROFILE_VERSION.major + 1 } });
      const notUnderstood = rig.ear.phase('live', 'sensor_not_understood');
      await sensor.whenSubscribed();
      sensor.measure(5);
      await notUnderstood;
    });

    it('leaves nothing behind in the host library over a dozen connections', async () => {
      const { ear } = rig;
      const sensor = place();
      for (let connection = 1; connection <= 12; connection += 1) {
        await sensor.whenSubscribed();
        sensor.measure(connection);
        await readings(connection);
        sensor.controller.loseLinks();
      }
      // Node itself warns where more than ten listeners wait for the same event of one object.
      expect(ear.log.filter((text) => /MaxListeners|memory leak/i.test(text))).toEqual([]);
    });

    it('searches on when another program stops the search', async () => {
      rig.adapter.stopScanFromOutside();
      await place().whenSubscribed();
    });

    it('connects with sensors of our profile and with nobody else', async () => {
      const other = place({ name: 'Other', advertises: SERVICE_UUID.replace('0001', '0009') });
      const sensor = place({ name: 'Ours' });
      await sensor.whenSubscribed();
      sensor.measure(1);
      await readings(1);
      expect(rig.ear.identities.map(({ name }) => name)).toEqual(['Ours']);
      expect(other.peripheral.connected).toBe(false);
    });

    it('says that the adapter is off, and goes on when it is on again', async () => {
      const { ear, served, source } = rig;
      const sensor = place();
      await sensor.whenSubscribed();
      sensor.measure(9);
      await readings(1);
      const first = source.pid;
      const off = ear.phase('unavailable', 'adapter_off');
      served.turnOff();
      await off;
      served.turnOn();
      await sensor.whenSubscribed();
      sensor.measure(8);
      await readings(2);
      expect(ear.states.at(-1)).toMatchObject({ phase: 'live', problem: null });
      expect(ear.states.some(({ problem }) => problem === 'radio_restarted')).toBe(false);
      // The libraries' state does not outlive an adapter that was off, so their process must not.
      expect(source.pid).not.toBe(first);
    });

    it('starts its process again when that is killed, says so, and goes on', async () => {
      const { ear, source } = rig;
      const sensor = place();
      await sensor.whenSubscribed();
      sensor.measure(500);
      await readings(1);
      const first = source.pid;
      const restarted = ear.phase('lost', 'radio_restarted');
      signal(first, 'SIGKILL');
      await restarted;
      await sensor.whenSubscribed();
      sensor.measure(499);
      await readings(2);
      expect(source.pid).not.toBe(first);
      expect(ear.states.at(-1)).toMatchObject({ phase: 'live', problem: null });
    });

    it('ends and replaces a process that no longer answers', async () => {
      const { ear, source } = rig;
      const sensor = place();
      await sensor.whenSubscribed();
      const restarted = ear.phase('lost', 'radio_restarted');
      signal(source.pid, 'SIGSTOP');
      await restarted;
      await sensor.whenSubscribed();
      sensor.measure(1);
      await readings(1);
    });

    it('starts its process again when the adapter no longer obeys', async () => {
      const { ear, adapter } = rig;
      const sensor = place();
      await sensor.whenSubscribed();
      const restarted = ear.phase('lost', 'radio_restarted');
      adapter.hung = true;
      await restarted;
      adapter.hung = false;
      await sensor.whenSubscribed();
      sensor.measure(1);
      await readings(1);
    });

    it('gives the sensor back when it stops, and its process ends', async () => {
      const sensor = place();
      await sensor.whenSubscribed();
      const { pid } = rig.source;
      await rig.source.stop();
      expect(sensor.peripheral.connected).toBe(false);
      expect(() => signal(pid, 0)).toThrow('ESRCH');
    });
  });

  it(`says what is missing, and looks again until it is there, on ${library}`, async () => {
    const rig = await RadioRig.create({ library });
    const { ear, served } = rig;
    try {
      await served.unplug();
      rig.start();
      // The second library doesn't tell a missing adapter from missing Bluetooth.
      await ear.until('problem', () => /^no_(adapter|blue)/.test(ear.states.at(-1)?.problem ?? ''));
      const forbidden = ear.phase('unavailable', 'no_permission');
      const searching = ear.phase('searching');
      served.forbid();
      await served.plugIn();
      await forbidden;
      served.turnOn();
      await searching;
      const phases = ear.states.map(({ phase }) => phase).filter(isNew);
      expect(phases).toEqual(['starting', 'unavailable', 'searching']);
    } finally {
      await rig.close();
    }
  });
}

function hex(items: readonly { readonly bytes: Uint8Array }[]): string[] {
  return items.map(({ bytes }) => toHex(bytes));
}

function toHex(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString('hex');
}

function count(length: number): number[] {
  return Array.from({ length }, (_, i) => 100 + i);
}

function isNew(value: string, place: number, all: readonly string[]): boolean {
  return value !== all[place - 1];
}

function signal(pid: number | undefined, name: NodeJS.Signals | 0): void {
  if (pid === undefined) throw new Error('there is no process');
  process.kill(pid, name);
}
