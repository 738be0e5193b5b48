/**
 * What a learner makes of the remaining time: how close a forecast can come that knows its world's odds. Not
 * part of the table: run it by itself.
 *
 *   node --import tsx tests/bench/accuracy/oracle-forecast.ts [PULL-DOWNS OF EACH WORLD]
 *
 * It sees the curve and the judge's own forecast. It is trained on the very world that it is asked about, on
 * two thirds of the seeds, cut at moments between a fifth and all of the true time: more than any judge has.
 *
 * Of 600 pull-downs each, 160 asked about, its median error at 30, 50, 70 and 90 % of the true time was 22, 17, 9 and
 * 8 % in the second world (the judge's on the same: 20, 20, 7, 4) and 20, 22, 11 and 9 % in the simulated one (24, 24,
 * 7, 4); its 80th percentile at 50 and 70 % was 50 and 25 % (100, 20), and 84 and 121 % (93, 67). Its intervals, as wide
 * as eight in ten that hold have to be, were 0.96 and 1.08 times the true time wide at half of it, and 0.42 and 0.56
 * at 70 % (the judge's, of which more hold: 1.18 and 0.67, 0.30 and 0.27). So the bars at half of the time are not in the
 * data. At 30 % the judge's are 2.12 and 1.84 wide, and the learner's 0.72 and 0.80: it knows from its cuts how long a
 * pull-down takes, and the judge has to hold at any moment.
 */
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { between, seeded } from '../../support/invented-curves.ts';
import { median } from '../../../web/analysis/fitting/median.ts';
import { boostMedian } from './boosted-trees.ts';
import { countArgument } from './oracle-arguments.ts';
import { SECOND_WORLD } from './second-world-trials.ts';
import { SIMULATED_WORLD } from './simulated-trials.ts';
import { Subject } from './subject.ts';
import { SHARES } from './tell-pull-down.ts';
import type { PullDownTrial, World } from './trials.ts';

const DEFAULT_PULL_DOWNS = 400;
const CUTS = 8;
const AGES = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95];
const SMOOTH_S = 8;

/** What sizes of error are learnt from has to be others than what the time is learnt from. */
const PARTS = 3;
const HELD = 0.8;

interface Row {
  readonly seed: number;
  readonly features: readonly number[];
  /** ln of remaining over elapsed time. */
  readonly answer: number;
  readonly trueS: number;
  readonly elapsedS: number;
  readonly judgedS: number | null;
  /** From the early end to the late one; infinite without either. */
  readonly judgedWidthS: number;
}

function rowAt(
  trial: PullDownTrial,
  subject: Subject,
  reachedS: number,
  share: number,
): Row | null {
  const { pumpOnS, points } = trial;
  const nowS = pumpOnS + (reachedS - pumpOnS) * share;
  const { forecast, nowS: judgedAtS } = subject.judge(nowS);
  const [elapsedS, trueS] = [judgedAtS - pumpOnS, reachedS - judgedAtS];
  if (trueS <= 1 || elapsedS <= 1) return null;
  const logAt = (atS: number): number => {
    const near = points.flatMap(({ elapsedS: at, pressurePa }) =>
      pressurePa !== null && at <= judgedAtS && Math.abs(at - atS) <= SMOOTH_S ? [pressurePa] : [],
    );
    return Math.log(Math.max(median(near), 0.1) / DEFAULT_SHEET.targetPa);
  };
  const now = logAt(judgedAtS - SMOOTH_S / 2);
  const { p10S = 0, p50S = 0, p90S = null } = forecast?.remaining ?? {};
  const judgedWidthS = (p90S ?? Infinity) - p10S;
  const relative = (s: number | null) => Math.log(((s ?? 0) + 1) / elapsedS);
  const features = [
    now,
    Math.log(elapsedS),
    ...AGES.map((age) => logAt(pumpOnS + age * elapsedS) - now),
    ...[20, 60, 120, 300].map((backS) => logAt(Math.max(judgedAtS - backS, pumpOnS)) - now),
    relative(p10S),
    relative(p50S),
    p90S === null ? 9 : relative(p90S),
    Math.log((forecast?.floorPa?.estimate ?? 0.1) / DEFAULT_SHEET.targetPa),
  ];
  const judgedS = forecast?.remaining?.p50S ?? null;
  const answer = Math.log(trueS / elapsedS);
  return { seed: trial.seed, features, answer, trueS, elapsedS, judgedS, judgedWidthS };
}

/** A guess of ln remaining over elapsed, and of how far off that is. */
interface Learner {
  readonly guess: (row: Row) => number;
  readonly size: (row: Row) => number;
}

function learnerOf(learnt: readonly Row[]): Learner {
  const isForErrors = ({ seed }: Row) => seed % (PARTS * PARTS) < PARTS;
  const first = learnt.filter((row) => !isForErrors(row));
  const second = learnt.filter(isForErrors);
  const all = boostMedian(
    learnt.map(({ features }) => features),
    learnt.map(({ answer }) => answer),
  );
  const part = boostMedian(
    first.map(({ features }) => features),
    first.map(({ answer }) => answer),
  );
  const error = boostMedian(
    second.map(({ features }) => features),
    second.map(({ features, answer }) => Math.log(Math.abs(part(features) - answer) + 0.01)),
  );
  return {
    guess: ({ features }) => all(features),
    size: ({ features }) => Math.exp(error(features)),
  };
}

/**
 * How wide the learner's intervals are, each as wide as it is likely to be off, where eight in ten hold. How many
 * times that is chosen on the very cases that are asked about: more than any judge can have.
 *
 * @returns the median, over the true remaining time
 */
function learntWidth({ guess, size }: Learner, asked: readonly Row[]): number {
  const needed = asked
    .map((row) => Math.abs(guess(row) - row.answer) / size(row))
    .sort((a, b) => a - b);
  const factor = needed[Math.ceil(HELD * needed.length) - 1] ?? Infinity;
  return median(
    asked.map((row) => {
      const half = factor * size(row);
      return Math.exp(guess(row) + half - row.answer) - Math.exp(guess(row) - half - row.answer);
    }),
  );
}

function tell(world: World, pullDowns: number): void {
  const trials = Array.from({ length: pullDowns }, (_, i) => world.pullDown(i + 1));
  const isAsked = (seed: number) => seed % 3 === 0;
  const learnt: Row[] = [];
  const asked: { readonly share: number; readonly wet: boolean; readonly row: Row }[] = [];
  for (const trial of trials) {
    const { seed, wet, reachedS } = trial;
    if (reachedS === null) continue;
    const subject = new Subject(trial.points, trial.marks);
    const random = seeded(seed * 31 + 5);
    const around = (share: number) => between(random, share - 0.05, share + 0.05);
    const shares = isAsked(seed)
      ? SHARES.map((share) => ({ share, at: around(share) }))
      : Array.from({ length: CUTS }, () => ({ share: 0, at: between(random, 0.2, 1) }));
    for (const { share, at } of shares) {
      const row = rowAt(trial, subject, reachedS, at);
      if (row === null) continue;
      if (isAsked(seed)) asked.push({ share, wet, row });
      else learnt.push(row);
    }
  }
  const learner = learnerOf(learnt);
  for (const share of SHARES) {
    const own = asked.filter((one) => one.share === share);
    const errors = own.map(({ row }) => {
      const guessedS = row.elapsedS * Math.exp(learner.guess(row));
      return (100 * Math.abs(guessedS - row.trueS)) / row.trueS;
    });
    const judged = own.map(({ row }) =>
      row.judgedS === null ? 100 : (100 * Math.abs(row.judgedS - row.trueS)) / row.trueS,
    );
    const at80 = (values: readonly number[]) =>
      values.toSorted((a, b) => a - b)[Math.floor(0.8 * values.length)] ?? 0;
    const rows = own.map(({ row }) => row);
    const judgedWidth = median(rows.map(({ judgedWidthS, trueS }) => judgedWidthS / trueS));
    console.log(
      `${world.name}, ${100 * share} % of the true time, ${own.length} pull-downs: the learner's median error ` +
        `${median(errors).toFixed(0)} %, 80th percentile ${at80(errors).toFixed(0)} %, width where eight in ten hold ` +
        `${learntWidth(learner, rows).toFixed(2)}; the judge's ${median(judged).toFixed(0)} %, ` +
        `${at80(judged).toFixed(0)} %, ${judgedWidth.toFixed(2)}`,
    );
  }
}

const pullDowns = countArgument(0, 'pull-downs', DEFAULT_PULL_DOWNS, 30);
for (const world of [SECOND_WORLD, SIMULATED_WORLD]) tell(world, pullDowns);
