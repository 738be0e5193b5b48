/** The order of the tests knows every folder that there is, and begins with those that wait for something real. */
import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { placeInOrder, SLOWEST_FIRST } from '../slowest-first.ts';

const TESTS = fileURLToPath(new URL('..', import.meta.url));

test('every folder with test files has its place, and no other', () => {
  const folders = readdirSync(TESTS, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.test.ts') && !/node_modules|^output/u.test(path))
    .map((path) => path.split(/[/\\]/u)[0]);
  expect([...SLOWEST_FIRST].sort()).toEqual([...new Set(folders)].sort());
});

test('a file’s place is its folder’s, wherever the project lies', () => {
  const paths = [
    '/home/tests/ebbline/tests/unit/web/view.test.ts',
    'C:\\ebbline\\tests\\browser\\phone.test.ts',
    '/home/radio/tests/published/units.test.ts',
    '/srv/ebbline/tests/radio/loading.test.ts',
    '/srv/ebbline/tests/elsewhere.test.ts',
  ];
  const inOrder = [...paths].sort((a, b) => placeInOrder(a) - placeInOrder(b));
  expect(inOrder).toEqual([paths[3], paths[1], paths[0], paths[2], paths[4]]);
});
