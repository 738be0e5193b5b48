/** What the `virtual-sensor` command says where it can't or need not begin. */
import { afterEach, expect, test, vi } from 'vitest';
import { listRehearsals } from '../../server/sources/rehearsal/list-rehearsals.ts';
import { run } from '../../server/commands/virtual-sensor.ts';
import { sayJobTime, sayNow } from '../../server/commands/virtual-sensor-words.ts';
import { saidBy } from '../support/said-by-command.ts';

afterEach(() => {
  vi.restoreAllMocks();
  vi.unstubAllEnvs();
});

const said = (...argv: string[]) => saidBy(run, argv);

test('lists the jobs without their causes', async () => {
  const { out, status } = await said('--list');
  expect(status).toBe(0);
  for (const { name, place } of listRehearsals()) {
    expect(out).toContain(name);
    expect(out).toContain(place);
  }
});

test('helps', async () => {
  const { out, status } = await said('--help');
  expect(status).toBe(0);
  for (const option of ['--scenario', '--seed', '--speed', '--name', '--list']) {
    expect(out).toContain(option);
  }
});

test.each([
  [[], 'add --scenario NAME'],
  [['--scenario', 'nowhere'], 'tollgate-cottage'],
  [['--scenario', 'tollgate-cottage', '--speed', '0'], '--speed is "0"'],
  [['--scenario', 'tollgate-cottage', '--speed', '121'], 'from 1 to 120'],
  [['--scenario', 'tollgate-cottage', '--speed', '1.5'], 'whole number'],
  [['--scenario', 'tollgate-cottage', '--seed', '-1'], '--seed'],
  [['--scenario', 'tollgate-cottage', '--name', 'Zürich'], 'without accents'],
  [['--scenario', 'tollgate-cottage', '--name', 'x'.repeat(25)], '1 to 24'],
  [['--scenario', 'tollgate-cottage', '--name', ''], '1 to 24'],
  [['--speeed', '3'], '--speeed'],
])('%j is refused with what to do', async (argv, expected) => {
  const { error, status } = await said(...argv);
  expect(status).toBe(1);
  expect(error).toContain(expected);
  expect(error).toContain('--help');
});

test('says what to do where no library can be loaded', async () => {
  vi.stubEnv('EBBLINE_PERIPHERAL_LIBRARY', 'a typing error');
  const { error, status } = await said('--scenario', 'tollgate-cottage');
  expect(status).toBe(1);
  expect(error).toContain('npm install --include=optional');
  expect(error).toContain('a typing error');
});

test('tells the trainer time, pressure and who listens', () => {
  expect(sayJobTime(3723.9)).toBe('1:02:03');
  // 66.661 Pa is 500 micron, by the factor of BIPM's and NIST's conventional mercury column.
  expect(sayNow(61, 66.661, null)).toBe('0:01:01  500 micron (66.7 Pa), nobody connected');
  expect(sayNow(0, null, 'aa:bb')).toBe('0:00:00  over range, connected: aa:bb');
});
