/** What is shown, as a figure for paper: pure. */
import type { FigurePicture } from '../figure/figure-picture.ts';
import type { CurvePlace } from '../figure/thinned-curve.ts';
import type { DrawnSeries, StretchKind } from '../store/drawn-curve.ts';
import { sayCurve } from '../words/say-curve.ts';
import type { ChartPicture } from './chart-picture.ts';
import { curveShape } from './curve-shape.ts';

const STRIPS = ['late', 'fault', 'warming_up'] as const;

export function figureFrom(picture: ChartPicture): FigurePicture {
  const { time, range, series, beside, curve, lines, flags, ground, points, speech } = picture;
  const words = speech.wording.chart.key;
  const of = (kind: StretchKind) => series.stretches.filter((stretch) => stretch.kind === kind);
  return {
    id: 'shown',
    title: sentenceOf(picture),
    time,
    range,
    curve: {
      pieces: piecesOf(series),
      overRange: of('over_range'),
      underRange: of('under_range'),
      gaps: of('gap'),
    },
    name: beside.length === 0 ? '' : picture.name,
    beside: beside.map((line) => ({ name: line.name, pieces: piecesOf(line.series) })),
    strips: STRIPS.flatMap((kind) => of(kind).map(({ fromS, toS }) => ({ kind, fromS, toS }))),
    fit: curve,
    fitName: time.axis === 'log' ? words.foreseen : words.fitted,
    lines,
    flags,
    ground,
    points,
    speech,
  };
}

/** What the picture shows, in words. */
export function sentenceOf(picture: ChartPicture): string {
  const { series, time, sheet, conclusion, ground, speech } = picture;
  return sayCurve(
    {
      shape: curveShape(series, time),
      axis: time.axis,
      sheet,
      stretches: series.stretches,
      conclusion,
      rehearsal: ground !== '',
    },
    speech,
  );
}

function piecesOf({ elapsedS, pressurePa }: DrawnSeries): CurvePlace[][] {
  const pieces: CurvePlace[][] = [];
  let piece: CurvePlace[] = [];
  for (const [row, atS] of elapsedS.entries()) {
    const pa = pressurePa[row] ?? null;
    if (pa === null) piece = [];
    else {
      if (piece.length === 0) pieces.push(piece);
      piece.push({ elapsedS: atS, pressurePa: pa });
    }
  }
  return pieces;
}
