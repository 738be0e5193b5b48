/** The curve in a sentence or two, for those who can't see it. */
import type { Sheet } from '../../protocol/sheet.ts';
import { sayDuration } from './say-duration.ts';
import { pressureDigits, sayPressure, saySetting } from './say-pressure.ts';
import { STRETCH_WORDS } from './say-stretch.ts';
import type { UnitsOfChoice } from './units-of-choice.ts';

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
  readonly stretches: readonly { readonly kind: keyof typeof STRETCH_WORDS }[];
  /** Forecast or verdict in a few words; empty where there is none. */
  readonly conclusion: string;
  readonly rehearsal: boolean;
}

/** Less than this is no change worth a word. A setting of ours: a gauge's own error is of that size. */
const SAME = 0.05;

export function sayCurve(curve: ShownCurve, units: UnitsOfChoice): string {
  const { shape, conclusion, rehearsal } = curve;
  const parts = [
    rehearsal ? 'Rehearsal' : '',
    shape === null ? 'Nothing measured is in the picture' : sayShape(shape, units),
    shape === null ? '' : sayLimit(shape, curve, units),
    conclusion,
    saySigns(curve.stretches),
  ];
  return parts.flatMap((part) => (part === '' ? [] : [`${part}.`])).join(' ');
}

function sayShape({ first, last, lowest, highest }: CurveShape, units: UnitsOfChoice): string {
  const unit = units.pressure;
  const [from, to] = [pressureDigits(first.pressurePa, unit), sayPressure(last.pressurePa, unit)];
  const way = wayFrom(first.pressurePa, last.pressurePa);
  const long = sayDuration(last.elapsedS - first.elapsedS);
  const path =
    way === 'stays' ? `The pressure stays near ${to}` : `The pressure ${way} from ${from} to ${to}`;
  const low = Math.min(first.pressurePa, last.pressurePa);
  const high = Math.max(first.pressurePa, last.pressurePa);
  const by = [
    lowest.pressurePa < low * (1 - SAME)
      ? `with its lowest, ${sayPressure(lowest.pressurePa, unit)}, after ${sayDuration(lowest.elapsedS - first.elapsedS)}`
      : '',
    highest.pressurePa > high * (1 + SAME)
      ? `with its highest, ${sayPressure(highest.pressurePa, unit)}, after ${sayDuration(highest.elapsedS - first.elapsedS)}`
      : '',
  ];
  return [
    `${path} ${way === 'stays' ? 'for' : 'in'} ${long}`,
    ...by.filter((part) => part !== ''),
  ].join(', ');
}

function wayFrom(fromPa: number, toPa: number): 'falls' | 'rises' | 'stays' {
  if (toPa < fromPa * (1 - SAME)) return 'falls';
  return toPa > fromPa * (1 + SAME) ? 'rises' : 'stays';
}

function sayLimit({ last }: CurveShape, { axis, sheet }: ShownCurve, units: UnitsOfChoice): string {
  const limitPa = axis === 'log' ? sheet.targetPa : sheet.endLimitPa;
  const name = axis === 'log' ? 'target' : 'limit';
  const side = last.pressurePa < limitPa ? 'below' : 'above';
  return `It ends ${side} the ${name} of ${saySetting(limitPa, units.pressure)}`;
}

function saySigns(stretches: ShownCurve['stretches']): string {
  const kinds = [...new Set(stretches.map(({ kind }) => kind))];
  return kinds.length === 0
    ? ''
    : `Stretches marked: ${kinds.map((kind) => STRETCH_WORDS[kind]).join(', ')}`;
}
