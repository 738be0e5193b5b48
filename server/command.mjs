/** `npm run NAME`: sets up what is missing, quietly, then runs the command of that name. */
import { ensureInstalled, SetupError } from './setup.mjs';

const [name, ...rest] = process.argv.slice(2);
const say = (line) => process.stderr.write(`${line}\n`);

try {
  ensureInstalled({ development: false, say });
} catch (error) {
  if (!(error instanceof SetupError)) throw error;
  say(error.message);
  process.exit(1);
}
const { register } = await import('tsx/esm/api');
register();
const { run } = await import(`./commands/${name}.ts`);
process.exitCode = await run(rest, (line) => process.stdout.write(`${line}\n`));
