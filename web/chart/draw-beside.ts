/** Draws the sensors beside the watched one: thin and dashed, and each curve by its name. */
import type { CurvePlace } from '../figure/thinned-curve.ts';
import type { DrawnSeries } from '../store/drawn-curve.ts';
import { type Drawing, inPlane, halo, x, y } from './draw-chart.ts';
import { figureFont } from './palette.ts';

/** Told apart without colour, CSS px: dashes and gaps. */
export const DASHES = [
  [9, 6],
  [3, 5],
  [14, 5, 3, 5],
] as const;

/** Behind the watched curve. */
export function drawBeside(drawing: Drawing): void {
  const { plot, ctx, picture, palette, ratio } = drawing;
  inPlane(drawing, () => {
    ctx.lineWidth = 2 * ratio;
    ctx.strokeStyle = palette.kelp;
    for (const [at, { series }] of picture.beside.entries()) {
      const dash = DASHES[at % DASHES.length] ?? [];
      ctx.setLineDash(dash.map((length) => length * ratio));
      ctx.beginPath();
      let isNew = true;
      for (const [row, elapsedS] of series.elapsedS.entries()) {
        const pressurePa = series.pressurePa[row] ?? null;
        if (pressurePa === null) isNew = true;
        else {
          const [across, down] = [x(plot, elapsedS), y(plot, picture, pressurePa)];
          if (isNew) ctx.moveTo(across, down);
          else ctx.lineTo(across, down);
          isNew = false;
        }
      }
      ctx.stroke();
    }
  });
}

interface Named {
  readonly text: string;
  readonly colour: string;
  readonly places: readonly CurvePlace[];
}

/** Along the drawn part of the curves, as shares of it: where the first and the last name stand. */
const FIRST_SHARE = 0.4;
const LAST_SHARE = 0.7;

/**
 * Each name at its own curve: the higher ones above it, the lower ones beneath, and none beside
 * another. At their ends they would stand in the names of the lines, and often on one another.
 */
export function labelCurves(drawing: Drawing): void {
  const { plot, ctx, picture, ratio, small } = drawing;
  const { left, top, width, height } = plot.bbox;
  const named = namedOf(drawing);
  const ends = named.flatMap(({ places }) => places.at(-1)?.elapsedS ?? []);
  const begin = Math.max(picture.time.fromS, picture.time.originS);
  const lengthS = Math.min(Math.max(...ends), picture.time.toS) - begin;
  ctx.save();
  ctx.font = figureFont((small ? 16 : 17) * ratio, 600);
  for (const [rank, { text, colour, places }] of named.entries()) {
    const step = named.length < 2 ? 0 : (LAST_SHARE - FIRST_SHARE) / (named.length - 1);
    const atS = begin + (FIRST_SHARE + step * rank) * lengthS;
    const place = places.find(({ elapsedS }) => elapsedS >= atS) ?? places.at(-1);
    if (place === undefined) continue;
    const isAbove = rank < named.length / 2;
    const long = ctx.measureText(text).width;
    const later = places.find(({ elapsedS }) => elapsedS >= atS + lengthS * 0.05) ?? place;
    // On the side to which the curve leaves room: a falling one above to the right.
    const isRight = isAbove === later.pressurePa <= place.pressurePa;
    ctx.textAlign = isRight ? 'left' : 'right';
    ctx.textBaseline = isAbove ? 'bottom' : 'top';
    const at = x(plot, place.elapsedS) + (isRight ? 10 : -10) * ratio;
    const down = y(plot, picture, place.pressurePa) + (isAbove ? -6 : 6) * ratio;
    const inside = isRight ? Math.min(at, left + width - long) : Math.max(at, left + long);
    halo(drawing, text, inside, Math.min(Math.max(down, top + 24 * ratio), top + height), colour);
  }
  ctx.restore();
}

/** The highest first, by where they end. */
function namedOf({ picture, palette }: Drawing): Named[] {
  if (picture.beside.length === 0) return [];
  const others = picture.beside.map(({ name, series }) => {
    return { text: name, colour: palette.kelp, places: placesOf(series) };
  });
  const endPa = ({ places }: Named) => places.at(-1)?.pressurePa ?? 0;
  return [...others, { text: picture.name, colour: palette.ink, places: placesOf(picture.series) }]
    .filter(({ places }) => places.length > 0)
    .sort((a, b) => endPa(b) - endPa(a));
}

function placesOf({ elapsedS, pressurePa }: DrawnSeries): CurvePlace[] {
  return elapsedS.flatMap((at, row) => {
    const pa = pressurePa[row] ?? null;
    return pa === null ? [] : [{ elapsedS: at, pressurePa: pa }];
  });
}
