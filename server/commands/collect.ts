/** `npm run --silent collect`: fills an office's database with what its vans publish, until it is stopped. */
import { once } from 'node:events';
import { Collector } from '../vans/office/collector.ts';
import { COLLECT_HELP, CollectUsageError, readCollectOptions } from './collect-options.ts';

/**
 * @param argv what follows the command's name
 * @param write takes one line of standard output
 * @returns the exit status
 */
export async function run(argv: readonly string[], write: (line: string) => void): Promise<number> {
  try {
    const options = readCollectOptions(argv);
    if (options === null) {
      write(COLLECT_HELP);
      return 0;
    }
    const collector = new Collector({ ...options, log: write });
    collector.start();
    await Promise.race([once(process, 'SIGINT'), once(process, 'SIGTERM')]);
    await collector.close();
    return 0;
  } catch (error) {
    if (!(error instanceof CollectUsageError)) throw error;
    console.error(`${error.message}; see --help`);
    return 1;
  }
}
