/** Expected curves over one another, each with its number from the table at its end. */
import { STANDARD_ATMOSPHERE_PA } from '../../protocol/units.ts';
import { speech } from '../store/speech.ts';
import { sayRoughDuration } from '../words/say-duration.ts';
import { saySetting } from '../words/say-pressure.ts';
import { type ExpectedCurve, timeToS } from './expected-pull-down.ts';

interface WhatIfCurvesProps {
  readonly curves: readonly ExpectedCurve[];
  readonly targetPa: number;
}

const WIDTH = 380;
const HEIGHT = 240;
const EDGE = { left: 8, right: 24, top: 12, bottom: 28 };
/** A number at the end of a curve takes so much room. */
const NUMBER = 17;

/** Time runs evenly to the right until the slowest is there, pressure falls by its logarithm. */
export function WhatIfCurves({ curves, targetPa }: WhatIfCurvesProps) {
  const ends = curves.map((curve) => timeToS(curve, targetPa));
  const longestS = Math.max(60, ...ends.map((endS) => endS ?? 0)) * 1.05;
  const x = (sinceS: number) => EDGE.left + (sinceS / longestS) * (WIDTH - EDGE.left - EDGE.right);
  const y = (pressurePa: number) =>
    EDGE.top +
    (Math.log(STANDARD_ATMOSPHERE_PA / pressurePa) / Math.log(STANDARD_ATMOSPHERE_PA / targetPa)) *
      (HEIGHT - EDGE.top - EDGE.bottom);
  const bottom = HEIGHT - EDGE.bottom;
  return (
    <svg
      class="what-if-curves"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-label={speech.value.wording.planning.whatIf.curves}
    >
      <line class="target" x1={EDGE.left} x2={WIDTH - EDGE.right} y1={bottom} y2={bottom} />
      <text x={EDGE.left} y={HEIGHT - 6}>
        {saySetting(targetPa, speech.value)}
      </text>
      <text class="right" x={WIDTH - EDGE.right} y={HEIGHT - 6}>
        {sayRoughDuration(longestS)}
      </text>
      {curves.map((curve, at) => (
        <path
          key={at}
          class={at === 0 ? 'as-entered' : ''}
          d={pathOf(
            curve.filter((point) => point.pressurePa >= targetPa && point.sinceS <= longestS),
          )}
        />
      ))}
      {apart(ends.map((endS) => x(Math.min(endS ?? longestS, longestS)))).map((place, at) => (
        <text key={at} class="number" x={place} y={bottom - 6 - (at % 2) * NUMBER}>
          {at + 1}
        </text>
      ))}
    </svg>
  );

  function pathOf(points: ExpectedCurve): string {
    return points
      .map(({ sinceS, pressurePa }, at) => {
        const command = at === 0 ? 'M' : 'L';
        return `${command}${x(sinceS).toFixed(1)} ${y(pressurePa).toFixed(1)}`;
      })
      .join('');
  }
}

/** So far to the right that no number lies on another of its own height. */
function apart(places: readonly number[]): number[] {
  const taken: number[] = [];
  return places.map((place) => {
    let free = place;
    while (taken.some((other) => Math.abs(other - free) < NUMBER)) free += NUMBER;
    taken.push(free);
    return free;
  });
}
