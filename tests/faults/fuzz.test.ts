/** A small part of `npm run fuzz`, the same each time: nothing that comes from outside ends in anything but an answer. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { z } from 'zod';
import { SeededRandom } from '../../simulators/physics/seeded-random.ts';
import { BridgeProcess, STEADY_RECORDING } from '../support/bridge-process.ts';
import { SchemaValues } from '../support/fuzz/from-schema.ts';
import { HostileBackups } from '../support/fuzz/hostile-backups.ts';
import { tormentByBackups } from '../support/fuzz/hostile-peer-backups.ts';
import { tormentByHttp, tormentByStream } from '../support/fuzz/hostile-peer.ts';
import { hostileParsers } from '../support/fuzz/hostile-parsers.ts';
import { WellBehavedScreen } from '../support/well-behaved-screen.ts';

const values = new SchemaValues(new SeededRandom(12));

test.each(hostileParsers())('$name are taken or refused', ({ share, run }) => {
  const said = { taken: 0, refused: 0 };
  for (let at = 0; at < 8000 * share; at += 1) {
    if (run(values)) said.taken += 1;
    else said.refused += 1;
  }
  // Both are met, or what is thrown is too tame or too wild.
  expect(Math.min(said.taken, said.refused)).toBeGreaterThan(8000 * share * 0.02);
});

test('a generated value is what its schema allows', () => {
  const schema = z.strictObject({
    kind: z.enum(['a', 'b']),
    count: z.int().min(3).max(5),
    names: z.array(z.string().min(1).max(4)).min(1),
    either: z.union([z.null(), z.strictObject({ at: z.number().min(0) })]).optional(),
  });
  for (let at = 0; at < 200; at += 1) schema.parse(values.value(z.toJSONSchema(schema)));
});

test('a harmed backup is refused, or of each recording comes all or nothing, and what holds is unaltered', async () => {
  const backups = await HostileBackups.make();
  const { said, faults } = backups.restore(24, new SchemaValues(new SeededRandom(12)));
  backups.remove();
  expect(faults).toEqual([]);
  // Each of these is met, or what is thrown is too tame or too wild.
  const { refused, unreadable, whole, doubtful } = said;
  expect(Math.min(refused, unreadable, whole, doubtful)).toBeGreaterThan(0);
});

let bridge: BridgeProcess;
beforeAll(async () => {
  bridge = await BridgeProcess.start(8);
});
afterAll(async () => {
  const { delivered, lost } = await bridge.stop();
  expect(delivered).toBeGreaterThan(0);
  expect(lost).toBe(0);
});

test('a bridge answers all of it, and a screen beside it misses nothing', async () => {
  const screen = new WellBehavedScreen(bridge.url, STEADY_RECORDING);
  await screen.follow();
  const { byStatus, faults } = await tormentByHttp(bridge.url, 150, values);
  expect(faults).toEqual([]);
  expect([...byStatus.keys()].sort()).toEqual(expect.arrayContaining([200, 400, 404]));
  const { byStatus: closings, faults: refusals } = await tormentByStream(bridge.url, 600, values);
  expect(refusals).toEqual([]);
  expect(closings.get(1008)).toBeGreaterThan(0);
  expect([...closings.keys()].filter((code) => ![0, 1008].includes(code))).toEqual([]);
  const { byStatus: restored, faults: unrestored } = await tormentByBackups(bridge.url, 2, values);
  expect(unrestored).toEqual([]);
  expect([...restored.values()].reduce((sum, times) => sum + times)).toBe(2);
  expect(screen.isConnected).toBe(true);
  expect(Math.max(...screen.indexes)).toBe(screen.indexes.size);
  expect(bridge.terminal).toBe('');
  screen.close();
});
