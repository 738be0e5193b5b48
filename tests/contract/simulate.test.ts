/** What the `simulate` command promises to whoever judges forecasts and verdicts by its files. */
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { parseReadingsCsv } from '../../protocol/readings-csv.ts';
import { paFromMicron } from '../../protocol/units.ts';
import { run as runAnalyse } from '../../server/commands/analyse.ts';
import { simulateCase } from '../../server/commands/simulate-case.ts';
import { truthLineSchema } from '../../server/commands/simulate-truth.ts';
import { run } from '../../server/commands/simulate.ts';
import { scenarioNamed } from '../../server/sources/rehearsal/scenario-named.ts';
import { STEADY_RADIO } from '../../simulators/scenarios/scenario.ts';

/** Second hold after a nitrogen break; and one whose radio loses a lot. */
const TWICE_HELD = 'saddlers-yard-cafe';
const HALF_HEARD = 'tannery-lane-studio';

const said = vi.spyOn(console, 'error').mockReturnValue();
let folder = '';
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'simulate-'));
  expect(await simulate('generated-plain', '1..3', 'drawn')).toEqual({ status: 0, lines: [] });
  expect((await simulate(TWICE_HELD, '4', 'twice')).status).toBe(0);
  expect((await simulate(HALF_HEARD, '4', 'half')).status).toBe(0);
});
afterAll(() => {
  said.mockRestore();
  rmSync(folder, { recursive: true });
});

async function simulate(scenario: string, seeds: string, out: string, ...more: string[]) {
  return runWith('--scenario', scenario, '--seeds', seeds, '--out', join(folder, out), ...more);
}

async function runWith(...argv: string[]) {
  const lines: string[] = [];
  const status = await run(argv, (line) => lines.push(line));
  return { status, lines };
}

const textOf = (...path: string[]): string => readFileSync(join(folder, ...path), 'utf8');
const truthsOf = (out: string) =>
  textOf(out, 'truth.jsonl')
    .trimEnd()
    .split('\n')
    .map((line) => truthLineSchema.parse(JSON.parse(line)));

test('a file for each seed, and one truth for all of them in their order', () => {
  const files = [1, 2, 3].map((seed) => `generated-plain-${seed}.csv`);
  expect(readdirSync(join(folder, 'drawn')).sort()).toEqual([...files, 'truth.jsonl']);
  const truths = truthsOf('drawn');
  expect(truths.map(({ file }) => file)).toEqual(files);
  expect(truths.map(({ seed }) => seed)).toEqual([1, 2, 3]);
});

test('analyse reads every file', async () => {
  const paths = ['drawn', 'twice', 'half'].flatMap((out) =>
    truthsOf(out).map(({ file }) => join(folder, out, file)),
  );
  const lines: string[] = [];
  expect(await runAnalyse(paths, (line) => lines.push(line))).toBe(0);
  expect(lines).toHaveLength(5);
  for (const line of lines) expect(JSON.parse(line)).toMatchObject({ stage: 'rise' });
});

test('the same command writes the same bytes; no file is overwritten unless that is asked for', async () => {
  const names = readdirSync(join(folder, 'drawn'));
  const before = names.map((name) => textOf('drawn', name));
  said.mockClear();
  expect((await simulate('generated-plain', '3..4', 'drawn')).status).toBe(1);
  expect(said.mock.calls.flat().join()).toMatch(/truth\.jsonl is there already.*--replace/u);
  rmSync(join(folder, 'drawn', 'truth.jsonl'));
  expect((await simulate('generated-plain', '3..4', 'drawn')).status).toBe(1);
  expect(said.mock.calls.flat().join()).toMatch(/generated-plain-3\.csv is there already/u);
  expect(existsSync(join(folder, 'drawn', 'generated-plain-4.csv'))).toBe(false);
  expect((await simulate('generated-plain', '1..3', 'drawn', '--replace')).status).toBe(0);
  expect(names.map((name) => textOf('drawn', name))).toEqual(before);
});

test('the truth is that of the curve: target, holds, marks of every kind', () => {
  const [truth] = truthsOf('twice');
  const rows = parseReadingsCsv(textOf('twice', truth?.file ?? ''));
  const marks = truth?.marks ?? [];
  expect(marks.map(({ kind }) => kind)).toContain('nitrogen_break');
  const isolatedS = marks.filter(({ kind }) => kind === 'isolated').map((mark) => mark.elapsed_s);
  expect(isolatedS).toHaveLength(2);
  expect(rows.filter(({ event }) => event === 'isolated').map(({ elapsedS }) => elapsedS)).toEqual(
    isolatedS,
  );
  expect(truth?.at_isolation?.elapsed_s).toBe(isolatedS[1]);
  expect(truth?.end_of_hold?.elapsed_s).toBe((isolatedS[1] ?? NaN) + 900);
  const endPa = rows.find(({ elapsedS }) => elapsedS === truth?.end_of_hold?.elapsed_s)?.pressurePa;
  expect((endPa ?? NaN) / (truth?.end_of_hold?.shown_pa ?? NaN)).toBeCloseTo(1, 1);
  const deepS = rows.find(({ pressurePa }) => (pressurePa ?? Infinity) <= paFromMicron(500));
  expect(Math.abs((truth?.target_reached_s ?? NaN) - (deepS?.elapsedS ?? NaN))).toBeLessThan(60);
  expect(truth?.ended_s).toBe(rows.at(-1)?.elapsedS);
});

test('what the radio lost is not in the file', () => {
  const [truth] = truthsOf('half');
  const rows = parseReadingsCsv(textOf('half', truth?.file ?? ''));
  expect(rows.length).toBeLessThan((truth?.ended_s ?? 0) - 60);
});

test('an event that the radio missed stands on the next reading that it heard', () => {
  const { rows, truth } = simulateCase(
    {
      ...scenarioNamed('generated-plain', 1),
      radio: { ...STEADY_RADIO, silences: [{ fromS: 15, durationS: 30 }] },
      script: [
        { when: { afterS: 20 }, do: 'pump_on' },
        { when: { afterS: 2 }, do: 'isolate' },
        { when: { afterS: 2 }, do: 'reopen' },
        { when: { afterS: 60 }, do: 'end' },
      ],
    },
    1,
    'any.csv',
  );
  expect(truth.marks).toEqual([
    { kind: 'pump_on', elapsed_s: 20 },
    { kind: 'isolated', elapsed_s: 22 },
    { kind: 'reopened', elapsed_s: 24 },
  ]);
  const events = rows.flatMap(({ elapsedS, event }) => (event === null ? [] : [[elapsedS, event]]));
  expect(events).toEqual([
    [45, 'pump_on'],
    [46, 'isolated'],
  ]);
  expect(rows.map(({ elapsedS }) => elapsedS)).not.toContain(30);
  expect(truth).toMatchObject({ at_isolation: { elapsed_s: 22 }, end_of_hold: null });
});

test('"all" stands for every scenario', async () => {
  said.mockClear();
  writeFileSync(join(folder, 'quarry-road-bakery-9.csv'), '');
  expect((await simulate('all', '9', '.')).status).toBe(1);
  expect(said.mock.calls.flat().join()).toMatch(/quarry-road-bakery-9\.csv is there already/u);
});

test('help documents every field of the truth, and every option', async () => {
  const { status, lines } = await runWith('--help');
  expect(status).toBe(0);
  const help = lines.join('\n');
  for (const field of Object.keys(truthLineSchema.shape)) expect(help).toContain(field);
  for (const option of ['scenario', 'seeds', 'out', 'replace'])
    expect(help).toContain(`--${option}`);
  for (const value of ['500 micron', '900 s']) expect(help).toContain(value);
});

test('a wrong option is explained on the error output, with status 1 and nothing written', async () => {
  const given = ['--scenario', 'generated-plain', '--out', join(folder, 'never')];
  const blocked = join(folder, 'drawn', 'truth.jsonl');
  said.mockClear();
  for (const argv of [
    ['--seeds', '1', '--out', folder],
    ['--scenario', 'nowhere', '--seeds', '1', '--out', join(folder, 'never')],
    given,
    [...given, '--seeds', '1..many'],
    [...given, '--seeds', '9..1'],
    [...given, '--seeds', '0..4294967296'],
    [...given, '--seeds', '0..100000'],
    [...given, '--seeds', '1', '--no-such'],
    ['--scenario', 'generated-plain', '--seeds', '1', '--out', blocked],
  ]) {
    expect(await runWith(...argv)).toEqual({ status: 1, lines: [] });
  }
  expect(said.mock.calls.map(([text]) => String(text))).toEqual([
    expect.stringContaining('add --scenario NAME'),
    expect.stringMatching(/"nowhere".*generated-hard/u),
    expect.stringContaining('add --seeds A..B'),
    expect.stringContaining('--seeds is "1..many"'),
    expect.stringContaining('the first is larger than the last'),
    expect.stringContaining('4294967295'),
    expect.stringContaining('split the run'),
    expect.stringContaining('--no-such'),
    expect.stringContaining('truth.jsonl is in the way'),
  ]);
  expect(existsSync(join(folder, 'never'))).toBe(false);
});
