/** What the `analyse` command promises to whoever reads its lines. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { z } from 'zod';
import { formatReadingsCsvRows, READINGS_CSV_HEADER } from '../../protocol/readings-csv.ts';
import { run } from '../../server/commands/analyse.ts';

const finite = z.number();
const interval = z.strictObject({ estimate: finite, low: finite, high: finite });
const lineSchema = z.strictObject({
  file: z.string(),
  stage: z.enum(['pulldown', 'rise']),
  forecast: z.nullable(
    z.strictObject({
      outcome: z.enum(['reached', 'reaches', 'levels_off', 'too_early']),
      remaining_s: z.nullable(
        z.strictObject({ p10: finite, p50: finite, p90: z.nullable(finite) }),
      ),
      floor_pa: z.nullable(finite),
      reason: z.string(),
    }),
  ),
  rise: z.nullable(
    z.strictObject({
      verdict: z.enum(['tight_dry', 'moisture', 'leak', 'leak_and_moisture', 'undecided']),
      leak_pa_per_s: interval,
      moisture_pa: interval,
      changeover_s: z.nullable(finite),
      end_of_hold_pa: interval.extend({ at_s: finite }),
      more_s: z.nullable(finite),
      leak_rate_pa_m3_per_s: z.optional(interval),
    }),
  ),
});

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'analyse-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true });
});

function fileOf(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

/** Pump on at 0 s; valved off at 500 s where `isolated`; then a leak of 0.05 Pa/s. */
function job(lengthS: number, isolated: boolean): string {
  const pressurePa = (elapsedS: number) =>
    isolated && elapsedS > 500 ? 30 + 0.05 * (elapsedS - 500) : 29 + 9e4 * Math.exp(-elapsedS / 40);
  return (
    READINGS_CSV_HEADER +
    formatReadingsCsvRows(
      Array.from({ length: lengthS + 1 }, (_, elapsedS) => ({
        elapsedS,
        pressurePa: pressurePa(elapsedS) > 2700 ? null : pressurePa(elapsedS),
        event: elapsedS === 0 ? 'pump_on' : isolated && elapsedS === 500 ? 'isolated' : null,
        temperatureC: 20,
      })),
    )
  );
}

async function analyse(...argv: string[]) {
  const lines: string[] = [];
  const status = await run(argv, (line) => lines.push(line));
  return { lines, status };
}

const parsed = (line: string | undefined) => lineSchema.parse(JSON.parse(line ?? ''));

test('a pull-down has a forecast and no rise', async () => {
  const { lines, status } = await analyse(fileOf('down.csv', job(270, false)));
  expect(status).toBe(0);
  const line = parsed(lines[0]);
  expect(line).toMatchObject({ stage: 'pulldown', rise: null, forecast: { outcome: 'reaches' } });
  // 29 + 9e4·e^(−t/40) = 66.66 at t = 40·ln(9e4/37.66) = 311 s.
  expect(line.forecast?.remaining_s?.p10).toBeLessThan(41);
  expect(line.forecast?.remaining_s?.p90).toBeGreaterThan(41);
});

test('a file with an isolation has a rise and no forecast', async () => {
  const { lines, status } = await analyse(fileOf('up.csv', job(1400, true)));
  expect(status).toBe(0);
  const line = parsed(lines[0]);
  expect(line).toMatchObject({ stage: 'rise', forecast: null, rise: { verdict: 'leak' } });
  expect(line.rise?.leak_pa_per_s.estimate).toBeCloseTo(0.05, 3);
  expect(line.rise?.end_of_hold_pa).toMatchObject({ at_s: 900 });
  expect(line.rise?.end_of_hold_pa.estimate).toBeCloseTo(75, 0);
});

test('below the target it is reached', async () => {
  const { lines } = await analyse(fileOf('deep.csv', job(480, false)));
  expect(parsed(lines[0]).forecast).toMatchObject({ outcome: 'reached', remaining_s: null });
});

test('options change what is judged', async () => {
  const file = fileOf('up.csv', job(1400, true));
  const { lines } = await analyse(
    '--hold-s',
    '600',
    '--volume-l',
    '10',
    '--temperature-c',
    '-5',
    file,
  );
  const { rise } = parsed(lines[0]);
  expect(rise?.end_of_hold_pa.at_s).toBe(600);
  expect(rise?.leak_rate_pa_m3_per_s?.estimate).toBeCloseTo(5e-4, 5);
  const lower = await analyse('--target-micron', '200', fileOf('deep.csv', job(480, false)));
  expect(parsed(lower.lines[0]).forecast?.outcome).not.toBe('reached');
});

test('bad files are said to be bad, in which line; the others go on, in order', async () => {
  const bad = fileOf('bad.csv', 'elapsed_s,pressure_pa,event\n0,100,\n1,many,\n');
  const good = fileOf('good.csv', job(100, false));
  const missing = join(folder, 'missing.csv');
  const { lines, status } = await analyse(bad, good, missing, folder);
  expect(status).toBe(1);
  expect(lines).toHaveLength(4);
  const errorSchema = z.strictObject({ file: z.string(), error: z.string() });
  const errors = [0, 2, 3].map((at) => errorSchema.parse(JSON.parse(lines[at] ?? '')));
  expect(errors.map(({ file }) => file)).toEqual([bad, missing, folder]);
  expect(errors[0]?.error).toMatch(/line 3.*many/u);
  expect(errors[1]?.error).toMatch(/no such file/u);
  expect(parsed(lines[1]).file).toBe(good);
});

test('a file of a single reading is answered, with nothing claimed', async () => {
  const { lines, status } = await analyse(fileOf('one.csv', 'elapsed_s,pressure_pa,event\n0,,\n'));
  expect(status).toBe(0);
  expect(parsed(lines[0]).forecast).toMatchObject({ outcome: 'too_early', remaining_s: null });
});

test('help documents the defaults as settings of ours', async () => {
  const { lines, status } = await analyse('--help');
  expect(status).toBe(0);
  const help = lines.join('\n');
  for (const option of [
    'target-micron',
    'hold-s',
    'limit-micron',
    'max-rise-micron',
    'volume-l',
    'temperature-c',
  ]) {
    expect(help).toContain(`--${option}`);
  }
  for (const value of ['500', '900', '200', '5 micron/min']) expect(help).toContain(value);
  expect(help).toMatch(/settings of ours, not of a standard/u);
});

test('a wrong option is explained on the error output, with status 1 and no line', async () => {
  const complaint = vi.spyOn(console, 'error').mockReturnValue();
  for (const argv of [['--hold-s', 'long', 'x'], ['--no-such', 'x'], ['--hold-s', '5', 'x'], []]) {
    const { lines, status } = await analyse(...argv);
    expect({ lines, status }).toEqual({ lines: [], status: 1 });
  }
  expect(complaint.mock.calls.map(([text]) => String(text))).toEqual([
    expect.stringContaining('--hold-s is "long"'),
    expect.stringContaining('--no-such'),
    expect.stringContaining('--hold-s is out of range'),
    expect.stringContaining('at least one file'),
  ]);
  complaint.mockRestore();
});
