/** Draws what a chart library does not know: ground and tints, what is foreseen, and where one is now. */
import type uPlot from 'uplot';
import type { ChartPicture } from './chart-picture.ts';
import { type Palette, remarkFont } from './palette.ts';

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
 * Depths are tinted, as on a chart of the sea: below each limit that was set begins a deeper shade. A
 * setting of ours: barely there, or the curve drowns.
 */
const TINT = 0.4;

function drawTints({ plot, ctx, picture, palette }: Drawing): void {
  const { left, top, width, height } = plot.bbox;
  const bottom = top + height;
  ctx.globalAlpha = TINT;
  ctx.fillStyle = palette.shoal;
  for (const { kind, pressurePa } of picture.lines) {
    if (kind !== 'limit') continue;
    const at = Math.min(Math.max(y(plot, picture, pressurePa), top), bottom);
    ctx.fillRect(left, at, width, bottom - at);
  }
  ctx.globalAlpha = 1;
}

/** Over the measured curve, under the letters. */
export function drawForeseen(drawing: Drawing): void {
  const { plot, ctx } = drawing;
  const { left, top, width, height } = plot.bbox;
  ctx.save();
  ctx.beginPath();
  ctx.rect(left, top, width, height);
  ctx.clip();
  drawBand(drawing);
  ctx.restore();
}

/** Over everything. */
export function drawRemarkAndPresent(drawing: Drawing): void {
  drawing.ctx.save();
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

/** At the right end, under the curve where there is room, and never across a line or its label. */
function drawRemark(drawing: Drawing): void {
  const { plot, ctx, picture, palette, ratio, small } = drawing;
  const { remark, curve, lines } = picture;
  if (remark === null || curve.length === 0) return;
  const { left, top, width, height } = plot.bbox;
  ctx.font = remarkFont((small ? 17 : 19) * ratio);
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
