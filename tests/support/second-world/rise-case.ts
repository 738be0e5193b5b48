/** A rise of the second world: valved off at some depth and held for half an hour. */
import type { Mark } from '../../../protocol/mark.ts';
import type { HistoryPoint } from '../../../web/analysis/readings/history.ts';
import { between, logBetween, seeded } from '../invented-curves.ts';
import { chance } from './chance.ts';
import { TARGET_PA } from './draw-pull-down.ts';
import { drawRiseRig, drawWanted, moister, type Wanted } from './draw-rise.ts';
import { mark } from './mark.ts';
import { CLASS_HOLD_S, RISE_CLASSES, riseClass, type RiseClass } from './rise-class.ts';
import { RigRun } from './rig-run.ts';
import { temperatureC, type Rig } from './rig.ts';
import { drawSensor, drawSilences, readings, type Sensor } from './sensor.ts';
import { TrueCurve, type Reads } from './true-curve.ts';

export interface RiseCase {
  readonly seed: number;
  readonly kind: RiseClass;
  readonly points: readonly HistoryPoint[];
  readonly marks: readonly Mark[];
  readonly isolatedS: number;
  /** Steady inflow as the sensor would show it (with its gain), Pa/s. */
  readonly leakPaPerS: number;
  /** Rise over the first quarter of an hour as it would show, without steps and evening out, Pa. */
  readonly rosePa: number;
  /** By how much it rises at first because the parts even out; negative: falls. */
  readonly eveningPa: number;
  readonly step: { readonly atS: number; readonly risePa: number } | null;
  readonly rig: Rig;
  readonly sensor: Sensor;
  readonly shownAt: (elapsedS: number) => number;
}

const HOLD_S = 1830;
/** What a record has before the isolation, where it doesn't have the whole pull-down. */
const BEFORE_S = 60;
/** Valved off after so long below the depth. */
const BELOW_FOR_S = 20;
/** A valve is turned in so many small moves. */
const TURNS = 4;
/** Parts that stand further apart than that are not valved off: a setting of ours. */
const MOST_EVENING_PA = 20;
/** Pumped no longer than that. */
const PATIENCE_S = 2 * 3600;

export function riseCase(seed: number): RiseCase {
  const random = seeded(seed * 2 + 2);
  const kind = RISE_CLASSES[seed % RISE_CLASSES.length] ?? 'borderline';
  for (let draw = 0; draw < 200; draw += 1) {
    const found = drawn(random, seed, kind);
    if (found) return found;
  }
  throw new Error(`seed ${seed} draws no rise of the class ${kind}`);
}

function drawn(random: () => number, seed: number, kind: RiseClass): RiseCase | null {
  const wanted = drawWanted(random, kind);
  const depthPa = drawDepthPa(random);
  const aboutS = logBetween(random, 100, 2400);
  const sensor = drawSensor(random, HOLD_S);
  const step = chance(random, 0.04)
    ? { atS: between(random, 30, 1200), risePa: logBetween(random, 2, 30) }
    : null;
  const turnedS = logBetween(random, 0.3, 6);
  // The sensor shows what is wanted; with its gain the rig has more or less.
  const real: Wanted = {
    leakPaPerS: wanted.leakPaPerS / sensor.gain,
    moisturePa: wanted.moisturePa / sensor.gain,
  };
  let rig = drawRiseRig(random, aboutS, depthPa, real);
  for (let round = 0; round < 4; round += 1) {
    const held = hold(rig, sensor, depthPa, { step, turnedS });
    if (!held) return null;
    const { curve, isolatedS, evenedPa, steppedPa } = held;
    const shownAt = (elapsedS: number) => curve.shownAt(elapsedS, sensor);
    // What merely evened out between the parts is no rise.
    const rosePa = shownAt(isolatedS + CLASS_HOLD_S) - evenedPa - steppedPa;
    const moisturePa = rosePa - wanted.leakPaPerS * CLASS_HOLD_S;
    const off = moisturePa / wanted.moisturePa;
    const eveningPa = evenedPa - shownAt(isolatedS);
    if (Math.abs(eveningPa) > MOST_EVENING_PA) return null;
    // With it or without it: a class that hangs on it would be a matter of taste.
    const isOfKind = [rosePa, rosePa + eveningPa].every(
      (risePa) => riseClass(wanted.leakPaPerS, risePa) === kind,
    );
    if (!isOfKind || off > 3 || off < 0.3) {
      rig = moister(rig, Math.min(Math.max(1 / off, 0.1), 10));
      continue;
    }
    const whole = chance(random, 0.3);
    const fromS = whole ? 0 : Math.max(isolatedS - BEFORE_S, 0);
    const silences = drawSilences(random, 0.1, isolatedS, isolatedS + HOLD_S);
    const metalC = (elapsedS: number) => temperatureC(rig.surroundings, elapsedS);
    const pumpOn = whole ? [mark(1, 'pump_on', 0)] : [];
    const span = { fromS, toS: isolatedS + HOLD_S, silences };
    return {
      seed,
      kind,
      points: readings(curve, sensor, random, span, metalC),
      marks: [...pumpOn, mark(2, 'isolated', isolatedS)],
      isolatedS,
      leakPaPerS: wanted.leakPaPerS,
      rosePa,
      eveningPa,
      step,
      rig,
      sensor,
      shownAt,
    };
  }
  return null;
}

/** Half the target mostly, sometimes another share of it, sometimes the target itself. */
function drawDepthPa(random: () => number): number {
  if (chance(random, 0.6)) return TARGET_PA / 2;
  return chance(random, 0.6) ? TARGET_PA * between(random, 0.3, 0.9) : TARGET_PA;
}

/** Pumps to the depth, valves off, and holds; null where it doesn't get there. */
function hold(
  rig: Rig,
  reads: Reads,
  depthPa: number,
  { step, turnedS }: { readonly step: RiseCase['step']; readonly turnedS: number },
) {
  const run = new RigRun(rig);
  run.pumpOn = true;
  const curve = new TrueCurve();
  const add = () => curve.add(run.elapsedS, run.airPa, run.vapourPa);
  const shownPa = () => reads.gain * (run.airPa + reads.vapourFactor * run.vapourPa);
  add();
  while (shownPa() > depthPa) {
    if (run.elapsedS > PATIENCE_S) return null;
    run.step(Infinity);
    add();
  }
  const isolatedS = run.elapsedS + BELOW_FOR_S;
  const goOn = (untilS: number) => {
    while (run.elapsedS < untilS) {
      run.step(untilS);
      add();
    }
  };
  goOn(isolatedS);
  const evenedPa = reads.gain * (run.evened.airPa + reads.vapourFactor * run.evened.vapourPa);
  for (let turn = 1; turn <= TURNS; turn += 1) {
    run.valveOpening = (1 - turn / TURNS) ** 2;
    run.disturb();
    goOn(isolatedS + (turnedS * turn) / TURNS);
  }
  if (step) {
    goOn(isolatedS + step.atS);
    run.letGo(step.risePa);
    add();
  }
  goOn(isolatedS + HOLD_S + 1);
  const steppedPa = step && step.atS < CLASS_HOLD_S ? reads.gain * step.risePa : 0;
  return { curve, isolatedS, evenedPa, steppedPa };
}
