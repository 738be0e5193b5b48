/** `npm start`: sets up what is missing, then runs the bridge until it is stopped. */
import { ensureInstalled, ensurePageBuilt, SetupError } from './setup.mjs';

const say = (line) => process.stderr.write(`${line}\n`);

try {
  ensureInstalled({ development: false, say });
  ensurePageBuilt({ say });
} catch (error) {
  if (!(error instanceof SetupError)) throw error;
  say(error.message);
  process.exit(1);
}
// From here on packages are there; tsx lets Node run the TypeScript as it stands.
const { register } = await import('tsx/esm/api');
register();
const { runUntilStopped } = await import('./run-until-stopped.ts');
process.exitCode = await runUntilStopped(process.argv.slice(2));
