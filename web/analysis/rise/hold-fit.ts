/** The readings of a hold, cleaned and fitted. */
import type { Sheet } from '../../../protocol/sheet.ts';
import type { ToldHold } from '../conclusions.ts';
import type { History } from '../readings/history.ts';
import type { Sample } from '../readings/samples.ts';
import { holdReadings } from './hold-readings.ts';
import type { LeakTold } from './leak-told.ts';
import { fitRise, type RiseFit } from './rise-fit.ts';
import { noiseOf } from './rise-noise.ts';
import { risePoints, type RisePoint } from './rise-points.ts';
import { riseSamples } from './rise-samples.ts';
import { riseSteps, type SeenStep } from './rise-steps.ts';
import { hiddenByTemperature, warmingOf, type HiddenByTemperature } from './rise-warming.ts';
import { openedBy, steepeningOf, type Steepening } from './steepening.ts';

/** A hold to be judged. */
export interface HoldSpan {
  readonly isolatedS: number;
  /** False where a curve told the isolation, and not a mark: its moment is then less sure. */
  readonly isMarked: boolean;
  /** False while it may be pumped all the same. */
  readonly isolationSure: boolean;
}

/** A hold as the fit of its rise wants it. */
export function spanOf({ fromS, recognisedBy, isolationSure }: ToldHold): HoldSpan {
  return { isolatedS: fromS, isMarked: recognisedBy === 'mark', isolationSure };
}

/** Turning the valve takes a moment, and the sensor lags: the fit begins after that. */
const VALVE_S = 3;
/** An isolation that only the curve tells is known to within some seconds: see `npm run stages`. */
const UNMARKED_VALVE_S = 15;
/** What lies so close to a step is smeared by the sensor's lag, s. */
const AROUND_STEP_S = 4;

/** A hold as far as it has been seen. */
export interface FittedHold {
  /** Null where there are too few readings for any. */
  readonly fit: RiseFit | null;
  /** Without spikes and what is out of range. */
  readonly all: readonly Sample[];
  readonly points: readonly RisePoint[];
  readonly steps: readonly SeenStep[];
  /** The last step, or the isolation, data time, s. */
  readonly startS: number;
  /** Null where too little has been seen. */
  readonly steepening: Steepening | null;
  readonly hiddenByTemperature: HiddenByTemperature;
}

/**
 * @param untilS readings after it change nothing
 * @param earlier what other holds of the same system tell of its inflow
 */
export function fittedHold(
  history: History,
  { isolatedS, isMarked }: HoldSpan,
  sheet: Sheet,
  untilS: number,
  earlier: readonly LeakTold[],
): FittedHold {
  const settledS = isMarked ? VALVE_S : UNMARKED_VALVE_S;
  const { bins, samples: read } = holdReadings(history, isolatedS + settledS, untilS);
  const all = riseSamples(read);
  const steps = riseSteps(all, isolatedS);
  const startS = steps.at(-1)?.toS ?? isolatedS;
  const samples = steps.reduce(
    (left: readonly Sample[], { fromS, toS }) =>
      left.filter(
        ({ elapsedS }) => elapsedS < fromS - AROUND_STEP_S || elapsedS > toS + AROUND_STEP_S,
      ),
    all,
  );
  const noise = noiseOf(samples);
  const points = risePoints(samples, noise, isolatedS, steps);
  const warming = warmingOf(points, bins, isolatedS);
  const disturbed = {
    warming,
    stepsS: steps.map(({ fromS, toS }) => (fromS + toS) / 2 - isolatedS),
  };
  // Its times count from isolation, the hold from the last step.
  const limits = { ...sheet, holdS: sheet.holdS + startS - isolatedS };
  const fit = fitRise(points, noise, disturbed, limits, {
    middleS: (startS + untilS) / 2,
    earlier,
  });
  const seen = {
    ...{ all, points, steps, startS },
    hiddenByTemperature: hiddenByTemperature(points, warming, startS - isolatedS),
  };
  if (fit === null) return { ...seen, fit, steepening: null };
  const steepening = steepeningOf(points, {
    startS: startS - isolatedS,
    noisePa: fit.noisePa,
    warming,
  });
  const leakPaPerS = openedBy(steepening, fit.leakPaPerS);
  return { ...seen, fit: { ...fit, leakPaPerS }, steepening };
}
