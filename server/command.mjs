/** `npm run NAME`: sets up what is missing, quietly, then runs the command of that name. */
import { ensureInstalled, readTypeScript, setUpOrExit } from './setup.mjs';

const [name, ...rest] = process.argv.slice(2);

setUpOrExit((say) => ensureInstalled({ development: false, say }));
await readTypeScript();
const { run } = await import(`./commands/${name}.ts`);
process.exitCode = await run(rest, (line) => process.stdout.write(`${line}\n`));
