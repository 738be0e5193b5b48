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
  inPlane(drawing, () => drawBand(drawing));
}

/** What would run over its edge is cut off there. */
export function inPlane({ plot, ctx }: Drawing, draw: () => void): void {
  const { left, top, width, height } = plot.bbox;
  ctx.save();
  ctx.beginPath();
  ctx.rect(left, top, width, height);
  ctx.clip();
  draw();
  ctx.restore();
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

/** Of the dot that is the present reading, CSS px. */
export const PRESENT_RADIUS = 7;

/** Over everything. */
export function drawPresent({ plot, ctx, picture, palette, ratio }: Drawing): void {
  const { elapsedS, pressurePa } = picture.series;
  const lastS = elapsedS.at(-1);
  const lastPa = pressurePa.at(-1);
  if (lastS === undefined || lastPa == null || lastS > picture.time.toS) return;
  ctx.save();
  ctx.beginPath();
  const radius = PRESENT_RADIUS * ratio;
  ctx.arc(x(plot, lastS), y(plot, picture, lastPa), radius, 0, 2 * Math.PI);
  ctx.fillStyle = picture.live ? palette.ink : palette.sheet;
  ctx.strokeStyle = palette.ink;
  ctx.lineWidth = 2.5 * ratio;
  ctx.fill();
  ctx.stroke();
  ctx.restore();
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
