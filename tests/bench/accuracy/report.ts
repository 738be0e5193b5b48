/** Plays the cases, judges them, and prints a table for each world. */
import { writeFileSync } from 'node:fs';
import type { LineWithFacts } from './lines.ts';
import { linesOf, tableOf } from './measure.ts';
import type { AccuracyOptions } from './options.ts';
import { SECOND_WORLD } from './second-world-trials.ts';
import { SIMULATED_WORLD } from './simulated-trials.ts';
import { isMeasured, printSection } from './table.ts';
import { cached } from './trial-cache.ts';
import { THIRD_WORLD } from './third-world-trials.ts';
import type { World, WorldName } from './trials.ts';
import { worst } from './worst.ts';

const WORLDS: Readonly<Record<WorldName, World>> = {
  second: SECOND_WORLD,
  simulated: SIMULATED_WORLD,
  third: THIRD_WORLD,
};

/** @param print takes a line of text */
export function reportAccuracy(options: AccuracyOptions, print: (line: string) => void): void {
  const all: LineWithFacts[] = [];
  for (const name of options.worlds) {
    const world = WORLDS[name];
    const { cacheFolder } = options;
    const lines = [...linesOf(cacheFolder === null ? world : cached(world, cacheFolder), options)];
    print(`\n${name} world, seeds from ${options.firstSeed}: figure (bar) /cases`);
    for (const section of tableOf(lines).filter(isMeasured)) {
      for (const text of printSection(section)) print(text);
    }
    for (const line of worst(lines, options.listWorst)) print(line);
    all.push(...lines);
  }
  if (options.jsonFile !== null) {
    writeFileSync(options.jsonFile, all.map((line) => `${JSON.stringify(line)}\n`).join(''));
  }
}
