/**
 * Draws every conclusion from the facts up to a moment. Pure: the same facts give the same answer,
 * live, in a rehearsal, in a report and on the command line.
 */
import type { Mark, MarkKind } from '../../protocol/mark.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import { closedUpSinceS, standingConclusions } from './closing/closed-up.ts';
import type { Conclusions, Rise, Stage, ToldHold } from './conclusions.ts';
import { holdChanceNow } from './next-hold/hold-chance-now.ts';
import { forecastPullDown } from './pull-down/forecast.ts';
import { agedPoints, pullDownPoints } from './pull-down/pull-down-points.ts';
import { pumpedSamples } from './pull-down/pumped-samples.ts';
import type { History } from './readings/history.ts';
import { samplesFromBins, type Sample } from './readings/samples.ts';
import { presentPressurePa, relativeRatePerS } from './readings/trend.ts';
import { spanOf } from './rise/hold-fit.ts';
import { stagesSoFar } from './stages/stages-so-far.ts';
import { toldBefore } from './verdict/past-holds.ts';
import { assessRise } from './verdict/rise.ts';

/** What is looked at around the present, s. */
const PRESENT_WINDOW_S = 120;
/** Marks that change the rig: a forecast starts afresh there. */
const CHANGES: readonly MarkKind[] = [
  'ballast_opened',
  'ballast_closed',
  'cores_out',
  'oil_changed',
  'battery_changed',
  'joints_tightened',
  'sections_opened',
];

/**
 * @param marks in any order
 * @param nowS data time, s; readings and marks after it change nothing
 */
export function judge(
  history: History,
  marks: readonly Mark[],
  sheet: Sheet,
  nowS: number,
): Conclusions {
  const past = marks
    .filter(({ elapsedS }) => elapsedS <= nowS)
    .sort((a, b) => a.elapsedS - b.elapsedS || a.id - b.id);
  const now = judgeAt(history, past, sheet, nowS);
  const closedS = closedUpSinceS(past);
  if (closedS === null) return now;
  const before = judgedBefore(history, past, sheet, closedS);
  return standingConclusions(before, now, history, past, sheet.leakLimitPaPerS) ?? now;
}

interface Before {
  readonly closedS: number;
  readonly lateReadings: number;
  readonly sheet: Sheet;
  readonly marks: string;
  readonly conclusions: Conclusions;
}
/** The latest of each history: it is asked for at each judging, and changes no more. */
const beforeClosing = new WeakMap<History, Before>();

function judgedBefore(
  history: History,
  past: readonly Mark[],
  sheet: Sheet,
  closedS: number,
): Conclusions {
  const until = past.filter(({ elapsedS }) => elapsedS <= closedS);
  const marks = until.map(({ id }) => id).join();
  const { lateReadings } = history;
  const known = beforeClosing.get(history);
  const isSame =
    known?.closedS === closedS &&
    known.lateReadings === lateReadings &&
    known.sheet === sheet &&
    known.marks === marks;
  if (isSame) return known.conclusions;
  const conclusions = judgeAt(history, until, sheet, closedS);
  beforeClosing.set(history, { closedS, lateReadings, sheet, marks, conclusions });
  return conclusions;
}

/** @param past marks up to `nowS`, in order of time */
function judgeAt(history: History, past: readonly Mark[], sheet: Sheet, nowS: number): Conclusions {
  const { stages, latest: bin } = stagesSoFar(history, past, sheet.targetPa, nowS);
  const { pullDownS, isolatedS } = stages;
  const latest = samplesFromBins(history.bins(nowS - PRESENT_WINDOW_S, nowS));
  const pressurePa = bin?.pressurePa === null ? null : presentPressurePa(latest, nowS);
  const relativeRate = pressurePa === null ? null : relativeRatePerS(latest, nowS);

  // Before any pull-down nothing is pumped.
  const pumpedUntilS = pullDownS === null ? 0 : (isolatedS ?? stages.endedS ?? nowS);
  const { samples: pumped, depths } = pumpedSamples(history, pullDownS ?? 0, pumpedUntilS);
  const targetReachedS = depths.firstHeldBelowS(sheet.targetPa);
  const isolationDepthReachedS = depths.firstHeldBelowS(sheet.isolateAtPa);
  const stage = withDepth(stages.stage, depths.heldBelowSinceS(sheet.isolateAtPa));
  const isPumping = stage.name === 'pull_down' || stage.name === 'at_depth';

  const sinceS = Math.max(
    pullDownS ?? 0,
    stages.rigChanged?.atS ?? 0,
    ...past.filter(({ kind }) => CHANGES.includes(kind)).map(({ elapsedS }) => elapsedS),
  );
  const { points, allPoints } = pointsSince(isPumping ? pumped : [], sinceS, nowS);
  const forecast = isPumping
    ? forecastPullDown(
        {
          sinceS,
          nowS,
          points,
          allPoints,
          agedPoints: agedPoints(pumped, sinceS, nowS),
          pressurePa,
          isOverRange: bin?.pressurePa === null,
          relativeRatePerS: relativeRate,
          targetReachedS,
          isolationDepthReachedS,
        },
        past,
        sheet,
      )
    : null;
  return {
    nowS,
    stage,
    pullDownS,
    pressurePa,
    relativeRatePerS: relativeRate,
    targetReachedS,
    isolationDepthReachedS,
    holds: stages.holds,
    forecast,
    holdChance: isPumping
      ? holdChanceNow(
          history,
          {
            nowS,
            sinceS: stages.stage.sinceS,
            pressurePa,
            relativeRatePerS: relativeRate,
            points,
            forecast,
          },
          stages.holds,
          past,
          sheetNow(past, sheet),
        )
      : null,
    rise:
      isolatedS === null
        ? null
        : riseOf(history, stages.holds, sheetNow(past, sheet), stages.endedS ?? nowS),
  };
}

/** All points of a pull-down, and those since a change of the rig: mostly the same. */
function pointsSince(pumped: readonly Sample[], sinceS: number, nowS: number) {
  const allPoints = pullDownPoints(pumped, nowS);
  // They are in order of time.
  const isAll = (pumped[0]?.elapsedS ?? Infinity) > sinceS;
  const points = isAll ? allPoints : pullDownPoints(since(pumped, sinceS), nowS);
  return { points, allPoints };
}

function since(samples: readonly Sample[], sinceS: number): Sample[] {
  return samples.filter(({ elapsedS }) => elapsedS > sinceS);
}

/** The latest hold, together with those that it repeats: they have the same leak. */
function riseOf(
  history: History,
  holds: readonly ToldHold[],
  sheet: Sheet,
  untilS: number,
): Rise | null {
  const latest = holds.at(-1);
  if (!latest) return null;
  return assessRise(history, spanOf(latest), sheet, untilS, toldBefore(history, holds, sheet));
}

/**
 * A sensor that is shut off on its stub sees nothing of the system, and one that is left with a part of it
 * no more than that part, whatever the sheet says.
 */
function sheetNow(past: readonly Mark[], sheet: Sheet): Sheet {
  const latestOf = (shut: MarkKind, opened: MarkKind) =>
    past.findLast(({ kind }) => kind === shut || kind === opened)?.kind;
  if (latestOf('stub_shut', 'stub_opened') === 'stub_shut') return seeing('stub', sheet);
  const isPart = latestOf('sections_shut', 'sections_opened') === 'sections_shut';
  const saysMore = sheet.sensorSees === 'system' || sheet.sensorSees === 'unknown';
  return isPart && saysMore ? seeing('section', sheet) : sheet;
}

/** Always the same for the same sheet: what is kept of past holds goes by that. */
function seeing(view: 'stub' | 'section', sheet: Sheet): Sheet {
  const known = narrowed[view].get(sheet) ?? { ...sheet, sensorSees: view };
  narrowed[view].set(sheet, known);
  return known;
}

const narrowed = { stub: new WeakMap<Sheet, Sheet>(), section: new WeakMap<Sheet, Sheet>() };

/** A pull-down that has come to its depth. */
function withDepth(stage: Stage, depthSinceS: number | null): Stage {
  if (stage.name !== 'pull_down' || depthSinceS === null) return stage;
  return { name: 'at_depth', sinceS: depthSinceS, recognisedBy: 'curve', alternatives: [] };
}
