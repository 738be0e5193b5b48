/** Draws what the rig should manage: a thin row of dots behind the measured curve, with its name. */
import { type Drawing, inPlane, halo, x, y } from './draw-chart.ts';
import { remarkFont } from './palette.ts';

/** Behind the measured curve. */
export function drawExpected(drawing: Drawing): void {
  const { plot, ctx, picture, palette, ratio } = drawing;
  if (picture.expected.length < 2) return;
  inPlane(drawing, () => {
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
  });
}

/** Its name: at the lower edge where it leaves the chart there, else beside its steep part. */
export function labelExpected(drawing: Drawing): void {
  const { plot, ctx, picture, palette, ratio, small } = drawing;
  const { left, top, width, height } = plot.bbox;
  const bottom = top + height;
  const name = picture.speech.wording.chart.expected;
  ctx.save();
  ctx.font = remarkFont((small ? 16 : 17) * ratio);
  ctx.textAlign = 'left';
  ctx.textBaseline = 'bottom';
  const latest = left + width - ctx.measureText(name).width - 20 * ratio;
  const places = picture.expected
    .map((point) => ({ at: x(plot, point.elapsedS), down: y(plot, picture, point.pressurePa) }))
    .filter(({ at }) => at >= left && at <= latest);
  const leaves = places.some(({ down }) => down > bottom);
  const place = places.findLast(({ down }) => down <= (leaves ? bottom : top + height * 0.4));
  if (place !== undefined) {
    const down = Math.min(place.down + (leaves ? 12 : 0) * ratio, bottom - 6 * ratio);
    halo(drawing, name, place.at + 10 * ratio, down, palette.ink);
  }
  ctx.restore();
}
