/**
 * The disk takes no more, and later it does again. The operating system itself refuses: the process may write no
 * larger files, until it may. Only Linux lets somebody else lift that limit.
 */
import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { CHILD, LOADER } from './kill-rounds.ts';
import { inspect } from './inspect-record.ts';

/** Some twenty commits more than an empty record has, in blocks of 512 or 1024 bytes. */
const MOST_BLOCKS = 400;

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'full-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

test.runIf(process.platform === 'linux')(
  'what could not be written waits, and all of it is there once there is room',
  async () => {
    const command = `ulimit -S -f ${MOST_BLOCKS}; exec "$@"`;
    const argv = ['-c', command, 'sh', process.execPath, '--import', LOADER, CHILD, folder];
    const child = spawn('sh', argv, { stdio: ['ignore', 'pipe', 'pipe'] });
    const said = { durable: '', held: '' };
    child.stdout.setEncoding('utf8').on('data', (text: string) => (said.durable += text));
    child.stderr.setEncoding('utf8').on('data', (text: string) => (said.held += text));
    const until = (condition: () => boolean) =>
      expect.poll(condition, { timeout: 25_000 }).toBe(true);
    await until(() => said.held.split('\n').length > 2);
    const before = said.durable;
    const linesThen = said.held.split('\n').length;
    await until(() => said.held.split('\n').length > linesThen);
    // Nothing is said to be durable meanwhile.
    expect(said.durable).toBe(before);
    const lastIndex = () => Number(said.durable.trim().split('\n').at(-1)?.split(' ')[1]);
    const lastBefore = lastIndex();
    spawnSync('prlimit', ['--pid', String(child.pid), '--fsize=unlimited:unlimited']);
    await until(() => lastIndex() > lastBefore + 80);
    child.kill('SIGKILL');
    await once(child, 'close');
    const { harm, lastIndexes } = inspect(folder);
    expect(harm).toEqual([]);
    expect(lastIndexes.get(1)).toBeGreaterThanOrEqual(lastIndex());
  },
);
