/**
 * What a learner makes of the verdict: how many rises have to stay undecided if the others are to be right
 * as often as the bar asks. Not part of the table: run it by itself.
 *
 *   node --import tsx tests/bench/accuracy/oracle-rise.ts [RISES OF EACH WORLD]
 *
 * It sees the curve, the temperature and the judge's own numbers. It is trained on the very world that it is
 * asked about, on two thirds of the seeds, so that it knows that world's odds; and what it leaves undecided
 * is chosen on the cases that it is judged by: more than any judge can have. After 5, 10, 15 and 30 minutes
 * 56, 41, 36 and 26 % of the second world's rises have to stay undecided (1500 rises, 400 of them asked about),
 * and of the simulated world's 43, 39, 32 and 22 % (900 rises, 240 asked about).
 */
import { SECOND_WORLD } from './second-world-trials.ts';
import { SIMULATED_WORLD } from './simulated-trials.ts';
import { between, seeded } from '../../support/invented-curves.ts';
import { median } from '../../../web/analysis/median.ts';
import { boost } from './boosted-trees.ts';
import { countArgument } from './oracle-arguments.ts';
import { isRight } from './right-verdict.ts';
import { Subject } from './subject.ts';
import { MINUTES } from './tell-rise.ts';
import type { RiseTrial, World } from './trials.ts';

const DEFAULT_RISES = 900;
/** The bar: right among decided, by minute. */
const RIGHT = [0.94, 0.95, 0.96, 0.98];
const KINDS = ['tight_dry', 'moisture', 'leak', 'leak_and_moisture'] as const;
/** The curve, as medians over so many parts of the hold, narrow early and wide late. */
const PARTS = 14;
const WIDENING = 1.6;

interface Row {
  readonly trial: RiseTrial;
  readonly features: readonly number[];
}

function rowOf(trial: RiseTrial, minute: number): Row {
  const { isolatedS, points, marks, seed } = trial;
  const about = between(seeded(seed * 31 + 11 + minute), 0.9, 1.1);
  const heldS = Math.min(minute * 60 * about, trial.heldS);
  const { rise } = new Subject(points, marks).judge(isolatedS + heldS);
  const edge = (part: number) => isolatedS + 3 + (heldS - 3) * (part / PARTS) ** WIDENING;
  const levels = Array.from({ length: PARTS }, (_, part) => {
    const within = points.filter((p) => p.elapsedS >= edge(part) && p.elapsedS < edge(part + 1));
    return {
      pressurePa: median(within.flatMap((p) => p.pressurePa ?? [])),
      temperatureC: median(within.flatMap((p) => p.temperatureC ?? [])),
      atS: (edge(part) + edge(part + 1)) / 2,
    };
  });
  const first = levels[0];
  const last = levels.at(-1);
  if (!first || !last) throw new Error('a hold has parts');
  const rosePa = last.pressurePa - first.pressurePa;
  const slopes = levels.slice(1).map(({ pressurePa, atS }, i) => {
    const before = levels[i] ?? first;
    return (pressurePa - before.pressurePa) / (atS - before.atS);
  });
  const said = rise ? [rise.leakPaPerS, rise.moisturePa, rise.endOfHold] : [];
  return {
    trial,
    features: [
      Math.log(first.pressurePa),
      rosePa,
      last.temperatureC - first.temperatureC,
      rise?.noisePa ?? 0,
      ...slopes,
      ...slopes.map((slope) => (slope * heldS) / Math.max(Math.abs(rosePa), 1)),
      ...said.flatMap(({ estimate, low, high }) => [estimate, low, high]),
    ],
  };
}

function tell(world: World, rises: number): void {
  const trials = Array.from({ length: rises }, (_, i) => world.rise(i + 1)).filter(
    ({ kind }) => kind !== 'borderline',
  );
  for (const [at, minute] of MINUTES.entries()) {
    const rows = trials.map((trial) => rowOf(trial, minute));
    const asked = rows.filter(({ trial }) => Math.floor(trial.seed / 5) % 3 === 0);
    const learnt = rows.filter((row) => !asked.includes(row));
    const features = learnt.map((row) => row.features);
    const scores = KINDS.map((kind) =>
      boost(
        features,
        learnt.map(({ trial }) => trial.kind === kind),
      ),
    );
    const calls = asked
      .map(({ trial, features: seen }) => {
        const [best, next] = scores
          .map((score, k) => ({ kind: KINDS[k] ?? 'moisture', score: score(seen) }))
          .sort((a, b) => b.score - a.score);
        if (!best || !next) throw new Error('there are four kinds');
        const isSo = isRight(trial.kind, trial.leakPaPerS, best.kind, 'leak_named');
        return { isSo, sure: best.score - Math.max(next.score, 0) };
      })
      .sort((a, b) => b.sure - a.sure);
    let right = 0;
    let decided = 0;
    for (const [i, { isSo }] of calls.entries()) {
      right += Number(isSo);
      if (right >= (RIGHT[at] ?? 1) * (i + 1)) decided = i + 1;
    }
    const undecided = (100 * (1 - decided / calls.length)).toFixed(0);
    const all = ((100 * right) / calls.length).toFixed(0);
    console.log(
      `${world.name}, ${minute} min, ${calls.length} rises: right of all ${all} %; ` +
        `${100 * (RIGHT[at] ?? 1)} % right with ${undecided} % undecided`,
    );
  }
}

const rises = countArgument(0, 'rises of each world', DEFAULT_RISES, 30);
for (const world of [SECOND_WORLD, SIMULATED_WORLD]) tell(world, rises);
