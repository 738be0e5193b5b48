/** The measured curve, and the fitted one with its band. */
import type { CurvePoint } from '../analysis/conclusions.ts';
import type { FigurePicture } from './figure-picture.ts';
import { PLANE_BOTTOM, xOf, yOf } from './figure-plane.ts';
import { type Markup, markup, NOTHING } from './markup.ts';
import { PRINT } from './print-palette.ts';
import type { CurvePlace } from './thinned-curve.ts';

/** Each piece is a path of its own: no line joins what was not measured. */
export function drawMeasured(picture: FigurePicture): Markup[] {
  const { pieces } = picture.curve;
  return [
    ...pieces.map(
      (piece) => markup`<path class="measured" d="${lineThrough(picture, piece)}" fill="none"
 stroke="${PRINT.ink}" stroke-width="1.5" stroke-linejoin="round" stroke-linecap="round" />`,
    ),
    ...(picture.points ? pieces.flat().map((place) => dot(picture, place)) : []),
  ];
}

/** Told apart without colour, and from the measured curve: dashes and gaps. */
const DASHES = ['9 6', '3 5', '14 5 3 5'] as const;

/** The dashes of a line beside the watched one. */
export function dashesOf(line: number): string {
  return DASHES[line % DASHES.length] ?? DASHES[0];
}

/** The sensors beside it, behind the measured curve. */
export function drawBeside(picture: FigurePicture): Markup[] {
  return picture.beside.flatMap(({ pieces }, line) =>
    pieces.map(
      (piece) => markup`<path class="beside" d="${lineThrough(picture, piece)}" fill="none"
 stroke="${PRINT.kelp}" stroke-width="1.3" stroke-dasharray="${dashesOf(line)}" />`,
    ),
  );
}

/** The level that ebbs, filled. */
export function drawLevel(picture: FigurePicture): Markup[] {
  return picture.curve.pieces.map((piece) => ground(picture, piece));
}

/** Under the measured curve, which would hide it, and broader. */
export function drawFit(picture: FigurePicture): Markup {
  const { fit } = picture;
  if (fit.length < 2) return NOTHING;
  const edge = (pressureOf: (point: CurvePoint) => number) =>
    fit.map((point) => ({ elapsedS: point.elapsedS, pressurePa: pressureOf(point) }));
  const upper = edge((point) => point.highPa);
  const lower = edge((point) => point.lowPa).reverse();
  const middle = edge((point) => point.midPa);
  return markup`<path class="band" d="${lineThrough(picture, [...upper, ...lower])}Z" fill="${PRINT.water}" fill-opacity="0.24" />
<path class="fit" d="${lineThrough(picture, middle)}" fill="none" stroke="${PRINT.water}" stroke-opacity="0.6" stroke-width="4.5" stroke-dasharray="9 6" />`;
}

function ground(picture: FigurePicture, piece: readonly CurvePlace[]): Markup {
  const first = piece[0];
  const last = piece.at(-1);
  if (first === undefined || last === undefined || first === last) return NOTHING;
  return markup`<path d="${lineThrough(picture, piece)}V${PLANE_BOTTOM}H${xOf(picture, first.elapsedS)}Z" fill="${PRINT.water}" fill-opacity="0.14" />`;
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
