/** The walls between the rooms stand, and the check that says so can fail. */
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { cruise } from 'dependency-cruiser';
import type { IConfiguration } from 'dependency-cruiser';
import { afterAll, beforeAll, expect, test } from 'vitest';

const PROJECT = fileURLToPath(new URL('../..', import.meta.url));
const rules: IConfiguration = createRequire(import.meta.url)('./.dependency-cruiser.cjs');
const ROOMS = ['protocol', 'server', 'simulators', 'tests', 'web'];

/** A copy of the house, so that walls can be broken without touching the real one. */
let copy = '';

beforeAll(() => {
  copy = mkdtempSync(join(tmpdir(), 'house-'));
  for (const name of [...ROOMS, 'tsconfig.json', 'package.json']) {
    cpSync(join(PROJECT, name), join(copy, name), {
      recursive: true,
      filter: (path) => !/[/\\](dist|output)$/u.test(path),
    });
  }
  symlinkSync(join(PROJECT, 'node_modules'), join(copy, 'node_modules'), 'junction');
});

afterAll(() => {
  rmSync(copy, { recursive: true, force: true });
});

async function violations(baseDir: string): Promise<string[]> {
  const { output } = await cruise(ROOMS, {
    ...rules.options,
    baseDir,
    validate: true,
    ruleSet: { forbidden: rules.forbidden ?? [] },
  });
  if (typeof output === 'string') throw new Error('a cruise without a reporter gives an object');
  return output.summary.violations.map(({ rule, from, to }) => `${rule.name}: ${from} → ${to}`);
}

async function violationsWith(files: Readonly<Record<string, string>>): Promise<string> {
  const paths = Object.keys(files).map((file) => join(copy, file));
  for (const [file, content] of Object.entries(files)) writeFileSync(join(copy, file), content);
  try {
    return (await violations(copy)).join('\n');
  } finally {
    for (const path of paths) rmSync(path);
  }
}

test('no import crosses a wall, and there are no circles', async () => {
  expect(await violations(PROJECT)).toEqual([]);
});

test.each([
  ['protocol/planted.ts', '../web/analysis/conclusions.ts', 'protocol-imports-nothing-of-ours'],
  ['web/analysis/planted.ts', '../../simulators/physics/advance.ts', 'web-imports-only-protocol'],
  ['web/analysis/rise/planted.ts', '../verdict/verdict.ts', 'judge-rise-stands-on-what-is-below'],
  ['web/analysis/fitting/planted.ts', '../judge.ts', 'judge-fitting-stands-on-what-is-below'],
  ['web/live/planted.ts', '../../server/options.ts', 'nobody-imports-server'],
  ['web/report/planted.ts', '../store/session.ts', 'pure-folders-import-only-pure-ones'],
  ['server/http/planted.ts', '../record/recorder.ts', 'server-http-keeps-to-itself'],
  ['server/stream/planted.ts', '../../web/store/growable.ts', 'server-imports-only-the-pure-part'],
  ['server/http/planted.ts', 'pdfmake', 'one-folder-knows-the-pdf-library'],
])('%s importing %s is caught', async (file, target, rule) => {
  expect(await violationsWith({ [file]: `export * from '${target}';\n` })).toContain(rule);
});

test('a new room of the judge has to be given its place', async () => {
  mkdirSync(join(copy, 'web', 'analysis', 'attic'));
  const found = await violationsWith({
    'web/analysis/attic/planted.ts': "export * from '../conclusions.ts';\n",
  });
  rmSync(join(copy, 'web', 'analysis', 'attic'), { recursive: true });
  expect(found).toContain('every-room-of-the-judge-has-a-floor: web/analysis/attic/planted.ts');
});

test('what vans alone may do is caught elsewhere, and what they may not', async () => {
  const found = await violationsWith({
    'server/vans/publish/planted-a.ts': "export * from '../../record/recorder.ts';\n",
    'server/vans/publish/planted-b.ts': "export * from 'mqtt';\n",
    'server/vans/broker/planted-c.ts': "export * from 'pg';\n",
  });
  expect(found).toContain('server-vans-keeps-to-itself: server/vans/publish/planted-a.ts');
  expect(found).toContain('one-file-knows-the-broker-library: server/vans/publish/planted-b.ts');
  expect(found).toContain(
    'one-folder-knows-the-database-of-an-office: server/vans/broker/planted-c',
  );
});

test('a circle is caught', async () => {
  const found = await violationsWith({
    'protocol/planted-a.ts': "export * from './planted-b.ts';\n",
    'protocol/planted-b.ts': "export * from './planted-a.ts';\n",
  });
  expect(found).toContain('no-circles');
});
