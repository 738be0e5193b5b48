/**
 * `npm run simulate -- --scenario NAME --seeds A..B --out FOLDER`: readings of simulated jobs, and what
 * was really so, for whoever wants to judge forecasts and verdicts.
 */
import { existsSync } from 'node:fs';
import { mkdir, open, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { ProblemError } from '../../protocol/problems.ts';
import { formatReadingsCsvRows, READINGS_CSV_HEADER } from '../../protocol/readings-csv.ts';
import { ALL_SCENARIOS } from '../../simulators/scenarios/all-scenarios.ts';
import { scenarioNamed } from '../sources/rehearsal/scenario-named.ts';
import { simulateCase } from './simulate-case.ts';
import {
  ALL,
  readSimulateOptions,
  SIMULATE_HELP,
  SimulateUsageError,
  TRUTH_FILE,
  type SimulateOptions,
} from './simulate-options.ts';

/** Progress is told after so many cases. */
const TELL_EVERY = 25;

/**
 * @param argv what follows the command's name
 * @param write takes one line of standard output: help alone
 * @returns the exit status: 0, or 1 where an option was no good or a file could not be written
 */
export async function run(argv: readonly string[], write: (line: string) => void): Promise<number> {
  try {
    const options = readSimulateOptions(argv);
    if (options === null) write(SIMULATE_HELP);
    else await simulateAll(options);
    return 0;
  } catch (error) {
    console.error(`${whatIsWrong(error)}; see --help`);
    return 1;
  }
}

interface Case {
  readonly name: string;
  readonly seed: number;
  readonly file: string;
}

async function simulateAll(options: SimulateOptions): Promise<void> {
  const cases = casesOf(options);
  const { folder, replace } = options;
  if (!replace) refuseToOverwrite(folder, [TRUTH_FILE, ...cases.map(({ file }) => file)]);
  await mkdir(folder, { recursive: true });
  const flag = replace ? 'w' : 'wx';
  const truths = await open(join(folder, TRUTH_FILE), flag);
  try {
    for (const [before, { name, seed, file }] of cases.entries()) {
      const { rows, truth } = simulateCase(scenarioNamed(name, seed), seed, file);
      const csv = READINGS_CSV_HEADER + formatReadingsCsvRows(rows);
      await writeFile(join(folder, file), csv, { flag });
      await truths.write(`${JSON.stringify(truth)}\n`);
      const done = before + 1;
      if (done % TELL_EVERY === 0 || done === cases.length) {
        console.error(`${done} of ${cases.length} cases written to ${folder}`);
      }
    }
  } finally {
    await truths.close();
  }
}

/** @throws ProblemError `unknown_scenario` */
function casesOf({ scenario, firstSeed, lastSeed }: SimulateOptions): Case[] {
  if (scenario !== ALL) scenarioNamed(scenario, firstSeed);
  const names = scenario === ALL ? ALL_SCENARIOS.map(({ card }) => card.name) : [scenario];
  const seeds = Array.from({ length: lastSeed - firstSeed + 1 }, (_, at) => firstSeed + at);
  return names.flatMap((name) =>
    seeds.map((seed) => ({ name, seed, file: `${name}-${seed}.csv` })),
  );
}

/** Before the first case rather than after an hour. */
function refuseToOverwrite(folder: string, files: readonly string[]): void {
  const present = files.find((file) => existsSync(join(folder, file)));
  if (present === undefined) return;
  throw new SimulateUsageError(
    `${join(folder, present)} is there already; choose another folder, or add --replace`,
  );
}

function whatIsWrong(error: unknown): string {
  if (error instanceof SimulateUsageError || error instanceof ProblemError) return error.message;
  if (!(error instanceof Error && 'code' in error && 'path' in error)) throw error;
  const path = String(error.path);
  switch (error.code) {
    case 'EEXIST':
    case 'ENOTDIR':
      return `${path} is in the way: a file where a folder should be, or one made meanwhile; choose another folder`;
    case 'EACCES':
    case 'EROFS':
      return `${path} may not be written; choose another folder or change its permissions`;
    case 'ENOSPC':
      return `the disk is full at ${path}; free some space and start again with --replace`;
    default:
      return error.message;
  }
}
