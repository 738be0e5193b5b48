/**
 * How well stages are told: which of the true ones were recognised, how soon and how precisely, and
 * what was told that was not so.
 */
import type { Mark } from '../../protocol/mark.ts';
import { DEFAULT_SHEET } from '../../protocol/sheet.ts';
import type { Stage, StageName } from '../../web/analysis/conclusions.ts';
import type { History } from '../../web/analysis/readings/history.ts';
import { stageBins } from '../../web/analysis/stages/stage-bins.ts';
import { recogniseStages } from '../../web/analysis/stages/stages.ts';

/** A recording, and what really went on. */
export interface TrueStages {
  readonly history: History;
  readonly marks: readonly Mark[];
  readonly endS: number;
  /** In order; `at_depth` counts as a pull-down. */
  readonly stages: readonly { readonly stage: StageName; readonly fromS: number }[];
}

export interface StageScore {
  cases: number;
  recognised: number;
  /** Named second to what the curve fits as well. */
  asAlternative: number;
  /** Told for a time while it was none, and not even an alternative. */
  wronglyTold: number;
  /** Of those recognised: how long it took, and how far off its beginning was told, s. */
  readonly delaysS: number[];
  readonly errorsS: number[];
}

export type StageScores = Map<StageName, StageScore>;

/** Its beginning is told within so long, or it is another. */
const SAME_S = 150;
/** Shorter ones are not counted. */
const LEAST_S = 60;

interface Told {
  readonly nowS: number;
  readonly stage: Stage;
}

/** Judges each `everyS`, as a page does, and keeps the score. */
export function scoreStages(
  truths: readonly TrueStages[],
  { everyS, marked }: { readonly everyS: number; readonly marked: boolean },
): StageScores {
  const scores: StageScores = new Map();
  for (const truth of truths) {
    const told: Told[] = [];
    for (let nowS = everyS; nowS <= truth.endS; nowS += everyS) {
      const bins = stageBins(truth.history, nowS);
      const marks = marked ? truth.marks : [];
      told.push({ nowS, stage: recogniseStages(bins, marks, DEFAULT_SHEET.targetPa, nowS).stage });
    }
    for (const at of truth.stages.keys()) scoreOne(truth, at, told, scores);
    countWrong(truth, told, scores);
  }
  return scores;
}

function scoreOne(truth: TrueStages, at: number, told: readonly Told[], scores: StageScores): void {
  const own = truth.stages[at];
  const untilS = truth.stages[at + 1]?.fromS ?? truth.endS;
  if (!own || own.stage === 'waiting' || untilS - own.fromS < LEAST_S) return;
  const score = scoreOf(scores, own.stage);
  score.cases += 1;
  const during = told.filter(({ nowS }) => nowS > own.fromS && nowS < untilS);
  // A sensor that is over range sees the first pull-down late.
  const begins = ({ sinceS }: Stage) =>
    Math.abs(sinceS - own.fromS) < SAME_S || (at === 1 && own.stage === 'pull_down');
  const isOwn = ({ stage }: Told) => plain(stage.name) === own.stage && begins(stage);
  const last = during.at(-1);
  if (!last) return;
  if (isOwn(last)) {
    score.recognised += 1;
    score.delaysS.push((during.find(isOwn)?.nowS ?? last.nowS) - own.fromS);
    score.errorsS.push(Math.abs(last.stage.sinceS - own.fromS));
  } else if (last.stage.alternatives.includes(own.stage) && begins(last.stage)) {
    score.asAlternative += 1;
  }
}

/** Each stretch of the same wrong stage once; to see the next stage late is no wrong. */
function countWrong(truth: TrueStages, told: readonly Told[], scores: StageScores): void {
  let wrong: StageName | null = null;
  for (const { nowS, stage } of told) {
    const at = truth.stages.findLastIndex(({ fromS }) => fromS <= nowS);
    const [before, own] = [truth.stages[at - 1], truth.stages[at]];
    if (!own) continue;
    const name = plain(stage.name);
    const fits = (one: StageName) => name === one || stage.alternatives.includes(one);
    const late = before !== undefined && fits(before.stage) && stage.sinceS < own.fromS;
    const isRight =
      fits(own.stage) || late || name === 'waiting' || stage.sinceS < (before?.fromS ?? 0);
    if (!isRight && wrong !== name) scoreOf(scores, name).wronglyTold += 1;
    wrong = isRight ? null : name;
  }
}

function plain(name: StageName): StageName {
  return name === 'at_depth' ? 'pull_down' : name;
}

function scoreOf(scores: StageScores, stage: StageName): StageScore {
  const known = scores.get(stage) ?? {
    cases: 0,
    recognised: 0,
    asAlternative: 0,
    wronglyTold: 0,
    delaysS: [],
    errorsS: [],
  };
  scores.set(stage, known);
  return known;
}
