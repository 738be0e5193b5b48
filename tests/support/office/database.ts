/** A real PostgreSQL of its own in a temporary folder, reached by a socket there. It refuses to run as root. */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { chownSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { findProgram, until } from './debian-tools.ts';

/** Whom a root's database runs as. */
const NOBODY = 65_534;

export interface TestDatabase {
  readonly url: string;
  rows(sql: string, values?: readonly unknown[]): Promise<Record<string, unknown>[]>;
  /** The only value of the only row. */
  number(sql: string, values?: readonly unknown[]): Promise<number>;
  processId(): number;
  remove(): Promise<void>;
}

/** @param settings of its own; without any it does not wait for the disk: a test kills its clients, never itself */
export async function testDatabase(
  settings: readonly string[] = ['fsync=off'],
): Promise<TestDatabase> {
  const [initdb, postgres] = ['initdb', 'postgres'].map((name) => findProgram(name, 'postgresql'));
  if (initdb === undefined || postgres === undefined) throw new Error('no database');
  const folder = mkdtempSync(join(tmpdir(), 'office-'));
  const isRoot = process.getuid?.() === 0;
  if (isRoot) chownSync(folder, NOBODY, NOBODY);
  const as = isRoot ? { uid: NOBODY, gid: NOBODY } : {};
  const data = join(folder, 'data');
  const made = spawnSync(
    initdb,
    ['-D', data, '-U', 'office', '-A', 'trust', '-E', 'UTF8', '--no-sync', '--no-instructions'],
    { ...as, cwd: folder, env: { ...process.env, LC_ALL: 'C' } },
  );
  if (made.status !== 0) throw new Error(`initdb: ${String(made.stderr)}`);
  const all = ['listen_addresses=', `unix_socket_directories=${folder}`, ...settings];
  const child: ChildProcess = spawn(postgres, ['-D', data, ...all.flatMap((one) => ['-c', one])], {
    ...as,
    cwd: folder,
    stdio: 'ignore',
  });
  const url = `postgresql:///postgres?host=${encodeURIComponent(folder)}&user=office`;
  let client = new pg.Client({ connectionString: url });
  await until('the database answers', async () => {
    try {
      client = new pg.Client({ connectionString: url });
      await client.connect();
      return true;
    } catch {
      return false;
    }
  });
  const rows = async (sql: string, values: readonly unknown[] = []) => {
    const answer = await client.query<Record<string, unknown>>(sql, [...values]);
    return answer.rows;
  };
  return {
    url,
    rows,
    number: async (sql, values) => Number(Object.values((await rows(sql, values))[0] ?? {})[0]),
    processId: () => child.pid ?? 0,
    remove: async () => {
      await client.end();
      child.kill('SIGQUIT');
      await once(child, 'exit');
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
