/**
 * Brings a fresh checkout to where it can run, with nothing but Node: installs what is missing and
 * builds the page. Begins with built-in modules only, since nothing else is there yet.
 */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const PROJECT = fileURLToPath(new URL('..', import.meta.url));
const INSTALL_STAMP = join(PROJECT, 'node_modules', '.ebbline-installed.json');
const PAGE_STAMP = join(PROJECT, 'web', 'dist', '.ebbline-built');
/** What the built page depends on. */
const PAGE_SOURCES = ['web', 'protocol', 'package-lock.json'];

/** The command line was fine, but the set-up failed; the message says what to do. */
export class SetupError extends Error {
  name = 'SetupError';
}

/**
 * Takes the steps of a set-up, or says what to do about one that failed and ends the program.
 * @param {(say: (line: string) => void) => void} steps
 */
export function setUpOrExit(steps) {
  const say = (line) => process.stderr.write(`${line}\n`);
  try {
    steps(say);
  } catch (error) {
    if (!(error instanceof SetupError)) throw error;
    say(error.message);
    process.exit(1);
  }
}

/** Once packages are there: from now on Node runs the TypeScript as it stands. */
export async function readTypeScript() {
  const { register } = await import('tsx/esm/api');
  register();
}

/**
 * Installs packages where the last install was for another lock file, platform or Node version.
 * @param {{ development: boolean, say: (line: string) => void }} options
 */
export function ensureInstalled({ development, say }) {
  const wanted = {
    lock: digest([join(PROJECT, 'package-lock.json')]),
    platform: `${process.platform}-${process.arch}-${process.versions.modules}`,
  };
  const present = readJson(INSTALL_STAMP);
  const sameInstall = present?.lock === wanted.lock && present?.platform === wanted.platform;
  if (sameInstall && (present.development || !development)) return;
  say('Installing what is missing; the first time this takes a minute or two.');
  npm(['ci', '--no-audit', '--no-fund', ...(development ? [] : ['--omit=dev'])]);
  writeFileSync(INSTALL_STAMP, JSON.stringify({ ...wanted, development }));
}

/**
 * Builds the page where its sources changed since the last build.
 * @param {{ say: (line: string) => void }} options
 */
export function ensurePageBuilt({ say }) {
  const wanted = digest(PAGE_SOURCES.flatMap((path) => filesBelow(join(PROJECT, path))));
  if (existsSync(PAGE_STAMP) && readFileSync(PAGE_STAMP, 'utf8') === wanted) return;
  say('Building the page.');
  const vite = join(PROJECT, 'node_modules', 'vite', 'bin', 'vite.js');
  run(
    process.execPath,
    [vite, 'build', 'web', '--logLevel', 'warn'],
    'The page could not be built.',
  );
  writeFileSync(PAGE_STAMP, wanted);
}

/** @param {string[]} args */
function npm(args) {
  const cli = process.env['npm_execpath'];
  const why =
    'The packages could not be installed. Is this computer on the internet? Then try again.';
  // Running npm's own script through Node avoids npm.cmd, which Windows starts through a shell only.
  if (cli?.endsWith('.js')) run(process.execPath, [cli, ...args], why);
  else run('npm', args, why);
}

/** Output goes to the error stream, so that a command's own output stays clean. */
function run(file, args, why) {
  const { status } = spawnSync(file, args, { cwd: PROJECT, stdio: ['ignore', 2, 2] });
  if (status !== 0) throw new SetupError(why);
}

function filesBelow(path) {
  if (!existsSync(path)) return [];
  const entries = readdirSafely(path);
  if (!entries) return [path];
  return entries
    .filter((entry) => entry.name !== 'dist' && entry.name !== 'node_modules')
    .flatMap((entry) => filesBelow(join(path, entry.name)))
    .sort();
}

function readdirSafely(path) {
  try {
    return readdirSync(path, { withFileTypes: true });
  } catch {
    return null;
  }
}

function digest(files) {
  const hash = createHash('sha256');
  for (const file of files) hash.update(file.slice(PROJECT.length)).update(readFileSync(file));
  return hash.digest('hex');
}

function readJson(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    return null;
  }
}
