/** Several holds of a job as a short list. */
import type { PressureUnit } from '../../protocol/units.ts';
import type { Estimate } from '../analysis/conclusions.ts';
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

/** 'from 217 micron to 771 micron in 10 min'. */
export function sayRose(
  startPa: Estimate | null,
  endPa: Estimate | null,
  heldS: number,
  unit: PressureUnit,
): string {
  const [from, to] = [sayReading(startPa, unit), sayReading(endPa, unit)];
  return `from ${from} to ${to} in ${sayDuration(heldS)}`;
}

/** 'pumped 12 min before; from 251 micron to 480 micron in 10 min; a repeat hold'. */
function sayHold(hold: HoldNumbers, units: UnitsOfChoice): string {
  return [
    `pumped ${sayDuration(hold.pumpedS)} before`,
    sayRose(hold.startPa, hold.endPa, hold.toS - hold.fromS, units.pressure),
    ...(hold.repeats ? ['a repeat hold'] : []),
    ...(hold.isolationSure ? [] : ['the pump may have pulled on']),
  ].join('; ');
}
