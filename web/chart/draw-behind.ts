/** Draws another job's curve behind the measured one: a thin line of long and short strokes. */
import { type Drawing, inPlane, halo, x, y } from './draw-chart.ts';
import { remarkFont } from './palette.ts';

export function drawBehind(drawing: Drawing): void {
  const { plot, ctx, picture, palette, ratio } = drawing;
  inPlane(drawing, () => {
    ctx.lineWidth = 1.5 * ratio;
    ctx.strokeStyle = palette.ink;
    // Long and short in turn: neither the measured line, nor the dots of what is expected.
    ctx.setLineDash([9 * ratio, 4 * ratio, 2 * ratio, 4 * ratio]);
    for (const { elapsedS, pressurePa } of picture.behind) {
      ctx.beginPath();
      elapsedS.forEach((atS, row) => {
        ctx.lineTo(x(plot, atS), y(plot, picture, pressurePa[row] ?? 0));
      });
      ctx.stroke();
    }
  });
}

/** Its name, where it is last seen. */
export function labelBehind(drawing: Drawing): void {
  const { plot, ctx, picture, palette, ratio, small } = drawing;
  const { left, top, width, height } = plot.bbox;
  const name = picture.speech.wording.laidBehind.onCurve;
  ctx.save();
  ctx.font = remarkFont((small ? 16 : 17) * ratio);
  ctx.textAlign = 'left';
  ctx.textBaseline = 'bottom';
  const latest = left + width - ctx.measureText(name).width - 20 * ratio;
  const place = picture.behind
    .flatMap(({ elapsedS, pressurePa }) =>
      elapsedS.map((atS, row) => ({
        at: x(plot, atS),
        down: y(plot, picture, pressurePa[row] ?? 0),
      })),
    )
    .findLast(({ at, down }) => at >= left && at <= latest && down > top && down < top + height);
  if (place !== undefined) halo(drawing, name, place.at + 8 * ratio, place.down, palette.ink);
  ctx.restore();
}
