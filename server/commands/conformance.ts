/** `npm run conformance`: does this sensor speak the profile? */
import { ProblemError, PROBLEMS } from '../../protocol/problems.ts';
import { ruleBreakerNamed } from '../../simulators/sensor/rule-breakers.ts';
import { VirtualAir } from '../../simulators/sensor/virtual-air.ts';
import { DeadlineError } from '../sources/radio/deadline.ts';
import type { HostLibrary } from '../sources/radio/host-library.ts';
import { loadHostLibrary } from '../sources/radio/load-host-library.ts';
import {
  CONFORMANCE_HELP,
  ConformanceUsageError,
  readConformanceOptions,
  type ConformanceOptions,
} from './conformance-options.ts';
import { adapterOn } from './conformance/adapter.ts';
import { examine } from './conformance/examine.ts';
import { PATIENCE } from './conformance/patience.ts';
import { placeSensor, useVirtualAdapter } from './conformance/virtual-subject.ts';
import { isConformant, sayFound, sayResult, saySummary } from './conformance/words.ts';

type Write = (line: string) => void;

/** Exit status. */
const NOT_EXAMINED = 2;
/** For the last words to reach a pipe. */
const LAST_WORDS_MS = 300;

/**
 * @param argv what follows the command's name
 * @param write takes one line of standard output
 * @returns the exit status: 0, 1 where the sensor breaks what it must do, 2 where it was not examined
 */
export async function run(argv: readonly string[], write: Write): Promise<number> {
  try {
    const options = readConformanceOptions(argv);
    if (options !== null) return await examineAs(options, write);
    write(CONFORMANCE_HELP);
    return 0;
  } catch (error) {
    if (error instanceof ConformanceUsageError) console.error(`${error.message}; see --help`);
    else if (error instanceof ProblemError) {
      console.error(`${error.message}\n${PROBLEMS[error.code].remedy}`);
    } else if (error instanceof DeadlineError) {
      console.error(
        'No such sensor was heard. Wake it, bring it nearer, and stop the bridge or whatever else ' +
          `may be connected to it. (${error.message})`,
      );
    } else throw error;
    return NOT_EXAMINED;
  }
}

async function examineAs(options: ConformanceOptions, write: Write): Promise<number> {
  const { name, id, virtual, breaking, json } = options;
  // A sensor that sends nonsense can make a host library throw where nobody can catch it.
  process.once('uncaughtException', (error) => {
    console.error(
      `The sensor sent what the Bluetooth library could not read. ${error.stack ?? ''}`,
    );
    process.exit(NOT_EXAMINED);
  });
  if (virtual) {
    const air = new VirtualAir({ advertisingIntervalMs: 100 });
    await useVirtualAdapter(air);
    const changes = breaking === null ? {} : ruleBreakerNamed(breaking).options;
    placeSensor(air, changes, { intervalMs: 200, measuredBefore: 400 });
  }
  try {
    const results = await examine({
      library: await loadAdapter(),
      wanted: { name, id },
      patience: PATIENCE,
      onFound: (found) => {
        if (!json) write(sayFound(found));
      },
      onResult: (result) => write(json ? JSON.stringify(result) : sayResult(result)),
    });
    const conformant = isConformant(results);
    const summary = saySummary(results);
    write(json ? JSON.stringify({ summary, conformant }) : summary);
    return conformant ? 0 : 1;
  } finally {
    // The host libraries look at their adapter for ever: nothing else ends this process.
    setTimeout(() => process.exit(), LAST_WORDS_MS);
  }
}

/** @throws ProblemError */
async function loadAdapter(): Promise<HostLibrary> {
  const loaded = await loadHostLibrary();
  if (!loaded.ok) throw new ProblemError(loaded.problem, loaded.detail);
  await adapterOn(loaded.library, PATIENCE.adapterMs);
  return loaded.library;
}
