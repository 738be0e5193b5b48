/** Rises of the project's own simulated rigs, held once or twice. */
import { micronFromPa, paFromMicron } from '../../../protocol/units.ts';
import { between, seeded } from '../../support/invented-curves.ts';
import { chance } from '../../support/second-world/chance.ts';
import { mark } from '../../support/second-world/mark.ts';
import {
  CLASS_HOLD_S,
  RISE_CLASSES,
  riseClass,
  type RiseClass,
} from '../../support/second-world/rise-class.ts';
import { factsOf } from './simulated-facts.ts';
import { drawJobWhere, PlayedJob, shownLeakPaPerS, type Drawn } from './simulated-rig.ts';
import type { RepeatTrial, RiseTrial } from './trials.ts';

const HOLD_S = 1830;
/** Longer nobody pumps for a hold here. */
const PATIENCE_S = 2 * 3600;
/** Of every seed's cases the first that is of use; each has its own draws. */
const TRIES = 40;

/** Classes go round by seed: which the job is drawn for, and is told by its true curve. */
export function simulatedRise(seed: number): RiseTrial {
  const { job, isolatedS, drawn, drawSeed, random } = playedToHold(seed);
  while (job.elapsedS < isolatedS + HOLD_S) job.goOn();
  const rosePa = job.shownAt(isolatedS + CLASS_HOLD_S) - job.shownAt(isolatedS);
  const fromS = chance(random, 0.3) ? 0 : isolatedS - 60;
  const leakPaPerS = shownLeakPaPerS(drawn);
  return {
    world: 'simulated',
    seed,
    kind: riseClass(leakPaPerS, rosePa),
    points: job.points.filter(({ elapsedS }) => elapsedS >= fromS),
    marks: [...(fromS === 0 ? [mark(1, 'pump_on', 0)] : []), mark(2, 'isolated', isolatedS)],
    isolatedS,
    heldS: 1800,
    leakPaPerS,
    shownAt: (elapsedS) => job.shownAt(elapsedS),
    facts: { drawSeed, rose15Micron: micronFromPa(rosePa), stepAtS: null, ...factsOf(drawn) },
  };
}

/** The same job, held for a quarter of an hour, pumped on, and held again. */
export function simulatedRepeat(seed: number): RepeatTrial {
  const { job, isolatedS, drawn, drawSeed, random } = playedToHold(seed);
  const goOn = (untilS: number) => {
    while (job.elapsedS < untilS) job.goOn();
  };
  const reopenedS = isolatedS + CLASS_HOLD_S + 10;
  goOn(reopenedS);
  job.act('reopen');
  const againS = Math.ceil(reopenedS + between(random, 600, 1200));
  goOn(againS);
  job.act('isolate');
  goOn(againS + CLASS_HOLD_S + 10);
  const leakPaPerS = shownLeakPaPerS(drawn);
  const held = (fromS: number) => ({
    isolatedS: fromS,
    kind: riseClass(leakPaPerS, job.shownAt(fromS + CLASS_HOLD_S) - job.shownAt(fromS)),
  });
  return {
    world: 'simulated',
    seed,
    points: job.points.filter(({ elapsedS }) => elapsedS >= isolatedS - 60),
    marks: [
      mark(1, 'isolated', isolatedS),
      mark(2, 'reopened', reopenedS),
      mark(3, 'isolated', againS),
    ],
    holds: [held(isolatedS), held(againS)],
    leakPaPerS,
    facts: { drawSeed, ...factsOf(drawn) },
  };
}

interface Held {
  /** Just valved off. */
  readonly job: PlayedJob;
  readonly isolatedS: number;
  readonly drawn: Drawn;
  readonly drawSeed: number;
  readonly random: () => number;
}

/** Of the seed's draws the first whose true curve is of the class whose turn it is. */
function playedToHold(seed: number): Held {
  const wanted = RISE_CLASSES[seed % RISE_CLASSES.length] ?? 'borderline';
  let last: Held | null = null;
  for (let turn = 0; turn < TRIES; turn += 1) {
    const drawSeed = seed * TRIES + turn;
    const held = playToHold(drawSeed, wanted);
    if (!held) continue;
    last = held;
    if (classOf(held) === wanted) break;
  }
  if (!last) throw new Error(`seed ${seed} plays no rise of use`);
  // The first was used up by looking at how it goes on.
  const again = playToHold(last.drawSeed, wanted);
  if (!again) throw new Error(`seed ${seed} plays differently the second time`);
  return again;
}

function classOf({ job, isolatedS, drawn }: Held): RiseClass {
  while (job.elapsedS < isolatedS + CLASS_HOLD_S) job.goOn();
  const rosePa = job.shownAt(isolatedS + CLASS_HOLD_S) - job.shownAt(isolatedS);
  return riseClass(shownLeakPaPerS(drawn), rosePa);
}

function playToHold(drawSeed: number, wanted: RiseClass): Held | null {
  const random = seeded(drawSeed);
  const drawn = drawJobWhere(drawSeed, (one) => mayBe(wanted, one));
  const job = new PlayedJob(drawn, drawSeed);
  job.act('pump_on');
  const depthPa = chance(random, 0.7) ? drawn.job.depthPa : between(random, 30, 66);
  const patienceS = Math.min(drawn.job.patienceS, PATIENCE_S);
  while (job.nowPa > depthPa && job.elapsedS < patienceS) job.goOn();
  if (job.nowPa > depthPa) return null;
  const isolatedS = Math.ceil(job.elapsedS + between(random, 20, drawn.job.pumpOnS));
  while (job.elapsedS < isolatedS) job.goOn();
  job.act('isolate');
  return { job, isolatedS, drawn, drawSeed, random };
}

/** From the draws alone, so that few jobs are played in vain. */
function mayBe(kind: RiseClass, { faults }: Drawn): boolean {
  const leak = faults.systemLeakPaPerS + faults.stubLeakPaPerS + faults.chargePaPerS;
  const micronPerMin = (60 * leak) / paFromMicron(1);
  const moist =
    faults.heldWater.length > 0 || faults.heldRefrigerant.length > 0 || faults.freeWater !== null;
  switch (kind) {
    case 'tight_dry':
      return micronPerMin <= 3 && !moist;
    case 'moisture':
      return micronPerMin <= 5 && moist;
    case 'leak':
      return micronPerMin >= 10 && !moist;
    case 'leak_and_moisture':
      return micronPerMin >= 10 && moist;
    case 'borderline':
      return micronPerMin < 12 && (micronPerMin > 3 || moist);
  }
}
