/** Pull-downs of the project's own simulated rigs: the world that the judge's physics comes from. */
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import type { Faults, FreeWater } from '../../../simulators/scenarios/generated/faults.ts';
import { logBetween, seeded } from '../../support/invented-curves.ts';
import { mark } from '../../support/second-world/mark.ts';
import { factsOf } from './simulated-facts.ts';
import { drawJobWhere, PlayedJob, type Drawn } from './simulated-rig.ts';
import type { PullDownTrial } from './trials.ts';

const PUMP_ON_S = 20;
const SHORTEST_S = 120;
const LONGEST_S = 3 * 3600;
const NEVER_S = 8 * 3600;
const NEVER_RECORD_S = 45 * 60;
const BEYOND_S = 60;
/** A rise of 100 micron/min: what a slow pump on a large system may not keep up with. */
const LEAK_OF_NOTE_PA_PER_S = paFromMicron(100) / 60;
/** Of every seed's cases the first that is of use; each has its own draws. */
const TRIES = 40;

/** Every second seed with free water, every fifth pair with what keeps it from its target. */
export function simulatedPullDown(seed: number): PullDownTrial {
  for (let turn = 0; turn < TRIES; turn += 1) {
    const found = pullDown(seed, seed * TRIES + turn);
    if (found) return found;
  }
  throw new Error(`seed ${seed} plays no pull-down of use`);
}

function pullDown(seed: number, drawSeed: number): PullDownTrial | null {
  const random = seeded(drawSeed);
  const hindered = Math.floor(seed / 2) % 5 === 0;
  const wanted = drawJobWhere(drawSeed, ({ faults }) => !hindered || mayNeverReach(faults));
  const wet = seed % 2 === 1;
  const freeWater = wet ? (wanted.faults.freeWater ?? drawFreeWater(random)) : null;
  const drawn: Drawn = { ...wanted, faults: { ...wanted.faults, freeWater } };
  const job = new PlayedJob(drawn, drawSeed);
  const targetPa = DEFAULT_SHEET.targetPa;
  let reachedS: number | null = null;
  while (job.elapsedS < PUMP_ON_S) job.goOn();
  job.act('pump_on');
  const longestS = PUMP_ON_S + LONGEST_S;
  let recorded = 0;
  while (job.elapsedS < longestS && (reachedS === null || job.elapsedS < reachedS + BEYOND_S)) {
    const beforePa = job.nowPa;
    job.goOn();
    if (reachedS === null && job.nowPa <= targetPa) {
      reachedS = job.elapsedS - (targetPa - job.nowPa) / (beforePa - job.nowPa);
    }
    if (job.elapsedS <= PUMP_ON_S + NEVER_RECORD_S) recorded = job.points.length;
  }
  if (hindered !== (reachedS === null)) return null;
  if (reachedS === null && job.everBelow(targetPa, NEVER_S)) return null;
  if (reachedS !== null && reachedS < PUMP_ON_S + SHORTEST_S) return null;
  const closedS = job.ballastClosedS;
  return {
    world: 'simulated',
    seed,
    wet,
    points: reachedS === null ? job.points.slice(0, recorded) : job.points,
    marks: [
      mark(1, 'pump_on', PUMP_ON_S),
      ...(closedS === null ? [] : [mark(2, 'ballast_closed', closedS)]),
    ],
    pumpOnS: PUMP_ON_S,
    reachedS,
    waterGoneS: null,
    endS: reachedS === null ? PUMP_ON_S + NEVER_RECORD_S : reachedS + BEYOND_S,
    facts: { obstacle: obstacleOf(drawn.faults), drawSeed, ...factsOf(drawn) },
  };
}

/** As the simulators' own wet jobs have it; the amount up to what a small pump boils off in hours. */
function drawFreeWater(random: () => number): FreeWater {
  const waterKg = logBetween(random, 2e-4, 1e-2);
  return {
    waterKg,
    areaM2: waterKg / (1000 * logBetween(random, 2e-4, 2e-3)),
    evaporationShare: logBetween(random, 0.005, 0.05),
    metalConductanceWPerK: logBetween(random, 0.1, 1),
  };
}

/** From the draws alone, so that few jobs are played in vain. */
function mayNeverReach({
  ballastForgotten,
  foulPa,
  hoseLeakPa,
  systemLeakPaPerS,
}: Faults): boolean {
  const targetPa = DEFAULT_SHEET.targetPa;
  return (
    ballastForgotten ||
    foulPa > targetPa ||
    hoseLeakPa > 0.9 * targetPa ||
    systemLeakPaPerS > LEAK_OF_NOTE_PA_PER_S
  );
}

function obstacleOf({ ballastForgotten, foulPa, hoseLeakPa, systemLeakPaPerS }: Faults): string {
  if (ballastForgotten) return 'ballast';
  if (foulPa > 0) return 'dirty_oil';
  if (hoseLeakPa > 0) return 'hose_leak';
  return systemLeakPaPerS > LEAK_OF_NOTE_PA_PER_S ? 'leak' : 'other';
}
