/** Options of `npm run accuracy`. */
import { parseArgs } from 'node:util';
import { z } from 'zod';
import type { WorldName } from './trials.ts';

/**
 * Seeds for tuning are those below, seeds for reporting those from here on: nobody who tunes on the
 * former has seen the latter.
 */
const HELD_OUT_FROM = 100_000;
const TRAINING_FROM = 1;

/** What runs in a few minutes, and what the bar asks for. */
const SIZES = {
  quick: { 'pull-downs': 120, rises: 250, repeats: 50 },
  full: { 'pull-downs': 500, rises: 1000, repeats: 200 },
} as const;

export const HELP = `npm run accuracy -- [options]

Judges cases of worlds that the judge does not know, and prints the table of accuracy.

  --world second|simulated|third|both
                                  default both: the first two
  --set training|held-out         seeds ${TRAINING_FROM}… (for tuning) or ${HELD_OUT_FROM}… (for reporting); default training
  --seeds A..B                    those seeds in place of a set's: as many cases of each kind
  --full                          ${SIZES.full['pull-downs']} pull-downs, ${SIZES.full.rises} rises and ${SIZES.full.repeats} repeated holds of each world, in
                                  place of ${SIZES.quick['pull-downs']}, ${SIZES.quick.rises} and ${SIZES.quick.repeats}
  --pull-downs N, --rises N, --repeats N
                                  how many, in place of that
  --only pull-downs|rises|repeats those alone
  --watch N                       one case in N is judged all along; default 4
  --cache FOLDER                  keeps what was played, outside the project
  --json FILE                     a line for each case and moment: truth, what was said, how it was drawn
  --list-worst N                  the N forecasts that are furthest off, and as many wrong verdicts
  --help                          this text

Training seeds end before ${HELD_OUT_FROM}; a figure is worth something on seeds from there on.`;

const count = z.coerce
  .number()
  .int()
  .min(0)
  .max(HELD_OUT_FROM - 1);
const whatSchema = z.enum(['pull-downs', 'rises', 'repeats']);

const schema = z.object({
  world: z.enum(['second', 'simulated', 'third', 'both']).default('both'),
  set: z.enum(['training', 'held-out']).default('training'),
  seeds: z
    .string()
    .regex(/^\d+\.\.\d+$/u, 'two whole numbers, as in 1..60')
    .optional(),
  full: z.boolean().default(false),
  'pull-downs': count.optional(),
  rises: count.optional(),
  repeats: count.optional(),
  only: whatSchema.optional(),
  watch: count.min(1).default(4),
  cache: z.string().optional(),
  json: z.string().optional(),
  'list-worst': count.default(0),
});

export interface AccuracyOptions {
  readonly worlds: readonly WorldName[];
  readonly firstSeed: number;
  readonly pullDowns: number;
  readonly rises: number;
  readonly repeats: number;
  readonly watchEvery: number;
  readonly cacheFolder: string | null;
  readonly jsonFile: string | null;
  readonly listWorst: number;
}

/** @returns null where help was asked for */
export function readOptions(argv: readonly string[]): AccuracyOptions | null {
  const text = { type: 'string' } as const;
  const flag = { type: 'boolean' } as const;
  const { values } = parseArgs({
    args: [...argv],
    options: {
      world: text,
      set: text,
      seeds: text,
      full: flag,
      'pull-downs': text,
      rises: text,
      repeats: text,
      only: text,
      watch: text,
      cache: text,
      json: text,
      'list-worst': text,
      help: flag,
    },
  });
  if (values.help) return null;
  const read = schema.parse(values);
  const [firstSeed = null, lastSeed = null] = read.seeds?.split('..').map(Number) ?? [];
  const size = SIZES[read.full ? 'full' : 'quick'];
  const howMany = (what: z.infer<typeof whatSchema>) => {
    if (read.only !== undefined && read.only !== what) return 0;
    const ofSeeds = firstSeed === null || lastSeed === null ? null : lastSeed - firstSeed + 1;
    return read[what] ?? ofSeeds ?? size[what];
  };
  return {
    worlds: read.world === 'both' ? ['second', 'simulated'] : [read.world],
    firstSeed: firstSeed ?? (read.set === 'training' ? TRAINING_FROM : HELD_OUT_FROM),
    pullDowns: howMany('pull-downs'),
    rises: howMany('rises'),
    repeats: howMany('repeats'),
    watchEvery: read.watch,
    cacheFolder: read.cache ?? null,
    jsonFile: read.json ?? null,
    listWorst: read['list-worst'],
  };
}
