/** `npm run accuracy`: how right the judge is on worlds that it does not know. */
import { writeFileSync } from 'node:fs';
import type { LineWithFacts } from './lines.ts';
import { linesOf, tableOf } from './measure.ts';
import { HELP, readOptions } from './options.ts';
import { SECOND_WORLD } from './second-world-trials.ts';
import { SIMULATED_WORLD } from './simulated-trials.ts';
import type { World, WorldName } from './trials.ts';
import { printSection } from './table.ts';
import { worst } from './worst.ts';

const WORLDS: Readonly<Record<WorldName, World>> = {
  second: SECOND_WORLD,
  simulated: SIMULATED_WORLD,
};

const options = readOptions(process.argv.slice(2));
if (options === null) {
  console.log(HELP);
} else {
  const all: LineWithFacts[] = [];
  for (const name of options.worlds) {
    const lines = [...linesOf(WORLDS[name], options)];
    console.log(`\n${name} world, seeds from ${options.firstSeed}`);
    for (const section of tableOf(lines)) {
      for (const text of printSection(section)) console.log(text);
    }
    for (const line of worst(lines, options.listWorst)) console.log(line);
    all.push(...lines);
  }
  if (options.jsonFile !== null) {
    writeFileSync(options.jsonFile, all.map((line) => `${JSON.stringify(line)}\n`).join(''));
  }
}
