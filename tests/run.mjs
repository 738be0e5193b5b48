/**
 * `npm test`: sets up what is missing, then checks types, rules of writing and every test, and ends
 * with the true counts. `npm test -- --long` runs the long files too; `npm test -- NAME` runs the test files whose path has that in it.
 */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, rmSync, mkdirSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import {
  ensureInstalled,
  ensurePageBuilt,
  PROJECT,
  setUpOrExit,
  SetupError,
} from '../server/setup.mjs';

const filters = process.argv.slice(2).filter((argument) => argument !== '--long');
/** Named ones are run, however long they take. */
const leavesLongOut = filters.length === 0 && !process.argv.includes('--long');
const report = join(PROJECT, 'tests', 'output', 'results.json');
/** Without windows it needs a quarter less of the processors; a whole one will do. */
const DEBIAN_BROWSERS = ['/usr/bin/chromium-headless-shell', '/usr/bin/chromium'];
let passed = 0;
let failed = 0;

setUpOrExit((say) => {
  ensureInstalled({ development: true, say });
  ensureBrowser(say);
  ensurePdfTools(say);
  // Of the files that need it, `npm test` by itself runs none.
  if (!leavesLongOut) ensureOffice(say);
  ensurePageBuilt({ say });
});

if (filters.length === 0) {
  // Side by side: each of them keeps one core busy.
  await Promise.all([
    inTurn([
      ['types: server, simulators, protocol, tests', 'typescript/bin/tsc', ['-p', '.']],
      ['types: page', 'typescript/bin/tsc', ['-p', 'web']],
      ['types: pure folders without DOM or Node', 'typescript/bin/tsc', ['-p', 'web/analysis']],
      ['types: service worker', 'typescript/bin/tsc', ['-p', 'web/offline']],
    ]),
    inTurn([
      ['rules of writing', 'eslint/bin/eslint.js', ['.']],
      ['layout', 'prettier/bin/prettier.cjs', ['--check', '--log-level', 'warn', '.']],
      [
        'files, exports and packages that nobody uses',
        'knip/bin/knip.js',
        ['--config', 'tests/house/knip.json'],
      ],
    ]),
  ]);
}
runVitest();
if (leavesLongOut)
  console.log('Left out: the files of tests/long-files.ts; npm test -- --long runs them.');
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);

async function inTurn(checks) {
  for (const one of checks) await check(...one);
}

function check(name, tool, args) {
  return new Promise((done) => {
    const child = spawn(process.execPath, [join(PROJECT, 'node_modules', tool), ...args], {
      cwd: PROJECT,
      stdio: ['ignore', 'inherit', 'inherit'],
    });
    child.on('close', (status) => {
      if (status === 0) passed += 1;
      else failed += 1;
      console.log(`${status === 0 ? 'ok    ' : 'FAILED'} ${name}`);
      done();
    });
  });
}

function runVitest() {
  mkdirSync(join(PROJECT, 'tests', 'output'), { recursive: true });
  rmSync(report, { force: true });
  const vitest = join(PROJECT, 'node_modules', 'vitest', 'vitest.mjs');
  const environment = { ...process.env, LEAVE_LONG_TESTS_OUT: leavesLongOut ? 'yes' : 'no' };
  const { status } = spawnSync(
    process.execPath,
    [vitest, 'run', '--reporter=default', '--reporter=json', `--outputFile=${report}`, ...filters],
    { cwd: PROJECT, stdio: ['ignore', 'inherit', 'inherit'], env: environment },
  );
  const results = existsSync(report) ? JSON.parse(readFileSync(report, 'utf8')) : null;
  passed += results?.numPassedTests ?? 0;
  // A file that fails before its first test, or an error outside any test, has no count of its own.
  const counted = results?.numFailedTests ?? 0;
  failed += status === 0 ? counted : Math.max(1, counted);
}

/** The browser tests drive one of Debian's (`tests/support/dashboard.ts`), or any that CHROMIUM names. */
function ensureBrowser(say) {
  const named = process.env['CHROMIUM'];
  const usable = named === undefined ? DEBIAN_BROWSERS : [named];
  if (usable.some((program) => existsSync(program))) return;
  ensureFromDebian('chromium-headless-shell', say, {
    what: 'The browser tests need Chromium.',
    elsewhere: 'install it and set CHROMIUM to the path of its program.',
  });
}

/** What a report says as a PDF is read by other programs than the one that wrote it. */
function ensurePdfTools(say) {
  if (spawnSync('pdftotext', ['-v']).error === undefined) return;
  ensureFromDebian('poppler-utils', say, {
    what: 'The tests of the report need poppler’s tools.',
    elsewhere: 'install poppler, and see that “pdftotext -v” runs.',
  });
}

/** A van's way to its office is tested with a real broker and a real database. */
function ensureOffice(say) {
  if (!hasProgram('mosquitto')) {
    ensureFromDebian('mosquitto', say, {
      what: 'The tests of a van’s way to its office need the broker Mosquitto.',
      elsewhere: 'install it, and see that “mosquitto” is in the PATH.',
    });
  }
  if (!hasProgram('initdb')) {
    ensureFromDebian('postgresql', say, {
      what: 'The tests of a van’s way to its office need PostgreSQL.',
      elsewhere: 'install it, and see that “initdb” and “postgres” are in the PATH.',
    });
  }
}

/** Debian keeps servers out of a user's PATH. */
function hasProgram(name) {
  const versions = '/usr/lib/postgresql';
  const folders = [
    ...(process.env['PATH'] ?? '').split(delimiter),
    '/usr/sbin',
    ...(existsSync(versions)
      ? readdirSync(versions).map((version) => join(versions, version, 'bin'))
      : []),
  ];
  return folders.some((folder) => existsSync(join(folder, name)));
}

function ensureFromDebian(name, say, { what, elsewhere }) {
  if (!existsSync('/usr/bin/apt-get') || process.getuid?.() !== 0) {
    throw new SetupError(
      `${what} On Debian: sudo apt-get install ${name}. Elsewhere: ${elsewhere}`,
    );
  }
  say(`Installing ${name} from Debian’s packages.`);
  const environment = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  for (const args of [
    ['update', '-qq'],
    ['install', '-y', '-qq', name],
  ]) {
    const { status } = spawnSync('apt-get', args, { stdio: ['ignore', 2, 2], env: environment });
    if (status !== 0) throw new SetupError(`Debian’s ${name} could not be installed.`);
  }
}
