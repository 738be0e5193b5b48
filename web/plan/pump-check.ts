/**
 * Whether a pump is in order, from a sensor on the pump alone (blank-off): a verdict from the curve. Pure.
 *
 * A pump that is alone with a sensor and a hose has next to nothing to pump: what it stands at after some minutes is
 * its own floor, with what oil, ballast and the hose's seals add to it.
 */
import { paFromMicron } from '../../protocol/units.ts';
import { median } from '../analysis/fitting/median.ts';

interface PumpReading {
  readonly elapsedS: number;
  readonly pressurePa: number;
}

type PumpVerdict =
  | 'wrong_view'
  | 'not_on'
  | 'sensor'
  | 'too_early'
  | 'good'
  | 'still_falling'
  | 'high_floor'
  | 'far_too_high'
  | 'rising';

export interface PumpCheckFacts {
  /** Since the pump was switched on, in order of time. */
  readonly readings: readonly PumpReading[];
  readonly pumpOnS: number | null;
  readonly nowS: number;
  readonly seesPump: boolean;
  /** The lowest pressure that the pump reaches by itself, as entered. */
  readonly ultimatePa: number | null;
}

interface PumpCheck {
  readonly verdict: PumpVerdict;
  readonly shouldReachPa: number;
  readonly pressurePa: number | null;
}

/** A two-stage pump in use, warm and on good oil: common practice, no source. The maker's figure comes first. */
const USUAL_PA = paFromMicron(100);
/** A figure on a plate is measured warm, on fresh oil, without hose and seals: twice that is good. Ours. */
const GOOD_FACTOR = 2;
/** And so much more, by which a trade's sensor may be off down there. Ours. */
const SENSOR_PA = paFromMicron(25);
/** No pump in order stays above this with nothing to pump, whatever is entered. Ours. */
const MOST_GOOD_PA = 500;
/** A pressure is the median over so long, of so many readings: a spike is none. Ours. */
const LEVEL_S = 10;
const LEVEL_READINGS = 3;
/** A pump that has run for less has shown nothing yet. Ours. */
const LEAST_RUN_S = 60;
/** Cold oil gives its floor away only once it is warm. Ours. */
export const WITHIN_S = 300;
/** Near to what is good it is still warming for so long. Ours. */
const WARM_S = 600;
const NEAR = 1.5;
/** A third of the time looked back at, a change is told by so much of the pressure. */
const LOOK_BACK_S = 60;
const CHANGE = 0.07;
/** Air through a seal, or an open ballast, keeps it higher than any oil does (1500 micron): common practice, no source. */
const FAR_TOO_HIGH_PA = paFromMicron(1000);

export function checkPump(facts: PumpCheckFacts): PumpCheck {
  const { readings, pumpOnS, nowS, seesPump, ultimatePa } = facts;
  const shouldReachPa = Math.min(
    ultimatePa === null ? USUAL_PA : GOOD_FACTOR * ultimatePa + SENSOR_PA,
    MOST_GOOD_PA,
  );
  const since = pumpOnS === null ? [] : readings.filter(({ elapsedS }) => elapsedS >= pumpOnS);
  const latest = since.at(-1);
  const pressurePa = latest?.pressurePa ?? null;
  const answer = (verdict: PumpVerdict) => ({ verdict, shouldReachPa, pressurePa });
  if (!seesPump) return answer('wrong_view');
  if (pumpOnS === null) return answer('not_on');
  const ranS = nowS - pumpOnS;
  if (latest === undefined) return answer(ranS < LOOK_BACK_S ? 'too_early' : 'sensor');
  const levelPa = levelUntil(since, latest.elapsedS);
  if (levelPa === null) return answer('too_early');
  const backPa = levelUntil(since, latest.elapsedS - LOOK_BACK_S);
  const change = backPa === null ? null : Math.log(levelPa / backPa);
  const risenPa = backPa === null ? 0 : levelPa - backPa;
  if (change !== null && change > 2 * CHANGE && risenPa > SENSOR_PA) return answer('rising');
  if (latest.elapsedS - pumpOnS >= LEAST_RUN_S && levelPa <= shouldReachPa) return answer('good');
  if (ranS < WITHIN_S || change === null) return answer('too_early');
  const isWarming = ranS < WARM_S && levelPa <= Math.min(NEAR * shouldReachPa, MOST_GOOD_PA);
  if (isWarming || change < -CHANGE) return answer('still_falling');
  return answer(levelPa > FAR_TOO_HIGH_PA ? 'far_too_high' : 'high_floor');
}

/** Where it stood at a moment; null where the readings up to there tell too little. */
function levelUntil(readings: readonly PumpReading[], untilS: number): number | null {
  const past = readings.filter(({ elapsedS }) => elapsedS <= untilS);
  const lastS = past.at(-1)?.elapsedS ?? untilS;
  const from = past.findLastIndex(({ elapsedS }) => elapsedS <= lastS - LEVEL_S);
  if (from === -1 || past.length < LEVEL_READINGS) return null;
  const level = past.slice(Math.min(from, past.length - LEVEL_READINGS));
  return median(level.map(({ pressurePa }) => pressurePa));
}
