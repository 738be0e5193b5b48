/** What else befell a hold: steps, evening out, and earlier holds that count for its inflow as well. */
import type { Rise } from '../analysis/conclusions.ts';
import type { NumberRow } from './number-row.ts';
import { sayMoment } from './say-duration.ts';
import { sayPressure } from './say-pressure.ts';
import type { UnitsOfChoice } from './units-of-choice.ts';

/** Less than so many times the scatter is nothing to speak of. A setting of ours. */
const WORTH_SAYING = 3;

/** Only what was there. */
export function listDisturbances(
  { steps, evenedPa, earlierHolds, sinceS }: Rise,
  noisePa: number | null,
  units: UnitsOfChoice,
): NumberRow[] {
  const size = (pa: number) => sayPressure(Math.abs(pa), units.pressure);
  const jumps = steps.map(
    ({ atS, sizePa }) =>
      `${sizePa < 0 ? 'down' : 'up'} ${size(sizePa)} at ${sayMoment(atS - sinceS)}`,
  );
  const evened = evenedPa !== null && Math.abs(evenedPa) > WORTH_SAYING * (noisePa ?? Infinity);
  return [
    ...(jumps.length === 0
      ? []
      : [{ name: 'Steps', value: `${jumps.join(', ')}: the hold starts anew there` }]),
    ...(evened
      ? [
          {
            name: 'Evened out at first',
            value: `${evenedPa < 0 ? 'down' : 'up'} by ${size(evenedPa)}`,
          },
        ]
      : []),
    ...(earlierHolds === 0
      ? []
      : [{ name: 'Judged together with', value: sayEarlier(earlierHolds) }]),
  ];
}

function sayEarlier(count: number): string {
  return count === 1 ? 'the hold before it' : `the ${count} holds before it`;
}
