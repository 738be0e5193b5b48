/** Draws what a chart library does not know: ground, bands, lines, flags, and where one is now. */
import type uPlot from 'uplot';
import { placeFlags } from '../figure/place-flags.ts';
import type { ChartPicture } from './chart-picture.ts';
import { stretchLanes, takenAt } from './stretch-lanes.ts';
import { figureFont, type Palette, remarkFont } from './palette.ts';

/** Canvas pixels per CSS pixel are `ratio`; `small` is a narrow screen. */
export interface Drawing {
  readonly plot: uPlot;
  readonly ctx: CanvasRenderingContext2D;
  readonly picture: ChartPicture;
  readonly palette: Palette;
  readonly ratio: number;
  readonly small: boolean;
}

/** Under the axes: the sheet, and for a rehearsal the word that says so. */
export function drawGround({ plot, ctx, picture, palette, ratio }: Drawing): void {
  const { left, top, width, height } = plot.bbox;
  ctx.save();
  ctx.fillStyle = palette.sheet;
  ctx.fillRect(left, top, width, height);
  drawTints({ plot, ctx, picture, palette, ratio, small: false });
  if (picture.ground !== '') {
    ctx.fillStyle = palette.rule;
    ctx.globalAlpha = 0.6;
    ctx.font = remarkFont(Math.min(width / 6, height / 4, 110 * ratio));
    ctx.textAlign = 'center';
    ctx.textBaseline = 'middle';
    ctx.fillText(picture.ground, left + width / 2, top + height * 0.42);
  }
  ctx.restore();
}

/**
 * Depths are tinted, as on a chart of the sea: each depth that was set begins a deeper shade, and so
 * does what lies above the limit in a rise. A setting of ours: barely there, or the curve drowns.
 */
const TINT = 0.07;

function drawTints({ plot, ctx, picture, palette }: Drawing): void {
  const { left, top, width, height } = plot.bbox;
  const bottom = top + height;
  ctx.globalAlpha = TINT;
  ctx.fillStyle = palette.water;
  for (const { kind, pressurePa } of picture.lines) {
    if (kind !== 'limit') continue;
    const at = Math.min(Math.max(y(plot, picture, pressurePa), top), bottom);
    ctx.fillRect(left, at, width, bottom - at);
  }
  ctx.globalAlpha = 1;
}

/** Over the measured curve, under the letters. */
export function drawBandAndLines(drawing: Drawing): void {
  const { plot, ctx } = drawing;
  const { left, top, width, height } = plot.bbox;
  ctx.save();
  ctx.beginPath();
  ctx.rect(left, top, width, height);
  ctx.clip();
  drawBand(drawing);
  drawLines(drawing);
  ctx.restore();
}

/** Over everything. */
export function drawFlagsAndPresent(drawing: Drawing): void {
  drawing.ctx.save();
  drawFlags(drawing);
  drawLineLabels(drawing);
  drawRemark(drawing);
  drawPresent(drawing);
  drawing.ctx.restore();
}

export function x(plot: uPlot, elapsedS: number): number {
  return plot.valToPos(elapsedS, 'x', true);
}

/** Nothing at or below zero can stand on a log axis: it goes to the lower edge. */
export function y(plot: uPlot, picture: ChartPicture, pressurePa: number): number {
  const lowest = picture.time.axis === 'log' ? picture.range.lowPa * 0.5 : 0;
  return plot.valToPos(Math.max(pressurePa, lowest), 'y', true);
}

function drawBand({ plot, ctx, picture, palette, ratio }: Drawing): void {
  const { curve } = picture;
  if (curve.length < 2) return;
  ctx.beginPath();
  for (const point of curve) ctx.lineTo(x(plot, point.elapsedS), y(plot, picture, point.highPa));
  for (const point of [...curve].reverse()) {
    ctx.lineTo(x(plot, point.elapsedS), y(plot, picture, point.lowPa));
  }
  ctx.closePath();
  ctx.globalAlpha = 0.26;
  ctx.fillStyle = palette.water;
  ctx.fill();
  ctx.globalAlpha = 1;
  ctx.beginPath();
  for (const point of curve) ctx.lineTo(x(plot, point.elapsedS), y(plot, picture, point.midPa));
  ctx.setLineDash([8 * ratio, 6 * ratio]);
  ctx.lineWidth = 2 * ratio;
  ctx.strokeStyle = picture.remark?.warning === true ? palette.buoy : palette.water;
  ctx.stroke();
  ctx.setLineDash([]);
}

function drawLines({ plot, ctx, picture, palette, ratio }: Drawing): void {
  const { left, width } = plot.bbox;
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
  ctx.setLineDash([]);
}

function drawLineLabels(drawing: Drawing): void {
  const { plot, ctx, picture, palette, ratio, small } = drawing;
  const { left, top, width, height } = plot.bbox;
  ctx.font = figureFont((small ? 14 : 17) * ratio);
  const limits = picture.lines.filter(({ kind }) => kind === 'limit');
  for (const line of picture.lines.filter(({ kind }) => kind === 'floor')) {
    // On the left, where no limit has its name.
    ctx.textAlign = 'left';
    ctx.textBaseline = 'bottom';
    const up = y(plot, picture, line.pressurePa) - 5 * ratio;
    halo(drawing, line.label, left + 12 * ratio, up, palette.water);
  }
  ctx.textAlign = 'right';
  for (const [position, line] of limits.entries()) {
    const at = y(plot, picture, line.pressurePa);
    const next = limits[position - 1];
    // Where two lines lie close, the lower one's label goes below it.
    const close =
      next !== undefined && Math.abs(y(plot, picture, next.pressurePa) - at) < 26 * ratio;
    const below = close && at + 24 * ratio < top + height;
    ctx.textBaseline = below ? 'top' : 'bottom';
    halo(
      drawing,
      line.label,
      left + width - 8 * ratio,
      at + (below ? 5 : -5) * ratio,
      palette.buoy,
    );
  }
}

/** At the right end, under the curve where there is room, and never across a line or its label. */
function drawRemark(drawing: Drawing): void {
  const { plot, ctx, picture, palette, ratio, small } = drawing;
  const { remark, curve, lines } = picture;
  if (remark === null || curve.length === 0) return;
  const { left, top, width, height } = plot.bbox;
  ctx.font = remarkFont((small ? 15 : 19) * ratio);
  ctx.textAlign = 'right';
  ctx.textBaseline = 'top';
  const right = left + width - 12 * ratio;
  const beginning = right - ctx.measureText(remark.text).width;
  const over = curve.filter((point) => x(plot, point.elapsedS) >= beginning - 20 * ratio);
  const lowest = Math.max(...over.map((point) => y(plot, picture, point.lowPa)));
  const highest = Math.min(...over.map((point) => y(plot, picture, point.highPa)));
  const tall = 26 * ratio;
  let at = lowest + 10 * ratio;
  for (const line of lines) {
    const lineAt = y(plot, picture, line.pressurePa);
    const labelAt = lineAt - 28 * ratio;
    if (at + tall > labelAt && at < lineAt + 4 * ratio) at = lineAt + 8 * ratio;
  }
  if (at + tall > top + height) at = Math.max(top, highest - tall - 8 * ratio);
  halo(drawing, remark.text, right, at, remark.warning ? palette.buoy : palette.water);
}

function drawFlags(drawing: Drawing): void {
  const { plot, ctx, picture, palette, ratio, small } = drawing;
  const { left, top, width, height } = plot.bbox;
  ctx.font = figureFont((small ? 13 : 17) * ratio);
  const rowHeight = (small ? 21 : 27) * ratio;
  const strips = takenAt('top', stretchLanes(picture.series.stretches));
  // Below the strips and their words.
  const firstRow = top + (strips === 0 ? 8 : strips + 28) * ratio;
  const wishes = picture.flags.map((flag) => ({
    x: x(plot, flag.elapsedS) - left,
    width: ctx.measureText(flag.label).width + 26 * ratio,
  }));
  const places = placeFlags(wishes, width, Math.max(1, Math.floor((height * 0.45) / rowHeight)));
  for (const [position, flag] of picture.flags.entries()) {
    const place = places[position];
    const at = x(plot, flag.elapsedS);
    const flagTop = firstRow + (place?.row ?? 0) * rowHeight;
    ctx.strokeStyle = palette.ink;
    ctx.lineWidth = ratio;
    ctx.beginPath();
    ctx.moveTo(at, place?.row == null ? top + height * 0.9 : flagTop);
    ctx.lineTo(at, top + height);
    ctx.stroke();
    if (place?.row == null) continue;
    const way = place.left ? -1 : 1;
    drawPennant(ctx, at, flagTop, way * ratio, palette.ink);
    ctx.textAlign = place.left ? 'right' : 'left';
    ctx.textBaseline = 'middle';
    halo(drawing, flag.label, at + way * 19 * ratio, flagTop + 8 * ratio, palette.ink);
  }
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

function drawPresent({ plot, ctx, picture, palette, ratio }: Drawing): void {
  const { elapsedS, pressurePa } = picture.series;
  const lastS = elapsedS.at(-1);
  const lastPa = pressurePa.at(-1);
  if (lastS === undefined || lastPa == null || lastS > picture.time.toS) return;
  ctx.beginPath();
  ctx.arc(x(plot, lastS), y(plot, picture, lastPa), 7 * ratio, 0, 2 * Math.PI);
  ctx.fillStyle = picture.live ? palette.ink : palette.sheet;
  ctx.strokeStyle = palette.ink;
  ctx.lineWidth = 2.5 * ratio;
  ctx.fill();
  ctx.stroke();
}

/** Letters with the sheet's colour around them, legible over lines and fill. */
export function halo(
  drawing: Drawing,
  text: string,
  left: number,
  top: number,
  colour: string,
): void {
  const { ctx, palette, ratio } = drawing;
  ctx.lineJoin = 'round';
  ctx.lineWidth = 5 * ratio;
  ctx.strokeStyle = palette.sheet;
  ctx.globalAlpha = 0.8;
  ctx.strokeText(text, left, top);
  ctx.globalAlpha = 1;
  ctx.fillStyle = colour;
  ctx.fillText(text, left, top);
}
