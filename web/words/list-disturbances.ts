/** What else befell a hold: steps, evening out, and earlier holds that count for its inflow as well. */
import type { Rise } from '../analysis/conclusions.ts';
import type { NumberRow } from './number-row.ts';
import { sayMoment } from './say-duration.ts';
import { sayPressure } from './say-pressure.ts';
import type { Speech } from './speech.ts';

/** Less than so many times the scatter is nothing to speak of. A setting of ours. */
const WORTH_SAYING = 3;

/** Only what was there. */
export function listDisturbances(
  { steps, evenedPa, earlierHolds, sinceS }: Rise,
  noisePa: number | null,
  speech: Speech,
): NumberRow[] {
  const words = speech.wording.numbers.hold;
  const size = (pa: number) => sayPressure(Math.abs(pa), speech);
  const jumps = steps.map(({ atS, sizePa }) => {
    const step = { size: size(sizePa), at: sayMoment(atS - sinceS) };
    return sizePa < 0 ? words.stepDown(step) : words.stepUp(step);
  });
  const evened = evenedPa !== null && Math.abs(evenedPa) > WORTH_SAYING * (noisePa ?? Infinity);
  return [
    ...(jumps.length === 0
      ? []
      : [{ name: words.steps, value: words.startsAnew({ steps: jumps.join(', ') }) }]),
    ...(evened
      ? [
          {
            name: words.evenedOut,
            value: (evenedPa < 0 ? words.downBy : words.upBy)({ size: size(evenedPa) }),
          },
        ]
      : []),
    ...(earlierHolds === 0
      ? []
      : [{ name: words.judgedWith, value: words.earlier({ count: earlierHolds }) }]),
  ];
}
