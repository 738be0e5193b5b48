/** The measured curve, what the sensor could not measure, and the fitted curve with its band. */
import type { CurvePoint } from '../analysis/conclusions.ts';
import type { FigurePicture } from './figure-picture.ts';
import { PLANE, PLANE_BOTTOM, xOf, yOf } from './figure-plane.ts';
import { type Markup, markup, NOTHING } from './markup.ts';
import { PRINT } from './print-palette.ts';
import type { CurvePlace } from './thinned-curve.ts';
import type { TimeRange } from './time-range.ts';

const STRIP_HEIGHT = 9;
/** Narrower than this nothing can be seen. */
const NARROWEST = 2;

export function drawGaps(picture: FigurePicture): Markup[] {
  return picture.curve.gaps.map((gap) => strip(picture, 'gap', gap, PLANE.top, PLANE.height));
}

/** Each piece is a path of its own: no line joins what was not measured. */
export function drawMeasured(picture: FigurePicture): Markup[] {
  const { pieces, overRange, underRange } = picture.curve;
  return [
    ...pieces.map((piece) => ground(picture, piece)),
    ...pieces.map(
      (piece) => markup`<path class="measured" d="${lineThrough(picture, piece)}" fill="none"
 stroke="${PRINT.ink}" stroke-width="2" stroke-linejoin="round" stroke-linecap="round" />`,
    ),
    ...(picture.points ? pieces.flat().map((place) => dot(picture, place)) : []),
    ...overRange.map((range) => strip(picture, 'over', range, PLANE.top, STRIP_HEIGHT)),
    ...underRange.map((range) =>
      strip(picture, 'under', range, PLANE_BOTTOM - STRIP_HEIGHT, STRIP_HEIGHT),
    ),
  ];
}

export function drawFit(picture: FigurePicture): Markup {
  const { fit } = picture;
  if (fit.length < 2) return NOTHING;
  const edge = (pressureOf: (point: CurvePoint) => number) =>
    fit.map((point) => ({ elapsedS: point.elapsedS, pressurePa: pressureOf(point) }));
  const upper = edge((point) => point.highPa);
  const lower = edge((point) => point.lowPa).reverse();
  const middle = edge((point) => point.midPa);
  return markup`<path class="band" d="${lineThrough(picture, [...upper, ...lower])}Z" fill="${PRINT.water}" fill-opacity="0.24" />
<path class="fit" d="${lineThrough(picture, middle)}" fill="none" stroke="${PRINT.water}" stroke-width="1.6" stroke-dasharray="7 5" />`;
}

/** The level that ebbs, filled. */
function ground(picture: FigurePicture, piece: readonly CurvePlace[]): Markup {
  const first = piece[0];
  const last = piece.at(-1);
  if (first === undefined || last === undefined || first === last) return NOTHING;
  return markup`<path d="${lineThrough(picture, piece)}V${PLANE_BOTTOM}H${xOf(picture, first.elapsedS)}Z" fill="${PRINT.shoal}" />`;
}

function dot(picture: FigurePicture, { elapsedS, pressurePa }: CurvePlace): Markup {
  return markup`<circle cx="${xOf(picture, elapsedS)}" cy="${yOf(picture, pressurePa)}" r="3" fill="${PRINT.ink}" />`;
}

function lineThrough(picture: FigurePicture, places: readonly CurvePlace[]): string {
  const points = places.map(
    ({ elapsedS, pressurePa }) => `${xOf(picture, elapsedS)} ${yOf(picture, pressurePa)}`,
  );
  // A lone point is a line of no length: its round ends are a dot.
  return points.length === 1 ? `M${points.join('')}h0` : `M${points.join('L')}`;
}

function strip(
  picture: FigurePicture,
  kind: 'gap' | 'over' | 'under',
  range: TimeRange,
  top: number,
  height: number,
): Markup {
  const from = xOf(picture, range.fromS);
  const width = Math.max(NARROWEST, xOf(picture, range.toS) - from);
  const pattern = kind === 'gap' ? 'gap' : 'beyond';
  return markup`<rect class="${kind}" x="${from}" y="${top}" width="${width}" height="${height}" fill="url(#${picture.id}-${pattern})" />`;
}
