/**
 * Keeps played trials in a folder outside the project, since the simulated rigs take long to play.
 * Whatever changes in how they are played makes a folder of its own.
 */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';
import { MARK_KINDS } from '../../../protocol/mark.ts';
import { RISE_CLASSES } from '../../support/second-world/rise-class.ts';
import { mark } from '../../support/second-world/mark.ts';
import type { PullDownTrial, RepeatTrial, RiseTrial, World } from './trials.ts';

const PROJECT = fileURLToPath(new URL('../../..', import.meta.url));
/** What a played trial depends on. */
const SOURCES = [
  'simulators',
  'tests/bench/accuracy',
  'tests/support/second-world',
  'tests/support/third-world',
];

const keptSchema = z.object({
  seed: z.number(),
  elapsedS: z.array(z.number()),
  pressurePa: z.array(z.number().nullable()),
  temperatureC: z.array(z.number().nullable()),
  marks: z.array(z.object({ kind: z.enum(MARK_KINDS), elapsedS: z.number() })),
  facts: z.record(z.string(), z.union([z.number(), z.string(), z.boolean(), z.null()])),
});
const pullDownSchema = keptSchema.extend({
  wet: z.boolean(),
  pumpOnS: z.number(),
  reachedS: z.number().nullable(),
  endS: z.number(),
});
const kindSchema = z.enum(RISE_CLASSES);
const riseSchema = keptSchema.extend({
  kind: kindSchema,
  isolatedS: z.number(),
  heldS: z.number(),
  leakPaPerS: z.number(),
  /** One a second since isolation. */
  shownPa: z.array(z.number()),
});
const holdSchema = z.object({ isolatedS: z.number(), kind: kindSchema });
const repeatSchema = keptSchema.extend({
  holds: z.tuple([holdSchema, holdSchema]),
  leakPaPerS: z.number(),
});

export function cached(world: World, folder: string): World {
  const home = join(folder, world.name, digest());
  mkdirSync(home, { recursive: true });
  return {
    name: world.name,
    pullDown: (seed) => {
      const { wet, pumpOnS, reachedS, endS, ...kept } = keep(
        join(home, `pull-down-${seed}.json`),
        pullDownSchema,
        () => {
          const trial = world.pullDown(seed);
          return { ...columns(trial), ...trial };
        },
      );
      return { ...restored(world, kept), wet, pumpOnS, reachedS, endS };
    },
    rise: (seed) => {
      const { kind, isolatedS, heldS, leakPaPerS, shownPa, ...kept } = keep(
        join(home, `rise-${seed}.json`),
        riseSchema,
        () => {
          const trial = world.rise(seed);
          const seconds = Array.from({ length: trial.heldS + 1 }, (_, second) => second);
          const shown = seconds.map((second) => trial.shownAt(trial.isolatedS + second));
          return { ...columns(trial), ...trial, shownPa: shown };
        },
      );
      const shownAt = (elapsedS: number) => {
        const second = Math.min(Math.max(elapsedS - isolatedS, 0), heldS);
        const from = shownPa[Math.floor(second)] ?? 0;
        return from + (second % 1) * ((shownPa[Math.ceil(second)] ?? from) - from);
      };
      return { ...restored(world, kept), kind, isolatedS, heldS, leakPaPerS, shownAt };
    },
    repeat: (seed) => {
      const { holds, leakPaPerS, ...kept } = keep(
        join(home, `repeat-${seed}.json`),
        repeatSchema,
        () => {
          const trial = world.repeat(seed);
          return { ...columns(trial), ...trial, holds: [trial.holds[0], trial.holds[1]] };
        },
      );
      return { ...restored(world, kept), holds, leakPaPerS };
    },
  };
}

function keep<T>(file: string, schema: z.ZodType<T>, play: () => unknown): T {
  if (existsSync(file)) return schema.parse(JSON.parse(readFileSync(file, 'utf8')));
  const kept = schema.parse(play());
  writeFileSync(file, JSON.stringify(kept));
  return kept;
}

function columns({ points, marks, facts, seed }: PullDownTrial | RiseTrial | RepeatTrial) {
  return {
    seed,
    elapsedS: points.map(({ elapsedS }) => elapsedS),
    pressurePa: points.map(({ pressurePa }) => pressurePa),
    temperatureC: points.map(({ temperatureC }) => temperatureC),
    marks: marks.map(({ kind, elapsedS }) => ({ kind, elapsedS })),
    facts: { ...facts },
  };
}

function restored({ name }: World, { seed, facts, ...kept }: z.infer<typeof keptSchema>) {
  return {
    world: name,
    seed,
    facts,
    marks: kept.marks.map(({ kind, elapsedS }, i) => mark(i + 1, kind, elapsedS)),
    points: kept.elapsedS.map((elapsedS, i) => {
      const pressurePa = kept.pressurePa[i] ?? null;
      return {
        elapsedS,
        pressurePa,
        condition: pressurePa === null ? ('over_range' as const) : ('ok' as const),
        temperatureC: kept.temperatureC[i] ?? null,
      };
    }),
  };
}

function digest(): string {
  const hash = createHash('sha256');
  for (const source of SOURCES) {
    const files = readdirSync(join(PROJECT, source), { recursive: true, encoding: 'utf8' });
    for (const file of files.filter((name) => name.endsWith('.ts')).sort()) {
      hash.update(file).update(readFileSync(join(PROJECT, source, file)));
    }
  }
  return hash.digest('hex').slice(0, 16);
}
