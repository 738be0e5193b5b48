/**
 * What a learner makes of 'levels off': how many of the never-reaching cases the curve gives away at all,
 * at the false alarms that the bar allows. Not part of the table: run it by itself.
 *
 *   node --import tsx tests/bench/accuracy/oracle-level.ts [PULL-DOWNS OF EACH WORLD]
 *
 * It is trained on the very world that it is asked about, on two thirds of the seeds, and its threshold is
 * set on the cases that it is judged by: more than any judge can have. By 10, 20 and 40 minutes, with one
 * in 25 of the wet ones called wrongly: 61, 76 and 89 % of the second world's never-reaching (600 pull-downs,
 * 38 of them asked about), 13, 40 and 55 % of the simulated world's (40), whose plateaus are as flat as floors.
 */
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { History } from '../../../web/analysis/readings/history.ts';
import { pullDownPoints } from '../../../web/analysis/pull-down/pull-down-points.ts';
import { samplesFromBins } from '../../../web/analysis/readings/samples.ts';
import { exponentOf } from '../../../web/analysis/pull-down/tail-exponent.ts';
import { boost } from './boosted-trees.ts';
import { countArgument } from './oracle-arguments.ts';
import { SECOND_WORLD } from './second-world-trials.ts';
import { SIMULATED_WORLD } from './simulated-trials.ts';
import { NEVER_MINUTES } from './tell-pull-down.ts';
import type { PullDownTrial, World } from './trials.ts';

const DEFAULT_PULL_DOWNS = 600;
const STEP_S = 30;
const PARTS = [0.6, 0.4, 0.25, 0.12];
/** False alarms of wet pull-downs, ever: the bar's, and what more of them would buy. */
const FALSE_ALARMS = [0.04, 0.1, 0.2];

interface Row {
  readonly run: number;
  readonly minute: number;
  readonly features: readonly number[];
}

/** Each half minute above the target, as far as it is known by then. */
function rowsOf({ seed, points, pumpOnS, endS }: PullDownTrial): Row[] {
  const history = new History();
  for (const point of points) history.insert(point);
  const rows: Row[] = [];
  for (let nowS = pumpOnS + 2 * STEP_S; nowS <= endS; nowS += STEP_S) {
    const seen = pullDownPoints(samplesFromBins(history.bins(pumpOnS, Math.floor(nowS))), nowS);
    const pressurePa = seen.at(-1)?.pressurePa ?? 0;
    if (pressurePa <= DEFAULT_SHEET.targetPa) continue;
    const ageS = nowS - pumpOnS;
    const away = seen.findLast((p) => Math.abs(Math.log(p.pressurePa / pressurePa)) > 0.05);
    const exponents = PARTS.map((part) => exponentOf(seen, pumpOnS, part * ageS));
    const features = [
      Math.log(pressurePa),
      Math.log(ageS),
      (nowS - (away?.elapsedS ?? pumpOnS)) / ageS,
      ...exponents.map((exponent) => exponent?.value ?? 9),
      ...exponents.map((exponent) => exponent?.error ?? 9),
    ];
    rows.push({ run: seed, minute: Math.round(ageS / STEP_S) / 2, features });
  }
  return rows;
}

function tell(world: World, pullDowns: number): void {
  const trials = Array.from({ length: pullDowns }, (_, i) => world.pullDown(i + 1));
  const never = new Set(trials.flatMap((t) => (t.reachedS === null ? t.seed : [])));
  const wet = new Set(trials.flatMap((t) => (t.reachedS !== null && t.wet ? t.seed : [])));
  const isAsked = (seed: number) => seed % 3 === 0;
  const learnt = trials.filter(({ seed }) => !isAsked(seed)).flatMap(rowsOf);
  const score = boost(
    learnt.map(({ features }) => features),
    learnt.map(({ run }) => never.has(run)),
  );
  const asked = trials.filter(({ seed }) => isAsked(seed)).flatMap(rowsOf);
  const scored = asked.map((row) => ({ ...row, score: score(row.features) }));
  const highest = new Map<number, number>();
  for (const { run, score: one } of scored) {
    highest.set(run, Math.max(highest.get(run) ?? -Infinity, one));
  }
  const ofWet = [...highest]
    .flatMap(([run, one]) => (wet.has(run) ? one : []))
    .sort((a, b) => b - a);
  for (const alarms of FALSE_ALARMS) {
    const threshold = ofWet[Math.floor(alarms * ofWet.length)] ?? Infinity;
    const shares = NEVER_MINUTES.map((minute) => {
      const cases = scored.filter((row) => row.minute === minute && never.has(row.run));
      const called = cases.filter((row) => row.score > threshold);
      return `${((100 * called.length) / cases.length).toFixed(0)} % by ${minute} min (/${cases.length})`;
    });
    console.log(`${world.name}, ${100 * alarms} % of ${ofWet.length} wet: ${shares.join(', ')}`);
  }
}

const pullDowns = countArgument(0, 'pull-downs', DEFAULT_PULL_DOWNS, 30);
for (const world of [SECOND_WORLD, SIMULATED_WORLD]) tell(world, pullDowns);
