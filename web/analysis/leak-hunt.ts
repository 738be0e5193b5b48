/** All holds of a job by what the sensor saw, side by side, and where by them the leak is. */
import type { Mark, MarkKind } from '../../protocol/mark.ts';
import { type Sheet, type SheetEntry, sheetFromEntries } from '../../protocol/sheet.ts';
import type { Estimate, Stage, ToldHold } from './conclusions.ts';
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
import { type SpellList, spellsUntil } from './spell-list.ts';

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

export interface LeakHunt {
  /** In order of time; what may be a pump that pulls on is none. */
  readonly holds: readonly HuntHold[];
  readonly stub: StubFinding;
  readonly place: LeakPlace;
}

/** Probabilities for a word. Settings of ours: those of a hold's own verdict. */
const LEAKS = 0.93;
const NO_LEAK = 0.05;
/** Of what rose too fast to fit: gas may have been let in, and nobody marked it. A setting of ours. */
const TOO_FAST = 0.95;
/** So many times as fast as the whole is much faster. A setting of ours. */
const MUCH_FASTER = 3;
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
  const spells = spellsUntil(history, marks, sheet, nowS);
  const held = spells.holds.filter(
    ({ fromS, toS, isolationSure }) => isolationSure && toS - fromS >= LEAST_HOLD_S,
  );
  const told = [
    ...held.map((hold) => ({ hold, tooFast: false })),
    ...tooFastHolds(spells, marks, nowS).map((hold) => ({ hold, tooFast: true })),
  ].sort((a, b) => a.hold.fromS - b.hold.fromS);
  const alone = told.slice(-MOST_HOLDS).map(({ hold, tooFast }) => {
    const part = partSeen(marks, entries, hold);
    const seen = { part, volumeM3: volumeOf(part, entries, sections) };
    if (tooFast) return tooFastOf(history, hold, seen);
    return inflowOf(history, hold, seen, sheet, {
      systemM3: volumeOf({ kind: 'system' }, entries, sections),
    });
  });
  const stub =
    alone.findLast(({ part, leakPaPerS, tooFast }) => {
      return part.kind === 'stub' && (tooFast || leakPaPerS !== null);
    }) ?? null;
  const whole = alone.findLast(({ part }) => part.kind === 'system') ?? null;
  const holds = alone.map((hold) => ({
    ...hold,
    lessStub: hold.part.kind === 'stub' ? null : lessStub(hold, stub),
  }));
  const finding = stub?.tooFast ? ofFastStub(stub, whole) : stubFinding(stub, whole);
  return { holds, stub: finding, place: leakPlace(holds, finding) };
}

type Alone = Omit<HuntHold, 'lessStub'>;

/** What shuts a part off from the pump: what is opened may be full of air, and no leak. */
const SHUTTING: readonly MarkKind[] = ['isolated', 'stub_shut', 'sections_shut'];
const PUMPING: readonly MarkKind[] = ['pump_on', 'reopened'];
/** What lets gas in, or takes the sensor off. */
const FILLING: readonly MarkKind[] = ['nitrogen_break', 'charge_released', 'sensor_isolated'];
/** What makes something else of what the sensor sees. */
const CHANGING: readonly MarkKind[] = [
  ...(['stub_shut', 'stub_opened', 'sections_shut', 'sections_opened'] as const),
  ...(['part_seen', 'joints_tightened', 'cores_in'] as const),
];

/**
 * The curve tells no leak from a filling where it rises so fast from the valve on: a hand that marked the valve and no
 * filling has marked a hold. After a while of holding it is none of its leak.
 */
function tooFastHolds({ stages }: SpellList, marks: readonly Mark[], nowS: number): ToldHold[] {
  const later = (kinds: readonly MarkKind[], fromS: number) =>
    marks
      .filter(({ kind, elapsedS }) => kinds.includes(kind) && elapsedS > fromS && elapsedS <= nowS)
      .reduce((firstS, { elapsedS }) => Math.min(firstS, elapsedS), Infinity);
  return stages.flatMap((filled, at) => {
    const rise = stages[at - 1];
    if (rise === undefined || !isFilledFrom(rise, filled)) return [];
    const fromS = rise.sinceS;
    const isShut = marks.some(
      ({ kind, elapsedS }) => SHUTTING.includes(kind) && elapsedS === fromS,
    );
    const before = stages.slice(0, at).findLast(({ name }) => !STILL.includes(name));
    const wasPumped = before?.name === 'pull_down' || before?.name === 'at_depth';
    if (!isShut || !wasPumped || later(FILLING, fromS) < later(PUMPING, fromS)) return [];
    const toS = Math.min(stages[at + 1]?.sinceS ?? nowS, later(CHANGING, fromS), nowS);
    const hold = { fromS, toS, recognisedBy: 'mark', isolationSure: true } as const;
    return [{ ...hold, pumpedS: 0, repeats: false }];
  });
}

const STILL: readonly Stage['name'][] = ['rise', 'pump_stopped'];

function isFilledFrom(rise: Stage, filled: Stage): boolean {
  const isFilled = filled.name === 'nitrogen_break' || filled.name === 'vented';
  const isMarked = rise.name === 'rise' && rise.recognisedBy === 'mark';
  const atOnce = filled.sinceS - rise.sinceS < LEAST_HOLD_S;
  return isFilled && filled.recognisedBy === 'curve' && isMarked && atOnce;
}

function tooFastOf(
  history: History,
  { fromS, toS }: ToldHold,
  seen: Pick<HuntHold, 'part' | 'volumeM3'>,
): Alone {
  const said = { verdict: 'leaks', tooFast: true, leakChance: TOO_FAST } as const;
  const noRate = { leakPaPerS: null, leakRatePaM3PerS: null };
  return { fromS, toS, ...seen, ...said, ...noRate, curve: curveOf(history, fromS, toS) };
}

/** As far as its curve shows it: what it came to at its end may be the air's own pressure. */
function ofFastStub({ curve }: Alone, whole: Alone | null): StubFinding {
  const [first, last] = [curve[0], curve.at(-1)];
  const wholePaPerS = whole?.leakPaPerS?.high ?? null;
  if (first === undefined || last === undefined || wholePaPerS === null) return 'undecided';
  const heldS = last.heldS - first.heldS;
  const risePa = last.pressurePa - first.pressurePa;
  return risePa > MUCH_FASTER * wholePaPerS * heldS ? 'suspect' : 'undecided';
}

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
