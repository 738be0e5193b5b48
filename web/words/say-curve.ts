/** The curve in a sentence or two, for those who can't see it. */
import type { Sheet } from '../../protocol/sheet.ts';
import { sayDuration } from './say-duration.ts';
import { pressureDigits, sayPressure, saySetting } from './say-pressure.ts';
import type { Wording } from './english.ts';
import type { Speech } from './speech.ts';

interface CurveMoment {
  readonly elapsedS: number;
  readonly pressurePa: number;
}

/** Where a drawn curve begins and ends, and between what it lies. */
export interface CurveShape {
  readonly first: CurveMoment;
  readonly last: CurveMoment;
  readonly lowest: CurveMoment;
  readonly highest: CurveMoment;
}

interface ShownCurve {
  /** Null where nothing was measured. */
  readonly shape: CurveShape | null;
  readonly axis: 'log' | 'linear';
  readonly sheet: Pick<Sheet, 'targetPa' | 'endLimitPa'>;
  readonly stretches: readonly { readonly kind: keyof Wording['chart']['stretches'] }[];
  /** Forecast or verdict in a few words; empty where there is none. */
  readonly conclusion: string;
  readonly rehearsal: boolean;
}

/** Less than this is no change worth a word. A setting of ours: a gauge's own error is of that size. */
const SAME = 0.05;

export function sayCurve(curve: ShownCurve, speech: Speech): string {
  const { shape, conclusion, rehearsal } = curve;
  const words = speech.wording.chart.curve;
  const parts = [
    rehearsal ? words.rehearsal : '',
    shape === null ? words.nothing : sayShape(shape, speech),
    shape === null ? '' : sayLimit(shape, curve, speech),
    conclusion,
    saySigns(curve.stretches, speech),
  ];
  return parts.flatMap((part) => (part === '' ? [] : [`${part}.`])).join(' ');
}

function sayShape(shape: CurveShape, speech: Speech): string {
  const { first, last, lowest, highest } = shape;
  const words = speech.wording.chart.curve;
  const low = Math.min(first.pressurePa, last.pressurePa);
  const high = Math.max(first.pressurePa, last.pressurePa);
  const extreme = ({ pressurePa, elapsedS }: CurveMoment) => ({
    pressure: sayPressure(pressurePa, speech),
    length: sayDuration(elapsedS - first.elapsedS),
  });
  return [
    sayPath(shape, speech),
    ...(lowest.pressurePa < low * (1 - SAME) ? [words.lowest(extreme(lowest))] : []),
    ...(highest.pressurePa > high * (1 + SAME) ? [words.highest(extreme(highest))] : []),
  ].join(', ');
}

function sayPath({ first, last }: CurveShape, speech: Speech): string {
  const { falls, rises, stays } = speech.wording.chart.curve;
  const from = pressureDigits(first.pressurePa, speech);
  const to = sayPressure(last.pressurePa, speech);
  const length = sayDuration(last.elapsedS - first.elapsedS);
  if (last.pressurePa < first.pressurePa * (1 - SAME)) return falls({ from, to, length });
  if (last.pressurePa > first.pressurePa * (1 + SAME)) return rises({ from, to, length });
  return stays({ pressure: to, length });
}

function sayLimit({ last }: CurveShape, { axis, sheet }: ShownCurve, speech: Speech): string {
  const words = speech.wording.chart.curve;
  const limitPa = axis === 'log' ? sheet.targetPa : sheet.endLimitPa;
  const pressure = saySetting(limitPa, speech);
  const isBelow = last.pressurePa < limitPa;
  if (axis === 'log') {
    return isBelow ? words.belowTarget({ pressure }) : words.aboveTarget({ pressure });
  }
  return isBelow ? words.belowLimit({ pressure }) : words.aboveLimit({ pressure });
}

function saySigns(stretches: ShownCurve['stretches'], { wording }: Speech): string {
  const kinds = [...new Set(stretches.map(({ kind }) => wording.chart.stretches[kind]))];
  return kinds.length === 0 ? '' : wording.chart.curve.marked({ kinds: kinds.join(', ') });
}
