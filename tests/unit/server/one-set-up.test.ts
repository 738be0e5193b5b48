import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';

const MODULE = fileURLToPath(new URL('../../../server/one-set-up.mjs', import.meta.url));

/** Writes down when its work begins and ends; the work lasts until there is a file that says go. */
const WORKER = `
  import { appendFileSync, existsSync } from 'node:fs';
  const [, lock, diary, name] = process.argv;
  const { oneAtATime } = await import(${JSON.stringify(MODULE)});
  oneAtATime(lock, {
    say: (line) => console.error(line),
    work: () => {
      appendFileSync(diary, 'begin ' + name + '\\n');
      while (!existsSync(diary + '.go')) {
        Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 20);
      }
      appendFileSync(diary, 'end ' + name + '\\n');
    },
  });
`;

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'set-up-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

function worker(name: string, onSaid: () => void = () => undefined): Promise<string> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [
      '--input-type=module',
      '--eval',
      WORKER,
      join(folder, 'lock'),
      join(folder, 'diary'),
      name,
    ]);
    let said = '';
    child.stderr.on('data', (bytes: Buffer) => {
      said += bytes.toString('utf8');
      onSaid();
    });
    child.on('error', reject);
    child.on('close', () => resolve(said));
  });
}

const diary = () => readFileSync(join(folder, 'diary'), 'utf8').trim().split('\n');
const go = () => writeFileSync(join(folder, 'diary.go'), '');

describe('a set-up', () => {
  it('waits for another of the same folder, and says so', async () => {
    const first = worker('a');
    await vi.waitFor(() => expect(diary()).toEqual(['begin a']), { timeout: 20_000 });
    const second = worker('b', go);
    expect(await second).toContain('waiting for it');
    expect(await first).toBe('');
    expect(diary()).toEqual(['begin a', 'end a', 'begin b', 'end b']);
    expect(existsSync(join(folder, 'lock'))).toBe(false);
  });

  it('takes over from one that died', async () => {
    const dead = spawnSync(process.execPath, ['--eval', '']).pid;
    writeFileSync(join(folder, 'lock'), String(dead));
    go();
    await worker('a');
    expect(diary()).toEqual(['begin a', 'end a']);
  });

  it('takes over from one that would have taken for ever', async () => {
    writeFileSync(join(folder, 'lock'), String(process.pid));
    const longAgo = new Date(Date.now() - 3_600_000);
    utimesSync(join(folder, 'lock'), longAgo, longAgo);
    go();
    await worker('a');
    expect(diary()).toEqual(['begin a', 'end a']);
  });
});
