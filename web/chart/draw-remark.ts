/** Draws the word at what is foreseen, in italics. */
import type { NameBox } from '../figure/broken-pole.ts';
import { type Drawing, halo, x, y } from './draw-chart.ts';
import { lineNameBoxes } from './draw-lines.ts';
import { remarkFont } from './palette.ts';

/** Of its letters, and what is kept free between them and anything else, CSS px. */
const TALL = 26;
const FREE = 8;

/** At the right end, under the curve where there is room, and never across a line or its name. */
export function drawRemark(drawing: Drawing): void {
  const { plot, ctx, picture, palette, ratio, small } = drawing;
  const { remark, curve, lines } = picture;
  if (remark === null || curve.length === 0) return;
  const { left, top, width, height } = plot.bbox;
  ctx.save();
  const names = lineNameBoxes(drawing);
  ctx.font = remarkFont((small ? 17 : 19) * ratio);
  ctx.textAlign = 'right';
  ctx.textBaseline = 'top';
  const right = left + width - 12 * ratio;
  const beginning = right - ctx.measureText(remark.text).width;
  const over = curve.filter((point) => x(plot, point.elapsedS) >= beginning - 20 * ratio);
  const lowest = Math.max(...over.map((point) => y(plot, picture, point.lowPa)));
  const highest = Math.min(...over.map((point) => y(plot, picture, point.highPa)));
  const inTheWay = [
    ...names.filter((name) => name.right > beginning && name.left < right),
    ...lines.map(({ pressurePa }): Pick<NameBox, 'top' | 'bottom'> => {
      const at = y(plot, picture, pressurePa);
      return { top: at, bottom: at };
    }),
  ].sort((a, b) => a.top - b.top);
  const [tall, free] = [TALL * ratio, FREE * ratio];
  let at = lowest + 10 * ratio;
  for (const { top: from, bottom: to } of inTheWay) {
    if (at + tall > from && at < to + free / 2) at = to + free;
  }
  if (at + tall > top + height) at = Math.max(top, highest - tall - free);
  halo(drawing, remark.text, right, at, remark.warning ? palette.buoy : palette.water);
  ctx.restore();
}
