/** Draws when a depth is likely to be reached: a beam on its line, its ends closed where they are known. */
import type { Arrival } from './chart-picture.ts';
import { type Drawing, inPlane, x, y } from './draw-chart.ts';

/** Half the height of an end, CSS px. */
const END = 7;

export function drawArrivals(drawing: Drawing): void {
  inPlane(drawing, () => {
    for (const arrival of drawing.picture.arrivals) drawArrival(drawing, arrival);
  });
}

function drawArrival({ plot, ctx, picture, palette, ratio }: Drawing, arrival: Arrival): void {
  const { left, width } = plot.bbox;
  const at = y(plot, picture, arrival.pressurePa);
  const from = x(plot, arrival.earliestS);
  // Without an upper end the beam runs out of the picture.
  const to = arrival.latestS === null ? left + width : x(plot, arrival.latestS);
  ctx.strokeStyle = palette.water;
  ctx.lineCap = 'butt';
  ctx.lineWidth = 5 * ratio;
  ctx.beginPath();
  ctx.moveTo(from, at);
  ctx.lineTo(to, at);
  ctx.stroke();
  ctx.lineWidth = 2.5 * ratio;
  ctx.beginPath();
  for (const end of arrival.latestS === null ? [from] : [from, to]) {
    ctx.moveTo(end, at - END * ratio);
    ctx.lineTo(end, at + END * ratio);
  }
  ctx.stroke();
  if (arrival.latestS === null) return;
  ctx.beginPath();
  ctx.arc(x(plot, arrival.middleS), at, 5 * ratio, 0, 2 * Math.PI);
  ctx.fillStyle = palette.sheet;
  ctx.fill();
  ctx.stroke();
}
