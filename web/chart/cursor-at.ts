/** What the curves show at a moment: pure. */
import type { CurvePoint } from '../analysis/conclusions.ts';
import type { ChannelCurve } from '../store/channel-curve.ts';
import { SEEN } from '../store/slice.ts';
import type { ChartPicture } from './chart-picture.ts';

/** What there is where nothing was measured. */
type Unmeasured = 'over_range' | 'under_range' | 'fault' | 'gap' | 'nothing' | 'ahead';

interface CursorValue {
  /** Null where nothing was measured. Different where a pixel holds several readings. */
  readonly pressurePa: { readonly low: number; readonly high: number } | null;
  readonly unmeasured: Unmeasured | null;
  readonly warmingUp: boolean;
  readonly late: boolean;
}

export interface CursorFacts {
  /** Data time: that of the reading where there is one, else as asked for. */
  readonly atS: number;
  readonly watched: CursorValue;
  readonly beside: readonly (CursorValue & { readonly name: string })[];
  /** Ahead of the present: what is foreseen. */
  readonly foreseen: CurvePoint | null;
}

const NOTHING: CursorValue = {
  pressurePa: null,
  unmeasured: 'nothing',
  warmingUp: false,
  late: false,
};

/** @param pixelS how long a pixel of the picture is, s */
export function cursorAt(picture: ChartPicture, askedS: number, pixelS: number): CursorFacts {
  const { value, atS } = lookUp(picture.source, askedS, pixelS);
  const isAhead = askedS > picture.bounds.latestS;
  return {
    atS: atS ?? askedS,
    watched: isAhead ? { ...NOTHING, unmeasured: 'ahead' } : value,
    beside: isAhead
      ? []
      : picture.beside.map(({ name, curve }) => {
          return { name, ...lookUp(curve, atS ?? askedS, pixelS).value };
        }),
    foreseen: isAhead ? pointAt(picture.curve, askedS) : null,
  };
}

interface Found {
  readonly value: CursorValue;
  /** Null where no reading is meant. */
  readonly atS: number | null;
}

function lookUp(curve: ChannelCurve, askedS: number, pixelS: number): Found {
  const { readings } = curve;
  const slice = curve.sliceOf({ fromS: askedS - pixelS / 2, toS: askedS + pixelS / 2 });
  if (slice !== null) {
    const atS = slice.firstS === slice.lastS ? slice.firstS : askedS;
    return { atS, value: valueOf(slice.seen, slice.lowPa, slice.highPa) };
  }
  const next = readings.rowFrom(askedS);
  // Before the first and after the last reading there is nothing.
  if (next === 0 || next >= readings.length) return { atS: null, value: NOTHING };
  if (readings.isAfterGap(next)) return { atS: null, value: { ...NOTHING, unmeasured: 'gap' } };
  const isNearer = askedS - readings.elapsedS(next - 1) <= readings.elapsedS(next) - askedS;
  const nearest = curve.sliceAt(isNearer ? next - 1 : next);
  return {
    atS: nearest.firstS,
    value: valueOf(nearest.seen, nearest.lowPa, nearest.highPa),
  };
}

function valueOf(seen: number, low: number, high: number): CursorValue {
  const is = (bit: number) => (seen & bit) !== 0;
  const others = { warmingUp: is(SEEN.warmingUp), late: is(SEEN.late) };
  if (is(SEEN.measured)) return { pressurePa: { low, high }, unmeasured: null, ...others };
  const unmeasured = is(SEEN.overRange)
    ? 'over_range'
    : is(SEEN.underRange)
      ? 'under_range'
      : 'fault';
  return { pressurePa: null, unmeasured, ...others };
}

/** Between its neighbours, in proportion; null outside. */
function pointAt(curve: readonly CurvePoint[], atS: number): CurvePoint | null {
  const next = curve.findIndex(({ elapsedS }) => elapsedS >= atS);
  const after = curve[next];
  const before = curve[next - 1];
  if (after === undefined || before === undefined) return null;
  const share = (atS - before.elapsedS) / (after.elapsedS - before.elapsedS);
  const between = (a: number, b: number) => a + (b - a) * share;
  return {
    elapsedS: atS,
    lowPa: between(before.lowPa, after.lowPa),
    midPa: between(before.midPa, after.midPa),
    highPa: between(before.highPa, after.highPa),
  };
}
