/** The bridge of a van and the office's collector, each in a process of its own, as people start them. */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { createRequire } from 'node:module';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { until } from './debian-tools.ts';
import type { TestBroker } from './broker.ts';
import type { TestDatabase } from './database.ts';

const PROJECT = new URL('../../../', import.meta.url);
const LOADER = pathToFileURL(createRequire(import.meta.url).resolve('tsx')).href;

export interface Program {
  processId(): number;
  /** What it has said so far. */
  said(): string;
  /** Resolves once it has said that. */
  says(words: string | RegExp): Promise<void>;
  kill(): Promise<void>;
  /** As Ctrl+C does. */
  stop(): Promise<void>;
  readonly ended: Promise<void>;
}

export function startVan(
  broker: TestBroker,
  {
    van,
    dataFolder,
    loginFile = broker.loginFile(van),
    more = [],
  }: { van: string; dataFolder: string; loginFile?: string; more?: readonly string[] },
): Program {
  return started([
    pathOf('server/start.mjs'),
    ...['--port', '0', '--no-open', '--data', dataFolder, '--publish', broker.url, '--van', van],
    ...['--broker-login', loginFile, '--broker-ca', broker.authorityFile, ...more],
  ]);
}

export function startCollector(broker: TestBroker, database: TestDatabase): Program {
  return started([
    ...[pathOf('server/command.mjs'), 'collect', '--broker', broker.url],
    ...['--broker-login', broker.loginFile('office'), '--broker-ca', broker.authorityFile],
    ...['--database', database.url],
  ]);
}

/** It ends by itself. */
export function startDoomedCollector(broker: TestBroker, database: TestDatabase): Program {
  return started([
    ...['--import', LOADER, pathOf('tests/support/office/killed-collector.ts')],
    ...[broker.url, broker.loginFile('office'), broker.authorityFile, database.url],
  ]);
}

function pathOf(file: string): string {
  return fileURLToPath(new URL(file, PROJECT));
}

function started(args: readonly string[]): Program {
  const child: ChildProcess = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'pipe'] });
  let text = '';
  const hear = (bytes: Buffer): void => {
    text += bytes.toString('utf8');
  };
  child.stdout?.on('data', hear);
  child.stderr?.on('data', hear);
  const ended = once(child, 'exit').then(() => undefined);
  const end = async (signal: 'SIGKILL' | 'SIGINT'): Promise<void> => {
    child.kill(signal);
    await ended;
  };
  return {
    processId: () => child.pid ?? 0,
    said: () => text,
    says: (words) =>
      until(`${String(words)} after: ${text}`, () =>
        typeof words === 'string' ? text.includes(words) : words.test(text),
      ),
    kill: () => end('SIGKILL'),
    stop: () => end('SIGINT'),
    ended,
  };
}
