/**
 * Whether a system dries from one evacuation to the next, by the rises of its holds. Two rises say that only where they
 * began alike, lasted alike and were as warm: else the one that was shorter or colder looks drier.
 */
import type { Estimate } from '../conclusions.ts';
import type { History } from '../readings/history.ts';
import { keptPast } from '../readings/kept-past.ts';
import { type HoldSeen, holdSeen } from '../rise/hold-seen.ts';
import type { Cycle } from './evacuation-cycles.ts';

/** What keeps two rises from being compared. */
type Unlike = 'too_short' | 'start' | 'length' | 'temperature' | 'temperature_unknown';

interface TrendHold {
  readonly fromS: number;
  readonly lengthS: number;
  readonly startPa: Estimate | null;
  /** Risen from half a minute after valve-off to the moment that is compared, Pa; null in a silence. */
  readonly risenPa: Estimate | null;
  /** Null where nobody measured it. */
  readonly temperatureC: number | null;
}

export type MoistureTrend =
  | { readonly kind: 'too_few' }
  | {
      readonly kind: 'unlike';
      readonly holds: readonly TrendHold[];
      readonly why: readonly Unlike[];
    }
  | {
      readonly kind: 'drying' | 'same' | 'more';
      readonly holds: readonly TrendHold[];
      /** The moment since valve-off at which they are compared, s. */
      readonly atS: number;
      /** Each rises less in its second half than in its first, by more than a straight line would. */
      readonly levelling: boolean;
    };

/** Settings of ours, all of them. */
const LEAST_HOLD_S = 240;
const SETTLED_S = 30;
const START_RATIO = 1.5;
/** … or by so small a part of what they rose that it changes nothing. */
const START_OF_RISE = 0.15;
const LENGTH_RATIO = 1.5;
const TEMPERATURE_K = 2;
/** A straight line rises by half in either half. */
const SECOND_HALF = 0.42;
/** While a shorter hold goes on, the moment that is compared moves with it. */
const MOST_MOMENTS = 60;

const keptSeen = keptPast<HoldSeen>();

/** Of a hold that is over the same moments are asked for at each judging. */
function remembering(seen: HoldSeen): HoldSeen {
  const known = new Map<number, Estimate | null>();
  return {
    ...seen,
    pressureAt: (afterS) => {
      const before = known.get(afterS);
      if (before !== undefined) return before;
      const found = seen.pressureAt(afterS);
      if (known.size < MOST_MOMENTS) known.set(afterS, found);
      return found;
    },
  };
}

/** @param temperatureAt of the metal during a stretch, or null */
export function moistureTrend(
  history: History,
  cycles: readonly Cycle[],
  temperatureAt: (fromS: number, toS: number) => number | null,
): MoistureTrend {
  const spans = cycles.flatMap(({ holds }) => longest(holds));
  if (spans.length < 2) return { kind: 'too_few' };
  const atS = Math.min(...spans.map(({ fromS, toS }) => toS - fromS - END_S));
  const seen = spans.map((span) =>
    keptSeen(history, [], span, () => remembering(holdSeen(history, span.fromS, span.toS))),
  );
  // When the gas has come to rest: a pull-down's last seconds are no rise.
  const rested = seen.map(({ pressureAt }) => pressureAt(SETTLED_S));
  const holds = spans.map(({ fromS, toS }, at): TrendHold => {
    const startPa = seen[at]?.startPa ?? null;
    return {
      fromS,
      lengthS: toS - fromS,
      startPa,
      risenPa: difference(seen[at]?.pressureAt(atS) ?? null, rested[at] ?? null),
      temperatureC: temperatureAt(fromS, toS),
    };
  });
  const why = unlike(holds);
  if (why.length > 0) return { kind: 'unlike', holds, why };
  const halves = holds.map((_, at) =>
    difference(seen[at]?.pressureAt((atS + SETTLED_S) / 2) ?? null, rested[at] ?? null),
  );
  const levelling = holds.every(({ risenPa }, at) => {
    const half = halves[at]?.estimate ?? NaN;
    const whole = risenPa?.estimate ?? NaN;
    return whole - half < SECOND_HALF * whole;
  });
  return { kind: compare(holds), holds, atS, levelling };
}

/** A valve that is opened again is marked a little late. */
const END_S = 15;

function longest<T extends { readonly fromS: number; readonly toS: number }>(
  holds: readonly T[],
): T[] {
  const [first, ...others] = holds;
  if (first === undefined) return [];
  const lengthOf = ({ fromS, toS }: T) => toS - fromS;
  return [others.reduce((a, b) => (lengthOf(b) > lengthOf(a) ? b : a), first)];
}

function unlike(holds: readonly TrendHold[]): Unlike[] {
  const apart = (values: readonly number[]) => Math.max(...values) / Math.min(...values);
  const starts = holds.map(({ startPa }) => startPa?.estimate ?? NaN);
  const leastRise = Math.min(...holds.map(({ risenPa }) => risenPa?.estimate ?? NaN));
  const startsApartPa = Math.max(...starts) - Math.min(...starts);
  const alike = apart(starts) <= START_RATIO || startsApartPa <= START_OF_RISE * leastRise;
  const lengths = holds.map(({ lengthS }) => lengthS);
  const temperatures = holds.map(({ temperatureC }) => temperatureC ?? NaN);
  const known = temperatures.every((value) => !Number.isNaN(value));
  const spreadK = Math.max(...temperatures) - Math.min(...temperatures);
  const all: [Unlike, boolean][] = [
    ['too_short', Math.min(...lengths) < LEAST_HOLD_S],
    // A start that nobody saw is none that is alike.
    ['start', !alike],
    ['length', apart(lengths) > LENGTH_RATIO],
    ['temperature_unknown', !known],
    ['temperature', known && spreadK > TEMPERATURE_K],
  ];
  return all.flatMap(([why, isSo]) => (isSo ? [why] : []));
}

function compare(holds: readonly TrendHold[]): 'drying' | 'same' | 'more' {
  const rises = holds.flatMap(({ risenPa }) => (risenPa === null ? [] : [risenPa]));
  const pairs = rises.slice(1).map((later, at) => ({ earlier: rises[at] ?? later, later }));
  if (rises.length < holds.length) return 'same';
  if (pairs.every(({ earlier, later }) => later.high < earlier.low)) return 'drying';
  return pairs.some(({ earlier, later }) => later.low > earlier.high) ? 'more' : 'same';
}

function difference(to: Estimate | null, from: Estimate | null): Estimate | null {
  if (to === null || from === null) return null;
  const estimate = to.estimate - from.estimate;
  const away = Math.hypot(to.high - to.estimate, from.high - from.estimate);
  return { estimate, low: estimate - away, high: estimate + away };
}
