/** The page that is built holds nothing of where and when: so anyone can check one against the sources. */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';

const PROJECT = fileURLToPath(new URL('../..', import.meta.url));
const SOURCES = ['web', 'protocol', 'simulators', 'package.json', 'tsconfig.json'];
const folder = mkdtempSync(join(tmpdir(), 'same-build-'));
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

/** Builds a copy of the sources in a folder of that name; hashes of its files, by their names. */
function built(name: string, timeZone: string): Record<string, string> {
  const copy = join(folder, name);
  for (const source of SOURCES) {
    const isSource = (path: string) => !path.endsWith(join('web', 'dist'));
    cpSync(join(PROJECT, source), join(copy, source), { recursive: true, filter: isSource });
  }
  symlinkSync(join(PROJECT, 'node_modules'), join(copy, 'node_modules'), 'junction');
  const vite = join(PROJECT, 'node_modules', 'vite', 'bin', 'vite.js');
  const { status, stderr } = spawnSync(
    process.execPath,
    [vite, 'build', 'web', '--logLevel', 'warn'],
    { cwd: copy, env: { ...process.env, TZ: timeZone }, encoding: 'utf8' },
  );
  expect(status, stderr).toBe(0);
  const dist = join(copy, 'web', 'dist');
  const files = readdirSync(dist, { recursive: true, withFileTypes: true });
  return Object.fromEntries(
    files
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name))
      .map((file) => [
        file.slice(dist.length),
        createHash('sha256').update(readFileSync(file)).digest('hex'),
      ]),
  );
}

test('two builds of the same sources, in two places and time zones, are the same to the byte', () => {
  const first = built('here', 'UTC');
  expect(Object.keys(first).length).toBeGreaterThan(5);
  expect(built('elsewhere/and/deeper', 'Pacific/Auckland')).toEqual(first);
}, 120_000);
