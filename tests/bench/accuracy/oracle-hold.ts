/**
 * What a learner makes of a pull-down when asked whether the hold would pass if the system were valved off
 * now, and how honest the judge's two figures are. Not part of the table: run it by itself.
 *
 *   node --import tsx tests/bench/accuracy/oracle-hold.ts [RISES OF EACH WORLD] [REPEATS OF EACH WORLD]
 *
 * The learner sees the pull-down without any noise and is trained on two thirds of the seeds of a world, once
 * of the very world that it is asked about and once of the other. AUC is how often it puts a hold that passes
 * above one that fails (0.5: it knows nothing), Brier the mean square of chance less outcome.
 *
 * Of 2000 rises of each world, 669 asked about: AUC 0.78 in the second world and 0.77 in the simulated one where it
 * was learnt there (Brier 0.143 and 0.157, the base rate 0.178 and 0.183), 0.49 and 0.62 where it was learnt
 * in the other (0.201 and 0.236: worse than the base rate). What a curve tells is its own world's odds.
 * Of 300 held-out repeats each, where the judge's lower figure was 0.8 or more all passed (30 and 39), where
 * the upper was 0.2 or less 0 and 5 % (of 94 and 129); the figures lay 0.45 and 0.30 apart.
 */
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { median } from '../../../web/analysis/fitting/median.ts';
import { boost } from './boosted-trees.ts';
import { countArgument } from './oracle-arguments.ts';
import { SECOND_WORLD } from './second-world-trials.ts';
import { SIMULATED_WORLD } from './simulated-trials.ts';
import { Subject } from './subject.ts';
import type { RepeatTrial, RiseTrial, World } from './trials.ts';

const DEFAULT_RISES = 1200;
const DEFAULT_REPEATS = 150;
/** Seeds from here on were never used for tuning. */
const HELD_OUT = 100_000;
/** Where the learner looks: so long before the isolation, s, at these shares of the age, and for these depths. */
const BEFORE_S = [10, 20, 60, 120, 300, 600, 1200];
const SHARES = [0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];
const DEPTHS_PA = [3000, 1500, 800, 400, 200, 130, 90, 67, 45];
const READING_S = 15;

interface Row {
  readonly seed: number;
  readonly passes: boolean;
  readonly features: readonly number[];
}

/** By the rule, and without a leak that counts. */
function passes(startPa: number, endPa: number, leakPaPerS: number): boolean {
  const { endLimitPa, allowedRisePa, leakLimitPaPerS } = DEFAULT_SHEET;
  return endPa <= endLimitPa && endPa - startPa <= allowedRisePa && leakPaPerS <= leakLimitPaPerS;
}

function rowOf({ seed, isolatedS, shownAt, leakPaPerS }: RiseTrial): Row {
  const nowPa = shownAt(isolatedS - 1);
  const logAt = (elapsedS: number) => Math.log(shownAt(Math.max(elapsedS, 1)) / nowPa);
  const ages = DEPTHS_PA.map((depthPa) => {
    // The pressure falls all along: by halving.
    let [above, below] = [1, isolatedS];
    while (below - above > 1) {
      const middle = (above + below) / 2;
      if (shownAt(middle) > depthPa) above = middle;
      else below = middle;
    }
    return below;
  });
  const steps = ages.slice(1).map((ageS, i) => Math.log(1 + ageS - (ages[i] ?? 0)));
  return {
    seed,
    passes: passes(nowPa, shownAt(isolatedS + DEFAULT_SHEET.holdS), leakPaPerS),
    features: [
      Math.log(nowPa),
      Math.log(isolatedS),
      ...BEFORE_S.map((beforeS) => logAt(isolatedS - beforeS)),
      ...SHARES.map((share) => logAt(share * isolatedS)),
      ...ages.map((ageS) => (isolatedS - ageS) / isolatedS),
      ...steps,
      Math.max(...steps) - Math.min(...steps),
    ],
  };
}

function scoreOf(rows: readonly Row[]) {
  return boost(
    rows.map(({ features }) => features),
    rows.map((row) => row.passes),
  );
}

/** Chance of a passing one above a failing one; ties count half. */
function auc(rows: readonly (Row & { readonly score: number })[]): number {
  const [good, bad] = [true, false].map((side) => rows.filter((row) => row.passes === side));
  if (!good || !bad) return NaN;
  const won = good.flatMap((a) => bad.map((b) => (Math.sign(a.score - b.score) + 1) / 2));
  return won.reduce((sum, one) => sum + one, 0) / won.length;
}

function tellLearner(of: World, asked: readonly Row[], from: World, learnt: readonly Row[]): void {
  const score = scoreOf(learnt);
  const scored = asked.map((row) => ({ ...row, score: score(row.features) }));
  const base = learnt.filter((row) => row.passes).length / learnt.length;
  const brier = (chance: (row: (typeof scored)[number]) => number) =>
    scored.reduce((sum, row) => sum + (chance(row) - Number(row.passes)) ** 2, 0) / scored.length;
  const learner = brier((row) => 1 / (1 + Math.exp(-row.score)));
  console.log(
    `${of.name} world, learnt from the ${from.name}: AUC ${auc(scored).toFixed(2)}, Brier ` +
      `${learner.toFixed(3)} against ${brier(() => base).toFixed(3)} of the base rate (/${asked.length})`,
  );
}

/** Just before the second of two holds; null where readings are missing. */
function saidBeforeRepeat({ points, marks, holds, leakPaPerS }: RepeatTrial) {
  const { isolatedS } = holds[1];
  const chance = new Subject(points, marks).judge(isolatedS - 2).holdChance;
  const level = (fromS: number, toS: number) => {
    const within = points.filter(({ elapsedS }) => elapsedS > fromS && elapsedS <= toS);
    const pressures = within.flatMap(({ pressurePa }) => pressurePa ?? []);
    return pressures.length === 0 ? null : median(pressures);
  };
  const endS = isolatedS + DEFAULT_SHEET.holdS;
  const startPa = level(isolatedS - READING_S, isolatedS);
  const endPa = level(endS - READING_S, endS + READING_S);
  if (chance === null || startPa === null || endPa === null) return null;
  return { ...chance, passes: passes(startPa, endPa, leakPaPerS) };
}

function tellJudge(world: World, repeats: number): void {
  const said = Array.from({ length: repeats }, (_, i) => world.repeat(HELD_OUT + i + 1)).flatMap(
    (trial) => saidBeforeRepeat(trial) ?? [],
  );
  const share = (some: typeof said) => {
    const percent = (100 * some.filter((one) => one.passes).length) / some.length;
    return `${percent.toFixed(0)} % (/${some.length})`;
  };
  const width = said.reduce((sum, { low, high }) => sum + high - low, 0) / said.length;
  console.log(
    `${world.name} world, before the second hold: pass ${share(said)}; where low ≥ 0.8 ` +
      `${share(said.filter(({ low }) => low >= 0.8))}, where high ≤ 0.2 ` +
      `${share(said.filter(({ high }) => high <= 0.2))}; mean width ${width.toFixed(2)}`,
  );
}

const rises = countArgument(0, 'rises of each world', DEFAULT_RISES, 30);
const repeats = countArgument(1, 'repeats of each world', DEFAULT_REPEATS, 10);
const worlds = [SECOND_WORLD, SIMULATED_WORLD].map((world) => {
  const rows = Array.from({ length: rises }, (_, i) => rowOf(world.rise(i + 1)));
  const isAsked = ({ seed }: Row) => Math.floor(seed / 5) % 3 === 0;
  return { world, asked: rows.filter(isAsked), learnt: rows.filter((row) => !isAsked(row)) };
});
for (const of of worlds) {
  for (const from of worlds) tellLearner(of.world, of.asked, from.world, from.learnt);
}
for (const { world } of worlds) tellJudge(world, repeats);
