/**
 * A day's work on an invented rig, by hands that wait for depths and lose patience, with what really
 * happened beside it: for tests of the stages. Same seed, same session.
 */
import type { HistoryPoint } from '../../web/analysis/readings/history.ts';
import { between, inventSensor, logBetween, normal, seeded } from './invented-curves.ts';
import type { InventedSensor } from './invented-curves.ts';
import { InventedRun, inventRig } from './invented-rig.ts';

export const SESSION_KINDS = [
  'hold',
  'repeated_holds',
  'nitrogen_break',
  'vented',
  'pump_stops',
  'only_pumping',
  'rig_changes',
] as const;
export type SessionKind = (typeof SESSION_KINDS)[number];

type TrueStage = 'waiting' | 'pull_down' | 'rise' | 'nitrogen_break' | 'vented' | 'pump_stopped';

type RigChange =
  'ballast_opened' | 'ballast_closed' | 'core_out' | 'pump_slows' | 'far_part_opened';

export interface InventedSession {
  readonly points: readonly HistoryPoint[];
  readonly endS: number;
  /** In order, the first from 0 s. */
  readonly stages: readonly { readonly stage: TrueStage; readonly fromS: number }[];
  /** What was changed while it pumped. */
  readonly changes: readonly { readonly change: RigChange | 'heat'; readonly atS: number }[];
}

/** What the hands do, and what they wait for before it. */
interface Task {
  readonly when:
    | { readonly afterS: number }
    | { readonly belowPa: number; readonly heldS: number; readonly orAfterS: number };
  readonly act: (hands: SessionHands) => void;
}

/** Nobody takes longer. */
const LONGEST_S = 2.5 * 3600;
/** How high the readings of a sensor go that knows the atmosphere. */
const WHOLE_RANGE_PA = 200_000;

export function inventSession(seed: number, kind: SessionKind): InventedSession {
  const random = seeded(seed * 31 + SESSION_KINDS.indexOf(kind));
  const run = new InventedRun(inventRig(random));
  const place = random() < 0.6 ? 0 : 1;
  const hands = new SessionHands(run, random);
  const sensor = new SessionSensor(random, () => run.pressurePa(place));
  const tasks = [...tasksOf(kind, random)];
  let sinceS = 0;
  let belowSinceS: number | null = null;
  while (tasks.length > 0 && run.elapsedS < LONGEST_S) {
    run.goOn(sensor.stepS);
    hands.turn(sensor.stepS);
    const seenPa = sensor.read(run.elapsedS);
    const [next] = tasks;
    if (!next) break;
    const waitedS = run.elapsedS - sinceS;
    let due: boolean;
    if ('afterS' in next.when) due = waitedS >= next.when.afterS;
    else {
      const { belowPa, heldS, orAfterS } = next.when;
      if (seenPa === null || seenPa >= belowPa) belowSinceS = null;
      else belowSinceS ??= run.elapsedS;
      due = waitedS >= orAfterS || (belowSinceS !== null && run.elapsedS - belowSinceS >= heldS);
    }
    if (!due) continue;
    next.act(hands);
    tasks.shift();
    sinceS = run.elapsedS;
    belowSinceS = null;
  }
  return {
    points: sensor.points,
    endS: run.elapsedS,
    stages: hands.stages,
    changes: hands.changes,
  };
}

/** They write down what they do. */
class SessionHands {
  readonly stages: { stage: TrueStage; fromS: number }[] = [{ stage: 'waiting', fromS: 0 }];
  readonly changes: { change: RigChange | 'heat'; atS: number }[] = [];
  readonly #run: InventedRun;
  readonly #random: () => number;
  #turning: { readonly to: number; readonly perS: number } | null = null;
  #heating: { leftS: number; readonly perS: number } | null = null;

  constructor(run: InventedRun, random: () => number) {
    this.#run = run;
    this.#random = random;
  }

  /** Valves take their time, and so does heat. */
  turn(stepS: number): void {
    const { hands } = this.#run;
    if (this.#turning !== null) {
      const { to, perS } = this.#turning;
      const left = to - hands.valve;
      hands.valve += Math.sign(left) * Math.min(Math.abs(left), perS * stepS);
      if (hands.valve === to) this.#turning = null;
    }
    if (this.#heating !== null && this.#heating.leftS > 0) {
      hands.heatK += this.#heating.perS * stepS;
      this.#heating.leftS -= stepS;
    }
  }

  start(): void {
    this.#run.hands.pumpOn = true;
    this.#run.hands.filling = null;
    this.#valve(1, 0.5);
    this.#now('pull_down');
  }

  isolate(): void {
    const turnS = logBetween(this.#random, 0.3, 20);
    this.#valve(0, turnS);
    this.#now('rise', turnS / 2);
  }

  reopen(): void {
    const turnS = logBetween(this.#random, 0.3, 10);
    this.#valve(1, turnS);
    this.#now('pull_down', turnS / 2);
  }

  stopPump(): void {
    this.#run.hands.pumpOn = false;
    this.#now('pump_stopped');
  }

  fill(stage: 'nitrogen_break' | 'vented'): void {
    this.#valve(0, 0.5);
    const untilPa = stage === 'vented' ? 101_325 : between(this.#random, 103_000, 150_000);
    this.#run.hands.filling = { untilPa };
    this.#now(stage);
  }

  change(change: RigChange | 'heat'): void {
    const { hands } = this.#run;
    this.changes.push({ change, atS: this.#run.elapsedS });
    switch (change) {
      case 'ballast_opened':
        hands.ballastPa = between(this.#random, 80, 250);
        return;
      case 'ballast_closed':
        hands.ballastPa = 0;
        return;
      case 'core_out':
        hands.hose *= between(this.#random, 3, 10);
        return;
      case 'pump_slows':
        hands.speed *= between(this.#random, 0.3, 0.7);
        return;
      case 'far_part_opened':
        this.#run.openFarPart();
        return;
      case 'heat':
        this.#heating = { leftS: 900, perS: between(this.#random, 5, 20) / 900 };
        return;
    }
  }

  #valve(to: number, turnS: number): void {
    this.#turning = { to, perS: 1 / turnS };
  }

  #now(stage: TrueStage, laterS = 0): void {
    this.stages.push({ stage, fromS: this.#run.elapsedS + laterS });
  }
}

/** An invented sensor with a lag, a wrong gain, and an end of its range. */
class SessionSensor {
  readonly points: HistoryPoint[] = [];
  readonly stepS: number;
  readonly #random: () => number;
  readonly #sensor: InventedSensor;
  readonly #truePa: () => number;
  readonly #gain: number;
  readonly #topPa: number;
  readonly #silences: readonly { readonly fromS: number; readonly toS: number }[];
  #feltPa: number;
  #noise: number;

  constructor(random: () => number, truePa: () => number) {
    this.#random = random;
    this.#truePa = truePa;
    this.#sensor = inventSensor(random, 3600);
    this.stepS = 1 / this.#sensor.ratePerS;
    this.#gain = between(random, 0.9, 1.1);
    this.#topPa = random() < 0.3 ? WHOLE_RANGE_PA : logBetween(random, 133, 2666) * 2;
    this.#silences = Array.from({ length: Math.floor(between(random, 0, 4)) }, () => {
      const fromS = between(random, 100, 6000);
      return { fromS, toS: fromS + logBetween(random, 5, 150) };
    });
    this.#feltPa = truePa();
    this.#noise = normal(random);
  }

  /** What it shows, or null over range or where the radio lost it. */
  read(elapsedS: number): number | null {
    const { lagS, noisePa, relativeNoise, quantumPa, spikeShare } = this.#sensor;
    const random = this.#random;
    const memory = Math.exp(-this.stepS / lagS);
    this.#feltPa = memory * this.#feltPa + (1 - memory) * this.#truePa();
    this.#noise = memory * this.#noise + Math.sqrt(1 - memory * memory) * normal(random);
    const spike = random() < spikeShare ? between(random, 0.5, 2) : 1;
    const sigmaPa = Math.hypot(noisePa, relativeNoise * this.#feltPa);
    const shownPa = (this.#gain * this.#feltPa + sigmaPa * this.#noise) * spike;
    const pressurePa =
      shownPa > this.#topPa ? null : Math.max(Math.round(shownPa / quantumPa) * quantumPa, 0);
    if (this.#silences.some(({ fromS, toS }) => elapsedS > fromS && elapsedS < toS)) return null;
    this.points.push({
      elapsedS,
      pressurePa,
      condition: pressurePa === null ? 'over_range' : 'ok',
      temperatureC: null,
    });
    return pressurePa;
  }
}

function tasksOf(kind: SessionKind, random: () => number): Task[] {
  const after = (lowS: number, highS: number, act: Task['act']): Task => ({
    when: { afterS: between(random, lowS, highS) },
    act,
  });
  const atDepth = (act: Task['act']): Task => ({
    when: {
      belowPa: random() < 0.8 ? between(random, 26, 40) : between(random, 40, 66),
      heldS: logBetween(random, 15, 900),
      orAfterS: between(random, 1200, 3600),
    },
    act,
  });
  const start = after(20, 200, (hands) => hands.start());
  const isolate = atDepth((hands) => hands.isolate());
  const reopen = after(180, 1200, (hands) => hands.reopen());
  const again = after(240, 1200, (hands) => hands.isolate());
  const end = after(200, 1200, () => undefined);
  switch (kind) {
    case 'hold':
      return [start, isolate, end];
    case 'repeated_holds':
      return [start, isolate, reopen, again, reopen, again, end];
    case 'nitrogen_break': {
      const broken = atDepth((hands) => hands.fill('nitrogen_break'));
      return [start, broken, after(60, 900, (hands) => hands.start()), isolate, end];
    }
    case 'vented':
      return [start, isolate, after(180, 1200, (hands) => hands.fill('vented')), end];
    case 'pump_stops': {
      const early = random() < 0.4;
      const stop: Task['act'] = (hands) => hands.stopPump();
      const stopped = early ? after(60, 900, stop) : atDepth(stop);
      return [start, stopped, after(120, 900, (hands) => hands.start()), isolate, end];
    }
    case 'only_pumping':
      return [start, after(2400, 7000, () => undefined)];
    case 'rig_changes': {
      const changed = (change: RigChange | 'heat') =>
        after(200, 1500, (hands) => hands.change(change));
      const plans: readonly Task[][] = [
        [changed('ballast_opened'), changed('ballast_closed')],
        [changed('core_out')],
        [changed('pump_slows')],
        [changed('far_part_opened')],
        [changed('heat')],
      ];
      const plan = plans[Math.floor(random() * plans.length)] ?? [];
      return [start, ...plan, after(900, 2400, () => undefined)];
    }
  }
}
