/** The bridge at a terminal: options in, plain words out, an orderly end on Ctrl+C. */
import openInBrowser from 'open';
import { healthSchema } from '../protocol/api.ts';
import { ProblemError, PROBLEMS } from '../protocol/problems.ts';
import { startBridge } from './main.ts';
import type { Bridge } from './main.ts';
import { OptionsError } from './options-error.ts';
import { HELP, readOptions } from './options.ts';
import type { Options } from './options.ts';

const ALREADY_RUNS =
  'Whether that one is shared, its Menu, Second screen, says. If not: stop it, then start again with --share.';

/** @returns the exit status */
export async function runUntilStopped(argv: readonly string[]): Promise<number> {
  try {
    const options = readOptions(argv, process.stdout.isTTY);
    if (options) return await run(options);
    console.log(HELP);
    return 0;
  } catch (error) {
    if (error instanceof OptionsError) console.error(`${error.message}\n\n${HELP}`);
    else if (error instanceof ProblemError) {
      console.error(`${error.message}\n${PROBLEMS[error.code].remedy}`);
    } else throw error;
    return 1;
  }
}

async function run(options: Options): Promise<number> {
  const bridge = await startUnlessRunning(options);
  if (typeof bridge === 'string') {
    console.log(`Ebbline already runs: ${bridge}`);
    if (options.share !== null) console.log(ALREADY_RUNS);
    await show(bridge, options);
    return 0;
  }
  console.log(`Ebbline runs: ${bridge.url}`);
  if (options.share !== null) sayShared(bridge);
  console.log(`The record is kept in ${options.dataFolder}. Stop with Ctrl+C.`);
  await show(bridge.url, options);
  await stopSignal();
  await bridge.close();
  return 0;
}

function sayShared(bridge: Bridge): void {
  const { addresses, fingerprint } = bridge.sharedAt();
  if (addresses.length === 0) {
    console.log('Shared, but in no local network yet; that is looked at again every ten seconds.');
    return;
  }
  console.log(`Shared on the local network: ${addresses.join(' ')}`);
  console.log(`Fingerprint of its certificate (SHA-256): ${fingerprint}`);
  console.log('Pair each screen by the code under Menu, Second screen, on this computer.');
}

/** @returns the bridge, or the address of the one that already runs on this port */
async function startUnlessRunning(options: Options): Promise<Bridge | string> {
  const address = `http://127.0.0.1:${options.port}/`;
  if (options.port !== 0 && (await isEbbline(address))) return address;
  return startBridge(options);
}

async function isEbbline(address: string): Promise<boolean> {
  try {
    const answer = await fetch(`${address}api/health`, { signal: AbortSignal.timeout(1000) });
    return healthSchema.safeParse(await answer.json()).success;
  } catch {
    return false;
  }
}

async function show(address: string, { open }: Options): Promise<void> {
  if (!open) return;
  try {
    await openInBrowser(address);
  } catch {
    console.log('The browser could not be opened from here; open the address by hand.');
  }
}

function stopSignal(): Promise<void> {
  return new Promise((resolve) => {
    process.once('SIGINT', () => resolve());
    process.once('SIGTERM', () => resolve());
  });
}
