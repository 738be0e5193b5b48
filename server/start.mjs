/** `npm start`: sets up what is missing, then runs the bridge until it is stopped. */
import { ensureInstalled, ensurePageBuilt, readTypeScript, setUpOrExit } from './setup.mjs';

setUpOrExit((say) => {
  ensureInstalled({ development: false, say });
  ensurePageBuilt({ say });
});
await readTypeScript();
const { runUntilStopped } = await import('./run-until-stopped.ts');
process.exitCode = await runUntilStopped(process.argv.slice(2));
