/**
 * How well the stages are told, with marks and without:
 * `node --import tsx tests/bench/stages/stages.ts [FIRST] [COUNT]`, seeds of the invented sessions and of
 * the second world. Tuned on seeds below 100 000; held-out ones are from there on.
 */
import { SESSION_KINDS } from '../../support/invented-session.ts';
import { inventedTruth } from '../../support/invented-truth.ts';
import { scoreStages, type StageScores, type TrueStages } from '../../support/stage-score.ts';
import { secondWorldTruths } from './second-world-truths.ts';

const [first = '100000', count = '20'] = process.argv.slice(2);
const seeds = Array.from({ length: Number(count) }, (_, at) => Number(first) + at);
const EVERY_S = 6;

report(
  'invented sessions',
  seeds.flatMap((seed) => SESSION_KINDS.map((kind) => inventedTruth(seed, kind))),
);
report(
  'second world',
  seeds.flatMap((seed) => secondWorldTruths(seed)),
);

function report(title: string, truths: readonly TrueStages[]): void {
  for (const marked of [false, true]) {
    console.log(`\n${title}, ${truths.length} recordings, ${marked ? 'with' : 'without'} marks`);
    print(scoreStages(truths, { everyS: EVERY_S, marked }));
  }
}

function print(scores: StageScores): void {
  const columns = ['stage', 'cases', 'told', 'second', 'missed', 'wrongly', 'delay s', 'moment s'];
  console.log(columns.map((name) => name.padStart(14)).join(''));
  for (const [name, score] of scores) {
    const { cases, recognised, asAlternative, wronglyTold, delaysS, errorsS } = score;
    const cells = [
      name,
      cases,
      recognised,
      asAlternative,
      cases - recognised - asAlternative,
      wronglyTold,
      spread(delaysS),
      spread(errorsS),
    ];
    console.log(cells.map((cell) => String(cell).padStart(14)).join(''));
  }
}

/** Median and 90th percentile. */
function spread(values: readonly number[]): string {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share: number) => sorted[Math.floor(share * (sorted.length - 1))];
  return sorted.length === 0 ? '-' : `${at(0.5)?.toFixed(1)} / ${at(0.9)?.toFixed(1)}`;
}
