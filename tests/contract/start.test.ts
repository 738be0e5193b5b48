/** `npm start` at a terminal: it says where it runs, and says in plain words when it can't. */
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { healthSchema } from '../../protocol/api.ts';
import { PROBLEMS } from '../../protocol/problems.ts';
import type { ProblemCode } from '../../protocol/problems.ts';
import { runBridge } from '../support/running-bridge.ts';

const START = fileURLToPath(new URL('../../server/start.mjs', import.meta.url));

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'start-'));
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

/** Runs to the end, or until `ready` is printed; then asks it to stop, as Ctrl+C does. */
function start(options: readonly string[], ready?: (printed: string) => void | Promise<void>) {
  return new Promise<{ status: number | null; printed: string }>((resolve, reject) => {
    const child = spawn(process.execPath, [START, '--no-open', ...options]);
    let printed = '';
    let stopping = false;
    const hear = (bytes: Buffer): void => {
      printed += bytes.toString('utf8');
      if (stopping || !ready || !printed.includes('Stop with Ctrl+C')) return;
      stopping = true;
      Promise.resolve(ready(printed))
        .catch(reject)
        .finally(() => child.kill('SIGINT'));
    };
    child.stdout.on('data', hear);
    child.stderr.on('data', hear);
    child.on('error', reject);
    child.on('close', (status) => resolve({ status, printed }));
  });
}

function said(code: ProblemCode): { meaning: string; remedy: string } {
  // The meaning is followed by what exactly failed, so its full stop is not at the end.
  return { meaning: PROBLEMS[code].meaning, remedy: PROBLEMS[code].remedy };
}

describe('npm start', () => {
  test('prints the address, answers there, and ends in order', async () => {
    const { status, printed } = await start(
      ['--port', '0', '--data', join(folder, 'a')],
      async (text) => {
        const address = /http:\/\/127\.0\.0\.1:\d+\//u.exec(text)?.[0] ?? '';
        const health = healthSchema.parse(await (await fetch(`${address}api/health`)).json());
        expect(health.dataFolder).toBe(join(folder, 'a'));
        expect((await fetch(address)).headers.get('content-type')).toContain('text/html');
      },
    );
    expect(status).toBe(0);
    expect(printed).not.toMatch(/\n\s+at /u);
  });

  test('a second start finds the running one', async () => {
    const running = await runBridge();
    const { port } = new URL(running.url);
    const { status, printed } = await start(['--port', port, '--data', join(folder, 'b')]);
    expect(printed).toContain(`already runs: ${running.url}`);
    expect(status).toBe(0);
    await running.remove();
  });

  test('a port that another program has', async () => {
    const { createServer } = await import('node:http');
    const other = createServer((_request, answer) => answer.end('not json'));
    const port = await new Promise<number>((resolve) => {
      other.listen(0, '127.0.0.1', () => {
        const address = other.address();
        resolve(typeof address === 'object' && address ? address.port : 0);
      });
    });
    const { status, printed } = await start(['--port', String(port), '--data', join(folder, 'c')]);
    other.close();
    expect(printed).toContain(said('port_taken').meaning);
    expect(printed).toContain(said('port_taken').remedy);
    expect(printed).not.toMatch(/\n\s+at /u);
    expect(status).toBe(1);
  });

  test('a data folder that can’t be written', async () => {
    const file = join(folder, 'a-file');
    writeFileSync(file, '');
    const { status, printed } = await start(['--port', '0', '--data', file]);
    expect(printed).toContain(said('data_folder_unwritable').meaning);
    expect(printed).toContain(file);
    expect(printed).toContain(said('data_folder_unwritable').remedy);
    expect(printed).not.toMatch(/\n\s+at /u);
    expect(status).toBe(1);
  });

  test.each([
    [['--port', 'abc'], /--port is "abc"/u],
    [['--colour'], /--colour/u],
  ])('options that make no sense: %s', async (options, words) => {
    const { status, printed } = await start(options);
    expect(printed).toMatch(words);
    expect(printed).toContain('--data FOLDER');
    expect(status).toBe(1);
  });

  test('--help', async () => {
    const { status, printed } = await start(['--help']);
    expect(printed).toContain('--port N');
    expect(status).toBe(0);
  });
});
