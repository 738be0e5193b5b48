/** What the README says of problems, commands and packages is what the program has. */
import { existsSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import packageJson from '../../package.json' with { type: 'json' };
import { PROBLEM_CODES, PROBLEMS } from '../../protocol/problems.ts';

const project = new URL('../../', import.meta.url);
const read = (file: string): string => readFileSync(new URL(file, project), 'utf8');
const readme = read('README.md');

test('the table of problems is the one of the program', () => {
  const rows = readme.split('\n').filter((line) => line.startsWith('| `'));
  expect(rows).toEqual(
    PROBLEM_CODES.map(
      (code) => `| \`${code}\` | ${PROBLEMS[code].meaning} | ${PROBLEMS[code].remedy} |`,
    ),
  );
});

test('every npm script that a document names is there', () => {
  for (const file of ['README.md', 'DEVELOPERS.md']) {
    for (const [, name] of read(file).matchAll(/npm run (?:--silent )?([a-z-]+)/gu)) {
      expect(Object.keys(packageJson.scripts)).toContain(name);
    }
  }
});

test.each(['README.md', 'DEVELOPERS.md'])('every file that %s links to is there', (file) => {
  for (const [, path = ''] of read(file).matchAll(/\]\((?!https?:|#)([^)#]+)/gu)) {
    expect(existsSync(new URL(path, project)), path).toBe(true);
  }
});

test('the Node version in the README is the one that the package asks for', () => {
  expect(readme).toContain(
    `Node.js](https://nodejs.org) ${packageJson.engines.node.replace('>=', '')} or later`,
  );
});
