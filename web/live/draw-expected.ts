/** Draws what the rig should manage: a thin row of dots behind the measured curve, with its name. */
import { CHART_WORDS } from '../words/say-chart.ts';
import { type Drawing, halo, x, y } from './draw-chart.ts';
import { remarkFont } from './palette.ts';

/** Behind the measured curve. */
export function drawExpected({ plot, ctx, picture, palette, ratio }: Drawing): void {
  if (picture.expected.length < 2) return;
  const { left, top, width, height } = plot.bbox;
  ctx.save();
  ctx.beginPath();
  ctx.rect(left, top, width, height);
  ctx.clip();
  ctx.beginPath();
  for (const point of picture.expected) {
    ctx.lineTo(x(plot, point.elapsedS), y(plot, picture, point.pressurePa));
  }
  // Dashes of no length with round ends are dots.
  ctx.setLineDash([0, 6 * ratio]);
  ctx.lineCap = 'round';
  ctx.lineWidth = 2.5 * ratio;
  ctx.strokeStyle = palette.ink;
  ctx.stroke();
  ctx.restore();
}

/** Its name: where it leaves the chart below, else above it, clear of the lines and their labels. */
export function labelExpected(drawing: Drawing): void {
  const { plot, ctx, picture, palette, ratio, small } = drawing;
  const { left, top, width, height } = plot.bbox;
  const shown = picture.expected
    .map((point) => ({ at: x(plot, point.elapsedS), down: y(plot, picture, point.pressurePa) }))
    .filter(({ at, down }) => at >= left && at <= left + width && down <= top + height);
  const last = shown.at(-1);
  if (last === undefined) return;
  ctx.save();
  ctx.font = remarkFont((small ? 14 : 17) * ratio);
  ctx.textAlign = 'left';
  ctx.textBaseline = 'bottom';
  const latest = left + width - ctx.measureText(CHART_WORDS.expected).width - 20 * ratio;
  const lowest = Math.min(...picture.lines.map((line) => y(plot, picture, line.pressurePa)));
  const isBeside = last.at <= latest;
  const place = isBeside
    ? last
    : (shown.findLast(({ at, down }) => at <= latest && down < lowest - 30 * ratio) ?? last);
  const bottom = top + height - 6 * ratio;
  const down = isBeside ? Math.min(place.down + 12 * ratio, bottom) : place.down - 4 * ratio;
  halo(drawing, CHART_WORDS.expected, Math.min(place.at, latest) + 10 * ratio, down, palette.ink);
  ctx.restore();
}
