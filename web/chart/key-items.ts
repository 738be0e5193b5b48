/** What the key under the chart names: just what is in the picture and has no name there. Pure. */
import { STRETCH_KINDS, type StretchKind } from '../store/drawn-curve.ts';
import type { ChartPicture } from './chart-picture.ts';

type KeySign = StretchKind | 'measured' | 'typed_in' | 'beside' | 'foreseen' | 'arrival';

export interface KeyItem {
  readonly sign: KeySign;
  readonly label: string;
  /** Which of the dashed lines, where there are several. */
  readonly line: number;
}

export function keyItems(picture: ChartPicture): KeyItem[] {
  const { series, beside, curve, arrivals, time } = picture;
  const { key: words, stretches } = picture.speech.wording.chart;
  const seen = new Set(series.stretches.filter(isIn(picture)).map(({ kind }) => kind));
  const item = (sign: KeySign, label: string, line = 0): KeyItem => ({ sign, label, line });
  const watched = picture.points
    ? item('typed_in', words.typedIn)
    : item('measured', picture.name === '' ? words.measured : picture.name);
  return [
    ...(series.pressurePa.length > 0 ? [watched] : []),
    ...beside
      .filter((line) => line.series.pressurePa.length > 0)
      .map(({ name }, line) => item('beside', name, line)),
    ...(curve.some(({ elapsedS }) => elapsedS >= time.fromS && elapsedS <= time.toS)
      ? [item('foreseen', time.axis === 'log' ? words.foreseen : words.fitted)]
      : []),
    ...(arrivals.some(({ earliestS }) => earliestS <= time.toS)
      ? [item('arrival', words.arrival)]
      : []),
    ...STRETCH_KINDS.filter((kind) => seen.has(kind)).map((kind) => item(kind, stretches[kind])),
  ];
}

function isIn({ time }: ChartPicture) {
  return ({ fromS, toS }: { fromS: number; toS: number }) => toS >= time.fromS && fromS <= time.toS;
}
