/** The walls between the rooms stand, and the check that says so can fail. */
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { cruise } from 'dependency-cruiser';
import type { IConfiguration } from 'dependency-cruiser';
import { beforeAll, expect, test } from 'vitest';

const PROJECT = fileURLToPath(new URL('../..', import.meta.url));
const rules: IConfiguration = createRequire(import.meta.url)('./.dependency-cruiser.cjs');
const ROOMS = ['protocol', 'server', 'simulators', 'tests', 'web'];

/** What crosses a wall, by the rule that has to see it: a file that is planted, and what stands in it. */
const BREACHES = [
  ['protocol-imports-nothing-of-ours', 'protocol/planted.ts', '../web/analysis/conclusions.ts'],
  ['web-imports-only-protocol', 'web/analysis/planted.ts', '../../simulators/physics/advance.ts'],
  ['judge-rise-stands-on-what-is-below', 'web/analysis/rise/planted.ts', '../verdict/verdict.ts'],
  ['judge-fitting-stands-on-what-is-below', 'web/analysis/fitting/planted.ts', '../judge.ts'],
  ['every-room-of-the-judge-has-a-floor', 'web/analysis/attic/planted.ts', '../conclusions.ts'],
  ['nobody-imports-server', 'web/live/planted.ts', '../../server/options.ts'],
  ['pure-folders-import-only-pure-ones', 'web/report/planted.ts', '../store/session.ts'],
  ['server-http-keeps-to-itself', 'server/http/planted.ts', '../record/recorder.ts'],
  ['server-imports-only-the-pure-part', 'server/stream/planted.ts', '../../web/store/growable.ts'],
  ['one-folder-knows-the-pdf-library', 'server/http/planted-pdf.ts', 'pdfmake'],
  // What vans alone may do is caught elsewhere, and what they may not.
  ['server-vans-keeps-to-itself', 'server/vans/publish/planted.ts', '../../record/recorder.ts'],
  ['one-file-knows-the-broker-library', 'server/vans/publish/planted-broker.ts', 'mqtt'],
  ['one-folder-knows-the-database-of-an-office', 'server/vans/broker/planted.ts', 'pg'],
  ['no-circles', 'protocol/planted-a.ts', './planted-b.ts'],
  ['no-circles', 'protocol/planted-b.ts', './planted-a.ts'],
] as const;

/** What the rules say of the house with all of that in it: a look at the whole house takes seconds. */
let found: readonly string[] = [];

beforeAll(async () => {
  // A copy, so that walls can be broken without touching the real one.
  const copy = mkdtempSync(join(tmpdir(), 'house-'));
  try {
    for (const name of [...ROOMS, 'tsconfig.json', 'package.json']) {
      cpSync(join(PROJECT, name), join(copy, name), {
        recursive: true,
        filter: (path) => !/[/\\](dist|output)$/u.test(path),
      });
    }
    symlinkSync(join(PROJECT, 'node_modules'), join(copy, 'node_modules'), 'junction');
    for (const [, file, target] of BREACHES) {
      mkdirSync(dirname(join(copy, file)), { recursive: true });
      writeFileSync(join(copy, file), `export * from '${target}';\n`);
    }
    found = await violations(copy);
  } finally {
    rmSync(copy, { recursive: true, force: true });
  }
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

test('no import crosses a wall, and there are no circles', async () => {
  expect(await violations(PROJECT)).toEqual([]);
});

test.each(BREACHES)('%s: %s importing %s is caught', (rule, file) => {
  expect(found.filter((one) => one.startsWith(rule) && one.includes(file))).not.toEqual([]);
});

test('nothing else is caught', () => {
  expect(found.filter((one) => !one.includes('planted'))).toEqual([]);
});
