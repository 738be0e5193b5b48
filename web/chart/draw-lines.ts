/** Draws levels that were set or are headed for, their names, and the flags of what happened when. */
import { brokenPole, type NameBox } from '../figure/broken-pole.ts';
import { placeFlags, type TakenPlace } from '../figure/place-flags.ts';
import { type LabelPlace, placeLabels } from '../figure/place-labels.ts';
import type { ChartLine } from '../figure/chart-lines.ts';
import { type Drawing, inPlane, halo, x, y } from './draw-chart.ts';
import { nameObstacles } from './name-obstacles.ts';
import { figureFont } from './palette.ts';
import { stretchLanes, takenAt } from './stretch-lanes.ts';

/** Of a name of a level, CSS px. */
const LABEL_HEIGHT = 22;
/** From the right edge of the plane to a name, and what is kept free beside one, CSS px. */
const FROM_EDGE = 8;
const BESIDE = 4;

export function drawLines(drawing: Drawing): void {
  const { plot, ctx, picture, palette, ratio } = drawing;
  const { left, width } = plot.bbox;
  inPlane(drawing, () => {
    for (const line of picture.lines) {
      const at = y(plot, picture, line.pressurePa);
      ctx.beginPath();
      ctx.moveTo(left, at);
      ctx.lineTo(left + width, at);
      const floor = line.kind === 'floor';
      ctx.strokeStyle = floor ? palette.water : palette.buoy;
      ctx.lineWidth = (line.dashed ? 2 : 2.5) * ratio;
      const dash = floor ? [14, 5, 3, 5] : [3, 5];
      ctx.setLineDash(line.dashed ? dash.map((length) => length * ratio) : []);
      ctx.stroke();
    }
  });
}

interface NamedLine extends ChartLine, LabelPlace {
  readonly width: number;
}

/** Those that are in the picture, with the places of their names; the letters are set for them. */
function namedLines(drawing: Drawing): NamedLine[] {
  const { plot, ctx, picture, ratio, small } = drawing;
  const { left, top, width, height } = plot.bbox;
  ctx.font = figureFont((small ? 16 : 17) * ratio);
  const lines = picture.lines.filter(
    ({ pressurePa }) => pressurePa >= picture.range.lowPa && pressurePa <= picture.range.highPa,
  );
  const wishes = lines.map(({ pressurePa, label, kind }) => ({
    kind,
    y: y(plot, picture, pressurePa),
    width: ctx.measureText(label).width,
  }));
  const room = { width: width - FROM_EDGE * ratio, bottom: top + height };
  const obstacles = nameObstacles(drawing, left + room.width);
  const places = placeLabels(wishes, LABEL_HEIGHT * ratio, room, obstacles);
  return lines.flatMap((line, at) => {
    const [wish, place] = [wishes[at], places[at]];
    return wish === undefined || place === undefined
      ? []
      : [{ ...line, ...place, width: wish.width }];
  });
}

export function drawLineNames(drawing: Drawing): void {
  const { plot, ctx, palette, ratio } = drawing;
  const right = plot.bbox.left + plot.bbox.width - FROM_EDGE * ratio;
  ctx.save();
  for (const { kind, label, inset, middle } of namedLines(drawing)) {
    ctx.textAlign = 'right';
    ctx.textBaseline = 'middle';
    halo(drawing, label, right - inset, middle, kind === 'floor' ? palette.water : palette.buoy);
  }
  ctx.restore();
}

/** Where the names stand. Leaves their letters set. */
export function lineNameBoxes(drawing: Drawing): NameBox[] {
  return nameBoxes(drawing, namedLines(drawing));
}

/** A pole through a name would be read as a letter of it. */
function nameBoxes({ plot, ratio }: Drawing, named: readonly NamedLine[]): NameBox[] {
  const edge = plot.bbox.left + plot.bbox.width - FROM_EDGE * ratio;
  return named.map(({ inset, middle, width }) => ({
    left: edge - inset - width - BESIDE * ratio,
    right: edge - inset + BESIDE * ratio,
    top: middle - (LABEL_HEIGHT / 2) * ratio,
    bottom: middle + (LABEL_HEIGHT / 2) * ratio,
  }));
}

export function drawFlags(drawing: Drawing): void {
  const { plot, ctx, picture, palette, ratio, small } = drawing;
  const { left, top, width, height } = plot.bbox;
  ctx.save();
  const named = namedLines(drawing);
  const names = nameBoxes(drawing, named);
  const rowHeight = (small ? 24 : 27) * ratio;
  const strips = takenAt('top', stretchLanes(picture.series.stretches));
  // Below the strips and their words.
  const firstRow = top + (strips === 0 ? 8 : strips + 28) * ratio;
  const wishes = picture.flags.map((flag) => ({
    x: x(plot, flag.elapsedS) - left,
    width: ctx.measureText(flag.label).width + 26 * ratio,
  }));
  const rows = Math.max(1, Math.floor((height * 0.45) / rowHeight));
  // A row through the name of a level is taken where that stands.
  const taken = named.flatMap(({ inset, middle, width: long }): TakenPlace[] =>
    Array.from({ length: rows }, (_, row) => ({
      row,
      from: width - inset - long,
      to: width - inset,
    })).filter(({ row }) => Math.abs(firstRow + (row + 0.5) * rowHeight - middle) < rowHeight),
  );
  const places = placeFlags(wishes, width, rows, taken);
  for (const [position, flag] of picture.flags.entries()) {
    const place = places[position];
    const at = x(plot, flag.elapsedS);
    const flagTop = firstRow + (place?.row ?? 0) * rowHeight;
    ctx.strokeStyle = palette.ink;
    ctx.lineWidth = ratio;
    ctx.beginPath();
    const poleTop = place?.row == null ? top + height * 0.9 : flagTop;
    for (const [from, to] of brokenPole({ x: at, top: poleTop, bottom: top + height }, names)) {
      ctx.moveTo(at, from);
      ctx.lineTo(at, to);
    }
    ctx.stroke();
    if (place?.row == null) continue;
    const way = place.left ? -1 : 1;
    drawPennant(ctx, at, flagTop, way * ratio, palette.ink);
    ctx.textAlign = place.left ? 'right' : 'left';
    ctx.textBaseline = 'middle';
    halo(drawing, flag.label, at + way * 19 * ratio, flagTop + 8 * ratio, palette.ink);
  }
  ctx.restore();
}

/** A swallow-tailed flag, as on a buoy. */
function drawPennant(
  ctx: CanvasRenderingContext2D,
  at: number,
  top: number,
  way: number,
  colour: string,
): void {
  const size = Math.abs(way);
  ctx.beginPath();
  ctx.moveTo(at, top);
  ctx.lineTo(at + 13 * way, top);
  ctx.lineTo(at + 9 * way, top + 7 * size);
  ctx.lineTo(at + 13 * way, top + 14 * size);
  ctx.lineTo(at, top + 14 * size);
  ctx.closePath();
  ctx.fillStyle = colour;
  ctx.fill();
}
