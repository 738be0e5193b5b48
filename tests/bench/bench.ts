/**
 * `npm run bench`: timings as ratios within one run, since seconds differ from machine to machine, and
 * then how right the judge is, on seeds that nobody tunes on. It takes the options of
 * `npm run accuracy`; `--full` is the size that the published table has.
 */
import { HELP, readOptions } from './accuracy/options.ts';
import { reportAccuracy } from './accuracy/report.ts';
import { benchChart } from './chart-bench.ts';
import { benchCycles } from './cycles-bench.ts';
import { benchFanOut } from './fan-out-bench.ts';
import { benchHistory } from './history-bench.ts';
import { benchJudge } from './judge-bench.ts';
import { benchKills } from './kill-bench.ts';
import { benchPage } from './page-bench.ts';
import { benchPhysics } from './physics-bench.ts';
import { benchRecord } from './record-bench.ts';

const options = readOptions(['--set', 'held-out', ...process.argv.slice(2)]);
if (options === null) {
  console.log(HELP);
  process.exit();
}

const isFull = process.argv.includes('--full');
const benches = [
  benchRecord,
  () => benchHistory(isFull),
  // Some five minutes.
  benchKills,
  benchJudge,
  benchCycles,
  benchPhysics,
  // In a browser; some two minutes.
  benchChart,
  benchPage,
  // Some minute, half of it in a browser.
  benchFanOut,
];
for (const bench of benches) {
  for (const { name, ratio, detail } of await bench()) {
    console.log(`${ratio.toFixed(2).padStart(8)}  ${name}  (${detail})`);
  }
}

reportAccuracy(options, (line) => console.log(line));
