/** What happens to the adapter and to the process that holds the radio. */
import { expect, it } from 'vitest';
import { RadioRig } from '../support/radio-rig.ts';
import { describeDay, hex, isNew, signal } from './radio-day.ts';

export function describeBreakdowns(library: string): void {
  describeDay('adapter and process', library, (day) => {
    it('says that the adapter is off, and goes on when it is on again', async () => {
      const { ear, served, source } = day.rig;
      const sensor = day.place();
      await sensor.whenSubscribed();
      sensor.measure(9);
      await day.readings(1);
      const first = source.pid;
      const off = ear.phase('unavailable', 'adapter_off');
      const heardAgain = sensor.nextSubscription();
      served.turnOff();
      await off;
      served.turnOn();
      await heardAgain;
      sensor.measure(8);
      await day.readings(2);
      expect(ear.states.at(-1)).toMatchObject({ phase: 'live', problem: null });
      expect(ear.states.some(({ problem }) => problem === 'radio_restarted')).toBe(false);
      // The libraries' state does not outlive an adapter that was off, so their process must not.
      expect(source.pid).not.toBe(first);
    });

    it('says that the adapter is gone when it is pulled out, and goes on when it is back', async () => {
      const { ear, served } = day.rig;
      const sensor = day.place();
      await sensor.whenSubscribed();
      const sent = [sensor.measure(9)];
      await day.readings(1);
      const gone = ear.until('no adapter', () => ear.states.at(-1)?.phase === 'unavailable');
      await served.unplug();
      await gone;
      sent.push(sensor.measure(8));
      const heardAgain = sensor.nextSubscription();
      await served.plugIn();
      await heardAgain;
      sent.push(sensor.measure(7));
      await day.readings(3);
      expect(hex(ear.readings).sort()).toEqual(hex(sent).sort());
      await ear.until('live', () => ear.states.at(-1)?.phase === 'live');
      expect(ear.states.at(-1)?.problem).toBeNull();
    });

    it('connects after an adapter was off and on in the midst of a connection attempt', async () => {
      const { air, adapter, ear, served } = day.rig;
      air.acceptsConnections = false;
      const attempts = adapter.connectionAttempts;
      const sensor = day.place();
      await ear.until('attempt', () => adapter.connectionAttempts > attempts);
      const off = ear.phase('unavailable');
      served.turnOff();
      await off;
      air.acceptsConnections = true;
      served.turnOn();
      await sensor.whenSubscribed();
      sensor.measure(7);
      await day.readings(1);
    });

    it('starts its process again when that is killed, says so, and goes on', async () => {
      const { ear, source } = day.rig;
      const sensor = day.place();
      await sensor.whenSubscribed();
      sensor.measure(500);
      await day.readings(1);
      const first = source.pid;
      const restarted = ear.phase('lost', 'radio_restarted');
      const heardAgain = sensor.nextSubscription();
      signal(first, 'SIGKILL');
      await restarted;
      await heardAgain;
      sensor.measure(499);
      await day.readings(2);
      expect(source.pid).not.toBe(first);
      expect(ear.states.at(-1)).toMatchObject({ phase: 'live', problem: null });
    });

    it('ends and replaces a process that no longer answers', async () => {
      const { ear, source } = day.rig;
      const sensor = day.place();
      await sensor.whenSubscribed();
      const restarted = ear.phase('lost', 'radio_restarted');
      const heardAgain = sensor.nextSubscription();
      signal(source.pid, 'SIGSTOP');
      await restarted;
      await heardAgain;
      sensor.measure(1);
      await day.readings(1);
    });

    it('starts its process again when the adapter no longer obeys', async () => {
      const { ear, adapter } = day.rig;
      const sensor = day.place();
      await sensor.whenSubscribed();
      const restarted = ear.phase('lost', 'radio_restarted');
      const heardAgain = sensor.nextSubscription();
      adapter.hung = true;
      await restarted;
      adapter.hung = false;
      await heardAgain;
      sensor.measure(1);
      await day.readings(1);
    });

    it('gives the sensor back when it stops, and its process ends', async () => {
      const sensor = day.place();
      await sensor.whenSubscribed();
      const { pid } = day.rig.source;
      await day.rig.source.stop();
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
