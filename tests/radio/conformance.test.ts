/** The conformance check on sensors that keep the rules, and on those that go away in the middle. */
import { spawnSync } from 'node:child_process';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { SERVICE_UUID } from '../../protocol/profile.ts';
import { CHECKS } from '../../server/commands/conformance/examine.ts';
import { VirtualSensor } from '../../simulators/sensor/virtual-sensor.ts';
import { checksThat, ExaminingRoom, LITTLE_PATIENCE } from '../support/examined.ts';
import { ServedPeripheral } from '../support/served-peripheral.ts';

/** Those that need stored readings. */
const ABOUT_STORE = CHECKS.filter(({ section }) => section === '7')
  .map(({ id }) => id)
  .filter((id) => id !== 'live-unbroken');

/** One for all: the host library has one adapter for as long as its process lives. */
let room: ExaminingRoom;
beforeAll(async () => {
  room = await ExaminingRoom.open();
});
afterAll(() => room.close());

describe('a sensor that keeps the rules', () => {
  it('passes every check', async () => {
    const results = await room.examineOne({});
    expect(results.filter(({ outcome }) => outcome.kind !== 'passed')).toEqual([]);
    expect(results.map(({ check }) => check.id)).toEqual(CHECKS.map(({ id }) => id));
  });

  it('passes with a larger ATT_MTU, and where an aborted report tells of that', async () => {
    const results = await room.examineOne({ largestMtu: 185, tellsOfAbortedReport: true });
    expect(results.filter(({ outcome }) => outcome.kind !== 'passed')).toEqual([]);
  });

  it('passes without a store, and says what could not be tried for that', async () => {
    const results = await room.examineOne({ capabilities: { bufferDepth: 0 } });
    expect(checksThat(results, 'failed')).toEqual(['store-offered']);
    expect(checksThat(results, 'not_tried')).toEqual(ABOUT_STORE);
  });

  it('is left with its interval, its readings and without a link', async () => {
    const sensor = new VirtualSensor(room.air, {
      capabilities: { intervalMs: 60, shortestIntervalMs: 50 },
    });
    const timer = setInterval(() => sensor.measure(50), 60);
    try {
      await room.examine(sensor.id);
      expect(sensor.intervalMs).toBe(60);
      expect(sensor.identifyS).toBe(0);
      expect(sensor.peripheral.connected).toBe(false);
    } finally {
      clearInterval(timer);
      sensor.vanish();
    }
  });

  it.each(['@stoprocent/bleno'])(
    'passes on an adapter, served by %s',
    async (library) => {
      const argv = ['--scenario', 'tollgate-cottage'];
      const served = await ServedPeripheral.start({ air: room.air, library, argv });
      try {
        await served.until(/can be found now/u);
        const results = await room.examine(null, { ...LITTLE_PATIENCE, listenMs: 15_000 });
        expect(checksThat(results, 'failed')).toEqual([]);
        // It has just been switched on, and has little to report.
        const untried = checksThat(results, 'not_tried');
        expect(untried.filter((id) => id !== 'one-at-a-time' && id !== 'abort')).toEqual([]);
      } finally {
        await served.close();
      }
    },
    90_000,
  );
});

describe('a sensor that goes away in the middle', () => {
  it.each([2, 9, 20])('after %i readings holds nothing up', async (count) => {
    const sensor = new VirtualSensor(room.air, {
      capabilities: { intervalMs: 40, shortestIntervalMs: 40 },
    });
    let heard = 0;
    const timer = setInterval(() => {
      if (sensor.measure(50).delivered) heard += 1;
      if (heard === count) sensor.vanish();
    }, 40);
    try {
      const results = await room.examine(sensor.id);
      expect(results).toHaveLength(CHECKS.length);
      expect(checksThat(results, 'not_tried').length).toBeGreaterThan(5);
      expect(checksThat(results, 'failed').length).toBeGreaterThan(0);
    } finally {
      clearInterval(timer);
      sensor.vanish();
    }
  });

  it('before it is found ends the search', async () => {
    await expect(room.examine('00005e0053ff', { ...LITTLE_PATIENCE, findMs: 300 })).rejects.toThrow(
      'the sensor',
    );
  });

  it('and one that is asked for, but advertises another service, is examined all the same', async () => {
    const results = await room.examineOne({ advertises: SERVICE_UUID.replace('0001', '0009') });
    expect(checksThat(results, 'failed')).toEqual(['advertised-service']);
  });
});

describe('the command', () => {
  const command = new URL('../../server/commands/conformance.ts', import.meta.url).href;
  const script = `
    const { run } = await import('${command}');
    process.exitCode = await run(process.argv.slice(1), (line) => console.log(line));`;
  const conformance = (library: string, ...argv: string[]) =>
    spawnSync(
      process.execPath,
      ['--import', 'tsx', '--input-type=module', '-e', script, '--', ...argv],
      {
        encoding: 'utf8',
        env: { ...process.env, EBBLINE_RADIO_LIBRARY: library },
        timeout: 100_000,
      },
    );

  it('examines a virtual sensor by the second library, and says so in words', () => {
    const { stdout, stderr, status } = conformance('@stoprocent/noble', '--virtual');
    expect(stdout, stderr).toContain('Examining "Virtual sensor"');
    expect(stdout).toMatch(/^passed {4}must {3}§7 {3}report-order$/mu);
    expect(stdout).toContain(`${CHECKS.length} passed, 0 failed, 0 not tried`);
    expect(status).toBe(0);
  }, 120_000);

  it('fails one that breaks a rule, says what was expected and what came, and can be read by a program', () => {
    const argv = ['--virtual', '--breaking', 'delete-taken', '--json'];
    const { stdout, stderr, status } = conformance('@abandonware/noble', ...argv);
    const lines = stdout.trim().split('\n');
    expect(lines, stderr).toHaveLength(CHECKS.length + 1);
    const results = lines.map((line): unknown => JSON.parse(line));
    expect(results).toContainEqual({
      check: expect.objectContaining({ id: 'refuses-delete', section: '7', level: 'must' }),
      outcome: {
        kind: 'failed',
        expected: 'opCodeNotSupported',
        came: 'success, to delete',
      },
    });
    expect(results.at(-1)).toMatchObject({ conformant: false });
    expect(status).toBe(1);
  }, 120_000);
});
