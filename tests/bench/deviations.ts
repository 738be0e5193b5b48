/**
 * How often it is said wrongly that a pull-down departs from its expected curve:
 * `node --import tsx tests/bench/deviations.ts [DIFFICULTY] [FIRST] [COUNT]`. The bounds were chosen on seeds below
 * 301; held-out ones begin at 1001.
 */
import { DIFFICULTIES } from '../../simulators/scenarios/generated/difficulty.ts';
import { deviationTrial } from '../support/deviation-trial.ts';

const [wanted = 'mixed', first = '1000', count = '200'] = process.argv.slice(2);
const difficulty = DIFFICULTIES.find((one) => one === wanted);
if (difficulty === undefined) throw new Error(`difficulty: one of ${DIFFICULTIES.join(', ')}`);

const KINDS = ['slower', 'plateau', 'floor', 'standstill'] as const;
const scores = KINDS.map((kind) => ({ kind, so: 0, rightly: 0, wrongly: 0 }));
let jobsWrong = 0;
for (let seed = Number(first); seed < Number(first) + Number(count); seed += 1) {
  const { said, so, log } = deviationTrial(seed, difficulty);
  for (const score of scores) {
    if (so.has(score.kind)) score.so += 1;
    if (!said.has(score.kind)) continue;
    if (so.has(score.kind)) score.rightly += 1;
    else score.wrongly += 1;
  }
  const wrong = KINDS.filter((kind) => said.has(kind) && !so.has(kind));
  if (wrong.length === 0) continue;
  jobsWrong += 1;
  console.log(`${difficulty} ${seed}: wrongly ${wrong.join(', ')}\n  ${log.join('\n  ')}`);
}
console.log(`${difficulty}, ${count} jobs from seed ${first}: wrong in ${jobsWrong}`);
for (const { kind, so, rightly, wrongly } of scores) {
  console.log(`${kind}: so in ${so}, said rightly in ${rightly}, wrongly in ${wrongly}`);
}
