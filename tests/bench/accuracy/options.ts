/** Options of `npm run accuracy`. */
import { parseArgs } from 'node:util';
import { z } from 'zod';

/**
 * Seeds for tuning are those below, seeds for reporting those from here on: nobody who tunes on the
 * former has seen the latter.
 */
const HELD_OUT_FROM = 100_000;
const TRAINING_FROM = 1;

export const HELP = `npm run accuracy -- [options]

Judges cases of two worlds, neither of which the judge knows, and prints the table of accuracy.

  --world second|simulated|both   default both
  --set training|held-out         seeds ${TRAINING_FROM}… (for tuning) or ${HELD_OUT_FROM}… (for reporting); default training
  --first N                       first seed, in place of the set's
  --pull-downs N, --rises N       how many of the second world; default 120 and 250
  --watch N                       every Nth case is judged all along; default 4
  --json FILE                     one line for each case and cut: truth, what was said, how it was drawn
  --list-worst N                  the N forecasts that are furthest off, and rises decided wrongly
  --help                          this text`;

const count = z.coerce.number().int().min(0).max(100_000);

const schema = z.object({
  world: z.enum(['second', 'simulated', 'both']).default('both'),
  set: z.enum(['training', 'held-out']).default('training'),
  first: count.optional(),
  'pull-downs': count.default(120),
  rises: count.default(250),
  watch: count.min(1).default(4),
  json: z.string().optional(),
  'list-worst': count.default(0),
});

export interface AccuracyOptions {
  readonly worlds: readonly ('second' | 'simulated')[];
  readonly firstSeed: number;
  readonly pullDowns: number;
  readonly rises: number;
  readonly watchEvery: number;
  readonly jsonFile: string | null;
  readonly listWorst: number;
}

/** @returns null where help was asked for */
export function readOptions(argv: readonly string[]): AccuracyOptions | null {
  const text = { type: 'string' } as const;
  const { values } = parseArgs({
    args: [...argv],
    options: {
      world: text,
      set: text,
      first: text,
      'pull-downs': text,
      rises: text,
      watch: text,
      json: text,
      'list-worst': text,
      help: { type: 'boolean' },
    },
  });
  if (values.help) return null;
  const read = schema.parse(values);
  return {
    worlds: read.world === 'both' ? ['second', 'simulated'] : [read.world],
    firstSeed: read.first ?? (read.set === 'training' ? TRAINING_FROM : HELD_OUT_FROM),
    pullDowns: read['pull-downs'],
    rises: read.rises,
    watchEvery: read.watch,
    jsonFile: read.json ?? null,
    listWorst: read['list-worst'],
  };
}
