/** `npm run bench`: timings as ratios within one run, since seconds differ from machine to machine. */
import { benchFits } from './fit-bench.ts';
import { benchJudge } from './judge-bench.ts';
import { benchPhysics } from './physics-bench.ts';
import { benchRecord } from './record-bench.ts';

const rows = [await benchRecord(), ...benchJudge(), ...benchFits(), ...benchPhysics()];
for (const { name, ratio, detail } of rows) {
  console.log(`${ratio.toFixed(2).padStart(8)}  ${name}  (${detail})`);
}
