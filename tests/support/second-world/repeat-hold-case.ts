/** Two holds of one rig with pumping between: the leak stays, what moisture there was is partly gone. */
import type { Mark } from '../../../protocol/mark.ts';
import type { HistoryPoint } from '../../../web/analysis/readings/history.ts';
import { between, seeded } from '../invented-curves.ts';
import { mark } from './mark.ts';
import { riseCase, type RiseCase } from './rise-case.ts';
import { CLASS_HOLD_S, riseClass, type RiseClass } from './rise-class.ts';
import { RigRun } from './rig-run.ts';
import { temperatureC } from './rig.ts';
import { readings } from './sensor.ts';
import { TrueCurve } from './true-curve.ts';

export interface RepeatHoldCase {
  /** The same rig held once, without a step. */
  readonly once: RiseCase;
  readonly points: readonly HistoryPoint[];
  readonly marks: readonly Mark[];
  /** Each held for `CLASS_HOLD_S`; the class is that of its own true curve. */
  readonly holds: readonly [Hold, Hold];
}

interface Hold {
  readonly isolatedS: number;
  readonly kind: RiseClass;
}

export function repeatHoldCase(seed: number): RepeatHoldCase {
  const once = riseCase(seed);
  const random = seeded(seed * 2 + 1_000_003);
  const reopenedS = once.isolatedS + CLASS_HOLD_S + between(random, 1, 30);
  const againS = reopenedS + between(random, 600, 1200);
  const endS = againS + CLASS_HOLD_S + 10;

  const run = new RigRun(once.rig);
  run.pumpOn = true;
  const curve = new TrueCurve();
  curve.add(0, run.airPa, run.vapourPa);
  const goOn = (untilS: number, valveOpening: number) => {
    run.valveOpening = valveOpening;
    run.disturb();
    while (run.elapsedS < untilS) {
      run.step(untilS);
      curve.add(run.elapsedS, run.airPa, run.vapourPa);
    }
  };
  goOn(once.isolatedS, 1);
  goOn(reopenedS, 0);
  goOn(againS, 1);
  goOn(endS, 0);

  const held = (isolatedS: number): Hold => {
    const at = (elapsedS: number) => curve.shownAt(elapsedS, once.sensor);
    return {
      isolatedS,
      kind: riseClass(once.leakPaPerS, at(isolatedS + CLASS_HOLD_S) - at(isolatedS)),
    };
  };
  const span = { fromS: Math.max(once.isolatedS - 60, 0), toS: endS, silences: [] };
  const metalC = (elapsedS: number) => temperatureC(once.rig.surroundings, elapsedS);
  return {
    once,
    points: readings(curve, once.sensor, random, span, metalC),
    marks: [
      mark(1, 'isolated', once.isolatedS),
      mark(2, 'reopened', reopenedS),
      mark(3, 'isolated', againS),
    ],
    holds: [held(once.isolatedS), held(againS)],
  };
}
