/** What the `verify-record` command promises: it finds what was altered, and what a report's hash is of. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { z } from 'zod';
import { PROBLEMS } from '../../protocol/problems.ts';
import { run } from '../../server/commands/verify-record.ts';
import { openForWriting, RECORD_FILE } from '../../server/record/open-database.ts';
import { Recorder } from '../../server/record/recorder.ts';
import { MIGRATIONS } from '../../server/record/schema.ts';

const said = vi.spyOn(console, 'error').mockReturnValue();
let folder = '';
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'verify-'));
  said.mockClear();
  const recorder = await record();
  for (const origin of ['sensor', 'import'] as const) {
    const id = recorder.begin(origin, 1000, '');
    await recorder.settled();
    for (const text of ['first', 'second'])
      await recorder.mark(id, { kind: 'note', elapsedS: 1, text }, 'hand');
  }
  await recorder.close();
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

const record = () => Recorder.open(folder, { durable: () => undefined, held: () => undefined });

const lineSchema = z.looseObject({ recordingId: z.int(), hash: z.string(), broken: z.unknown() });

function verify(...more: string[]) {
  const lines: string[] = [];
  const status = run(['--data', folder, ...more], (line) => lines.push(line));
  return { status, found: lines.map((line) => lineSchema.parse(JSON.parse(line))) };
}

function alter(sql: string): void {
  const database = new Database(join(folder, RECORD_FILE));
  database.exec(`DROP TRIGGER mark_is_never_rewritten; ${sql}`);
  database.close();
}

test('a page that was overwritten: it says that the record is damaged, and where damaged files lie', async () => {
  const file = join(folder, RECORD_FILE);
  // Takes up what stands in the log.
  openForWriting(folder).close();
  const whole = readFileSync(file);
  const database = new Database(file, { readonly: true });
  const page = z
    .int()
    .parse(database.prepare("SELECT pageno FROM dbstat WHERE name = 'mark'").pluck().get());
  database.close();
  writeFileSync(file, whole.fill(0xaa, (page - 1) * 4096, page * 4096));
  expect(verify().status).toBe(1);
  expect(said).toHaveBeenCalledWith(expect.stringContaining(PROBLEMS.record_damaged.remedy));
  await (await record()).close();
  expect(verify().status).toBe(0);
  expect(said).toHaveBeenLastCalledWith(expect.stringContaining(join(folder, 'record.damaged-')));
});

test('a record as it was written holds, also while it is written on', async () => {
  const recorder = await record();
  await recorder.mark(1, { kind: 'note', elapsedS: 9, text: 'third' }, 'hand');
  expect(verify()).toMatchObject({
    status: 0,
    found: [
      { recordingId: 0, facts: 0, broken: null },
      { recordingId: 1, facts: 4, broken: null },
      { recordingId: 2, facts: 3, broken: null },
    ],
  });
  await recorder.close();
});

test('an altered recording is named, with the link that does not hold', () => {
  alter("UPDATE mark SET text = 'other' WHERE id = 2");
  const { status, found } = verify();
  expect(status).toBe(1);
  expect(found.map(({ broken }) => broken)).toEqual([
    null,
    { what: 'hash_differs', link: 3, where: 'm2' },
    null,
  ]);
  expect(verify('--recording', '2').status).toBe(0);
});

test('a report’s hash is found, also after more was recorded, and not once it was altered', async () => {
  const hash = verify('--recording', '1').found[0]?.hash ?? '';
  const recorder = await record();
  await recorder.mark(1, { kind: 'note', elapsedS: 9, text: 'third' }, 'hand');
  await recorder.close();
  const printed = hash.replaceAll(/(.{8})/gu, '$1 ').toUpperCase();
  expect(verify('--hash', printed)).toMatchObject({
    status: 0,
    found: [{ recordingId: 1, hashAtLink: 3, facts: 4 }],
  });
  alter("UPDATE mark SET text = 'other' WHERE id = 1");
  expect(verify('--hash', hash).status).toBe(1);
  expect(said.mock.calls.flat().join('\n')).toContain('no recording leads to this hash');
});

test.each([
  [['--recording', '9'], 'recording 9'],
  [['--recording', 'one'], 'whole number'],
  [['--hash', 'abc'], '64 digits'],
  [['--nonsense'], 'nonsense'],
])('%j is refused with what to do', (argv, words) => {
  expect(verify(...argv).status).toBe(1);
  expect(said.mock.calls.flat().join('\n')).toContain(words);
});

test('a record of an older version is left as it is, and what to do is said', () => {
  rmSync(folder, { recursive: true });
  folder = mkdtempSync(join(tmpdir(), 'verify-'));
  const old = new Database(join(folder, RECORD_FILE));
  for (const migration of MIGRATIONS.slice(0, 3)) old.exec(migration);
  old.pragma('user_version = 3');
  old.close();
  expect(verify().status).toBe(1);
  expect(said.mock.calls.flat().join('\n')).toContain('Run npm start once');
});
