/** Draws the sensors beside the watched one: thin and dashed, and each curve by its name. */
import { type Drawing, halo, x, y } from './draw-chart.ts';
import { figureFont } from './palette.ts';

/** Told apart without colour, CSS px: dashes and gaps. */
const DASHES = [
  [9, 6],
  [3, 5],
  [14, 5, 3, 5],
] as const;

/** Behind the watched curve. */
export function drawBeside({ plot, ctx, picture, palette, ratio }: Drawing): void {
  const { left, top, width, height } = plot.bbox;
  ctx.save();
  ctx.beginPath();
  ctx.rect(left, top, width, height);
  ctx.clip();
  ctx.lineWidth = 2 * ratio;
  ctx.strokeStyle = palette.kelp;
  for (const [at, { pieces }] of picture.beside.entries()) {
    const dash = DASHES[at % DASHES.length] ?? [];
    ctx.setLineDash(dash.map((length) => length * ratio));
    for (const piece of pieces) {
      ctx.beginPath();
      for (const place of piece) {
        ctx.lineTo(x(plot, place.elapsedS), y(plot, picture, place.pressurePa));
      }
      ctx.stroke();
    }
  }
  ctx.restore();
}

interface Label {
  readonly text: string;
  readonly colour: string;
  readonly endX: number;
  y: number;
}

/** Each name at the end of its curve, none over another. */
export function labelCurves(drawing: Drawing): void {
  const { plot, ctx, ratio, small } = drawing;
  const { left, top, width, height } = plot.bbox;
  const labels = labelsOf(drawing).sort((a, b) => a.y - b.y);
  const tall = (small ? 19 : 23) * ratio;
  ctx.save();
  ctx.font = figureFont((small ? 14 : 17) * ratio, 600);
  ctx.textBaseline = 'middle';
  let lowest = Number.NEGATIVE_INFINITY;
  for (const label of labels) {
    label.y = Math.max(label.y, lowest + tall, top + tall / 2);
    lowest = label.y;
  }
  let highest = top + height;
  for (const label of [...labels].reverse()) {
    label.y = Math.min(label.y, highest - tall / 2);
    highest = label.y - tall / 2;
    const long = ctx.measureText(label.text).width;
    const fits = label.endX + 16 * ratio + long < left + width - 6 * ratio;
    ctx.textAlign = fits ? 'left' : 'right';
    // Beside its end; where there is no room, before it and a little higher.
    const at = fits ? label.endX + 14 * ratio : Math.max(left + long, label.endX - 14 * ratio);
    halo(drawing, label.text, at, fits ? label.y : label.y - tall * 0.8, label.colour);
  }
  ctx.restore();
}

function labelsOf({ plot, picture, palette }: Drawing): Label[] {
  if (picture.beside.length === 0) return [];
  const { left, width } = plot.bbox;
  const ends = picture.beside.map(({ name, pieces }) => {
    return { text: name, colour: palette.kelp, end: pieces.at(-1)?.at(-1) };
  });
  const { elapsedS, pressurePa } = picture.series;
  const last = pressurePa.findLastIndex((pa) => pa !== null);
  const end = {
    elapsedS: elapsedS[last] ?? Number.NaN,
    pressurePa: pressurePa[last] ?? Number.NaN,
  };
  return [...ends, { text: picture.name, colour: palette.ink, end }].flatMap((label) => {
    if (label.end === undefined || Number.isNaN(label.end.pressurePa)) return [];
    const endX = Math.min(left + width, Math.max(left, x(plot, label.end.elapsedS)));
    const down = y(plot, picture, label.end.pressurePa);
    return [{ text: label.text, colour: label.colour, endX, y: down }];
  });
}
