/** What comes from others: exact, under licences that allow it, and running nothing of its own unasked. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { z } from 'zod';
import { lockedPackages } from './packages.ts';
import reviewed from './reviewed-packages.json' with { type: 'json' };

const dependencies = z.record(z.string(), z.string());
const manifest = z
  .object({
    dependencies,
    devDependencies: dependencies,
    optionalDependencies: dependencies,
    allowScripts: z.record(z.string(), z.boolean()),
  })
  .parse(JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')));
const direct = {
  ...manifest.dependencies,
  ...manifest.devDependencies,
  ...manifest.optionalDependencies,
};

/** They let anyone use and pass on, without a say in the licence of what uses them. */
const PERMISSIVE = [
  'MIT',
  'ISC',
  '0BSD',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'Apache-2.0',
  'BlueOak-1.0.0',
];
/** A choice that has one of those in it, or more of them together. */
const COMPOUND = [
  '(MIT OR WTFPL)',
  '(MIT AND Zlib)',
  '(BSD-2-Clause OR MIT OR Apache-2.0)',
  'Public Domain',
];
/** Letters: to be embedded and passed on, not to be sold by themselves. */
const OF_LETTERS = ['OFL-1.1', 'Bitstream-Vera'];
/** Its changed files have to be passed on under the same licence; whatever stands beside it is free. */
const FILE_BY_FILE = ['MPL-2.0'];

test('every package that is asked for is one version, and that one was looked at', () => {
  for (const [name, version] of Object.entries(direct)) {
    expect(version, name).toMatch(/^\d+\.\d+\.\d+(-[\w.-]+)?$/u);
  }
  const versions = Object.fromEntries(
    Object.entries(reviewed.packages).map(([name, { version }]) => [name, version]),
  );
  expect(versions, 'review it, then enter it in reviewed-packages.json').toEqual(direct);
});

test('the lock file names the very bytes of every package', () => {
  for (const { name, integrity } of lockedPackages()) {
    expect(integrity, name).toMatch(/^sha512-/u);
  }
});

test('every licence lets the program be used and passed on under its own', () => {
  const allowed = [...PERMISSIVE, ...COMPOUND, ...OF_LETTERS, ...FILE_BY_FILE];
  const others = lockedPackages().filter(({ licence }) => !allowed.includes(licence));
  expect(others).toEqual([]);
});

test('whatever wants to run when it is installed was allowed or refused by name', () => {
  const wanting = lockedPackages().filter(({ hasInstallScript }) => hasInstallScript);
  const names = [...new Set(wanting.map(({ name }) => name))];
  expect(Object.keys(manifest.allowScripts).sort()).toEqual(names.sort());
});
