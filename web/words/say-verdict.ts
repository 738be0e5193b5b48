/** The verdict on a rise: what makes it, and where it goes. The pass rule stands beside it. */
import type { Rise, Verdict } from '../analysis/conclusions.ts';
import { sayDuration, sayRoughDuration } from './say-duration.ts';
import { sayPressureEstimate, sayShortRate } from './say-pressure.ts';
import { sayReservation } from './say-reservation.ts';
import type { SaidConclusion } from './said-conclusion.ts';
import type { UnitsOfChoice } from './units-of-choice.ts';

export const VERDICT_NAMES: Readonly<Record<Verdict, string>> = {
  tight_dry: 'Tight and dry, for the connected part',
  moisture: 'Moisture, or gas from oil',
  leak: 'Leak: steady inflow',
  leak_and_moisture: 'Leak and moisture',
  undecided: 'Undecided',
};

export function sayVerdict(rise: Rise, units: UnitsOfChoice): SaidConclusion {
  const reservations = rise.reservations.map(sayReservation).join('; ');
  const end = sayEnd(rise, units);
  const leak = sayShortRate(rise.leakPaPerS, units.pressure);
  const moisture = sayPressureEstimate(rise.moisturePa, units.pressure);
  const headline = VERDICT_NAMES[rise.verdict];
  const besides = reservations === '' ? [] : [`${capital(reservations)}.`];
  switch (rise.verdict) {
    case 'tight_dry':
      return {
        tone: 'good',
        headline,
        sure: `inflow ${leak}`,
        detail: ['The inflow is below what counts as a leak.', end, ...besides],
      };
    case 'moisture':
      return {
        tone: 'warning',
        headline,
        sure: `${moisture}, levelling off`,
        detail: [end, ...besides],
      };
    case 'leak':
      return {
        tone: 'warning',
        headline,
        sure: leak,
        detail: ['Air from outside, or gas past a valve from the charged side.', end, ...besides],
      };
    case 'leak_and_moisture':
      return {
        tone: 'warning',
        headline,
        sure: `inflow ${leak}`,
        detail: [
          `Steady inflow${changeover(rise)}. Moisture gives ${moisture} and levels off.`,
          end,
          ...besides,
        ],
      };
    case 'undecided':
      return {
        tone: 'calm',
        headline:
          rise.moreS === null ? headline : `${headline}: another ${sayRoughDuration(rise.moreS)}`,
        sure: rise.curve.length === 0 ? '' : `inflow ${leak}`,
        detail: [...besides, end].filter((part) => part !== ''),
      };
  }
}

/** Empty before there is a fit. */
function sayEnd({ endOfHold, heldS, curve }: Rise, units: UnitsOfChoice): string {
  if (curve.length === 0) return '';
  const tense = heldS >= endOfHold.atS ? 'Stood at' : 'Will stand near';
  const after = sayDuration(endOfHold.atS);
  return `${tense} ${sayPressureEstimate(endOfHold, units.pressure)} after ${after}.`;
}

function changeover(rise: Rise): string {
  return rise.changeoverS === null ? '' : ` since ${sayDuration(rise.changeoverS)}`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
