/** Options of the `simulate` command. */
import { FLAG, HELP_FLAG, parseOptions, TEXT } from './parse-options.ts';
import { z } from 'zod';
import { DEFAULT_SHEET } from '../../protocol/sheet.ts';
import { micronFromPa } from '../../protocol/units.ts';

export interface SimulateOptions {
  readonly scenario: string;
  readonly firstSeed: number;
  readonly lastSeed: number;
  readonly folder: string;
  readonly replace: boolean;
}

/** What is wrong with the command line, in one sentence. */
export class SimulateUsageError extends Error {
  override readonly name = 'SimulateUsageError';
}

/** Stands for every scenario that has a name of its own. */
export const ALL = 'all';

export const TRUTH_FILE = 'truth.jsonl';

const targetMicron = Math.round(micronFromPa(DEFAULT_SHEET.targetPa));

export const SIMULATE_HELP = `npm run simulate -- --scenario NAME --seeds A..B --out FOLDER [--replace]

Plays simulated jobs, worked by a helper, and writes down what the sensor said and what was so.

  --scenario NAME   a rehearsal's name, "${ALL}" for every one of them, or jobs drawn by their seed:
                    generated-plain, generated-mixed, generated-hard
  --seeds A..B      one case for each, both ends included, 0 to 4294967295; or a single seed
  --out FOLDER      is made where it is missing
  --replace         write over files of earlier runs; those with other names stay
  --help            this text

For each case NAME-SEED.csv, as the analyse command reads it: only readings that the radio heard,
with the events pump_on, ballast_closed and isolated. For all of them ${TRUTH_FILE}, one JSON object a
line in the same order:

  file, scenario, seed, cause
  leak_pa_per_s      steady rise by inflow in what the sensor sees once valved off, all as found
  volume_m3          of what it sees then
  water_kg_at_start  in the whole rig
  told_s             when the curve began to differ from that of the same job in order, or null
  ballast_open_at_start
  marks              all that was done, of every kind: {"kind", "elapsed_s"}
  target_reached_s   first time at ${targetMicron} micron or below, by the true pressure, or null
  at_isolation       the last valving off, or null: {"elapsed_s", "true_pa", "shown_pa"}, true where
                     the sensor sits, and shown by it without noise and steps (null: over range)
  end_of_hold        the same ${DEFAULT_SHEET.holdS} s later, or null where it was not held so long
  temperature_c      of the metal where the sensor sits: {"start", "end"}
  ended_s            time of the last reading

The same command writes the same files, byte by byte. Progress goes to the error output.`;

/**
 * @returns the options, or null where help was asked for
 * @throws SimulateUsageError saying which option is wrong and what it should be
 */
export function readSimulateOptions(argv: readonly string[]): SimulateOptions | null {
  const values = parseOptions(
    argv,
    OPTIONS,
    (message, cause) => new SimulateUsageError(message, { cause }),
  );
  if (values.help) return null;
  return {
    scenario: needed(values.scenario, '--scenario NAME'),
    ...readSeeds(needed(values.seeds, '--seeds A..B')),
    folder: needed(values.out, '--out FOLDER'),
    replace: values.replace ?? false,
  };
}

const OPTIONS = { scenario: TEXT, seeds: TEXT, out: TEXT, replace: FLAG, help: HELP_FLAG } as const;

function needed(value: string | undefined, usage: string): string {
  if (value === undefined || value === '') throw new SimulateUsageError(`add ${usage}`);
  return value;
}

/** More files than that in one folder is a slip of the finger. */
const MOST_SEEDS = 100_000;

const seedSchema = z.int().min(0).max(0xffff_ffff);

function readSeeds(text: string): { firstSeed: number; lastSeed: number } {
  const [, first = '', last = first] = /^(\d+)(?:\.\.(\d+))?$/u.exec(text) ?? [];
  const read = z
    .tuple([seedSchema, seedSchema])
    .safeParse([first, last].map((digits) => (digits === '' ? null : Number(digits))));
  if (!read.success) {
    throw new SimulateUsageError(
      `--seeds is "${text}", but must be two whole numbers from 0 to 4294967295, as in 1..60`,
    );
  }
  const [firstSeed, lastSeed] = read.data;
  if (lastSeed < firstSeed) {
    throw new SimulateUsageError(`--seeds is "${text}": the first is larger than the last`);
  }
  if (lastSeed - firstSeed >= MOST_SEEDS) {
    throw new SimulateUsageError(
      `--seeds is "${text}": more than ${MOST_SEEDS} of them; split the run`,
    );
  }
  return { firstSeed, lastSeed };
}
