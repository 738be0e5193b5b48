/**
 * Changes the code at places drawn by lot and asks whether the tests notice: `npm run mutation -- --sample 200`.
 * It prints the share that was noticed in each of the folders, with its 95 % interval, and what was not.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';

/** What is changed, each with the tests that are asked. */
const PARTS = [
  { folder: 'protocol', tests: 'tests/mutation/protocol.config.mjs' },
  { folder: 'web/analysis', tests: 'tests/mutation/analysis.config.mjs' },
];
const HELP = `npm run mutation -- [options]

  --sample N    so many changes of each folder are tried, drawn by lot; default 100, 0: all of them
  --seed N      which ones; default 1
  --of TEXT     only in files with that in their path, as in web/analysis/rise
  --at-once N   so many changes are tried at the same time; default 2
  --list FILE   also writes what every change led to, as JSON
  --help        this text

Folders: ${PARTS.map(({ folder }) => folder).join(', ')}. On two idle cores 100 changes take some two minutes in
the first and some eight in the second; on busy ones several times that.`;

const { values } = parseArgs({
  options: {
    sample: { type: 'string', default: '100' },
    seed: { type: 'string', default: '1' },
    of: { type: 'string', default: '' },
    'at-once': { type: 'string', default: '2' },
    list: { type: 'string' },
    help: { type: 'boolean', default: false },
  },
});
const HERE = fileURLToPath(new URL('.', import.meta.url));
const PROJECT = join(HERE, '..', '..');

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
const { makeOnly, possibleMutants } = await import('./mutants.mjs');

process.chdir(PROJECT);
const listed = [];
for (const part of PARTS) {
  const files = readdirSync(join(PROJECT, part.folder), { recursive: true })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => `${part.folder}/${name.replaceAll('\\', '/')}`)
    .filter((file) => file.includes(values.of));
  if (files.length === 0) continue;
  const results = await resultsOf(files, part.tests);
  listed.push(...results);
  say(part.folder, results);
}
if (values.list !== undefined) writeFileSync(values.list, JSON.stringify(listed, null, 1));

/** What the changes drawn in these files led to. */
async function resultsOf(files, tests) {
  const all = await possibleMutants(PROJECT, files);
  const chosen = drawn(all, Number(values.sample), Number(values.seed));
  console.error(
    `${all.length} changes are possible in ${files.length} files; ${chosen.length} are drawn.`,
  );
  const names = new Set(chosen.map(({ name }) => name));
  const restore = makeOnly(PROJECT, names);
  const results = await new Stryker({
    mutate: [...new Set(chosen.map(({ place }) => place))],
    testRunner: 'whole-files',
    plugins: [
      join(HERE, 'node_modules', '@stryker-mutator', 'vitest-runner', 'dist', 'src', 'index.js'),
      join(HERE, 'runner.mjs'),
      join(HERE, 'reporter.mjs'),
    ],
    vitest: { configFile: tests, related: false },
    coverageAnalysis: 'perTest',
    // What is worked out once, when a module is read, is tried as well, with every test.
    ignoreStatic: false,
    warnings: { slow: false },
    ignorePatterns: ['web/dist', 'tests/output', 'tests/mutation/node_modules'],
    reporters: ['missed'],
    concurrency: Number(values['at-once']),
    timeoutMS: 20_000,
    timeoutFactor: 2,
    dryRunTimeoutMinutes: 60,
    tempDirName: 'tests/output/mutation',
    allowConsoleColors: false,
  }).runMutationTest();
  restore();
  return results;
}

/** The share that was noticed, and how much of it only by not coming to an end. */
function say(folder, results) {
  const count = (...statuses) => results.filter(({ status }) => statuses.includes(status)).length;
  const endless = count('Timeout');
  const noticed = count('Killed') + endless;
  const valid = noticed + count('Survived', 'NoCoverage');
  const [low, high] = wilson(noticed, valid);
  const percent = (share) => `${(100 * share).toFixed(1)} %`;
  console.log(
    `${folder}: ${noticed} of ${valid} changes were noticed (${endless} by their tests taking too long): ` +
      `${percent(noticed / valid)}, with 95 % certainty ${percent(low)} to ${percent(high)}; ` +
      `${results.length - valid} were not valid`,
  );
}

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
