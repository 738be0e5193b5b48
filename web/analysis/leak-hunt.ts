/** All holds of a job by what the sensor saw, side by side, and where by them the leak is. */
import type { Mark } from '../../protocol/mark.ts';
import { type Sheet, type SheetEntry, sheetFromEntries } from '../../protocol/sheet.ts';
import type { Estimate, ToldHold } from './conclusions.ts';
import { spanOf } from './holds.ts';
import type { History } from './history.ts';
import { leakRatePaM3PerS } from './leak-rate.ts';
import { type LeakPlace, leakPlace } from './leak-place.ts';
import { fittedHold } from './hold-fit.ts';
import type { RiseFit } from './rise-fit.ts';
import { isFalling } from './rise-signs.ts';
import { samplesFromBins } from './samples.ts';
import { partSeen, type SeenPart, volumeOf } from './seen-part.ts';
import { type Inflow, lessStub, stubFinding, type StubFinding } from './stub-baseline.ts';
import { spellsUntil } from './spell-list.ts';

/** Of this part alone, and of its inflow alone: none of these is a pass of the system. */
type PartVerdict = 'leaks' | 'no_leak' | 'undecided' | 'not_told';

export interface HuntHold extends Inflow {
  readonly fromS: number;
  readonly toS: number;
  readonly part: SeenPart;
  readonly verdict: PartVerdict;
  /** That the inflow is above what counts; null where nothing could be fitted. */
  readonly leakChance: number | null;
  readonly volumeM3: number | null;
  /** Without what came in at the sensor's own joints, Pa·m³/s; the verdict is the one without this. */
  readonly lessStub: Estimate | null;
  /** For a small drawing: since its beginning. */
  readonly curve: readonly { readonly heldS: number; readonly pressurePa: number }[];
}

export interface LeakHunt {
  /** In order of time; what may be a pump that pulls on is none. */
  readonly holds: readonly HuntHold[];
  readonly stub: StubFinding;
  readonly place: LeakPlace;
}

/** Probabilities for a word. Settings of ours: those of a hold's own verdict. */
const LEAKS = 0.93;
const NO_LEAK = 0.05;
/** So many are looked at: the latest. */
const MOST_HOLDS = 12;
const CURVE_POINTS = 40;
/** Two valves that are turned one after the other make no hold between. */
const LEAST_HOLD_S = 30;
/** Turning a valve takes a moment. */
const VALVE_S = 3;

/** @param entries the map of the system among them, as far as there is one */
export function leakHunt(
  history: History,
  marks: readonly Mark[],
  entries: readonly SheetEntry[],
  nowS: number,
): LeakHunt {
  const sheet = sheetFromEntries(entries);
  const { sections } = sheet;
  const told = spellsUntil(history, marks, sheet, nowS)
    .holds.filter(({ fromS, toS, isolationSure }) => isolationSure && toS - fromS >= LEAST_HOLD_S)
    .slice(-MOST_HOLDS);
  const alone = told.map((hold) => {
    const part = partSeen(marks, entries, hold);
    return inflowOf(history, hold, { part, volumeM3: volumeOf(part, entries, sections) }, sheet, {
      systemM3: volumeOf({ kind: 'system' }, entries, sections),
    });
  });
  const stub = alone.findLast(({ part, leakPaPerS }) => part.kind === 'stub' && leakPaPerS) ?? null;
  const whole = alone.findLast(({ part }) => part.kind === 'system') ?? null;
  const holds = alone.map((hold) => ({
    ...hold,
    lessStub: hold.part.kind === 'stub' ? null : lessStub(hold, stub),
  }));
  const finding = stubFinding(stub, whole);
  return { holds, stub: finding, place: leakPlace(holds, finding) };
}

type Alone = Omit<HuntHold, 'lessStub'>;

function inflowOf(
  history: History,
  hold: ToldHold,
  seen: Pick<HuntHold, 'part' | 'volumeM3'>,
  sheet: Sheet,
  { systemM3 }: { readonly systemM3: number | null },
): Alone {
  const { fromS, toS } = hold;
  // Each by itself: what one part tells of its inflow says nothing of another's.
  const fit = fitOf(history, hold, sheet);
  const { volumeM3 } = seen;
  // The same flow makes a smaller part rise faster.
  const smaller = volumeM3 !== null && systemM3 !== null ? systemM3 / volumeM3 : 1;
  const leakChance = fit?.posterior.leakAbove(sheet.leakLimitPaPerS * smaller) ?? null;
  const leakPaPerS = fit?.leakPaPerS ?? null;
  return {
    fromS,
    toS,
    ...seen,
    verdict: verdictOf(leakChance),
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

function verdictOf(leakChance: number | null): PartVerdict {
  if (leakChance === null) return 'not_told';
  if (leakChance > LEAKS) return 'leaks';
  return leakChance < NO_LEAK ? 'no_leak' : 'undecided';
}

function curveOf(history: History, fromS: number, toS: number): HuntHold['curve'] {
  const samples = samplesFromBins(history.bins(fromS + VALVE_S, toS));
  const every = Math.max(Math.ceil(samples.length / CURVE_POINTS), 1);
  return samples
    .filter((_, at) => at % every === 0 || at === samples.length - 1)
    .map(({ elapsedS, pressurePa }) => ({ heldS: elapsedS - fromS, pressurePa }));
}
