/**
 * A pull-down of the second world: readings, marks, and when it really reaches the target. The same
 * seed gives the same case.
 */
import type { Mark } from '../../../protocol/mark.ts';
import type { HistoryPoint } from '../../../web/analysis/readings/history.ts';
import { between, logBetween, seeded } from '../invented-curves.ts';
import { chance, choose } from './chance.ts';
import { drawPullDownRig, TARGET_PA, type Obstacle } from './draw-pull-down.ts';
import { mark } from './mark.ts';
import { RigRun } from './rig-run.ts';
import { temperatureC, type Rig } from './rig.ts';
import { drawSensor, drawSilences, readings, type Sensor } from './sensor.ts';
import { TrueCurve, type Reads } from './true-curve.ts';

export interface PullDownCase {
  readonly seed: number;
  /** Liquid water at the start. */
  readonly wet: boolean;
  readonly obstacle: Obstacle;
  readonly points: readonly HistoryPoint[];
  readonly marks: readonly Mark[];
  readonly pumpOnS: number;
  /** When the sensor, without its noise, would show the target; null: not within eight hours. */
  readonly reachedS: number | null;
  readonly endS: number;
  readonly rig: Rig;
  readonly sensor: Sensor;
  /** True pressure as the sensor would show it without noise, Pa. */
  readonly shownAt: (elapsedS: number) => number;
}

/** A pull-down takes 2 min to 3 h, and counts as never reaching after eight hours. */
const SHORTEST_S = 120;
const LONGEST_S = 3 * 3600;
const NEVER_S = 8 * 3600;
/** Record after the target, and of a pull-down that doesn't reach it. */
const BEYOND_S = 60;
const NEVER_RECORD_S = 45 * 60;

export function pullDownCase(seed: number): PullDownCase {
  const random = seeded(seed * 2 + 1);
  for (let draw = 0; draw < 100; draw += 1) {
    const found = drawn(random, seed);
    if (found) return found;
  }
  throw new Error(`seed ${seed} draws no pull-down`);
}

function drawn(random: () => number, seed: number): PullDownCase | null {
  const obstacle: Obstacle = chance(random, 0.2)
    ? choose(random, ['pump_floor', 'wet_oil', 'leak', 'leak', 'ballast'])
    : 'none';
  const wet = chance(random, 0.5);
  const aboutS =
    obstacle === 'none' ? logBetween(random, 110, 9000) : logBetween(random, 110, 1800);
  const rig = drawPullDownRig(random, aboutS, wet, obstacle);
  const pumpOnS = between(random, 5, 60);
  const ballast = drawBallast(random, obstacle, pumpOnS, aboutS);
  const coreOutS = chance(random, 0.06) ? pumpOnS + aboutS * between(random, 0.1, 0.6) : Infinity;
  const lengthS = obstacle === 'none' ? 1.2 * aboutS : NEVER_RECORD_S;
  const sensor = drawSensor(random, lengthS);
  const curve = new TrueCurve();
  const reachedS = pumpDown(rig, curve, sensor, { pumpOnS, ballast, coreOutS });
  if ((reachedS === null) !== (obstacle !== 'none')) return null;
  if (reachedS !== null && !(reachedS - pumpOnS > SHORTEST_S && reachedS - pumpOnS < LONGEST_S)) {
    return null;
  }
  const endS = reachedS === null ? pumpOnS + NEVER_RECORD_S : reachedS + BEYOND_S;
  const silences = drawSilences(random, 0.25, pumpOnS, endS);
  const metalC = (elapsedS: number) => temperatureC(rig.surroundings, elapsedS);
  return {
    seed,
    wet,
    obstacle,
    points: readings(curve, sensor, random, { fromS: 0, toS: endS, silences }, metalC),
    marks: marksOf(pumpOnS, ballast),
    pumpOnS,
    reachedS,
    endS,
    rig,
    sensor,
    shownAt: (elapsedS) => curve.shownAt(elapsedS, sensor),
  };
}

/** Open from the start and closed at `closedS`, with a mark or without; or left open; or null. */
interface Ballast {
  readonly closedS: number;
  readonly marked: boolean;
}

function drawBallast(
  random: () => number,
  obstacle: Obstacle,
  pumpOnS: number,
  aboutS: number,
): Ballast | null {
  if (obstacle === 'ballast') return { closedS: Infinity, marked: false };
  if (!chance(random, 0.2)) return null;
  return { closedS: pumpOnS + aboutS * between(random, 0.1, 0.5), marked: chance(random, 0.7) };
}

/** What is done to the rig, and when. */
interface Hands {
  readonly pumpOnS: number;
  readonly ballast: Ballast | null;
  /** Taken out in mid-run, without a mark; Infinity: not. */
  readonly coreOutS: number;
}

/** Pumps until a minute after the target is shown; returns when it was, or null. */
function pumpDown(
  rig: Rig,
  curve: TrueCurve,
  reads: Reads,
  { pumpOnS, ballast, coreOutS }: Hands,
): number | null {
  const run = new RigRun(rig);
  run.pump.ballastOpen = ballast !== null;
  let beforePa = Infinity;
  let beforeS = 0;
  let reachedS: number | null = null;
  const closedS = ballast?.closedS ?? Infinity;
  const events = [pumpOnS, closedS, coreOutS];
  for (;;) {
    curve.add(run.elapsedS, run.airPa, run.vapourPa);
    const shownPa = reads.gain * (run.airPa + reads.vapourFactor * run.vapourPa);
    if (reachedS === null && shownPa <= TARGET_PA) {
      const share = (beforePa - TARGET_PA) / (beforePa - shownPa);
      reachedS = beforeS + share * (run.elapsedS - beforeS);
    }
    if (reachedS !== null && run.elapsedS > reachedS + BEYOND_S) return reachedS;
    if (reachedS === null && run.elapsedS > NEVER_S) return null;
    beforePa = shownPa;
    beforeS = run.elapsedS;
    run.step(Math.min(...events.filter((atS) => atS > run.elapsedS), run.elapsedS + 60));
    if (!run.pumpOn && run.elapsedS >= pumpOnS) {
      run.pumpOn = true;
      run.disturb();
    }
    if (run.pump.ballastOpen && run.elapsedS >= closedS) {
      run.pump.ballastOpen = false;
      run.disturb();
    }
    if (beforeS < coreOutS && run.elapsedS >= coreOutS) run.takeCoreOut();
  }
}

function marksOf(pumpOnS: number, ballast: Ballast | null): Mark[] {
  const marks: Mark[] = [mark(1, 'pump_on', pumpOnS)];
  if (ballast?.marked) marks.push(mark(2, 'ballast_closed', ballast.closedS));
  return marks;
}
