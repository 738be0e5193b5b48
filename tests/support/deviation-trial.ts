/** What is said beside the expected curve of a generated job's pull-down, and whether it was so. */
import type { Mark } from '../../protocol/mark.ts';
import { DEFAULT_SHEET, type Sheet } from '../../protocol/sheet.ts';
import { paFromMicron } from '../../protocol/units.ts';
import type { Difficulty } from '../../simulators/scenarios/generated/difficulty.ts';
import type { Faults } from '../../simulators/scenarios/generated/faults.ts';
import {
  drawAll,
  generateScenario,
} from '../../simulators/scenarios/generated/generate-scenario.ts';
import type { Job } from '../../simulators/scenarios/generated/job.ts';
import { ScenarioRun } from '../../simulators/scenarios/scenario-run.ts';
import { History } from '../../web/analysis/readings/history.ts';
import { judge } from '../../web/analysis/judge.ts';
import { type Deviation, deviationsFrom } from '../../web/plan/deviation.ts';
import { volumeSpread } from '../../web/plan/expected-time.ts';
import { expectedStartS } from '../../web/plan/place-expected.ts';
import { planOf } from '../../web/plan/plan-of.ts';
import { thinnedFall } from '../../web/plan/thinned-fall.ts';
import { ChannelReadings } from '../../web/store/channel-readings.ts';
import { seeded } from './invented-curves.ts';

type Kind = Deviation['kind'];

interface DeviationTrial {
  /** What was said at any of the moments. */
  readonly said: ReadonlySet<Kind>;
  /** What was the case. */
  readonly so: ReadonlySet<Kind>;
  /** What was said at each moment, for whoever looks at a failure. */
  readonly log: readonly string[];
}

/** Minutes since pump on at which somebody looks. */
const LOOKS_MIN = [2, 4, 6, 9, 13, 18, 25, 35, 50, 70];
/** A volume is entered so well, either way. */
const VOLUME_ERROR = 0.2;

/** With the rig entered as the job was meant to be: its hose, its pump, and its volume roughly. */
export function deviationTrial(seed: number, difficulty: Difficulty): DeviationTrial {
  const { job, faults } = drawAll({ seed, difficulty });
  const run = new ScenarioRun(generateScenario({ seed, difficulty }), seed, { helper: true });
  const sheet = entered(job, seed);
  const plan = planOf(sheet);
  if (plan.curve === null) throw new Error('all is entered');
  const history = new History();
  const readings = new ChannelReadings(0);
  const marks: Mark[] = [];
  const said = new Set<Kind>();
  const log: string[] = [];
  let onS = Number.NaN;
  let looks = [...LOOKS_MIN];
  for (let index = 0; looks.length > 0 && !run.finished; index += 1) {
    const { elapsedS, pressurePa, heard, event } = run.next();
    if (event === 'isolated') break;
    if (event === 'pump_on') onS = elapsedS;
    if (event !== null) {
      marks.push({ id: marks.length + 1, kind: event, elapsedS, text: '', madeBy: 'hand' });
    }
    if (heard) {
      const condition = pressurePa === null ? 'over_range' : 'ok';
      const reading = { elapsedS, pressurePa, temperatureC: null, condition } as const;
      history.insert(reading);
      readings.insert([{ ...reading, index, channel: 0, boot: 1, sequence: index }]);
    }
    if (!(elapsedS >= onS + 60 * (looks[0] ?? Infinity))) continue;
    looks = looks.slice(1);
    const conclusions = judge(history, marks, sheet, elapsedS);
    const startS = expectedStartS(plan.curve, readings, conclusions);
    if (startS === null || conclusions.pullDownS === null) continue;
    const deviations = deviationsFrom({
      points: thinnedFall(readings, conclusions.pullDownS, elapsedS),
      nowS: elapsedS,
      startS,
      curve: plan.curve,
      volume: volumeSpread(sheet),
      forecast: conclusions.forecast,
    });
    for (const deviation of deviations) {
      said.add(deviation.kind);
      log.push(`${Math.round((elapsedS - onS) / 60)} min: ${JSON.stringify(deviation)}`);
    }
  }
  return { said, so: soOf(faults), log };
}

function entered(job: Job, seed: number): Sheet {
  const random = seeded(seed);
  return {
    ...DEFAULT_SHEET,
    volumeM3: job.volumeM3 * (1 + VOLUME_ERROR * (2 * random() - 1)),
    pumpDisplacementM3PerS: (job.pump.cfm * 28.317e-3) / 60,
    pumpUltimatePa: job.pump.ultimatePa,
    hoseBoreM: job.hose.boreM,
    hoseLengthM: job.hose.lengthM,
    hoseCount: job.hose.count,
    core: 'out',
  };
}

/** A steady inflow of less than this makes no floor of note. */
const LEAK_PA_PER_S = paFromMicron(5) / 60;

function soOf(faults: Faults): Set<Kind> {
  const leakPaPerS = faults.systemLeakPaPerS + faults.stubLeakPaPerS + faults.chargePaPerS;
  const so = new Set<Kind>();
  if (faults.narrow) so.add('slower');
  if (faults.freeWater !== null || faults.heldWater.length > 0) so.add('plateau');
  if (
    faults.foulPa > 0 ||
    faults.hoseLeakPa > 0 ||
    faults.ballastForgotten ||
    leakPaPerS > LEAK_PA_PER_S
  ) {
    so.add('floor');
  }
  if (so.has('plateau') || so.has('floor')) so.add('standstill');
  return so;
}
