/**
 * The sensor that a class uses, on the library's own, whole stack, heard by the bridge's own radio: both
 * adapters are virtual, nothing else is.
 */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { READING_FIELDS } from '../../protocol/profile.ts';
import { decode } from '../../protocol/profile-codec.ts';
import { scenarioNamed } from '../../server/sources/rehearsal/scenario-named.ts';
import { ScenarioRun } from '../../simulators/scenarios/scenario-run.ts';
import { ATT } from '../../simulators/sensor/att-server.ts';
import { AttCentral } from '../support/att-central.ts';
import { RadioRig } from '../support/radio-rig.ts';
import { ServedPeripheral } from '../support/served-peripheral.ts';

const SCENARIO = 'tollgate-cottage';

/** What the job's sensor shows in its first seconds, to the profile's millipascal. */
function firstPressures(seconds: number): (number | null)[] {
  const run = new ScenarioRun(scenarioNamed(SCENARIO), 1, { helper: true });
  return Array.from({ length: seconds }, () => {
    const { pressurePa } = run.next();
    return pressurePa === null ? null : Math.round(pressurePa * 1000) / 1000;
  });
}

export function describeVirtualSensor(library: string): void {
  describe(`a virtual sensor on an adapter, by ${library}`, () => {
    let rig: RadioRig;
    let sensors: ServedPeripheral[] = [];
    beforeEach(async () => {
      rig = await RadioRig.create();
    });
    afterEach(async () => {
      for (const sensor of sensors) await sensor.close();
      sensors = [];
      await rig.close();
    });
    const start = async (...argv: string[]): Promise<ServedPeripheral> => {
      const sensor = await ServedPeripheral.start({ air: rig.air, library, argv });
      sensors.push(sensor);
      return sensor;
    };
    const heard = () =>
      rig.ear.readings.flatMap(({ bytes }) => {
        const decoded = decode(READING_FIELDS, bytes);
        return decoded.ok ? [decoded.values] : [];
      });

    it('is found, named, heard in order, and follows its job', async () => {
      const sensor = await start('--scenario', SCENARIO, '--speed', '40');
      await sensor.until(/can be found now/u);
      rig.start();
      await rig.ear.until('eight readings', () => rig.ear.readings.length >= 8);
      expect(rig.ear.identities).toHaveLength(1);
      expect(rig.ear.identities[0]).toMatchObject({ name: `${sensor.name}, simulated` });
      expect(sensor.name).toMatch(/^Class sensor [0-9A-F]{4}$/u);
      expect(sensor.text).toContain('Connected: ');
      expect(sensor.text).toContain('pump on (to be marked by the trainee)');
      const readings = heard();
      const first = readings[0]?.sequence ?? NaN;
      expect(readings.map(({ sequence }) => sequence)).toEqual(
        readings.map((_, place) => first + place),
      );
      // 40 s of the job in each second that passes; half a minute of it for a busy computer's delay.
      const shown = firstPressures(900);
      for (const { uptimeMs, pressurePa } of readings) {
        const jobS = (uptimeMs / 1000) * 40;
        expect(shown.slice(Math.max(0, jobS - 30), jobS + 30)).toContain(pressurePa);
      }
      expect(readings.some(({ pressurePa }) => pressurePa !== null)).toBe(true);
    });

    it('is found again after the link is lost, with the same boot id and numbers going on', async () => {
      const sensor = await start('--scenario', SCENARIO);
      rig.start();
      await rig.ear.until('a reading', () => rig.ear.readings.length >= 1);
      const before = rig.ear.readings.length;
      sensor.controller.loseLinks();
      await rig.ear.until('more', () => rig.ear.readings.length >= before + 1);
      const [first, ...more] = heard();
      expect(more.at(-1)?.boot).toBe(first?.boot);
      expect(more.at(-1)?.sequence).toBeGreaterThan(first?.sequence ?? NaN);
      expect(sensor.text).toContain('The link has ended.');
    });

    it('survives its adapter being switched off and on', async () => {
      const sensor = await start('--scenario', SCENARIO);
      rig.start();
      await rig.ear.until('a reading', () => rig.ear.readings.length >= 1);
      sensor.served.turnOff();
      await sensor.until(/adapter is switched off/u);
      const before = rig.ear.readings.length;
      sensor.served.turnOn();
      await rig.ear.until('more', () => rig.ear.readings.length >= before + 1);
    });

    it('survives a central that sends it nonsense, and is heard by the next one', async () => {
      const sensor = await start('--scenario', SCENARIO);
      await sensor.until(/can be found now/u);
      const central = new AttCentral(rig.air);
      await central.connect(sensor.controller.address);
      // Find By Type Value without a value, and a read that is cut off: the library throws at both.
      central.send(Buffer.from([0x06, 1, 0, 0xff, 0xff, 0, 0x28]));
      central.send(Buffer.from([ATT.read, 1]));
      await sensor.until(/was not understood/u);
      await central.until(() => !central.connected);
      rig.start();
      await rig.ear.until('a reading', () => rig.ear.readings.length >= 1);
    });

    it('is told apart from another of the same name', async () => {
      const [one, two] = [
        await start('--scenario', SCENARIO, '--name', 'Room 3'),
        await start('--scenario', SCENARIO, '--name', 'Room 3'),
      ];
      rig.start();
      await rig.ear.until('both', () => rig.ear.identities.length === 2);
      const names = rig.ear.identities.map(({ name }) => name);
      expect(new Set(names)).toEqual(new Set([`${one.name}, simulated`, `${two.name}, simulated`]));
      expect(new Set(names).size).toBe(2);
      expect(new Set(rig.ear.identities.map(({ serial }) => serial)).size).toBe(2);
    });

    it.each([
      ['missing', 'There is no Bluetooth adapter.'],
      ['forbidden', 'This program may not use Bluetooth.'],
    ] as const)('ends and says what to do where the adapter is %s', async (adapter, said) => {
      const argv = ['--scenario', SCENARIO];
      const sensor = await ServedPeripheral.start({ air: rig.air, library, argv, adapter });
      sensors.push(sensor);
      expect(await sensor.ended()).toBe(1);
      expect(sensor.text).toContain(said);
    });

    it('ends on Ctrl+C, gives its link back, and is found no more', async () => {
      const sensor = await start('--scenario', SCENARIO);
      rig.start();
      await rig.ear.until('a reading', () => rig.ear.readings.length >= 1);
      const lost = rig.ear.phase('lost');
      expect(await sensor.end()).toBe(0);
      await lost;
      expect(sensor.controller.linkCount).toBe(0);
    });
  });
}
