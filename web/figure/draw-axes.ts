/** The axes of a figure: pressure in the unit of choice, time, and where water boils. */
import { sayBoilingTick, sayTimeTick } from '../words/say-chart.ts';
import { sayPressureAxis, sayTimeAxis } from '../words/say-figure.ts';
import { pressureDigits } from '../words/say-pressure.ts';
import { pressureTicks, timeTicks } from './chart-ticks.ts';
import type { FigurePicture } from './figure-picture.ts';
import { PLANE, PLANE_BOTTOM, PLANE_RIGHT, xOf, yOf } from './figure-plane.ts';
import { type Markup, markup } from './markup.ts';
import { PRINT } from './print-palette.ts';

const MOST_TIME_TICKS = 7;

export function drawAxes(picture: FigurePicture): Markup {
  const { time, range, speech } = picture;
  const pressures = pressureTicks(range, time.axis, speech.units.pressure).map((pa) => {
    const y = yOf(picture, pa);
    return markup`<path d="M${PLANE.left} ${y}H${PLANE_RIGHT}" stroke="${PRINT.rule}" />
<text x="${PLANE.left - 7}" y="${y + 4}" text-anchor="end" fill="${PRINT.faint}">${pressureDigits(pa, speech)}</text>
<text x="${PLANE_RIGHT + 7}" y="${y + 4}" fill="${PRINT.water}">${sayBoilingTick(pa, speech)}</text>`;
  });
  const times = timeTicks(time, time.originS, MOST_TIME_TICKS).map((atS) => {
    const x = xOf(picture, atS);
    return markup`<path d="M${x} ${PLANE_BOTTOM}v5" stroke="${PRINT.faint}" />
<text x="${x}" y="${PLANE_BOTTOM + 18}" text-anchor="middle" fill="${PRINT.faint}">${sayTimeTick(atS - time.originS)}</text>`;
  });
  return markup`<g class="axes">${pressures}
${times}
<text x="${PLANE.left - 60}" y="14" fill="${PRINT.faint}">${sayPressureAxis(time.axis, speech)}</text>
<text x="${PLANE_RIGHT + 60}" y="14" text-anchor="end" font-style="italic" fill="${PRINT.water}">${speech.wording.chart.boilsAt}</text>
<text x="${PLANE_RIGHT}" y="${PLANE_BOTTOM + 34}" text-anchor="end" fill="${PRINT.faint}">${sayTimeAxis(time.axis, time.originS, speech)}</text>
<path d="M${PLANE.left} ${PLANE.top}V${PLANE_BOTTOM}H${PLANE_RIGHT}" fill="none" stroke="${PRINT.faint}" /></g>`;
}
