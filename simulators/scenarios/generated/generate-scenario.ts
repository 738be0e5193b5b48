/** Endless jobs, drawn by seed and difficulty. */
import type { ScriptStep, Scenario, Placed } from '../scenario.ts';
import { scenarioSchema } from '../scenario.ts';
import { build } from './build.ts';
import { callCause } from './call-cause.ts';
import { drawCard } from './card.ts';
import { Chance } from './chance.ts';
import { DIFFICULTIES, type Difficulty } from './difficulty.ts';
import { drawFaults } from './draw-faults.ts';
import type { Faults } from './faults.ts';
import { drawJob, type Job } from './job.ts';
import { revelationOf } from './revelation.ts';
import { CLOSE_BALLAST_PA } from './trial.ts';
import { withoutCauses } from './without-causes.ts';

interface Wish {
  /** 0 to 2³² − 1 */
  readonly seed: number;
  readonly difficulty: Difficulty;
}

/** Pure: the same wish gives the same job. */
export function generateScenario({ seed, difficulty }: Wish): Scenario {
  const { job, faults, card } = drawAll({ seed, difficulty });
  const cause = callCause(job, faults);
  return scenarioSchema.parse({
    card,
    cause,
    ...revelationOf(cause, faults),
    ...build(job, faults),
    inOrder: inOrder(job, faults, cause),
    sensor: job.sensor,
    radio: { ...job.radio, silences: [...faults.silences] },
    ballastOpen: job.ballastAtStart || faults.ballastForgotten,
    nitrogenPa: job.surroundings.atmospherePa + 10_000,
    script: script(job, faults),
  } satisfies Scenario);
}

/** What the scenario is made from, for whoever wants to look behind it. */
export function drawAll({ seed, difficulty }: Wish) {
  const chance = new Chance(drawSeed({ seed, difficulty }));
  const job = drawJob(chance, difficulty);
  const faults = drawFaults(chance, difficulty, job);
  return { job, faults, card: drawCard(chance, difficulty, job) };
}

/** Not the seed itself: that one makes the sensor's noise, which has nothing to do with the job. */
function drawSeed({ seed, difficulty }: Wish): number {
  return (seed ^ (0x9e3779b9 + 0x1000193 * DIFFICULTIES.indexOf(difficulty))) >>> 0;
}

function inOrder(job: Job, faults: Faults, cause: Scenario['cause']): Placed {
  const placed = build(job, withoutCauses(job, faults, cause));
  if (!faults.ballastForgotten) return placed;
  // Nobody closes it under the same hands, so it lets nothing in.
  const pump = { ...placed.rig.pump, ballastPa: 0, ballastShare: 0 };
  return { ...placed, rig: { ...placed.rig, pump } };
}

/** As a careful technician goes about it, but one whose patience ends. */
function script(
  { depthPa, pumpOnS, patienceS, holdS }: Job,
  { ballastForgotten }: Faults,
): ScriptStep[] {
  const closing: ScriptStep = {
    when: { belowPa: CLOSE_BALLAST_PA, heldS: 0, orAfterS: patienceS },
    do: 'ballast_close',
  };
  return [
    { when: { afterS: 20 }, do: 'pump_on' },
    ...(ballastForgotten ? [] : [closing]),
    { when: { belowPa: depthPa, heldS: pumpOnS, orAfterS: patienceS }, do: 'isolate' },
    { when: { afterS: holdS }, do: 'end' },
  ];
}
