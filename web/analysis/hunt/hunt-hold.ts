/** One hold of a leak hunt: what came in while the sensor saw this part, and what that makes of the part. */
import type { Sheet } from '../../../protocol/sheet.ts';
import type { Estimate, ToldHold } from '../conclusions.ts';
import { leakRatePaM3PerS } from '../flows/leak-rate.ts';
import type { History } from '../readings/history.ts';
import { samplesFromBins } from '../readings/samples.ts';
import { fittedHold, spanOf } from '../rise/hold-fit.ts';
import type { RiseFit } from '../rise/rise-fit.ts';
import { isFalling } from '../rise/rise-signs.ts';
import type { SeenPart } from '../seen/seen-part.ts';
import type { Inflow } from '../seen/stub-baseline.ts';

/** Of this part alone, and of its inflow alone: none of these is a pass of the system. */
type PartVerdict = 'leaks' | 'no_leak' | 'undecided' | 'not_told';

export interface HuntHold extends Inflow {
  readonly fromS: number;
  readonly toS: number;
  readonly part: SeenPart;
  readonly verdict: PartVerdict;
  /** It rose as if it were filled, and nobody marked that: there is no rate of that. */
  readonly tooFast: boolean;
  /** That the inflow is above what counts; null where nothing can be said of it. */
  readonly leakChance: number | null;
  readonly volumeM3: number | null;
  /** Without what came in at the sensor's own joints, Pa·m³/s; the verdict is the one without this. */
  readonly lessStub: Estimate | null;
  /** For a small drawing: since its beginning. */
  readonly curve: readonly { readonly heldS: number; readonly pressurePa: number }[];
}

/** Before what came in at the sensor's own joints is taken off. */
export type HoldAlone = Omit<HuntHold, 'lessStub'>;

/** Probabilities for a word. Settings of ours: those of a hold's own verdict. */
const LEAKS = 0.93;
const NO_LEAK = 0.05;
/** Of what rose too fast to fit: gas may have been let in, and nobody marked it. A setting of ours. */
const TOO_FAST = 0.95;
const CURVE_POINTS = 40;
/** Turning a valve takes a moment. */
const VALVE_S = 3;

export function tooFastOf(
  history: History,
  { fromS, toS }: ToldHold,
  seen: Pick<HuntHold, 'part' | 'volumeM3'>,
): HoldAlone {
  const said = { verdict: 'leaks', tooFast: true, leakChance: TOO_FAST } as const;
  const noRate = { leakPaPerS: null, leakRatePaM3PerS: null };
  return { fromS, toS, ...seen, ...said, ...noRate, curve: curveOf(history, fromS, toS) };
}

export function inflowOf(
  history: History,
  hold: ToldHold,
  seen: Pick<HuntHold, 'part' | 'volumeM3'>,
  sheet: Sheet,
  { systemM3 }: { readonly systemM3: number | null },
): HoldAlone {
  const { fromS, toS } = hold;
  // Each by itself: what one part tells of its inflow says nothing of another's.
  const fit = fitOf(history, hold, sheet);
  const { volumeM3 } = seen;
  // The same flow makes a smaller part rise faster.
  const smaller = volumeM3 !== null && systemM3 !== null ? systemM3 / volumeM3 : 1;
  const limitPaPerS = sheet.leakLimitPaPerS * smaller;
  const leakChance = fit?.posterior.leakAbove(limitPaPerS) ?? null;
  const leakPaPerS = fit?.leakPaPerS ?? null;
  // A rise that grows steeper hides some of its inflow: only the interval's end tells of that.
  const mayLeak = leakPaPerS !== null && leakPaPerS.high > limitPaPerS;
  return {
    fromS,
    toS,
    ...seen,
    verdict: verdictOf(leakChance, mayLeak),
    tooFast: false,
    leakChance,
    leakPaPerS,
    leakRatePaM3PerS:
      leakPaPerS === null || volumeM3 === null ? null : leakRatePaM3PerS(leakPaPerS, volumeM3),
    curve: curveOf(history, fromS, toS),
  };
}

/** So many holds of a recording are kept: a new reading changes none that is over. */
const MOST_KEPT = 24;
const kept = new WeakMap<History, Map<string, RiseFit | null>>();

/** Null where there are too few readings, or where the pressure fell. */
function fitOf(history: History, hold: ToldHold, sheet: Sheet): RiseFit | null {
  const { fromS, toS, recognisedBy } = hold;
  const { holdS, endLimitPa, allowedRisePa, leakLimitPaPerS } = sheet;
  const limits = [holdS, endLimitPa, allowedRisePa, leakLimitPaPerS];
  const key = [fromS, toS, recognisedBy, history.lateReadings, ...limits].join(' ');
  const ofHistory = kept.get(history) ?? new Map<string, RiseFit | null>();
  kept.set(history, ofHistory);
  const known = ofHistory.get(key);
  if (known !== undefined) return known;
  const { fit, points } = fittedHold(history, spanOf(hold), sheet, toS, []);
  const found = isFalling(points) ? null : fit;
  ofHistory.set(key, found);
  const [oldest] = ofHistory.keys();
  if (ofHistory.size > MOST_KEPT && oldest !== undefined) ofHistory.delete(oldest);
  return found;
}

function verdictOf(leakChance: number | null, mayLeak: boolean): PartVerdict {
  if (leakChance === null) return 'not_told';
  if (leakChance > LEAKS) return 'leaks';
  return leakChance < NO_LEAK && !mayLeak ? 'no_leak' : 'undecided';
}

function curveOf(history: History, fromS: number, toS: number): HuntHold['curve'] {
  const samples = samplesFromBins(history.bins(fromS + VALVE_S, toS));
  const every = Math.max(Math.ceil(samples.length / CURVE_POINTS), 1);
  return samples
    .filter((_, at) => at % every === 0 || at === samples.length - 1)
    .map(({ elapsedS, pressurePa }) => ({ heldS: elapsedS - fromS, pressurePa }));
}
