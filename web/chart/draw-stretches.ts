/** Draws what no line tells: gaps, what lay beyond the range, faults, warming up, and late readings. */
import type { Stretch, StretchKind } from '../store/drawn-curve.ts';
import { type Drawing, halo, x, inPlane } from './draw-chart.ts';
import { remarkFont } from './palette.ts';
import { type Lane, stretchLanes } from './stretch-lanes.ts';

/** Narrower than this nothing can be seen, CSS px. */
const NARROWEST = 3;
/** Between two lines of a hatching, and two signs of a strip, CSS px. */
const HATCH_STEP = 9;
const SIGN_STEP = 13;

interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** Under the measured curve. */
export function drawGaps(drawing: Drawing): void {
  const { plot, ctx, picture, palette, ratio } = drawing;
  inPlane(drawing, () => {
    for (const gap of picture.series.stretches.filter(({ kind }) => kind === 'gap')) {
      const box = { ...across(drawing, gap), top: plot.bbox.top, height: plot.bbox.height };
      ctx.save();
      ctx.beginPath();
      ctx.rect(box.left, box.top, box.width, box.height);
      ctx.clip();
      ctx.strokeStyle = palette.faint;
      ctx.globalAlpha = 0.45;
      ctx.lineWidth = ratio;
      hatch(ctx, box, HATCH_STEP * ratio);
      ctx.globalAlpha = 1;
      ctx.setLineDash([2 * ratio, 4 * ratio]);
      ctx.lineWidth = 1.5 * ratio;
      ctx.strokeRect(box.left, box.top - ratio, box.width, box.height + 2 * ratio);
      ctx.restore();
    }
  });
}

/** Over the measured curve. */
export function drawStretches(drawing: Drawing): void {
  const { ctx, picture, palette, ratio, small } = drawing;
  const { stretches } = picture.series;
  const lanes = stretchLanes(stretches);
  inPlane(drawing, () => {
    ctx.font = remarkFont((small ? 16 : 17) * ratio);
    for (const stretch of stretches) {
      const lane = lanes.find(({ kind }) => kind === stretch.kind);
      if (lane !== undefined) {
        const box = { ...across(drawing, stretch), ...down(drawing, lane) };
        ctx.strokeStyle = palette.ink;
        ctx.fillStyle = palette.ink;
        ctx.lineWidth = 1.6 * ratio;
        drawSign(ctx, stretch.kind, box, ratio);
        nameStrip(drawing, stretch.kind, lane, box);
      } else nameGap(drawing, stretch);
    }
  });
}

function across({ plot, ratio }: Drawing, { fromS, toS }: Stretch): Pick<Box, 'left' | 'width'> {
  const left = x(plot, fromS);
  return { left, width: Math.max(NARROWEST * ratio, x(plot, toS) - left) };
}

function down({ plot, ratio }: Drawing, lane: Lane): Pick<Box, 'top' | 'height'> {
  const height = lane.height * ratio;
  const offset = lane.offset * ratio;
  const { bbox } = plot;
  const top = lane.edge === 'top' ? bbox.top + offset : bbox.top + bbox.height - offset - height;
  return { top, height };
}

function hatch(ctx: CanvasRenderingContext2D, box: Box, step: number): void {
  ctx.beginPath();
  for (let at = box.left - box.height; at < box.left + box.width; at += step) {
    ctx.moveTo(at, box.top + box.height);
    ctx.lineTo(at + box.height, box.top);
  }
  ctx.stroke();
}

/** Each kind has a shape of its own, told apart without colour. */
function drawSign(
  ctx: CanvasRenderingContext2D,
  kind: StretchKind,
  { left, top, width, height }: Box,
  ratio: number,
): void {
  const signs = Math.max(1, Math.floor(width / (SIGN_STEP * ratio)));
  const middles = Array.from({ length: signs }, (_, at) => left + ((at + 0.5) * width) / signs);
  const half = 4 * ratio;
  const bottom = top + height;
  ctx.beginPath();
  switch (kind) {
    case 'over_range':
    case 'under_range': {
      const [tip, foot] = kind === 'over_range' ? [top, bottom] : [bottom, top];
      for (const at of middles) {
        ctx.moveTo(at, tip);
        ctx.lineTo(at + half, (tip + 3 * foot) / 4);
        ctx.lineTo(at - half, (tip + 3 * foot) / 4);
        ctx.closePath();
      }
      return ctx.fill();
    }
    case 'fault':
      for (const at of middles) {
        ctx.moveTo(at - half, top + 2 * ratio);
        ctx.lineTo(at + half, bottom - 2 * ratio);
        ctx.moveTo(at - half, bottom - 2 * ratio);
        ctx.lineTo(at + half, top + 2 * ratio);
      }
      return ctx.stroke();
    case 'warming_up':
      ctx.moveTo(left, top + height / 2);
      for (let at = left; at < left + width; at += 8 * ratio) {
        ctx.quadraticCurveTo(at + 2 * ratio, top, at + 4 * ratio, top + height / 2);
        ctx.quadraticCurveTo(at + 6 * ratio, bottom, at + 8 * ratio, top + height / 2);
      }
      return ctx.stroke();
    case 'late':
      for (const line of [top + 2 * ratio, bottom - 2 * ratio]) {
        ctx.moveTo(left, line);
        ctx.lineTo(left + width, line);
      }
      return ctx.stroke();
    case 'gap':
      return undefined;
  }
}

/** Beside its strip, on the inner side, where it is as long as the word. */
function nameStrip(drawing: Drawing, kind: StretchKind, lane: Lane, box: Box): void {
  const { ctx, palette, ratio } = drawing;
  // Late readings and a warming sensor are told by the key: there are many of them, and in the way.
  if (kind === 'late' || kind === 'warming_up') return;
  const text = drawing.picture.speech.wording.chart.stretches[kind];
  if (ctx.measureText(text).width > box.width - 8 * ratio) return;
  ctx.textAlign = 'center';
  ctx.textBaseline = lane.edge === 'top' ? 'top' : 'bottom';
  const at = lane.edge === 'top' ? box.top + box.height + 3 * ratio : box.top - 3 * ratio;
  halo(drawing, text, box.left + box.width / 2, at, palette.ink);
}

/** Along it where it is wide enough, else upright, else not at all. */
function nameGap(drawing: Drawing, gap: Stretch): void {
  const { plot, ctx, palette, ratio } = drawing;
  const { left, width } = across(drawing, gap);
  const text = drawing.picture.speech.wording.chart.stretches.gap;
  const long = ctx.measureText(text).width;
  const { top, height } = plot.bbox;
  if (width < 24 * ratio) return;
  ctx.save();
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  ctx.translate(left + width / 2, top + height * 0.62);
  if (width < long + 12 * ratio) ctx.rotate(-Math.PI / 2);
  halo(drawing, text, 0, 0, palette.ink);
  ctx.restore();
}
