/** The `virtual-sensor` command in a process of its own, whose adapter is on a virtual air. */
import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { serveController } from '../../simulators/sensor/serve-controller.ts';
import type { ServedController } from '../../simulators/sensor/serve-controller.ts';
import type { VirtualAir } from '../../simulators/sensor/virtual-air.ts';
import type { VirtualController } from '../../simulators/sensor/virtual-controller.ts';

const COMMAND = new URL('../../server/commands/virtual-sensor.ts', import.meta.url).href;
/** As `npm run virtual-sensor` does once everything is installed. */
const SCRIPT = `
  const { run } = await import('${COMMAND}');
  process.exitCode = await run(process.argv.slice(1), (line) => console.log(line));`;

export interface ServedPeripheralOptions {
  readonly air: VirtualAir;
  readonly library: string;
  readonly argv: readonly string[];
  /** On, where not said. */
  readonly adapter?: 'missing' | 'forbidden';
}

export class ServedPeripheral {
  readonly controller: VirtualController;
  readonly served: ServedController;
  /** All that it has said in the terminal. */
  text = '';
  readonly #child: ChildProcess;

  private constructor(
    controller: VirtualController,
    served: ServedController,
    { library, argv }: ServedPeripheralOptions,
  ) {
    this.controller = controller;
    this.served = served;
    const typeScript = ['--import', 'tsx', ...served.execArguments];
    this.#child = spawn(
      process.execPath,
      [...typeScript, '--input-type=module', '-e', SCRIPT, '--', ...argv],
      {
        env: { ...process.env, ...served.environment, EBBLINE_PERIPHERAL_LIBRARY: library },
        stdio: ['ignore', 'pipe', 'pipe'],
      },
    );
    for (const stream of [this.#child.stdout, this.#child.stderr]) {
      stream?.on('data', (text) => (this.text += String(text)));
    }
  }

  static async start(options: ServedPeripheralOptions): Promise<ServedPeripheral> {
    const controller = options.air.createController();
    const served = await serveController(controller);
    if (options.adapter === 'missing') await served.unplug();
    if (options.adapter === 'forbidden') served.forbid();
    return new ServedPeripheral(controller, served, options);
  }

  /** The name that it said it has. */
  get name(): string {
    return /Virtual sensor "([^"]+)"/u.exec(this.text)?.[1] ?? '';
  }

  /** Resolves when it has said something like that. */
  async until(pattern: RegExp, limitMs = 20_000): Promise<void> {
    const endMs = performance.now() + limitMs;
    while (!pattern.test(this.text)) {
      if (performance.now() > endMs) throw new Error(`no ${pattern.source} in: ${this.text}`);
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
  }

  /** As Ctrl+C does; returns its exit status. */
  async end(): Promise<number | null> {
    if (this.#child.exitCode !== null) return this.#child.exitCode;
    const ended = once(this.#child, 'exit');
    this.#child.kill('SIGINT');
    await ended;
    return this.#child.exitCode;
  }

  /** Its exit status, where it ends by itself. */
  async ended(): Promise<number | null> {
    if (this.#child.exitCode === null) await once(this.#child, 'exit');
    return this.#child.exitCode;
  }

  async close(): Promise<void> {
    this.#child.kill('SIGKILL');
    await this.served.close();
  }
}
