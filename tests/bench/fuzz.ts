/**
 * `npm run fuzz -- --count N --seed S`: what no honest peer would send, made of the schemas and of chance. Most of it
 * in this process at all that reads what comes from outside; a part over HTTP and the stream at a bridge in a process
 * of its own, beside eight sensors at 10 Hz and a screen that behaves. Ends with 1 where anything failed.
 */
import { parseArgs } from 'node:util';
import { SeededRandom } from '../../simulators/physics/seeded-random.ts';
import { BridgeProcess, STEADY_RECORDING } from '../support/bridge-process.ts';
import { SchemaValues } from '../support/fuzz/from-schema.ts';
import { HostileBackups } from '../support/fuzz/hostile-backups.ts';
import { tormentByBackups } from '../support/fuzz/hostile-peer-backups.ts';
import { type Answers, tormentByHttp, tormentByStream } from '../support/fuzz/hostile-peer.ts';
import { hostileParsers } from '../support/fuzz/hostile-parsers.ts';
import { WellBehavedScreen } from '../support/well-behaved-screen.ts';

const MB = 2 ** 20;
/** Of all that is thrown; a request takes a hundred times as long as a call. */
const BY_HTTP = 0.03;
const BY_STREAM = 0.05;
/** A harmed backup takes as long as thousands of calls. */
const BACKUPS = 0.001;
const BACKUPS_BY_HTTP = 0.0002;
const ROUNDS = 10;

const { values: options } = parseArgs({
  options: {
    count: { type: 'string', default: '200000' },
    seed: { type: 'string', default: '1' },
  },
});
const count = Number(options.count);
const seed = Number(options.seed);
if (!Number.isSafeInteger(count) || count < 1 || !Number.isSafeInteger(seed) || seed < 0) {
  console.error('--count takes a whole number from 1 on, --seed one from 0 on.');
  process.exit(1);
}

const values = new SchemaValues(new SeededRandom(seed));
const faults: string[] = [];
console.log(`${count} inputs, seed ${seed}`);
inThisProcess();
await restored();
await atABridge();
for (const fault of faults.slice(0, 20)) console.log(`FAULT ${fault}`);
console.log(faults.length === 0 ? 'no faults' : `${faults.length} faults`);
process.exit(faults.length === 0 ? 0 : 1);

function inThisProcess(): void {
  const all = count * (1 - BY_HTTP - BY_STREAM);
  for (const { name, share, run } of hostileParsers()) {
    const beganMs = performance.now();
    const said = { taken: 0, refused: 0 };
    for (let left = Math.ceil(all * share); left > 0; left -= 1) {
      try {
        if (run(values)) said.taken += 1;
        else said.refused += 1;
      } catch (error) {
        faults.push(`${name}: ${error instanceof Error ? (error.stack ?? '') : String(error)}`);
      }
    }
    const tookS = ((performance.now() - beganMs) / 1000).toFixed(0);
    console.log(`${name}: ${said.taken} taken, ${said.refused} refused, ${tookS} s`);
  }
}

async function restored(): Promise<void> {
  const backups = await HostileBackups.make();
  const { said, faults: found } = backups.restore(Math.ceil(count * BACKUPS), values);
  backups.remove();
  console.log(
    `harmed backups, by what came of them or of their recordings: ${JSON.stringify(said)}`,
  );
  faults.push(...found);
}

async function atABridge(): Promise<void> {
  const bridge = await BridgeProcess.start(8);
  const screen = new WellBehavedScreen(bridge.url, STEADY_RECORDING);
  await screen.follow();
  await new Promise((resolve) => setTimeout(resolve, 3000));
  report('before', await bridge.state('garbage'), screen);
  for (let round = 1; round <= ROUNDS; round += 1) {
    told('HTTP', await tormentByHttp(bridge.url, Math.ceil((count * BY_HTTP) / ROUNDS), values));
    told(
      'stream, connections by close code (0: it stayed open)',
      await tormentByStream(bridge.url, Math.ceil((count * BY_STREAM) / ROUNDS), values),
    );
    const backups = Math.ceil((count * BACKUPS_BY_HTTP) / ROUNDS);
    told('harmed backups over HTTP', await tormentByBackups(bridge.url, backups, values));
    report(`after round ${round} of ${ROUNDS}`, await bridge.state('garbage'), screen);
  }
  if (!screen.isConnected) faults.push('the screen that behaves was dropped');
  const heard = screen.indexes.size;
  if (Math.max(...screen.indexes) !== heard) faults.push('the screen that behaves missed readings');
  screen.close();
  const errors = errorsIn(bridge.terminal);
  if (errors !== '') faults.push(`the bridge’s terminal: ${errors}`);
  // That the disk takes long is said there too, and is no fault on a busy machine.
  else if (bridge.terminal !== '') console.log(`the bridge’s terminal: ${bridge.terminal}`);
  const { delivered, lost } = await bridge.stop();
  if (lost !== 0) faults.push(`${lost} readings are not in the record`);
  console.log(`${delivered} readings delivered meanwhile, ${lost} lost; the screen heard ${heard}`);
}

function told(how: string, { byStatus, faults: found }: Answers): void {
  const parts = [...byStatus].sort(([a], [b]) => a - b).map(([code, times]) => `${code}: ${times}`);
  console.log(`${how}: ${parts.join(', ')}`);
  faults.push(...found);
}

function report(
  when: string,
  {
    rss,
    heapUsed,
    external,
    arrayBuffers,
    p99Ms,
    handles,
  }: Awaited<ReturnType<BridgeProcess['state']>>,
  screen: WellBehavedScreen,
): void {
  const { median, p99, most } = screen.delaysMs();
  console.log(
    `${when}: ${(rss / MB).toFixed(0)} MB, heap ${(heapUsed / MB).toFixed(0)} MB, external ${(external / MB).toFixed(0)} MB ` +
      `(buffers ${(arrayBuffers / MB).toFixed(0)} MB), ${handles} handles, ` +
      `event loop p99 ${p99Ms.toFixed(0)} ms; readings reach the screen ${median.toFixed(0)} ms (median), ` +
      `${p99.toFixed(0)} ms (p99), ${most.toFixed(0)} ms (most) later than the quickest`,
  );
}

/** Each kind once, with the first place of ours. */
function errorsIn(terminal: string): string {
  const kinds = terminal.matchAll(/^\w*Error.*\n(?: {4}at .*node.*\n)*( {4}at .*\n)?/gmu);
  return [...new Set([...kinds].map(([whole]) => whole))].slice(0, 20).join('');
}
