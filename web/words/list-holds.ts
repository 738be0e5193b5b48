/** Several holds of a job as a short list. */
import type { HoldNumbers } from '../analysis/numbers.ts';
import type { NumberGroup } from './number-row.ts';
import { sayDuration, sayMoment } from './say-duration.ts';
import { sayReading } from './say-pressure.ts';
import type { UnitsOfChoice } from './units-of-choice.ts';

/** Null where there is but one: the verdict tells it whole. */
export function listHolds(holds: readonly HoldNumbers[], units: UnitsOfChoice): NumberGroup | null {
  if (holds.length < 2) return null;
  return {
    title: 'Holds so far',
    rows: holds.map((hold, at) => ({
      name: `Hold ${at + 1}, at ${sayMoment(hold.fromS)}`,
      value: sayHold(hold, units),
    })),
    notes: [
      'A leak rises as fast in a repeat hold; what walls and oil give off is less each time.',
    ],
  };
}

/** 'pumped 12 min before; 251 micron, 480 micron after 10 min; a repeat hold'. */
function sayHold(hold: HoldNumbers, units: UnitsOfChoice): string {
  const [start, end] = [hold.startPa, hold.endPa].map((pa) => sayReading(pa, units.pressure));
  return [
    `pumped ${sayDuration(hold.pumpedS)} before`,
    `stood at ${start}, rose to ${end} in ${sayDuration(hold.toS - hold.fromS)}`,
    ...(hold.repeats ? ['a repeat hold'] : []),
    ...(hold.isolationSure ? [] : ['the pump may have pulled on']),
  ].join('; ');
}
