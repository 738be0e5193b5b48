/** A bridge in a process of its own (steady-bridge.ts), as seen by who started it. */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { rmSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { z } from 'zod';
import { RECORD_FILE } from '../../server/record/open-database.ts';
import { lostReadings } from './steady-sensors.ts';

const LOADER = pathToFileURL(createRequire(import.meta.url).resolve('tsx')).href;
const CHILD = fileURLToPath(new URL('steady-bridge.ts', import.meta.url));

const readySchema = z.object({
  kind: z.literal('ready'),
  url: z.string(),
  dataFolder: z.string(),
});
const stateSchema = z.object({
  kind: z.literal('state'),
  rss: z.number(),
  heapUsed: z.number(),
  external: z.number(),
  arrayBuffers: z.number(),
  p99Ms: z.number(),
  handles: z.number(),
  delivered: z.number(),
});
const stoppedSchema = z.object({ kind: z.literal('stopped'), delivered: z.number() });

/** The sensors' own, the first of its record. */
export const STEADY_RECORDING = 1;

export class BridgeProcess {
  readonly url: string;
  readonly #dataFolder: string;
  readonly #child: ChildProcess;
  readonly #sensors: number;
  readonly #said: { text: string };

  /** @param pace by hand: a minute of data time each time that it is asked for */
  static async start(sensors: number, pace: 'live' | 'by-hand' = 'live'): Promise<BridgeProcess> {
    const argv = [
      '--unhandled-rejections=strict',
      '--import',
      LOADER,
      CHILD,
      String(sensors),
      pace,
    ];
    const child = spawn(process.execPath, argv, { stdio: ['ignore', 'ignore', 'pipe', 'ipc'] });
    const said = { text: '' };
    child.stderr?.setEncoding('utf8').on('data', (text: string) => (said.text += text));
    const ready = readySchema.parse(await answer(child, said));
    return new BridgeProcess(child, ready, sensors, said);
  }

  private constructor(
    child: ChildProcess,
    { url, dataFolder }: z.infer<typeof readySchema>,
    sensors: number,
    said: { text: string },
  ) {
    this.url = url;
    this.#dataFolder = dataFolder;
    this.#child = child;
    this.#sensors = sensors;
    this.#said = said;
  }

  /** What it has said on its terminal: a stack stands there where something failed in it. */
  get terminal(): string {
    return this.#said.text;
  }

  get isRunning(): boolean {
    return this.#child.exitCode === null && this.#child.signalCode === null;
  }

  /** @param without garbage: what is that is no growth */
  async state(without?: 'garbage'): Promise<z.infer<typeof stateSchema>> {
    this.#child.send(without === undefined ? 'state' : 'state-without-garbage');
    return stateSchema.parse(await answer(this.#child, this.#said));
  }

  minute(): void {
    this.#child.send('minute');
  }

  /** On the disk, the log of changes with it. */
  get recordBytes(): number {
    return [RECORD_FILE, `${RECORD_FILE}-wal`]
      .map((name) => statSync(join(this.#dataFolder, name), { throwIfNoEntry: false })?.size ?? 0)
      .reduce((sum, bytes) => sum + bytes, 0);
  }

  /** @returns how many readings its sensors delivered, and how many of them its record lacks */
  async stop(): Promise<{ readonly delivered: number; readonly lost: number }> {
    this.#child.send('stop');
    const { delivered } = stoppedSchema.parse(await answer(this.#child, this.#said));
    const lost = lostReadings(this.#dataFolder, STEADY_RECORDING, this.#sensors, delivered);
    rmSync(this.#dataFolder, { recursive: true, force: true });
    return { delivered: delivered * this.#sensors, lost };
  }
}

/** @throws Error where it ends instead, with what it said last */
async function answer(child: ChildProcess, said: { readonly text: string }): Promise<unknown> {
  const ended = new AbortController();
  try {
    return await Promise.race([
      once(child, 'message', { signal: ended.signal }).then(([message]: unknown[]) => message),
      once(child, 'exit', { signal: ended.signal }).then(([code, signal]: unknown[]) => {
        throw new Error(`the bridge ended (${String(code ?? signal)}): ${said.text.slice(-2000)}`);
      }),
    ]);
  } finally {
    ended.abort();
  }
}
