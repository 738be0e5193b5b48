/** `npm run bench`: timings as ratios within one run, since seconds differ from machine to machine. */
import { benchJudge } from './judge-bench.ts';
import { benchPhysics } from './physics-bench.ts';
import { benchRecord } from './record-bench.ts';

for (const { name, ratio, detail } of [await benchRecord(), ...benchJudge(), ...benchPhysics()]) {
  console.log(`${ratio.toFixed(2).padStart(8)}  ${name}  (${detail})`);
}
