/** `npm run accuracy`: how right the judge is on worlds that it does not know. */
import { writeFileSync } from 'node:fs';
import type { LineWithFacts } from './lines.ts';
import { secondWorldLines, tableOf } from './measure.ts';
import { HELP, readOptions } from './options.ts';
import { printRow } from './row.ts';
import { worst } from './worst.ts';

const options = readOptions(process.argv.slice(2));
if (options === null) {
  console.log(HELP);
} else {
  const all: LineWithFacts[] = [];
  for (const world of options.worlds) {
    if (world === 'simulated') continue;
    const lines = [...secondWorldLines(options)];
    console.log(`\n${world} world, seeds from ${options.firstSeed}`);
    for (const row of tableOf(lines)) console.log(printRow(row));
    for (const line of worst(lines, options.listWorst)) console.log(line);
    all.push(...lines);
  }
  if (options.jsonFile !== null) {
    writeFileSync(options.jsonFile, all.map((line) => `${JSON.stringify(line)}\n`).join(''));
  }
}
