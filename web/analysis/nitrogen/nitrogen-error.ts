/**
 * How far off the difference of two readings of a nitrogen test may be by itself: one standard deviation, Pa.
 *
 * One gauge that stays where it is errs alike twice, and that part cancels; what its class says is not all of that
 * kind, and nobody says how much. A thermometer that is put on anew each time errs anew.
 */
import type { NitrogenGauge } from '../../../protocol/nitrogen-test.ts';
import { kelvinFromCelsius } from '../../../protocol/units.ts';
import { idealPa, nitrogenPa } from './nitrogen-gas.ts';

/** A reading as the reckoning needs it. */
export interface TestedState {
  readonly gaugePa: number;
  readonly absolutePa: number;
  /** Null where nobody measured it. */
  readonly temperatureC: number | null;
}

/** Where nobody measured. Settings of ours. */
const TAKEN_C = 20;
const UNMEASURED_K = 5;
/** A class is the most that a gauge errs: about two standard deviations. */
const CLASS_SIGMAS = 2;
/** So much of a gauge's class changes from one reading to the next: friction, hysteresis. A setting of ours. */
const NOT_SHARED = 1 / 3;
/** The gas is not quite as warm as the metal where the thermometer sits … Settings of ours. */
const GAS_K = 0.3;
/** … and has not followed all of a change: part of the pipe lies in the sun, or indoors. */
const NOT_FOLLOWED = 0.25;
/** How the air's own pressure wanders, Pa per √h, and at most. From memory of weather charts. */
const WEATHER_PA_PER_ROOT_H = 150;
const WEATHER_MOST_PA = 1000;
/** What is taken for the air's pressure may be off by this: entered, or sea level taken for it. */
const AMBIENT_ENTERED_PA = 500;
const AMBIENT_TAKEN_PA = 10_000;
/** Of the part that the ideal gas leaves out. */
const REAL_GAS_SHARE = 0.15;
const HOUR_S = 3600;

export function kelvinOf({ temperatureC }: TestedState): number {
  return kelvinFromCelsius(temperatureC ?? TAKEN_C);
}

export function nitrogenSigmaPa(
  from: TestedState,
  to: TestedState,
  heldS: number,
  gauge: NitrogenGauge,
): number {
  const [fromK, toK] = [kelvinOf(from), kelvinOf(to)];
  const expectedPa = nitrogenPa(from.absolutePa, fromK, toK);
  const realGasPa = expectedPa - idealPa(from.absolutePa, fromK, toK);
  const perKelvinPa = nitrogenPa(from.absolutePa, fromK, toK + 1) - expectedPa;
  const apartK = Math.abs(toK - fromK);
  const degreesK = Math.hypot(
    thermometerK(from, gauge),
    thermometerK(to, gauge),
    GAS_K * Math.SQRT2,
    NOT_FOLLOWED * apartK,
  );
  const weatherPa = Math.min(WEATHER_PA_PER_ROOT_H * Math.sqrt(heldS / HOUR_S), WEATHER_MOST_PA);
  const ambientPa = gauge.ambientPa === null ? AMBIENT_TAKEN_PA : AMBIENT_ENTERED_PA;
  return Math.hypot(
    gaugePa(from, to, gauge),
    perKelvinPa * degreesK,
    weatherPa,
    ambientPa * (toK / fromK - 1),
    REAL_GAS_SHARE * realGasPa,
  );
}

function thermometerK({ temperatureC }: TestedState, { thermometerK: class2 }: NitrogenGauge) {
  return temperatureC === null ? UNMEASURED_K : class2 / CLASS_SIGMAS;
}

/** Of both readings by the same gauge. */
function gaugePa(from: TestedState, to: TestedState, gauge: NitrogenGauge): number {
  const { accuracyShare, accuracyOf, fullScale, stepPa } = gauge;
  const ofPa = accuracyOf === 'full_scale' ? fullScale.gaugePa : Math.abs(from.gaugePa);
  const sigmaPa = (accuracyShare * ofPa) / CLASS_SIGMAS;
  const steeperPa = (accuracyShare / CLASS_SIGMAS) * Math.abs(to.gaugePa - from.gaugePa);
  const roundedPa = stepPa / Math.sqrt(12);
  return Math.hypot(Math.SQRT2 * Math.hypot(NOT_SHARED * sigmaPa, roundedPa), steeperPa);
}
