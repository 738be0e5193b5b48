/** Starts, watches and ends the process that holds the radio. */
import { fork, type ChildProcess } from 'node:child_process';
import { createRequire } from 'node:module';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { Stretch } from '../number-set.ts';
import { fromRadioSchema, type FromRadio, type RadioEnd, type ToRadio } from './messages.ts';
import type { RadioTiming } from './timing.ts';

export interface RadioProcessOptions {
  readonly timing: RadioTiming;
  readonly environment: Readonly<Record<string, string>>;
  /** For Node, after the TypeScript loader. */
  readonly execArguments: readonly string[];
  readonly onMessage: (message: FromRadio) => void;
  /** The process is gone and everything that it had said has been delivered. */
  readonly onEnd: (why: RadioEnd | 'crashed', detail: string) => void;
  readonly log: (text: string) => void;
}

/** Loading everything on a slow computer. */
const START_LIMIT_MS = 30_000;

export class RadioProcess {
  readonly #options: RadioProcessOptions;
  readonly #child: ChildProcess;
  readonly #heartbeat: NodeJS.Timeout;
  readonly #gone: Promise<void>;
  #last: { readonly why: RadioEnd; readonly detail: string } | null = null;
  #heard = false;
  #unansweredMs = 0;

  constructor(options: RadioProcessOptions) {
    this.#options = options;
    this.#child = launch(options);
    const { stdout, stderr } = this.#child;
    for (const stream of [stdout, stderr]) {
      stream?.setEncoding('utf8').on('data', (text) => options.log(String(text).trimEnd()));
    }
    this.#child.on('message', (message) => this.#onMessage(message));
    this.#gone = this.#untilGone();
    this.#heartbeat = setInterval(() => this.#beat(), options.timing.heartbeatMs);
    this.#say({ type: 'begin', timing: options.timing });
  }

  /** For tests and logs. */
  get pid(): number | undefined {
    return this.#child.pid;
  }

  /** Which sensors without our profile are to be heard. */
  choose(sensorIds: readonly string[]): void {
    this.#say({ type: 'choose', sensorIds: [...sensorIds] });
  }

  /** Has a sensor asked for readings that were missed; see `messages.ts`. */
  fetch(sensorId: string, { from, to }: Stretch): void {
    this.#say({ type: 'fetch', sensorId, from, to });
  }

  /** Asks it to end, and ends it where it doesn't. */
  async stop(): Promise<void> {
    this.#say({ type: 'stop' });
    const timer = setTimeout(() => this.#child.kill('SIGKILL'), this.#options.timing.stopMs);
    await this.#gone;
    clearTimeout(timer);
  }

  #onMessage(message: unknown): void {
    this.#heard = true;
    this.#unansweredMs = 0;
    const parsed = fromRadioSchema.safeParse(message);
    if (!parsed.success) this.#options.log(`not understood: ${parsed.error.message}`);
    else if (parsed.data.type === 'end') this.#last = parsed.data;
    else if (parsed.data.type === 'log') this.#options.log(parsed.data.text);
    else if (parsed.data.type !== 'pong') this.#options.onMessage(parsed.data);
  }

  /** Counts beats and not the clock, so that a computer that slept kills nobody on waking. */
  #beat(): void {
    const { heartbeatMs, heartbeatLimitMs } = this.#options.timing;
    this.#unansweredMs += heartbeatMs;
    const limitMs = this.#heard ? heartbeatLimitMs : START_LIMIT_MS;
    if (this.#unansweredMs > limitMs) this.#child.kill('SIGKILL');
    else this.#say({ type: 'ping' });
  }

  #say(message: ToRadio): void {
    // It may be gone before it has heard; `#untilGone` says so.
    if (this.#child.connected) this.#child.send(message, () => undefined);
  }

  /** Its last messages come after its exit: the channel closes when all have been read. */
  async #untilGone(): Promise<void> {
    const child = this.#child;
    const detail = await new Promise<string>((resolve) => {
      child.once('error', (error) => resolve(error.message));
      child.once('exit', (code, signal) => {
        const how = `exit code ${String(code)}, signal ${String(signal)}`;
        if (child.connected) child.once('disconnect', () => resolve(how));
        else resolve(how);
      });
    });
    clearInterval(this.#heartbeat);
    if (this.#last === null) this.#options.onEnd('crashed', detail);
    else this.#options.onEnd(this.#last.why, this.#last.detail);
  }
}

function launch({ environment, execArguments }: RadioProcessOptions): ChildProcess {
  const loader = pathToFileURL(createRequire(import.meta.url).resolve('tsx')).href;
  return fork(fileURLToPath(new URL('child.ts', import.meta.url)), [], {
    execArgv: ['--import', loader, ...execArguments],
    env: { ...process.env, ...environment },
    serialization: 'advanced',
    stdio: ['ignore', 'pipe', 'pipe', 'ipc'],
  });
}
