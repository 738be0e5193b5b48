/**
 * Changes the code at places drawn by lot and asks whether the tests notice: `npm run mutation -- --sample 200`.
 * All of it would take days. It prints the share that was noticed, with its 95 % interval, and what was not.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';

const HELP = `npm run mutation -- [options]

  --sample N    so many places are changed, drawn by lot; default 60, 0: all of them
  --seed N      which ones; default 1
  --of TEXT     only in files with that in their path, as in web/analysis/rise
  --list FILE   also writes what every change led to, as JSON
  --help        this text`;

const { values } = parseArgs({
  options: {
    sample: { type: 'string', default: '60' },
    seed: { type: 'string', default: '1' },
    of: { type: 'string', default: '' },
    list: { type: 'string' },
    help: { type: 'boolean', default: false },
  },
});
const HERE = fileURLToPath(new URL('.', import.meta.url));
const PROJECT = join(HERE, '..', '..');
const FOLDERS = ['web/analysis', 'protocol'];

if (values.help) {
  console.log(HELP);
  process.exit(0);
}
if (!existsSync(join(HERE, 'node_modules'))) {
  const { status } = spawnSync('npm', ['ci', '--no-audit', '--no-fund'], {
    cwd: HERE,
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32',
  });
  if (status !== 0) throw new Error('What this needs could not be installed.');
}
const { Stryker } = await import('@stryker-mutator/core');
const { placesOfMutants } = await import('./mutants.mjs');

const files = FOLDERS.flatMap((folder) =>
  readdirSync(join(PROJECT, folder))
    .filter((name) => name.endsWith('.ts'))
    .map((name) => `${folder}/${name}`),
).filter((file) => file.includes(values.of));
const all = await placesOfMutants(PROJECT, files);
const places = drawn([...new Set(all)], Number(values.sample), Number(values.seed));
console.error(
  `${all.length} changes are possible in ${files.length} files; ${places.length} places are drawn.`,
);

process.chdir(PROJECT);
const results = await new Stryker({
  mutate: places,
  testRunner: 'vitest',
  plugins: [
    join(HERE, 'node_modules', '@stryker-mutator', 'vitest-runner', 'dist', 'src', 'index.js'),
  ],
  vitest: { configFile: 'tests/mutation/vitest.config.mjs', related: false },
  coverageAnalysis: 'perTest',
  // What is worked out once, when a module is read, would need every test for every change.
  ignoreStatic: true,
  ignorePatterns: ['web/dist', 'tests/output', 'tests/mutation/node_modules'],
  reporters: ['dots'],
  concurrency: 2,
  timeoutFactor: 3,
  dryRunTimeoutMinutes: 60,
  tempDirName: 'tests/output/mutation',
  allowConsoleColors: false,
}).runMutationTest();

const NOTICED = ['Killed', 'Timeout'];
const MISSED = ['Survived', 'NoCoverage'];
const noticed = results.filter(({ status }) => NOTICED.includes(status)).length;
const missed = results.filter(({ status }) => MISSED.includes(status));
for (const { fileName, location, mutatorName, replacement, status } of missed) {
  const place = `${fileName.slice(PROJECT.length)}:${location.start.line}:${location.start.column}`;
  console.log(
    `${status === 'Survived' ? 'unnoticed' : 'untested '} ${place} ${mutatorName}: ${replacement}`,
  );
}
if (values.list !== undefined) writeFileSync(values.list, JSON.stringify(results, null, 1));
const count = noticed + missed.length;
const [low, high] = wilson(noticed, count);
const percent = (share) => `${(100 * share).toFixed(0)} %`;
console.log(
  `${noticed} of ${count} changes were noticed: ${percent(noticed / count)}, with 95 % certainty ` +
    `${percent(low)} to ${percent(high)}; ${results.length - count} were left out (read once, or not valid)`,
);

/** So many of them, each as likely as any other. */
function drawn(from, count, seed) {
  if (count === 0) return from;
  const left = [...from];
  let state = seed;
  return Array.from({ length: Math.min(count, left.length) }, () => {
    // Park and Miller's generator (Random number generators: good ones are hard to find, 1988).
    state = (state * 48271) % 2147483647;
    return left.splice(state % left.length, 1)[0];
  });
}

/** A share's interval (Wilson, Probable inference, the law of succession, and statistical inference, 1927). */
function wilson(hits, of) {
  const z = 1.96;
  const middle = (hits + z ** 2 / 2) / (of + z ** 2);
  const half = (z / (of + z ** 2)) * Math.sqrt((hits * (of - hits)) / of + z ** 2 / 4);
  return [middle - half, middle + half];
}
